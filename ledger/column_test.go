package ledger_test

import (
	"strings"
	"testing"

	"putby/ledger"
)

// What the default of a column hangs on is asked before it, and what may not be
// blank is always asked for.
func TestAsked(t *testing.T) {
	for kind, want := range map[string]string{
		"price": "shop date item size price terms", "batch": "item quantity from cost date batch",
		"run": "machine start run kwh hands", "pack": "run item date count each dry with place pack",
		"draw": "quantity reason date", "receipt": "receipt date kind price",
	} {
		var names []string
		for _, c := range ledger.MustKind(kind).Asked() {
			names = append(names, c.Name)
		}
		if got := strings.Join(names, " "); got != want {
			t.Errorf("%s asks for %s, want %s", kind, got, want)
		}
	}
}

// A column that names things says in words what they are, and knows those that
// the records have.
func TestNamed(t *testing.T) {
	rec := &ledger.Records{
		Foods: []ledger.Food{{ID: "leeks"}}, Supplies: []ledger.Supply{{ID: "lid"}},
		Receipts: ledger.ReceiptList{}.With(ledger.ReceiptRow{Shop: "Corner"}, ledger.ReceiptRow{}, ledger.ReceiptRow{Shop: "Corner"}), Shelf: []ledger.ShelfRow{{Shop: "Stall"}},
		Packs: ledger.PackList{}.With(ledger.Pack{Place: "cellar"}),
	}
	for _, test := range []struct{ kind, column, what, known string }{
		{"draw", "item", "food or supply", "leeks lid"}, {"receipt", "shop", "shop", "Corner Stall"}, {"pack", "place", "place", "cellar"},
		{"load", "receipt", "receipt or batch", ""}, {"food", "kcal", "", ""},
	} {
		c := ledger.MustKind(test.kind).Column(test.column)
		if known := strings.Join(c.Known(rec), " "); c.What() != test.what || known != test.known {
			t.Errorf("%s.%s names a %q: %q", test.kind, test.column, c.What(), known)
		}
	}
}

// Every column says what it holds; what it needs to say beside depends on that.
func TestColumnsAreWhole(t *testing.T) {
	for _, k := range ledger.Kinds() {
		for _, c := range k.Columns {
			lacks := ""
			switch {
			case c.Help == "" && c.Name != "note":
				lacks = "what it holds"
			case (c.Cell == ledger.WordCell) != (c.Words != nil):
				lacks = "its words"
			case c.Cell == ledger.AmountCell && c.Dims == nil:
				lacks = "what it measures"
			case c.Cell == ledger.WholeCell && c.Most <= c.Least:
				lacks = "its range"
			case c.Need && c.Blank != "":
				lacks = "a reason to say what a blank cell means"
			case c.Own && c.Names == nil:
				lacks = "what it is the name of"
			}
			if lacks != "" {
				t.Errorf("%s.%s lacks %s", k.Name, c.Name, lacks)
			}
		}
	}
}
