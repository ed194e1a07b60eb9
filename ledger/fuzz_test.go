package ledger_test

import (
	"slices"
	"strings"
	"testing"

	"putby/ledger"
	"putby/ledger/ledgertest"
	"putby/pricing/exact"
)

// FuzzCells holds every kind of record to this: whatever its header and cells,
// reading ends without a panic, notes the columns that its faults are at, keeps
// a row's record unless the row has too few or too many cells, and joining what
// was read ends too.
func FuzzCells(f *testing.F) {
	for _, k := range ledger.Kinds() {
		var header []string
		for _, c := range k.Columns {
			header = append(header, c.Name)
		}
		f.Add(k.Name, strings.Join(header, "|"), strings.Repeat("1|", len(header)-1)+"1")
	}
	f.Add("food", "food|basis|density", "leek|mass|-0")
	f.Add("receipt", "receipt|date|kind|price|on|size", "r|2025-02-30|charge|1e9|1,,1|0 kg")
	f.Add("pack", "pack|item|date|count|each|with", "p|egg|2025-01-01|+1|1.5 L|1 jar, 2, x y")
	f.Add("batch", "batch|date|item|quantity|from", "b|2025-01-01|soup|1 L|,2 kg leek,,egg")
	f.Add("setting", "setting|value", "household_kwh_month|1;2;;")
	f.Fuzz(func(t *testing.T, kind, header, row string) {
		k, ok := ledger.KindOf(kind)
		if !ok {
			return
		}
		columns, cells := strings.Split(header, "|"), strings.Split(row, "|")
		rec := &ledger.Records{}
		var read func(int, []string) ledger.Faults
		var faults ledger.Faults
		if kind == "setting" {
			r, found := ledger.ReadSettings(rec, columns)
			if faults = found; r != nil {
				read = r.Row
				defer r.Close()
			}
		} else if r, found := k.Read(rec, nil, columns); r != nil {
			read = r.Row
		} else {
			faults = found
		}
		if (read == nil) != (len(faults) > 0) {
			t.Fatalf("a reader and faults: %v", faults)
		}
		if read != nil {
			faults = slices.Clone(read(2, cells))
		}
		for _, fault := range faults {
			if fault.Field != "" && !slices.Contains(columns, fault.Field) && !hasColumn(k, fault.Field) {
				t.Errorf("a fault at a column that is not there: %+v", fault)
			}
			if fault.What == "" || strings.ContainsAny(fault.What, "\x00\x1b\n") {
				t.Errorf("not a message: %q", fault.What)
			}
		}
		ledger.Join(rec, ledger.Options{Read: faults, Through: exact.NoDate, PricesThrough: exact.NoDate})
	})
}

func hasColumn(k ledger.Kind, name string) bool {
	return slices.ContainsFunc(k.Columns, func(c ledger.Column) bool { return c.Name == name })
}

// FuzzJoin holds the join to this: whatever one file of a ledger says, joining
// ends without a panic; without a fault the identities hold; and as of an
// earlier date there are no other faults.
func FuzzJoin(f *testing.F) {
	for name, text := range files(packedRun + "-- batches.csv --\nbatch,date,item,quantity,from\nb,2025-01-01,soup,1 L,1 egg\n-- counts.csv --\ndate,pack,item,quantity\n2025-01-11,p,,1\n") {
		f.Add(name, text)
	}
	f.Fuzz(func(t *testing.T, name, text string) {
		all := files(packedRun)
		if _, ok := ledger.KindOf(name); !ok || strings.Count(text, "\n") > 50 {
			return
		}
		all[name] = text
		rec, read, err := ledgertest.Read(all)
		if err != nil {
			return
		}
		o := whole
		o.Read = read
		g, faults := ledger.Join(rec, o)
		if len(faults) < len(read) {
			t.Fatalf("faults of reading are lost: %v of %v", faults, read)
		}
		early := asOf("2025-01-05")
		early.Read = read
		h, same := ledger.Join(rec, early)
		if same.Error() != faults.Error() {
			t.Fatalf("as of an earlier date the faults are\n%v\nnot\n%v", same, faults)
		}
		if len(faults) == 0 {
			prove(t, g)
			prove(t, h)
		}
	})
}
