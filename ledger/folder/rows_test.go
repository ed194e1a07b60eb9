package folder

import (
	"maps"
	"slices"
	"testing"

	"putby/ledger"
)

// The records of a file that is kept are those of one of which nothing is known, whatever
// way it is written in; one that was edited since is read as it is now.
func TestRowsOfKept(t *testing.T) {
	draw := ledger.MustKind("draw")
	many := map[string]int{"plain": 2, "quotes": 2, "separators": 2, "no end": 1}
	for name, text := range map[string]string{
		"plain":      "date,pack,item,quantity,reason,note\n2025-01-02,,onions,1 kg,used,\n2025-01-03,,onions,2 kg,used,soup\n",
		"quotes":     "date,item,quantity,note\n2025-01-02,onions,1 kg,\"of \"\"two\"\", and\nmore\"\n\n2025-01-03,onions,2 kg,\n",
		"separators": "\ufeffdate;item;quantity;note\r\n;;;\r\n2025-01-02;onions;1 kg;'-\r\n\"\";\"\";;\r\n2025-01-03;onions;2 kg;\r\n",
		"no end":     "date,item,quantity\n\n\n2025-01-02,onions,1 kg",
		"none":       "date,item,quantity\n",
		"empty":      "",
	} {
		dir := household(t)
		put(t, dir, ledger.DrawsFile, text)
		k := NewCache(dir)
		rec, faults, err := k.Read()
		if err != nil || len(faults) > 0 {
			t.Fatal(name, faults, err)
		}
		want, err := Rows(dir, draw)
		if err != nil || len(want) != many[name] {
			t.Fatal(name, want, err)
		}
		got, same, err := k.Rows(rec, draw)
		if err != nil || !same && text != "" {
			t.Errorf("%s: they are of the records that were read: %t, %v", name, same, err)
		}
		sameRows(t, name, got, want)
		put(t, dir, ledger.DrawsFile, "date,item,quantity\n2025-01-04,onions,3 kg\n")
		got, same, err = k.Rows(rec, draw)
		if err != nil || same || got.Len() != 1 || got.Row(0).Cells["date"] != "2025-01-04" {
			t.Errorf("%s: what was edited since is not read: %t %v", name, same, err)
		}
	}
}

func sameRows(t *testing.T, name string, got *RowList, want []Row) {
	t.Helper()
	var list []Row
	date := got.Cells("date")
	for i := range got.Len() {
		list = append(list, got.Row(i))
		if got.AtLine(got.Line(i)) != i || date(i) != got.Row(i).Cells["date"] {
			t.Errorf("%s: record %d is not found at its line", name, i)
		}
	}
	if !slices.EqualFunc(list, want, func(a, b Row) bool { return a.Line == b.Line && maps.Equal(a.Cells, b.Cells) }) || got.AtLine(1) >= 0 {
		t.Errorf("%s: %v, want %v", name, list, want)
	}
}
