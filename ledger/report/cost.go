package report

import (
	"cmp"
	"fmt"
	"slices"

	"putby/ledger"
	"putby/pricing"
	"putby/pricing/exact"
)

// A CostQuery is what the cost report is asked.
type CostQuery struct {
	Query
	By      By
	Without []ledger.Element // counted nowhere, for the marginal view
	Against pricing.Form     // of the shelf price
	Later   bool             // work the rows out as they are written: for CSV and JSON
}

// By says what the rows of a cost report are.
type By uint8

// The rows of a cost report.
const (
	ByRun By = iota // one for each food of each run
	ByItem
	ByMonth
	ByMachine
)

var byNames = []string{"run", "item", "month", "machine"}

var rowsTitles = [...]string{"By run", "By food", "By month", "By machine"}

// ParseBy reads the name of a grouping.
func ParseBy(s string) (By, error) {
	i := slices.Index(byNames, s)
	if i < 0 {
		return 0, &QueryError{"by", exact.Quote(s) + " is not a grouping", "one of: run, item, month, machine"}
	}
	return By(i), nil
}

// A costRow is what a food of a run cost, or a sum of such rows.
type costRow struct {
	key       string // what the row is about: run, item, month or machine
	run, at   int    // of a run's row: position in Runs, and in its Items
	item      string // of a run's row
	name      string // of the item, for people
	date      exact.Date
	food      int // position in Foods; -1 for a sum over foods
	unit      exact.Unit
	runs      int
	loaded    exact.Number
	made      exact.Number // reconstituted
	good      ledger.Costs
	lost      exact.Money
	shelf     exact.Opt[exact.Ratio] // value of what was made, at the shelf price
	shelfMade exact.Number           // the part of made that has a shelf price
	saving    exact.Opt[exact.Ratio]
	energy    exact.Ratio
	hours     Value
	notes     []string
}

// Cost reports what each run's food cost, all told, beside the shelf price of
// the same amount. The ledger must be joined through its
// last record, whatever the query's AsOf.
func Cost(g *ledger.Ledger, q CostQuery) (Doc, error) {
	if err := q.Check(g.Records); err != nil {
		return Doc{}, err
	}
	rows := costRows(g, q)
	d := newDoc(g, costTitle(q))
	shown := rows
	if q.By != ByRun {
		shown = sumRows(g, rows, q.By)
	}
	d.Fields = []Field{field("rows", rowsTitles[q.By], costTable(shown, q)), field("totals", "In all", costTotals(rows))}
	reported := make([]bool, len(g.Foods))
	for i := range rows {
		reported[rows[i].food] = true
	}
	isReported := func(f int) bool { return reported[f] }
	d.Notes = append(refuses(g, isReported), cautions(g, isReported)...)
	return d, nil
}

func costTitle(q CostQuery) string {
	title := "Cost of what was put by"
	if q.Item != "" {
		title += ": " + q.title
	}
	return title + withoutWords(q.Without)
}

// withoutWords names what a title says is left out.
func withoutWords(elements []ledger.Element) string {
	if len(elements) == 0 {
		return ""
	}
	var names []string
	for _, e := range elements {
		names = append(names, e.String())
	}
	return ", without " + listed(names)
}

// costRows returns a row for each food of each run that the query covers, in
// order of start.
func costRows(g *ledger.Ledger, q CostQuery) []costRow {
	order, count := make([]int, 0, len(g.Runs)), 0
	for i := range g.Runs {
		if g.Runs[i].Done && q.covers(g.Runs[i].Date) {
			order = append(order, i)
			count += len(g.Runs[i].Items)
		}
	}
	byStart := func(a, b int) int { return g.Records.Runs[a].Start.Compare(g.Records.Runs[b].Start) }
	if !slices.IsSortedFunc(order, byStart) {
		slices.SortStableFunc(order, byStart)
	}
	rows := make([]costRow, 0, count)
	for _, i := range order {
		for j := range g.Runs[i].Items {
			if q.wants(&g.Foods[g.Runs[i].Items[j].Food]) {
				rows = append(rows, costOf(g, q, i, j))
			}
		}
	}
	return rows
}

// title is what people call the row's food.
func (r *costRow) title() string { return cmp.Or(r.name, r.item) }

// costOf works out the row of item j of run i.
func costOf(g *ledger.Ledger, q CostQuery, i, j int) costRow {
	run, item := &g.Runs[i], &g.Runs[i].Items[j]
	food := &g.Foods[item.Food]
	r := costRow{
		key: g.Records.Runs[i].ID, run: i, at: j, item: food.ID, name: food.Name, date: run.Date, food: item.Food, unit: food.Basis, runs: 1,
		loaded: item.Loaded, made: item.Made, energy: item.Energy, hours: None,
		good: item.Good, lost: item.Lost.Without(q.Without...).Total(), notes: slices.Clone(run.Notes),
	}
	for _, p := range item.Packs {
		pack := &g.Packs[p]
		r.good[ledger.SuppliesCost] = r.good[ledger.SuppliesCost].Add(pack.Own)
		for _, note := range pack.Notes {
			r.note(note)
		}
	}
	r.notes = append(r.notes, shortNotes(g, item)...)
	r.good = r.good.Without(q.Without...)
	if length, ok := run.Length.Get(); ok {
		r.hours = SpanOf(length)
	}
	r.compareShelf(g, q.Against)
	return r
}

// note adds a doubt, once.
func (r *costRow) note(s string) {
	if !slices.Contains(r.notes, s) {
		r.notes = append(r.notes, s)
	}
}

// compareShelf sets the row beside the shelf price of its run's date.
func (r *costRow) compareShelf(g *ledger.Ledger, form pricing.Form) {
	price, ok := g.ShelfPrice(r.food, r.date, form)
	switch {
	case !ok:
		r.note(fmt.Sprintf("no %v shelf price of %s is known", form, g.Foods[r.food].Title()))
		return
	case price.Batch != "":
		r.note("the shelf price is that of what its latest batch took")
	case price.Ask.Date > r.date:
		r.note("the shelf price is of a later day, " + price.Ask.Date.String())
	}
	value := price.PerUnit.Times(r.made)
	r.shelf, r.shelfMade = exact.Some(price.PerUnit), r.made
	if r.made.Sign() > 0 {
		r.saving = exact.Some(value.Sub(ratioOf(r.good.Total())))
	}
}

// packed reports whether the row has packs; one that has none yet has no cost
// per unit, and counts in no sum but that of losses.
func (r *costRow) packed() bool { return r.made.Sign() > 0 }

// savingPerUnit is the shelf price less the cost of a unit. In a sum some rows
// may have no shelf price: then it is not its saving, which only the others
// have, over all that was made.
func (r *costRow) savingPerUnit() Value {
	price, ok := r.shelf.Get()
	if !ok {
		return None
	}
	return r.perUnit(price.Times(r.made).Sub(ratioOf(r.good.Total())))
}

// perUnit divides by what was made.
func (r *costRow) perUnit(sum exact.Ratio) Value {
	if !r.packed() || r.unit == exact.NoUnit {
		return None
	}
	return PriceOf(sum.Quo(exact.RatioOf(r.made)), r.unit)
}
