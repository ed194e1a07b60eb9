package report_test

import (
	"fmt"
	"slices"
	"testing"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/ledger/question"
	"putby/ledger/report"
	"putby/pricing"
	"putby/pricing/exact"
)

// everyReport makes the reports of a ledger in the ways they are asked, all
// records counted.
func everyReport(t *testing.T, g *ledger.Ledger) (docs []report.Doc) {
	t.Helper()
	add := func(d report.Doc, err error) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		docs = append(docs, d)
	}
	q := figures.Query{}
	for _, by := range []figures.By{figures.ByRun, figures.ByItem, figures.ByMonth, figures.ByMachine} {
		add(report.Cost(g, figures.CostQuery{Query: q, By: by}, false))
		add(report.Cost(g, figures.CostQuery{Query: q, By: by, Without: []ledger.Element{ledger.WearCost, ledger.LabourCost}, Against: pricing.Preserved}, false))
	}
	for _, each := range []figures.Each{figures.EachMonth, figures.EachYear, figures.EachWeek, figures.EachShop, figures.EachKind} {
		add(report.Month(g, figures.MonthQuery{Query: q, Each: each}))
	}
	add(report.Compare(g, figures.CompareQuery{Query: q}))
	add(question.OnHand(g, figures.OnHandQuery{Query: q}))
	add(question.OnHand(g, figures.OnHandQuery{Query: q, Due: exact.Some(400)}))
	add(report.Payback(g, figures.PaybackQuery{Query: q}))
	add(question.Energy(g, figures.EnergyQuery{Query: q}))
	add(report.Proof(g))
	for i := range g.Foods {
		of := q
		of.Item = g.Foods[i].ID
		add(question.Offers(g, figures.OffersQuery{Query: of}))
	}
	for i := range g.Records.Runs {
		add(report.Explain(g, g.Records.Runs[i].ID))
	}
	for i := range g.Records.Packs.Len() {
		add(report.Explain(g, g.Records.Packs.At(i).ID))
	}
	return docs
}

// What stands below a table's rule is the sum of its rows, in every column of
// every report in which it says anything: of all rows, or of those of its side
// where it names one. What is in store at first and at last are those of the
// first row and of the last.
func TestTotalsAreSumsOfRows(t *testing.T) {
	sums := 0
	for _, dir := range []string{small, sample} {
		for _, d := range everyReport(t, whole(t, dir, exact.NoDate)) {
			for _, f := range d.Fields {
				if tab, ok := f.Node.(*report.Table); ok {
					for _, total := range tab.Totals {
						sums += addsUp(t, d.Title+", "+f.Title, tab, total)
					}
				}
			}
		}
	}
	if sums < 500 {
		t.Errorf("%d sums: that tests little", sums)
	}
}

// addsUp holds a total to the rows and returns how many figures it has.
func addsUp(t *testing.T, where string, tab *report.Table, total report.Row) (figures int) {
	t.Helper()
	rows := slices.Collect(tab.All())
	if side := total.Cells[0].Text(); slices.ContainsFunc(rows, func(r report.Row) bool { return r.Cells[0].Text() == side }) {
		rows = slices.DeleteFunc(rows, func(r report.Row) bool { return r.Cells[0].Text() != side })
	}
	for i, c := range tab.ValueColumns() {
		if !total.Cells[i].IsNumber() {
			continue
		}
		var want exact.Ratio
		switch c.Key {
		case "opening":
			want = rows[0].Cells[i].Ratio()
		case "closing":
			want = rows[len(rows)-1].Cells[i].Ratio()
		default:
			for _, r := range rows {
				want = want.Add(r.Cells[i].Ratio().Mul(containers(r))) // what does not exist is 0
			}
		}
		figures++
		if have := total.Cells[i].Ratio(); !have.Equal(want) {
			t.Errorf("%s: %s in all is %v, the rows say %v", where, c.Title, have, want)
		}
	}
	return figures
}

// containers is how many a row is about whose first cell is "3 to 5"; 1 for
// any other row.
func containers(r report.Row) exact.Ratio {
	var first, last int64
	if n, _ := fmt.Sscanf(r.Cells[0].Text(), "%d to %d", &first, &last); n == 2 {
		return exact.RatioOf(exact.Int(last - first + 1))
	}
	return exact.RatioOf(exact.Int(1))
}

// sumOf adds up a column of the rows that a test wants.
func sumOf(t *testing.T, tab *report.Table, key string, want func(row int) bool) (sum exact.Ratio) {
	t.Helper()
	for i := range tab.Rows {
		if want(i) {
			sum = sum.Add(cell(t, tab, i, key).Ratio())
		}
	}
	return sum
}

func everyRow(int) bool { return true }

func same(t *testing.T, what string, have, want exact.Ratio) {
	t.Helper()
	if !have.Equal(want) {
		t.Errorf("%s: %v and %v", what, have, want)
	}
}

// Figures that are sums of a report's rows without standing below them.
func TestFiguresAreSumsOfRows(t *testing.T) {
	for _, dir := range []string{small, sample} {
		g := whole(t, dir, exact.NoDate)
		monthsAddUp(t, monthly(t, g, nil))
		costsAddUp(t, g)
		onHandAddsUp(t, onHand(t, g, nil))
		paybackAddsUp(t, g)
		comparedAddUp(t, compared(t, g, nil))
	}
}

// The object of a month report's totals is the sum of its months.
func monthsAddUp(t *testing.T, d report.Doc) {
	t.Helper()
	rows := table(t, d, "rows")
	for _, f := range part[report.Object](t, d, "totals") {
		if v := f.Node.(report.Value); v.IsNumber() && f.Key != "opening" && f.Key != "closing" {
			same(t, "months' "+f.Key, v.Ratio(), sumOf(t, rows, f.Key, everyRow))
		}
	}
}

// Whatever a row of the cost report is about, rows of a unit sum to that unit's
// totals; a run's row without packs counts there with its losses alone.
func costsAddUp(t *testing.T, g *ledger.Ledger) {
	t.Helper()
	for _, by := range []figures.By{figures.ByRun, figures.ByItem, figures.ByMonth, figures.ByMachine} {
		d, err := report.Cost(g, figures.CostQuery{By: by}, false)
		if err != nil {
			t.Fatal(err)
		}
		rows, totals := table(t, d, "rows"), table(t, d, "totals")
		for i := range totals.Rows {
			of := func(row int) bool { return cell(t, rows, row, "unit").Text() == cell(t, totals, i, "unit").Text() }
			packed := func(row int) bool { return of(row) && cell(t, rows, row, "reconstituted").Ratio().Sign() > 0 }
			for _, key := range []string{"reconstituted", "total", "saving"} {
				same(t, "cost's "+key, cell(t, totals, i, key).Ratio(), sumOf(t, rows, key, packed))
			}
			same(t, "cost's lost", cell(t, totals, i, "lost").Ratio(), sumOf(t, rows, "lost", of))
			for row := range rows.Rows {
				var sum exact.Ratio
				for _, e := range ledger.Elements() {
					sum = sum.Add(cell(t, rows, row, e.String()).Ratio())
				}
				same(t, "a row's elements", sum, cell(t, rows, row, "total").Ratio())
			}
		}
	}
}

// Packs in store sum to what there is of each food, in amount, cost and value.
func onHandAddsUp(t *testing.T, d report.Doc) {
	t.Helper()
	packs, foods := table(t, d, "packs"), table(t, d, "foods")
	for i := range foods.Rows {
		of := func(row int) bool { return cell(t, packs, row, "item").Text() == cell(t, foods, i, "item").Text() }
		for _, key := range []string{"left", "cost", "shelf_value"} {
			same(t, "onhand's "+key, cell(t, foods, i, key).Ratio(), sumOf(t, packs, key, of))
		}
		var amount exact.Ratio
		for row := range packs.Rows {
			if of(row) {
				amount = amount.Add(cell(t, packs, row, "each").Ratio().Mul(cell(t, packs, row, "left").Ratio()))
			}
		}
		same(t, "onhand's quantity", cell(t, foods, i, "quantity").Ratio(), amount)
	}
}

// What has been earned is the sum of the months, and of what there is to earn
// the rest is left.
func paybackAddsUp(t *testing.T, g *ledger.Ledger) {
	t.Helper()
	d := payback(t, g, nil)
	rows, machine := table(t, d, "rows"), part[report.Object](t, d, "machine")
	of := func(key string) exact.Ratio { return value(t, machine, key).Ratio() }
	same(t, "earned", of("earned"), sumOf(t, rows, "earned", everyRow))
	same(t, "so far", of("earned"), cell(t, rows, len(rows.Rows)-1, "so_far").Ratio())
	same(t, "to earn back", of("target"), of("price").Add(of("repairs")).Sub(of("residual")))
	same(t, "left", of("left"), of("target").Sub(of("earned")))
	same(t, "percent", of("percent"), of("earned").Quo(of("target")).Times(exact.Int(100)))
	for i := range rows.Rows {
		same(t, "a month's earnings", cell(t, rows, i, "earned").Ratio(), cell(t, rows, i, "net").Ratio().Add(cell(t, rows, i, "wear").Ratio()))
		same(t, "a month's rest", cell(t, rows, i, "left").Ratio(), of("target").Sub(cell(t, rows, i, "so_far").Ratio()))
	}
}

// The elements of a unit sum to what it costs.
func comparedAddUp(t *testing.T, d report.Doc) {
	t.Helper()
	rows, parts := table(t, d, "rows"), table(t, d, "parts")
	for i := range rows.Rows {
		var sum exact.Ratio
		for _, e := range ledger.Elements() {
			sum = sum.Add(cell(t, parts, i, e.String()+"_per_unit").Ratio())
		}
		same(t, "elements per unit", sum, cell(t, rows, i, "per_unit").Ratio())
		same(t, "total", cell(t, rows, i, "total").Ratio(), sum.Mul(cell(t, rows, i, "reconstituted").Ratio()))
	}
}
