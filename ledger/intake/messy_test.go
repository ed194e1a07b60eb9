package intake

import (
	"bytes"
	"encoding/binary"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// cellPools are what messy files may have in the cells of a column.
var cellPools = map[string][]string{
	"receipt": {"", "17", "A/1", "A-1", "a 1"}, "date": {"", "14.03.2025", "15.3.25", "Total", "14.03.2025 12:30"},
	"shop": {"", "Hofladen", "HOFLADEN", "Markt", "Ma-rkt"}, "line": {"", "1", "2", "x"},
	"item":  {"", "leeks", "Leeks!", "tea", "Oat drink 1 L", "Jar, 1 litre", "soap 3 pcs", "the ice box"},
	"count": {"", "1", "2", "1,5 kg", "0", "3 pcs"}, "size": {"", "500 g", "0,5 kg", "1 L", "6", "12 Stk"},
	"price": {"", "1,50", "1,5", "-0,30", "(2,00)", "x", "3 €"}, "discount": {"", "-0,10", "0,1"}, "note": {"", "n"},
	"total": {"", "4,50", "-4,50"}, "kind": {"", "food", "Other", "deposit", "discount", "fud"},
	"run": {"", "1", "2"}, "machine": {"", "icebox", "The ice box", "barn"}, "start": {"", "14.03.2025 18:30", "14.03.2025", "15.03.2025 7:05"},
	"kwh": {"", "30", "30,5 kWh", "31000 Wh"}, "load.item": {"", "leeks", "eggs", "oats"}, "load.quantity": {"", "2 kg", "2000 g", "12 ea", "3"},
	"phase.primary": {"", "20 h", "20:00", "1 d"}, "terms": {"", "offer", "regular", "Offer"},
}

// drawMessy draws a file for a target, with some of its columns.
func drawMessy(t *rapid.T, target Target) []byte {
	pool := map[Target][]string{
		Receipts: {"receipt", "date", "shop", "line", "item", "count", "size", "price", "discount", "note", "total", "kind"},
		Runs:     {"run", "machine", "start", "kwh", "note", "load.item", "load.quantity", "phase.primary"},
		Prices:   {"date", "shop", "item", "size", "price", "note", "terms"},
	}[target]
	header := rapid.SliceOfNDistinct(rapid.SampledFrom(pool), 2, -1, func(c string) string { return c }).Draw(t, "header")
	var out strings.Builder
	out.WriteString(strings.Join(header, ";") + "\n")
	for range rapid.IntRange(1, 15).Draw(t, "rows") {
		for i, c := range header {
			if i > 0 {
				out.WriteByte(';')
			}
			out.WriteString(rapid.SampledFrom(cellPools[c]).Draw(t, c))
		}
		out.WriteByte('\n')
	}
	return []byte(out.String())
}

// TestMessyTwice: whatever is wrong with a file, what of it is imported once is
// not imported twice, and every row is told of.
func TestMessyTwice(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		target := rapid.SampledFrom([]Target{Receipts, Runs, Prices}).Draw(t, "target")
		table, err := Read(bytes.NewReader(drawMessy(t, target)), Options{})
		if err != nil {
			return
		}
		rec := household()
		m, err := Propose(table, target, "x", rec)
		if err != nil {
			return
		}
		m.Dates, m.Decimal = DayMonthYear, Comma
		p, err := m.Plan(table, PlanOptions{Records: rec})
		if err != nil {
			t.Fatal(err)
		}
		checkPlan(t, table, p)
		carryOut(t, rec, p)
		q, err := m.Plan(table, PlanOptions{Records: rec})
		if err != nil || q.Rows() != 0 {
			t.Fatalf("once: %+v\ntwice: %+v\n%v", p.Add, q.Add, err)
		}
		if len(q.Bad) != len(p.Bad) || q.Left != p.Left {
			t.Fatalf("once bad %v, twice %v", p.Bad, q.Bad)
		}
		if len(p.Differ) == 0 && len(q.Differ) > 0 {
			t.Fatalf("once: %+v\ntwice differs: %+v", p.Add, q.Differ)
		}
	})
}

// FuzzImport: no bytes make the import panic, whatever they are imported as;
// every row below the header is added, there, different, bad or left out; and
// importing once more adds nothing.
func FuzzImport(f *testing.F) {
	for _, text := range []string{
		diary, umlauts, "date;shop;item;price\n14.03.2025;M;leeks 1 kg;1,50\n\"", "sep=|\nDate|Total\n2025-03-02|(1.50)\n",
		"date,item,qty,total\n3/14/25,tea,3,5\n,,,\n", "run,start,load.item,load.quantity\n1,2025-03-02 18:30,leeks,6 x 1 kg\n",
	} {
		f.Add([]byte(text))
		f.Add(utf16Bytes(text, binary.LittleEndian, true))
	}
	f.Add(workbook(f, "S", true, []any{"date", "shop", "item", "size", "price"}, []any{45718.25, "M", "leeks", "1 kg", 1.5}))
	f.Add(sheetXML(f, `<row r="1"><c t="inlineStr"><is><t>date</t></is></c></row><row r="3"/><row r="2"><c r="ZZ9"><v>1e9</v></c></row>`))
	f.Add([]byte(zipMagic))
	f.Add([]byte(oleMagic))
	names := []Name{{Name: "tea", Kind: "skip"}, {Name: "*M*", Kind: "shop", Item: "Markt"}}
	f.Fuzz(func(t *testing.T, data []byte) {
		table, err := Read(bytes.NewReader(data), Options{})
		if err != nil {
			return
		}
		for _, target := range []Target{Receipts, Runs, Prices} {
			rec := household()
			m, err := Propose(table, target, "x", rec)
			if err != nil {
				continue
			}
			for _, how := range []struct {
				d Decimal
				o Order
			}{{}, {Comma, DayMonthYear}, {Point, Serial}} {
				m.Decimal, m.Dates = how.d, how.o
				p, err := m.Plan(table, PlanOptions{Records: rec, Names: names})
				if err != nil {
					continue
				}
				checkPlan(t, table, p)
				again := household()
				carryOut(t, again, p)
				if q, err := m.Plan(table, PlanOptions{Records: again, Names: names}); err != nil || q.Rows() != 0 {
					t.Fatalf("%s: importing again adds %v, %v", target, q.Add, err)
				}
			}
		}
	})
}

// checkPlan: each row of the file is told of.
func checkPlan(t fataler, table *Table, p *Plan) {
	told := map[int]bool{}
	for _, f := range p.Add {
		for row := range f.Rows() {
			told[row.Line] = true
		}
	}
	for _, x := range p.There {
		told[x.Line] = true
	}
	for _, x := range p.Differ {
		told[x.Line] = true
	}
	for _, x := range p.Bad {
		told[x.Line] = true
	}
	rows := 0
	for row := range table.From(0) {
		if row.Line > p.Header && !told[row.Line] {
			rows++
		}
	}
	if p.Target != Runs && rows > p.Left {
		t.Fatalf("%d rows are told nothing of, %d left out", rows, p.Left)
	}
	_ = PrintMaps([]Map{p.Definite()})
}
