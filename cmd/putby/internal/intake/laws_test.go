package intake

import (
	"bytes"
	"encoding/binary"
	"encoding/csv"
	"fmt"
	"slices"
	"strings"
	"testing"

	"golang.org/x/text/encoding/charmap"
	"pgregory.net/rapid"

	"putby/ledger"
	"putby/pricing/exact"
)

// drawReceipts draws the rows of a receipts.csv as a person may have written
// them: some numbered, several on one day, the same thing twice on one receipt.
func drawReceipts(t *rapid.T) [][]string {
	var rows [][]string
	for r := range rapid.IntRange(1, 8).Draw(t, "receipts") {
		day := fmt.Sprintf("2025-%02d-%02d", rapid.IntRange(1, 12).Draw(t, "month"), rapid.IntRange(1, 28).Draw(t, "day"))
		shop := rapid.SampledFrom([]string{"Hofladen", "Markt am Tor", "Müller, Söhne", ""}).Draw(t, "shop")
		for n := range rapid.IntRange(1, 5).Draw(t, "lines") {
			row := []string{fmt.Sprintf("R%d", r), day, shop, fmt.Sprint(n + 1)}
			rows = append(rows, append(row, drawLine(t)...))
		}
	}
	return rows
}

// drawLine draws kind, item, count, size, price, discount, tax, on and note.
func drawLine(t *rapid.T) []string {
	money := rapid.SampledFrom([]string{"1.99", "0", "12.5", "1234.50", "0.333"}).Draw(t, "price")
	count := rapid.SampledFrom([]string{"", "1", "2", "1.234"}).Draw(t, "count")
	note := rapid.SampledFrom([]string{"", "a \"good\" one", "cheap; very"}).Draw(t, "note")
	switch rapid.IntRange(0, 3).Draw(t, "line") {
	case 0:
		size := rapid.SampledFrom([]string{"1 L", "500 g", "12 ea", "1.5 lb"}).Draw(t, "size")
		item := rapid.SampledFrom([]string{"leeks", "eggs", "oat-drink"}).Draw(t, "item")
		return []string{"food", item, count, size, money, rapid.SampledFrom([]string{"", "0.10"}).Draw(t, "discount"), "", "", note}
	case 1:
		return []string{"supply", "jar-1l", count, rapid.SampledFrom([]string{"", "6 ea"}).Draw(t, "size"), money, "", "0.20", "", note}
	case 2:
		return []string{"other", rapid.SampledFrom([]string{"Soap", "leeks for the hens", "Kerzen, 10"}).Draw(t, "item"), count, "", money, "", "", "", note}
	}
	return []string{"deposit", "", "", "", rapid.SampledFrom([]string{"0.50", "-0.50"}).Draw(t, "deposit"), "", "", "", note}
}

// export writes rows as a table in one of the dialects that a program may use.
func export(t *rapid.T, header []string, rows [][]string) []byte {
	var out bytes.Buffer
	w := csv.NewWriter(&out)
	w.Comma = rapid.SampledFrom([]rune{',', ';', '\t', '|'}).Draw(t, "separator")
	w.UseCRLF = rapid.Bool().Draw(t, "crlf")
	_ = w.Write(header)
	_ = w.WriteAll(rows)
	switch rapid.SampledFrom([]string{"plain", "mark", "le", "be", "1252"}).Draw(t, "encoding") {
	case "1252":
		text, err := charmap.Windows1252.NewEncoder().Bytes(out.Bytes())
		if err != nil {
			t.Fatal(err)
		}
		return text
	case "mark":
		return append([]byte("\ufeff"), out.Bytes()...)
	case "le":
		return utf16Bytes(out.String(), binary.LittleEndian, true)
	case "be":
		return utf16Bytes(out.String(), binary.BigEndian, true)
	}
	return out.Bytes()
}

func planBytes(t *rapid.T, data []byte, target Target, rec *ledger.Records) *Plan {
	table, err := Read(bytes.NewReader(data), Options{})
	if err != nil {
		t.Fatal(err)
	}
	m, err := Propose(table, target, "x", rec)
	if err != nil {
		t.Fatal(err)
	}
	p, err := m.Plan(table, PlanOptions{Records: rec})
	if err != nil {
		t.Fatal(err)
	}
	if len(p.Bad) > 0 || len(p.Differ) > 0 || p.Left > 0 {
		t.Fatalf("bad %v, differ %v, left %d", p.Bad, p.Differ, p.Left)
	}
	return p
}

// into adds rows to a ledger as reading its file would.
func into(t *rapid.T, rec *ledger.Records, file string, header []string, rows [][]string) {
	kind, _ := ledger.KindOf(file)
	r, faults := kind.Read(rec, ledger.Context{Zone: rec.Settings.Zone}, header)
	if faults != nil {
		t.Fatal(faults)
	}
	for i, cells := range rows {
		if faults := r.Row(i+2, cells); len(faults) > 0 {
			t.Fatalf("%q: %v", cells, faults)
		}
	}
}

func cellsOf(p *Plan, file string) (rows [][]string) {
	for _, f := range p.Add {
		if f.File == file {
			for _, r := range f.Rows {
				rows = append(rows, r.Cells)
			}
		}
	}
	return rows
}

// TestReceiptsComeBack: what a ledger wrote, imported into an empty one, is
// what it wrote, cell by cell; imported into itself it changes nothing, and so
// does importing once more what was just imported.
func TestReceiptsComeBack(t *testing.T) {
	header := columnsOf(ledger.ReceiptsFile, "")
	rapid.Check(t, func(t *rapid.T) {
		rows := drawReceipts(t)
		data := export(t, header, rows)
		rec := household()
		p := planBytes(t, data, Receipts, rec)
		got := cellsOf(p, ledger.ReceiptsFile)
		if !slices.EqualFunc(got, rows, slices.Equal) {
			t.Fatalf("got  %q\nwant %q", got, rows)
		}
		into(t, rec, ledger.ReceiptsFile, header, got)
		if p = planBytes(t, data, Receipts, rec); p.Rows() != 0 || len(p.There) != len(rows) {
			t.Fatalf("again: %v", p.Add)
		}
	})
}

// TestReceiptsWithoutNumbersTwice: without numbers the identifiers are made,
// and are the same each time; any part of the file that is imported again
// changes nothing.
func TestReceiptsWithoutNumbersTwice(t *testing.T) {
	header := columnsOf(ledger.ReceiptsFile, "")
	rapid.Check(t, func(t *rapid.T) {
		rows := drawReceipts(t)
		for _, r := range rows {
			r[0], r[3] = "", ""
		}
		data := export(t, header, rows)
		rec := household()
		p := planBytes(t, data, Receipts, rec)
		if p.Rows() != len(rows) {
			t.Fatalf("%d rows of %d", p.Rows(), len(rows))
		}
		first := cellsOf(p, ledger.ReceiptsFile)
		if again := cellsOf(planBytes(t, data, Receipts, rec), ledger.ReceiptsFile); !slices.EqualFunc(again, first, slices.Equal) {
			t.Fatalf("once %q\ntwice %q", first, again)
		}
		into(t, rec, ledger.ReceiptsFile, header, first)
		from := rapid.IntRange(0, len(rows)-1).Draw(t, "from")
		to := rapid.IntRange(from, len(rows)).Draw(t, "to")
		if to == from {
			return
		}
		part := export(t, header, rows[from:to])
		if p = planBytes(t, part, Receipts, rec); p.Rows() != 0 || len(p.There) != to-from {
			t.Fatalf("rows %d to %d again: %v", from, to, p.Add)
		}
	})
}

// TestPartsMakeTheWhole: importing the days of a file one after the other gives
// the records that importing it whole gives.
func TestPartsMakeTheWhole(t *testing.T) {
	header := columnsOf(ledger.ReceiptsFile, "")
	rapid.Check(t, func(t *rapid.T) {
		rows := drawReceipts(t)
		for _, r := range rows {
			r[0], r[3] = "", ""
		}
		slices.SortStableFunc(rows, func(a, b []string) int { return strings.Compare(a[1]+a[2], b[1]+b[2]) })
		whole := cellsOf(planBytes(t, export(t, header, rows), Receipts, household()), ledger.ReceiptsFile)
		rec := household()
		var parts [][]string
		for len(rows) > 0 {
			n := 1
			for n < len(rows) && rows[n][1]+rows[n][2] == rows[0][1]+rows[0][2] {
				n++
			}
			got := cellsOf(planBytes(t, export(t, header, rows[:n]), Receipts, rec), ledger.ReceiptsFile)
			into(t, rec, ledger.ReceiptsFile, header, got)
			parts, rows = append(parts, got...), rows[n:]
		}
		if !slices.EqualFunc(parts, whole, slices.Equal) {
			t.Fatalf("parts %q\nwhole %q", parts, whole)
		}
	})
}

// TestPricesComeBack: the same for shelf prices.
func TestPricesComeBack(t *testing.T) {
	header := columnsOf(ledger.ShelfFile, "")
	rapid.Check(t, func(t *rapid.T) {
		seen := map[string]bool{}
		var rows [][]string
		for range rapid.IntRange(1, 12).Draw(t, "prices") {
			row := []string{
				fmt.Sprintf("2025-03-%02d", rapid.IntRange(1, 28).Draw(t, "day")),
				rapid.SampledFrom([]string{"Hofladen", "Markt am Tor"}).Draw(t, "shop"),
				rapid.SampledFrom([]string{"leeks", "eggs"}).Draw(t, "item"),
				rapid.SampledFrom([]string{"1 kg", "500 g", "12 ea"}).Draw(t, "size"),
				rapid.SampledFrom([]string{"1.99", "2.49", "0.5"}).Draw(t, "price"),
				rapid.SampledFrom([]string{"regular", "offer"}).Draw(t, "terms"), "fresh", "", "",
			}
			if key := strings.Join(row[:6], "|"); !seen[key] {
				seen[key] = true
				rows = append(rows, row)
			}
		}
		data := export(t, header, rows)
		rec := household()
		got := cellsOf(planBytes(t, data, Prices, rec), ledger.ShelfFile)
		if !slices.EqualFunc(got, rows, slices.Equal) {
			t.Fatalf("got  %q\nwant %q", got, rows)
		}
		into(t, rec, ledger.ShelfFile, header, got)
		if p := planBytes(t, data, Prices, rec); p.Rows() != 0 {
			t.Fatalf("again: %v", p.Add)
		}
	})
}

// TestRunsComeBack: the same for runs.
func TestRunsComeBack(t *testing.T) {
	header := columnsOf(ledger.RunsFile, "")
	rapid.Check(t, func(t *rapid.T) {
		var rows [][]string
		for i := range rapid.IntRange(1, 8).Draw(t, "runs") {
			rows = append(rows, []string{
				fmt.Sprintf("r%d", i), "icebox", fmt.Sprintf("2025-03-%02d 18:30", 1+2*i),
				rapid.SampledFrom([]string{"", fmt.Sprintf("2025-03-%02d 07:00:05", 2+2*i)}).Draw(t, "end"),
				rapid.SampledFrom([]string{"", "night"}).Draw(t, "tariff"),
				rapid.SampledFrom([]string{"", "38.2", "0"}).Draw(t, "kwh"),
				rapid.SampledFrom([]string{"", "40m", "1h5m"}).Draw(t, "hands"),
				rapid.SampledFrom([]string{"", "good", "spoiled"}).Draw(t, "outcome"),
				rapid.SampledFrom([]string{"", "pump, loud"}).Draw(t, "note"),
			})
		}
		data := export(t, header, rows)
		rec := household()
		got := cellsOf(planBytes(t, data, Runs, rec), ledger.RunsFile)
		if !slices.EqualFunc(got, rows, slices.Equal) {
			t.Fatalf("got  %q\nwant %q", got, rows)
		}
		into(t, rec, ledger.RunsFile, header, got)
		if p := planBytes(t, data, Runs, rec); p.Rows() != 0 || len(p.There) != len(rows) {
			t.Fatalf("again: %v", p.Add)
		}
	})
}

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

// TestTotalOfOne: the price that a total is divided into gives the total back.
func TestTotalOfOne(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		total := exact.New(rapid.Int64Range(0, 99_999_99).Draw(t, "total"), 2)
		count := exact.New(rapid.Int64Range(1, 99_999).Draw(t, "count"), rapid.IntRange(0, 3).Draw(t, "places"))
		each, ok := priceOfOne(total, count, 2)
		if !ok {
			t.Fatalf("%v for %v has no price", total, count)
		}
		if got := exact.MustNumber(each).Mul(count).Round(2, exact.HalfAway); !got.Equal(total) {
			t.Fatalf("%v times %s is %v, want %v", count, each, got, total)
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

// A fataler is a test, of package testing or rapid.
type fataler interface{ Fatalf(string, ...any) }

// carryOut adds a plan's rows to a ledger.
func carryOut(t fataler, rec *ledger.Records, p *Plan) {
	for _, f := range p.Add {
		kind, _ := ledger.KindOf(f.File)
		r, _ := kind.Read(rec, ledger.Context{Zone: rec.Settings.Zone}, f.Columns)
		for i, row := range f.Rows {
			if faults := r.Row(i+2, row.Cells); len(faults) > 0 {
				t.Fatalf("%s: %q: %v", f.File, row.Cells, faults)
			}
		}
	}
}

// checkPlan: each row of the file is told of.
func checkPlan(t fataler, table *Table, p *Plan) {
	told := map[int]bool{}
	for _, f := range p.Add {
		for _, row := range f.Rows {
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
	for _, row := range table.Rows {
		if row.Line > p.Header && !told[row.Line] {
			rows++
		}
	}
	if p.Target != Runs && rows > p.Left {
		t.Fatalf("%d rows are told nothing of, %d left out", rows, p.Left)
	}
	_ = p.Preview(3)
	_ = PrintMaps([]Map{p.Definite()})
}

// bank makes a statement of n payments.
func bank(n int) []byte {
	var out bytes.Buffer
	out.WriteString("Buchungstag;Empfänger;Verwendungszweck;Betrag\n")
	for i := range n {
		fmt.Fprintf(&out, "%02d.%02d.20%02d;Laden %d;Einkauf %d;-%d,%02d €\n", 1+i%28, 1+i/28%12, 10+i/336%15, i%40, i%500, 1+i%90, i%100)
	}
	return out.Bytes()
}

func BenchmarkImport(b *testing.B) {
	data := bank(100_000)
	b.SetBytes(int64(len(data)))
	b.ReportAllocs()
	for b.Loop() {
		importAll(b, data, &ledger.Records{})
	}
}

// BenchmarkImportTwice imports what is there already.
func BenchmarkImportTwice(b *testing.B) {
	data := bank(100_000)
	rec := foods()
	p := importAll(b, data, rec)
	kind, _ := ledger.KindOf(ledger.ReceiptsFile)
	r, _ := kind.Read(rec, ledger.Context{}, p.Add[0].Columns)
	for i, row := range p.Add[0].Rows {
		r.Row(i+2, row.Cells)
	}
	for b.Loop() {
		if p := importAll(b, data, rec); p.Rows() != 0 {
			b.Fatalf("%d rows", p.Rows())
		}
	}
}

func BenchmarkRead(b *testing.B) {
	data := bank(100_000)
	b.SetBytes(int64(len(data)))
	for b.Loop() {
		if _, err := Read(bytes.NewReader(data), Options{}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkStandardRead(b *testing.B) {
	data := bank(100_000)
	b.SetBytes(int64(len(data)))
	for b.Loop() {
		r := csv.NewReader(bytes.NewReader(data))
		r.Comma = ';'
		if _, err := r.ReadAll(); err != nil {
			b.Fatal(err)
		}
	}
}

func importAll(b *testing.B, data []byte, rec *ledger.Records) *Plan {
	table, err := Read(bytes.NewReader(data), Options{})
	if err != nil {
		b.Fatal(err)
	}
	m, err := Propose(table, Receipts, "bank", rec)
	if err != nil {
		b.Fatal(err)
	}
	p, err := m.Plan(table, PlanOptions{Records: rec})
	if err != nil || len(p.Bad) > 0 {
		b.Fatal(err, p.Bad[:min(3, len(p.Bad))])
	}
	return p
}
