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
	r, faults := kind.Read(rec, rec.Settings.Zone, header)
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
			for r := range f.Rows() {
				rows = append(rows, slices.Clone(r.Cells))
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

// TestTotalOfOne: the price that a total is divided into gives the total back.
func TestTotalOfOne(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		total := exact.New(rapid.Int64Range(0, 99_999_99).Draw(t, "total"), 2)
		count := exact.New(rapid.Int64Range(1, 99_999).Draw(t, "count"), rapid.IntRange(0, 3).Draw(t, "places"))
		each, ok := PriceOfOne(total, count, 2)
		if !ok {
			t.Fatalf("%v for %v has no price", total, count)
		}
		if got := exact.MustNumber(each).Mul(count).Round(2, exact.HalfAway); !got.Equal(total) {
			t.Fatalf("%v times %s is %v, want %v", count, each, got, total)
		}
	})
}

// A fataler is a test, of package testing or rapid.
type fataler interface{ Fatalf(string, ...any) }

// carryOut adds a plan's rows to a ledger.
func carryOut(t fataler, rec *ledger.Records, p *Plan) {
	for _, f := range p.Add {
		kind, _ := ledger.KindOf(f.File)
		r, _ := kind.Read(rec, rec.Settings.Zone, f.Columns)
		i := -1
		for row := range f.Rows() {
			i++
			if faults := r.Row(i+2, row.Cells); len(faults) > 0 {
				t.Fatalf("%s: %q: %v", f.File, row.Cells, faults)
			}
		}
	}
}
