package report_test

import (
	"fmt"
	"strings"
	"testing"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/ledger/question"
	"putby/ledger/report"
	"putby/pricing/exact"
)

func payback(t testing.TB, g *ledger.Ledger, change func(*figures.PaybackQuery)) report.Doc {
	t.Helper()
	return asked(t, g, change, report.Payback)
}

// The small ledger, by hand: the month's net is -2.363167. A cycle wears off
// 2.00, a sixth of it lost (0.333333); the rest, 1.666667, is on five
// containers, 0.333334 on the first, which is used.
func TestPaybackSmall(t *testing.T) {
	d := payback(t, join(t, small, exact.NoDate), nil)
	wants(t, table(t, d, "rows"), 1, map[string]string{"month": "2025-03", "net": "-2.363167000000", "wear": "0.666667",
		"earned": "-1.696500000000", "so_far": "-1.696500000000", "left": "2001.696500000000"})
	machine := part[report.Object](t, d, "machine")
	for key, want := range map[string]string{"price": "2400.000000", "repairs": "0.000000", "residual": "400.000000", "target": "2000.000000"} {
		if have := value(t, machine, key).Exact(euro); have != want {
			t.Errorf("%s is %s, want %s", key, have, want)
		}
	}
	// Once all five are used they will have saved 17.50 - 15.470417, with a wear
	// of 1.666667 inside; 2.769083 were lost, 0.333333 of it wear.
	wants(t, table(t, d, "foods"), 0, map[string]string{"item": "tomato-soup", "runs": "1", "per_run": "1.260500000000"})
	if d.Words[0] != "Of 2000.00 EUR to earn back, nothing has been earned by 2025-03-20: 1.70 has been lost on top. "+
		"A pace takes 3 whole months since the machine came; none is recorded. 2025-03 has lost 1.70 so far." {
		t.Errorf("says %q", d.Words)
	}
}

// steady is a machine of 150,000 that earns 20,000 on the first of each of so
// many months of 2025, from opening stock that cost nothing.
func steady(months int) string {
	var b strings.Builder
	b.WriteString(`-- foods.csv --
food,basis
gold,volume
-- machines.csv --
machine,cycles
m,10
-- receipts.csv --
receipt,date,line,kind,item,price
a,2025-01-01,1,machine,m,150000.00
-- shelf.csv --
date,shop,item,size,price
2025-01-01,Mint,gold,1 L,20000.00
-- packs.csv --
pack,item,date,count,each
p,gold,2025-01-01,100,1 L
-- draws.csv --
date,pack,quantity
`)
	for m := range months {
		fmt.Fprintf(&b, "%v,p,1\n", date("2025-01-01").AddMonths(m))
	}
	return b.String()
}

// OpenStax, Principles of Accounting 2: an outlay of 150,000 that brings 20,000
// a year is paid back in 7.5 years; here of months, so in the eighth.
func TestPaybackSteady(t *testing.T) {
	for _, c := range []struct {
		months int
		end    string
	}{{4, "2025-04-30"}, {6, "2025-06-30"}} {
		dir := write(t, steady(c.months)+"-- counts.csv --\ndate,item,quantity\n"+c.end+",gold,0 L\n")
		d := payback(t, join(t, dir, exact.NoDate), nil)
		pace := part[report.Object](t, d, "pace")
		for key, want := range map[string]string{"per_month": "20000.000000000000", "low": "20000.000000000000", "paid_in": "2025-08", "earliest": "2025-08", "latest": "2025-08"} {
			v := value(t, pace, key)
			if have := v.Exact(euro); have != want || !v.IsEstimate() {
				t.Errorf("after %d months: %s is %s, want %s, an estimate", c.months, key, have, want)
			}
		}
		sooner := table(t, d, "sooner")
		wants(t, sooner, 0, map[string]string{"step": "as now", "paid_in": "2025-08"})
		wants(t, sooner, 1, map[string]string{"once": fmt.Sprintf("%d.000000000000", (100-c.months)*20000)}) // more than is left
	}
}

func TestPaybackPaid(t *testing.T) {
	d := payback(t, join(t, write(t, steady(9)), exact.NoDate), nil)
	if have := value(t, part[report.Object](t, d, "pace"), "paid_in"); have.Text() != "2025-08" || have.IsEstimate() {
		t.Errorf("paid in %q, an estimate: %v", have.Text(), have.IsEstimate())
	}
	if !strings.Contains(d.Words[0], "It was paid for in 2025-08") {
		t.Errorf("says %q", d.Words)
	}
	wants(t, table(t, d, "rows"), 8, map[string]string{"so_far": "180000.000000000000", "left": "-30000.000000000000"})
}

// At a pace of nothing it is never paid, and nothing is divided by it.
func TestPaybackNever(t *testing.T) {
	text := strings.Replace(steady(5), "20000.00", "0.00", 1)
	d := payback(t, join(t, write(t, text), date("2025-04-30")), func(q *figures.PaybackQuery) { q.AsOf = date("2025-04-30") })
	if v := value(t, part[report.Object](t, d, "pace"), "paid_in"); !v.IsNull() {
		t.Errorf("paid in %s", v.Text())
	}
	if !strings.Contains(d.Words[0], "nothing has been earned by 2025-04-30. The last 4 whole months earned nothing: at that pace it is never paid.") {
		t.Errorf("says %q", d.Words)
	}
}

// A container that cost 21,000 and is worth 20,000 loses 1,000 each month: that
// is said in so many words, not as earnings below 0.
func TestPaybackLoses(t *testing.T) {
	text := strings.NewReplacer("count,each\n", "count,each,cost\n", "100,1 L\n", "100,1 L,2100000.00\n").Replace(steady(4))
	d := payback(t, join(t, write(t, text), date("2025-04-30")), func(q *figures.PaybackQuery) { q.AsOf = date("2025-04-30") })
	want := "Of 150000.00 EUR to earn back, nothing has been earned by 2025-04-30: 4000.00 has been lost on top. " +
		"At the pace of the last 4 whole months, a loss of ~1000.00 a month, it is never paid."
	if d.Words[0] != want {
		t.Errorf("says %q, want %q", d.Words[0], want)
	}
}

// Two machines are one outlay.
func TestPaybackOfTwoMachines(t *testing.T) {
	text := strings.NewReplacer("m,10\n", "m,10\nn,20\n", "150000.00\n", "150000.00\na,2025-01-01,2,machine,n,50000.00\n").Replace(steady(5))
	d := payback(t, join(t, write(t, text), exact.NoDate), nil)
	if have := value(t, part[report.Object](t, d, "machine"), "target").Exact(euro); have != "200000.000000" {
		t.Errorf("to earn back is %s", have)
	}
	if !noted(d.Notes, "all 2 machines together") {
		t.Errorf("notes: %q", d.Notes)
	}
}

func TestPaybackWithoutMachine(t *testing.T) {
	d := payback(t, join(t, write(t, jars), exact.NoDate), nil)
	if len(d.Words) != 1 || !strings.Contains(d.Words[0], "nothing to earn back") {
		t.Errorf("says %q", d.Words)
	}
	payback(t, join(t, write(t, ""), exact.NoDate), nil)
}

// What is earned is the months' net and the wear of what was used, spoiled,
// missing and lost; so far is its running sum; a repair is part of the outlay.
func TestPaybackAddsUp(t *testing.T) {
	for _, asOf := range monthEnds(t) {
		g := join(t, sample, asOf)
		rows, months := table(t, payback(t, g, nil), "rows"), table(t, monthly(t, g, nil), "rows")
		sum, wear := exact.Ratio{}, exact.Money{}
		for i := range rows.Rows {
			if have, want := cell(t, rows, i, "net"), cell(t, months, i, "net"); !have.Ratio().Equal(want.Ratio()) {
				t.Fatalf("as of %v: net of row %d is %s, month has %s", asOf, i, have.Exact(euro), want.Exact(euro))
			}
			wear = wear.Add(exact.MoneyOf(cell(t, rows, i, "wear").Number()))
			earned := cell(t, rows, i, "net").Ratio().Add(cell(t, rows, i, "wear").Ratio())
			sum = sum.Add(earned)
			if have := cell(t, rows, i, "so_far").Ratio(); !have.Equal(sum) {
				t.Fatalf("as of %v: row %d says %v so far, want %v", asOf, i, have, sum)
			}
		}
		var want exact.Money
		for _, m := range g.Moves {
			if m.Pack >= 0 && m.Reason != ledger.Given {
				want = want.Add(m.Wear)
			}
		}
		for i := range g.Runs {
			for _, item := range g.Runs[i].Items {
				want = want.Add(item.Lost[ledger.WearCost])
			}
		}
		if !wear.Equal(want) {
			t.Errorf("as of %v: wear sums to %v, want %v", asOf, wear, want)
		}
	}
	machine := part[report.Object](t, payback(t, join(t, sample, exact.NoDate), nil), "machine")
	if have := value(t, machine, "repairs").Exact(euro); have == "0.000000" {
		t.Error("the sample's repair is not in what there is to earn back")
	}
}

func TestPaybackRefuses(t *testing.T) {
	g := join(t, small, exact.NoDate)
	if _, err := question.Asked(report.Payback)(g, figures.PaybackQuery{Query: figures.Query{Item: "pears"}}); question.OptionOf(err).Field != "item" {
		t.Errorf("an unknown food: %v", err)
	}
}
