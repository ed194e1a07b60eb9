package report_test

import (
	"math/big"
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/ledger/ledgertest"
	"putby/ledger/question"
	"putby/ledger/report"
)

// What is on hand, what foods cost side by side and what the machines have
// earned back are what the twin makes of the same text, to the last digit.
func TestHouseholdAgreesWithItsTwin(t *testing.T) {
	var seen struct{ packs, awaiting, fresh, paces, paid, spoiled, shared int }
	rapid.Check(t, func(rt *rapid.T) {
		files := houses().Draw(rt, "house")
		rec, faults, err := ledgertest.Read(files)
		if err != nil || len(faults) > 0 {
			rt.Fatal(err, faults)
		}
		g, faults := ledger.Join(rec, ledger.Options{Through: date(houseEnds), PricesThrough: date(houseEnds)})
		if len(faults) > 0 {
			rt.Fatal(faults)
		}
		w := readHouse(files)
		w.live()
		c := &houseCheck{rt, w}
		d, err := question.OnHand(g, figures.OnHandQuery{})
		c.ok(err)
		seen.packs += c.packsInStore(partOf[*report.Table](rt, d, "packs"))
		c.onHandByFood(partOf[*report.Table](rt, d, "foods"))
		seen.fresh += c.fresh(partOf[*report.Table](rt, d, "fresh"))
		seen.awaiting += c.awaiting(partOf[*report.Table](rt, d, "awaiting"))
		c.machines(partOf[*report.Table](rt, d, "machines"))
		c.supplies(partOf[*report.Table](rt, d, "supplies"))
		d, err = report.Compare(g, figures.CompareQuery{})
		c.ok(err)
		c.compared(d)
		d, err = report.Payback(g, figures.PaybackQuery{})
		c.ok(err)
		if c.payback(d) {
			seen.paid++
		} else {
			seen.paces++
		}
		for _, run := range w.runs {
			if run.spoiled {
				seen.spoiled++
			}
			if len(run.items) > 1 {
				seen.shared++
			}
		}
	})
	if testing.Short() {
		return // so few households need not have everything
	}
	for what, n := range map[string]int{"packs in store": seen.packs, "foods that await packing": seen.awaiting, "fresh foods": seen.fresh,
		"paces": seen.paces, "machines that are paid for": seen.paid, "spoiled runs": seen.spoiled, "shared runs": seen.shared} {
		if n == 0 {
			t.Errorf("there are no %s: that tests too little", what)
		}
	}
}

// A houseCheck holds reports to the twin.
type houseCheck struct {
	*rapid.T
	w *houseTwin
}

func (c *houseCheck) ok(err error) {
	if err != nil {
		c.Fatal(err)
	}
}

// partOf is part for a rapid test.
func partOf[N report.Node](t rapid.TB, d report.Doc, key string) N {
	i := slices.IndexFunc(d.Fields, func(f report.Field) bool { return f.Key == key })
	if i < 0 {
		t.Fatalf("%s has no part %s", d.Title, key)
	}
	return d.Fields[i].Node.(N)
}

func (c *houseCheck) cell(tab *report.Table, row int, key string) report.Value {
	i := slices.IndexFunc(tab.ValueColumns(), func(col report.Column) bool { return col.Key == key })
	if i < 0 || row >= len(tab.Rows) {
		c.Fatalf("no cell %s of row %d", key, row)
	}
	return tab.Rows[row].Cells[i]
}

// find returns the row whose cells under keys are texts, given in pairs.
func (c *houseCheck) find(tab *report.Table, pairs ...string) int {
	for row := range tab.Rows {
		match := true
		for i := 0; i < len(pairs); i += 2 {
			match = match && c.cell(tab, row, pairs[i]).Text() == pairs[i+1]
		}
		if match {
			return row
		}
	}
	c.Fatalf("no row of %v", pairs)
	return -1
}

// are holds figures of a row to the twin's; nil is what does not exist.
func (c *houseCheck) are(what string, tab *report.Table, row int, want map[string]*big.Rat) {
	for key, figure := range want {
		c.is(what+" "+key, c.cell(tab, row, key), figure)
	}
}

func (c *houseCheck) is(what string, v report.Value, want *big.Rat) {
	switch {
	case want == nil && !v.IsNull():
		c.Errorf("%s is %s, want none", what, v.Exact(euro))
	case want != nil && (v.IsNull() || rat(v.Ratio().String()).Cmp(want) != 0):
		c.Errorf("%s is %s, want %s", what, v.Exact(euro), want.FloatString(12))
	}
}

func (c *houseCheck) text(what string, v report.Value, want string) {
	if v.Text() != want {
		c.Errorf("%s is %q, want %q", what, v.Text(), want)
	}
}

func (c *houseCheck) rows(what string, tab *report.Table, want int) int {
	if len(tab.Rows) != want {
		c.Errorf("%d %s, want %d", len(tab.Rows), what, want)
	}
	return want
}

// times is a product with what may not exist.
func times(a, b *big.Rat) *big.Rat {
	if a == nil || b == nil {
		return nil
	}
	return mul(a, b)
}

func (c *houseCheck) packsInStore(tab *report.Table) int {
	n, end := 0, dayOf(houseEnds)
	for _, p := range c.w.packs {
		if p.gone == p.count {
			continue
		}
		c.text("pack", c.cell(tab, n, "pack"), p.id)
		c.are(p.id, tab, n, map[string]*big.Rat{"left": count(p.count - p.gone), "each": p.each, "cost": p.leaving(p.all(), p.gone, p.count),
			"shelf_value": times(c.w.shelf(p.food, end), mul(p.each, count(p.count-p.gone)))})
		months := floor(rat(c.w.row("foods.csv", "food", p.food)["keep_months"]))
		best := time.Date(p.day.Year(), p.day.Month()+time.Month(months), p.day.Day(), 12, 0, 0, 0, vienna)
		if best.Day() != p.day.Day() { // a shorter month
			best = best.AddDate(0, 0, -best.Day())
		}
		c.text(p.id+" best by", c.cell(tab, n, "best_by"), best.Format(time.DateOnly))
		c.is(p.id+" days left", c.cell(tab, n, "days_left"), count(int(best.Sub(end)/(24*time.Hour))))
		n++
	}
	return c.rows("packs", tab, n)
}

func (c *houseCheck) onHandByFood(tab *report.Table) {
	n := 0
	for _, f := range houseFoods {
		left, amount, cost := 0, new(big.Rat), new(big.Rat)
		for _, p := range c.w.packs {
			if p.food == f.id {
				left += p.count - p.gone
				amount, cost = add(amount, mul(p.each, count(p.count-p.gone))), add(cost, p.leaving(p.all(), p.gone, p.count))
			}
		}
		if left > 0 {
			n++
			c.are(f.id, tab, c.find(tab, "item", f.id), map[string]*big.Rat{"left": count(left), "quantity": amount, "cost": cost,
				"shelf_value": times(c.w.shelf(f.id, dayOf(houseEnds)), amount)})
		}
	}
	c.rows("foods in store", tab, n)
}

// fresh holds the food in hand to the twin's. It turns with its oldest lot of
// which there is more than a crumb.
func (c *houseCheck) fresh(tab *report.Table) int {
	n := 0
	for _, f := range houseFoods {
		pool := c.w.foods[f.id]
		if pool.left().Sign() == 0 {
			continue
		}
		n++
		row := c.find(tab, "item", f.id)
		c.are("fresh "+f.id, tab, row, map[string]*big.Rat{"quantity": pool.left(), "cost": pool.cost})
		days := floor(rat(c.w.row("foods.csv", "food", f.id)["fresh_days"]))
		some := func(l *lotTwin) bool { return l.left.Sign() > 0 && mul(l.left, count(100)).Cmp(l.bought) >= 0 }
		i := slices.IndexFunc(pool.lots, some)
		if i < 0 {
			i = slices.IndexFunc(pool.lots, func(l *lotTwin) bool { return l.left.Sign() > 0 })
		}
		c.text(f.id+" is used by", c.cell(tab, row, "use_by"), pool.lots[i].day.AddDate(0, 0, days).Format(time.DateOnly))
	}
	return c.rows("fresh foods", tab, n)
}

func (c *houseCheck) awaiting(tab *report.Table) int {
	n := 0
	for _, run := range c.w.runs {
		for _, item := range run.items {
			if !run.spoiled && item.packs == nil {
				n++
				c.are(run.id, tab, c.find(tab, "run", run.id, "item", item.food), map[string]*big.Rat{"loaded": item.loaded, "cost": item.good.sum()})
			}
		}
	}
	return c.rows("foods that await packing", tab, n)
}

func (c *houseCheck) machines(tab *report.Table) {
	for row, id := range []string{"d1", "d2"} {
		lot, done := c.w.lots[id][0], 0
		for _, run := range c.w.runs {
			if run.machine == id {
				done++
			}
		}
		c.are(id, tab, row, map[string]*big.Rat{"cycles_done": count(done), "cycles_left": lot.left, "cost_left": sub(lot.cost, lot.residual), "residual": lot.residual})
	}
}

// supplies holds them to the twin's: jars serve again, so of those bought some
// stand full in store and the rest are free; cans of oil are what is left of
// them; of the lids none was ever bought.
func (c *houseCheck) supplies(tab *report.Table) {
	full := 0
	for _, p := range c.w.packs {
		full += p.count - p.gone
	}
	for _, id := range []string{"jar", "oil"} {
		lot, uses := c.w.lots[id][0], rat(c.w.row("supplies.csv", "supply", id)["uses"])
		owned, want := quo(lot.left, uses), map[string]*big.Rat{"uses_left": lot.left, "cost": lot.cost}
		if id == "jar" {
			owned = quo(lot.bought, uses)
			want["in_store"] = count(full)
		}
		free := new(big.Rat).Set(owned)
		if id == "jar" {
			if free = sub(owned, count(full)); free.Sign() < 0 {
				free = new(big.Rat)
			}
		}
		want["owned"], want["free"] = owned, free
		c.are(id, tab, c.find(tab, "supply", id), want)
	}
}

// servings are how much of a food's unit one is.
var servings = map[string]string{"broth": "0.3", "kale": "0.05", "egg": "2", "soup": "0.2365882365"}

// A comparedTwin is the sum of a food's packed runs.
type comparedTwin struct {
	runs                             int
	made, priced, value, saving, kwh *big.Rat
	good                             costsTwin
	lost                             *big.Rat
	each                             []*big.Rat // what a unit cost, by run
	whole, earned                    *big.Rat   // as whole runs, and before wear
}

func (w *houseTwin) comparedOf(food string) *comparedTwin {
	c := &comparedTwin{made: new(big.Rat), priced: new(big.Rat), value: new(big.Rat), saving: new(big.Rat), kwh: new(big.Rat), lost: new(big.Rat), whole: new(big.Rat), earned: new(big.Rat)}
	for e := range c.good {
		c.good[e] = new(big.Rat)
	}
	for _, run := range w.runs {
		for _, item := range run.items {
			if item.food == food {
				c.add(w, run, item)
			}
		}
	}
	return c
}

func (c *comparedTwin) add(w *houseTwin, run *runTwin, item *itemTwin) {
	c.lost = add(c.lost, item.lost.sum())
	lost := sub(item.lost.sum(), item.lost[twinWear])
	if run.spoiled {
		c.whole, c.earned = add(c.whole, item.share), sub(c.earned, lost)
	}
	if item.packs == nil {
		return
	}
	made, good := new(big.Rat), item.good
	for _, p := range item.packs {
		made = add(made, mul(p.each, count(p.count)))
		good[twinSupplies] = add(good[twinSupplies], p.own)
	}
	c.runs++
	c.made, c.kwh, c.each = add(c.made, made), add(c.kwh, mul(run.kwh, item.share)), append(c.each, quo(good.sum(), made))
	for e := range good {
		c.good[e] = add(c.good[e], good[e])
	}
	if price := w.shelf(item.food, run.start); price != nil {
		saved := sub(mul(price, made), good.sum())
		c.priced, c.value, c.saving = add(c.priced, made), add(c.value, mul(price, made)), add(c.saving, saved)
		c.whole, c.earned = add(c.whole, item.share), add(c.earned, sub(add(saved, good[twinWear]), lost))
	}
}

func (c *houseCheck) compared(d report.Doc) {
	rows, parts, spread := partOf[*report.Table](c, d, "rows"), partOf[*report.Table](c, d, "parts"), partOf[*report.Table](c, d, "spread")
	n := 0
	for _, f := range houseFoods {
		s := c.w.comparedOf(f.id)
		if s.runs == 0 {
			continue
		}
		n++
		total, food := s.good.sum(), c.w.row("foods.csv", "food", f.id)
		per := func(m *big.Rat) *big.Rat { return quo(m, s.made) }
		grams := mul(c.w.mass(f.id, s.made), count(1000))
		var shelf, saves, saving, run *big.Rat
		if s.priced.Sign() > 0 {
			shelf = quo(s.value, s.priced)
			saves, saving = sub(shelf, per(total)), s.saving
		}
		if s.whole.Sign() > 0 {
			run = quo(s.earned, s.whole)
		}
		c.are(f.id, rows, c.find(rows, "item", f.id), map[string]*big.Rat{"reconstituted": s.made, "total": total, "per_unit": per(total),
			"per_serving": mul(per(total), rat(servings[f.id])), "per_1000_kcal": quo(mul(total, count(100_000)), mul(grams, rat(food["kcal"]))),
			"per_100g_protein": quo(mul(total, count(10_000)), mul(grams, rat(food["protein"]))), "shelf_per_unit": shelf, "saving_per_unit": saves})
		c.are(f.id, parts, c.find(parts, "item", f.id), map[string]*big.Rat{"food_per_unit": per(s.good[twinFood]), "electricity_per_unit": per(s.good[twinPower]),
			"supplies_per_unit": per(s.good[twinSupplies]), "wear_per_unit": per(s.good[twinWear]), "labour_per_unit": per(s.good[twinLabour]),
			"food_percent": quo(mul(s.good[twinFood], count(100)), total), "per_unit_with_loss": per(add(total, s.lost))})
		slices.SortFunc(s.each, (*big.Rat).Cmp)
		median := quo(add(s.each[(s.runs-1)/2], s.each[s.runs/2]), count(2))
		c.are(f.id, spread, c.find(spread, "item", f.id), map[string]*big.Rat{"runs": count(s.runs), "lowest": s.each[0], "median": median,
			"highest": s.each[s.runs-1], "kwh_per_unit": per(s.kwh), "saving": saving, "per_run": run})
	}
	c.rows("foods compared", rows, n)
}
