package report_test

import (
	"fmt"
	"math/big"
	"slices"

	"putby/ledger/report"
)

// The months of a made-up ledger, and those that are whole since its machines
// came.
var houseMonths = []string{"2025-01", "2025-02", "2025-03", "2025-04", "2025-05"}

const houseWhole = 3 // February to April

// later names the month so many after the last, nothing beyond 100 years.
func later(months int) string {
	if months > 1200 {
		return ""
	}
	months += 4 // since January 2025
	return fmt.Sprintf("%d-%02d", 2025+months/12, months%12+1)
}

// payback holds the report to the twin's, and says whether it is paid for.
func (c *houseCheck) payback(d report.Doc) (paid bool) {
	rows, machine := partOf[*report.Table](c, d, "rows"), partOf[report.Object](c, d, "machine")
	price, residual := new(big.Rat), new(big.Rat)
	for i, r := range c.w.rows["receipts.csv"][:2] {
		price, residual = add(price, rat(r["price"])), add(residual, number(c.w.rows["machines.csv"][i]["residual"]))
	}
	target, soFar, pace, runs := sub(price, residual), new(big.Rat), new(big.Rat), 0
	c.rows("months", rows, len(houseMonths))
	for i, key := range houseMonths {
		m := c.w.of(dayOf(key + "-01"))
		net := sub(m.saved, m.gone)
		soFar = add(soFar, add(net, m.wear))
		c.text("month", c.cell(rows, i, "month"), key)
		c.are(key, rows, i, map[string]*big.Rat{"net": net, "wear": m.wear, "earned": add(net, m.wear), "so_far": soFar, "left": sub(target, soFar)})
		if 1 <= i && i <= houseWhole {
			pace, runs = add(pace, add(net, m.wear)), runs+m.runs
		}
	}
	var percent *big.Rat
	left := sub(target, soFar)
	if target.Sign() > 0 {
		percent = quo(mul(soFar, count(100)), target)
	}
	for key, want := range map[string]*big.Rat{"price": price, "residual": residual, "repairs": new(big.Rat), "target": target, "earned": soFar, "left": left, "percent": percent} {
		c.is(key, valueOf(c, machine, key), want)
	}
	c.byMachine(d, soFar, left)
	c.foods(partOf[*report.Table](c, d, "foods"), left)
	sooner := partOf[*report.Table](c, d, "sooner")
	if left.Sign() <= 0 {
		c.rows("ways to be paid sooner", sooner, 0)
		return true
	}
	pace, cycles := quo(pace, count(houseWhole)), quo(count(runs), count(houseWhole))
	object := partOf[report.Object](c, d, "pace")
	c.is("months", valueOf(c, object, "months"), count(houseWhole))
	c.is("a month", valueOf(c, object, "per_month"), pace)
	c.is("cycles a month", valueOf(c, object, "cycles_a_month"), cycles)
	c.text("paid in", valueOf(c, object, "paid_in"), paidIn(left, pace))
	c.sooner(sooner, left, pace, cycles)
	return false
}

// byMachine holds what each machine earned to the twin's, and all of them to the
// whole, exactly.
func (c *houseCheck) byMachine(d report.Doc, soFar, left *big.Rat) {
	tab := partOf[*report.Table](c, d, "by_machine")
	earned, rest := new(big.Rat), new(big.Rat)
	for row := range tab.Rows {
		id := c.cell(tab, row, "machine").Text()
		if c.cell(tab, row, "machine").IsNull() {
			id = ""
		}
		target := new(big.Rat)
		for i, m := range c.w.rows["machines.csv"] {
			if m["machine"] == id {
				target = sub(rat(c.w.rows["receipts.csv"][i]["price"]), number(m["residual"]))
			}
		}
		c.are("machine "+id, tab, row, map[string]*big.Rat{"earned": c.w.earns[id], "target": target, "left": sub(target, c.w.earns[id])})
		earned, rest = add(earned, rat(c.cell(tab, row, "earned").Ratio().String())), add(rest, rat(c.cell(tab, row, "left").Ratio().String()))
	}
	if earned.Cmp(soFar) != 0 || rest.Cmp(left) != 0 {
		c.Errorf("the machines earned %v and have %v left, all of them %v and %v", earned, rest, soFar, left)
	}
}

// paidIn is the month in which so much is earned at so much a month.
func paidIn(left, perMonth *big.Rat) string {
	switch {
	case left.Sign() <= 0:
		return later(0)
	case perMonth.Sign() <= 0:
		return ""
	}
	return later(ceil(quo(left, perMonth)))
}

func valueOf(c *houseCheck, o report.Object, key string) report.Value {
	i := slices.IndexFunc(o, func(f report.Field) bool { return f.Key == key })
	if i < 0 {
		c.Fatalf("no value %s", key)
	}
	return o[i].Node.(report.Value)
}

// sooner works out what more runs do, and what it takes to pay in some years.
func (c *houseCheck) sooner(tab *report.Table, left, pace, cycles *big.Rat) {
	row := 0
	want := func(once, perMonth, cycles *big.Rat) {
		c.are(fmt.Sprint("way ", row), tab, row, map[string]*big.Rat{"once": once, "per_month": perMonth, "cycles_a_month": cycles})
		c.text(fmt.Sprint("way ", row), c.cell(tab, row, "paid_in"), paidIn(sub(left, once), perMonth))
		row++
	}
	store, whole, earned := new(big.Rat), new(big.Rat), new(big.Rat)
	for _, p := range c.w.packs {
		asks := times(c.w.shelf(p.food, dayOf(houseEnds)), mul(p.each, count(p.count-p.gone)))
		if asks != nil && p.gone < p.count {
			store = add(store, add(sub(asks, p.leaving(p.all(), p.gone, p.count)), p.leaving(p.share[twinWear], p.gone, p.count)))
		}
	}
	none := new(big.Rat)
	want(none, pace, cycles)
	want(store, pace, cycles)
	for _, f := range houseFoods {
		s := c.w.comparedOf(f.id)
		whole, earned = add(whole, s.whole), add(earned, s.earned)
	}
	if whole.Sign() > 0 && earned.Sign() > 0 {
		run := quo(earned, whole)
		for _, more := range []int{1, 2, 4} {
			want(none, add(pace, mul(run, count(more))), add(cycles, count(more)))
		}
		for _, years := range []int{1, 2, 5} {
			if need := quo(left, count(12*years)); need.Cmp(pace) > 0 {
				want(none, need, add(cycles, quo(sub(need, pace), run)))
			}
		}
	}
	c.rows("ways to be paid sooner", tab, row)
}

// foods works out what a whole run of each food earns.
func (c *houseCheck) foods(tab *report.Table, left *big.Rat) {
	n := 0
	for _, f := range houseFoods {
		s := c.w.comparedOf(f.id)
		if s.whole.Sign() == 0 {
			continue
		}
		n++
		run := quo(s.earned, s.whole)
		var more *big.Rat
		if left.Sign() > 0 && run.Sign() > 0 {
			more = count(ceil(quo(left, run)))
		}
		c.are(f.id, tab, c.find(tab, "item", f.id), map[string]*big.Rat{"whole_runs": s.whole, "earned": s.earned, "per_run": run, "runs_to_pay": more})
	}
	c.rows("foods that earn", tab, n)
}
