package ledger

import (
	"testing"
	"time"
)

func TestCellFault(t *testing.T) {
	pack, _ := KindOf("pack")
	for _, test := range []struct{ column, text, want string }{
		{"count", "6", ""},
		{"count", "six", `count: "six" is not a whole number from 1 to 100000`},
		{"count", "", "count: the cell is blank"},
		{"place", "", ""},
		{"with", "1 jar-1l, 1 lid", ""},
		{"with", "jar", `with: "jar" names no number and supply`},
		{"item", "no such food", `item: "no such food" is not an identifier: it has " "`},
	} {
		got := ""
		if f := pack.CellFault(time.UTC, test.column, test.text); f != nil {
			got = f.What
		}
		if got != test.want {
			t.Errorf("%s %q: %q, want %q", test.column, test.text, got, test.want)
		}
	}
}

// With leaves the records alone, even where their slices have room.
func TestWithLeavesRecordsAlone(t *testing.T) {
	price, _ := KindOf("price")
	rec := &Records{Shelf: make([]ShelfRow, 0, 10)}
	cells := map[string]string{"date": "2025-03-04", "shop": "s", "item": "i", "size": "1 kg", "price": "2"}
	one, faults := rec.With(price, cells)
	if faults != nil || len(one.Shelf) != 1 || len(rec.Shelf) != 0 {
		t.Fatalf("%v: %d and %d rows", faults, len(one.Shelf), len(rec.Shelf))
	}
	cells["item"] = "j"
	two, _ := one.With(price, cells)
	three, _ := one.With(price, map[string]string{"date": "2025-03-05", "shop": "s", "item": "k", "size": "1 kg", "price": "2"})
	if two.Shelf[1].Item != "j" || three.Shelf[1].Item != "k" || len(one.Shelf) != 1 {
		t.Errorf("one overwrote the other: %v, %v", two.Shelf, three.Shelf)
	}
	if _, faults = rec.With(price, nil); len(faults) != 5 {
		t.Errorf("%d faults of a blank record: %v", len(faults), faults)
	}
}
