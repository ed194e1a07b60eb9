package intake

import (
	"slices"
	"strings"
	"testing"
	"time"

	"putby/ledger"
	"putby/pricing/exact"
)

// foods is a ledger that knows some foods by their identifiers.
func foods(ids ...string) *ledger.Records {
	rec := &ledger.Records{Settings: ledger.Settings{Currency: exact.MustCurrency("EUR"), Zone: time.UTC}}
	for _, id := range ids {
		rec.Foods = append(rec.Foods, ledger.Food{ID: id, Basis: exact.Kg})
	}
	return rec
}

// household is a ledger that knows a few invented things.
func household() *ledger.Records {
	rec := foods("leeks", "eggs", "oat-drink")
	rec.Foods[2].Name = "Oat drink"
	rec.Supplies = []ledger.Supply{{ID: "jar-1l", Name: "Jar, 1 litre", Uses: 20}}
	rec.Machines = []ledger.Machine{{ID: "icebox", Name: "The ice box", Cycles: 1000}}
	return rec
}

// planOf reads a text, with the given map or a proposed one, and plans it.
func planOf(t *testing.T, text string, target Target, m *Map, o PlanOptions) *Plan {
	t.Helper()
	table, err := Read(strings.NewReader(text), Options{})
	if err != nil {
		t.Fatal(err)
	}
	if m == nil {
		proposed, err := Propose(table, target, "x", o.Records)
		if err != nil {
			t.Fatal(err)
		}
		m = &proposed
	}
	plan, err := m.Plan(table, o)
	if err != nil {
		t.Fatal(err)
	}
	return plan
}

// rowsOf writes the rows to add to a file, some of their columns.
func rowsOf(p *Plan, file string, columns ...string) string {
	var rows []string
	for _, f := range p.Add {
		if f.File != file {
			continue
		}
		for r := range f.Rows() {
			var cells []string
			for _, c := range columns {
				cells = append(cells, r.Cells[slices.Index(f.Columns, c)])
			}
			rows = append(rows, strings.Join(cells, " "))
		}
	}
	return strings.Join(rows, "; ")
}

func mustMap(t *testing.T, text string) *Map {
	t.Helper()
	maps, faults := ParseMaps("map,for,column,from,value,how\n" + text)
	if faults != nil {
		t.Fatal(faults)
	}
	return &maps[0]
}

func mustNames(t *testing.T, text string) []Name {
	t.Helper()
	names, faults := ParseNames("map,name,kind,item,size\n" + text)
	if faults != nil {
		t.Fatal(faults)
	}
	return names
}

// badLines lists the lines of the bad rows.
func badLines(p *Plan) (lines []int) {
	for _, b := range p.Bad {
		lines = append(lines, b.Line)
	}
	return lines
}
