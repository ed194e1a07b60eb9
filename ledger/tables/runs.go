package tables

import (
	"time"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/pricing/exact"
)

func runs() Table {
	rec := func(r *row) *ledger.Run { return &r.Records.Runs[r.i] }
	of := func(r *row) *ledger.RunCost { return &r.Runs[r.i] }
	return newTable(runsTable, "a run of a machine",
		func(h *Household, yield func(*row) bool) {
			for _, i := range h.begun() {
				if !yield(&row{h.runs, i}) {
					return
				}
			}
		},
		text("run", func(r *row) string { return rec(r).ID }, "its identifier").key(),
		date("date", func(r *row) exact.Date { return of(r).Date }, "day on which it began"),
		text("machine", func(r *row) string { return rec(r).Machine }, "the machine").refers(machinesTable),
		moment("started", func(r *row) time.Time { return rec(r).Start }, "by the household's clock"),
		moment("started_utc", func(r *row) time.Time { return rec(r).Start.UTC() }, "by universal time"),
		quotient("hours", func(r *row) exact.Opt[exact.Ratio] { return hours(of(r).Length) }, "hours that it took; blank where nobody knows"),
		text("outcome", func(r *row) string { return rec(r).Outcome() }, oneOf("run", "outcome")),
		quotient("kwh", func(r *row) exact.Opt[exact.Ratio] { return exact.Some(of(r).Energy) }, "kWh"),
		money("electricity", func(r *row) exact.Money { return of(r).Electricity }, "money"),
		money("wear", func(r *row) exact.Money { return of(r).Wear }, "money, of the machine"),
		money("supplies", func(r *row) exact.Money { return of(r).Supplies }, "money, of the machine's: oil, filters"),
		money("labour", func(r *row) exact.Money { return of(r).Labour }, "money, of hands-on time"),
		text("shared_by", func(r *row) string { return of(r).SharedBy.String() }, "what its loads bear these by: water, mass, trays or quantity"),
		text("note", func(r *row) string { return rec(r).Note }, "what was noted"),
	).byYear("date")
}

// hours are a length of time in hours, exactly.
func hours(length exact.Opt[time.Duration]) exact.Opt[exact.Ratio] {
	return exact.Map(length, func(d time.Duration) exact.Ratio { return exact.Int(int64(d / time.Second)).Over(exact.Int(3600)) })
}

// A runPart is a load of a run, or a food of it, by its position there.
type runPart struct {
	row
	at int // from 0, in the run's Loads or Items
}

// parts goes through the parts of the runs that count.
func parts(h *Household, in func(*ledger.RunCost) int, yield func(*runPart) bool) {
	for _, i := range h.begun() {
		for at := range in(&h.runs.Runs[i]) {
			if !yield(&runPart{row{h.runs, i}, at}) {
				return
			}
		}
	}
}

func (p *runPart) run() *ledger.RunCost   { return &p.Runs[p.i] }
func (p *runPart) id() string             { return p.Records.Runs[p.i].ID }
func (p *runPart) date() exact.Date       { return p.run().Date }
func (p *runPart) load() *ledger.LoadCost { return &p.run().Loads[p.at] }
func (p *runPart) record() ledger.Load    { return p.Records.Loads.At(int(p.load().Load)) }

// kilograms is what a weight comes to, where there is one.
func kilograms(q exact.Quantity) exact.Opt[exact.Number] {
	return exact.OptOf(q.Base().Number(), q.Given())
}

// elements are columns of money by element of cost.
func elements[R any](prefix string, of func(*R) ledger.Costs, help string) (list []column[R]) {
	for _, e := range ledger.Elements() {
		list = append(list, money(prefix+e.String(), func(r *R) exact.Money { return of(r)[e] }, help))
	}
	return list
}

func loads() Table {
	columns := []column[runPart]{
		whole("load", func(p *runPart) int { return p.record().Line }, "its line in loads.csv").key(),
		text("run", (*runPart).id, "the run").refers(runsTable),
		date("date", (*runPart).date, "day on which the run began"),
		text("item", func(p *runPart) string { return p.record().Item }, "the food").refers(foodsTable),
		amount("quantity", func(p *runPart) exact.Number { return p.load().Quantity }, "basis units that went in"),
		amount("lost_quantity", func(p *runPart) exact.Number { return p.load().LostPart }, "the part that was spilled, thrown away or spoiled"),
		maybe("wet_kg", func(p *runPart) exact.Opt[exact.Number] { return kilograms(p.record().Wet) }, "kg before drying"),
		maybe("dry_kg", func(p *runPart) exact.Opt[exact.Number] { return kilograms(p.record().Dry) }, "kg after drying"),
	}
	columns = append(columns, elements("", func(p *runPart) ledger.Costs { return p.load().Costs }, "money, with the lost part")...)
	columns = append(columns, money("lost", func(p *runPart) exact.Money { return p.load().Lost.Total() }, "money, the lost part of these"))
	return newTable("loads", "food that went into a run",
		func(h *Household, yield func(*runPart) bool) {
			parts(h, func(r *ledger.RunCost) int { return len(r.Loads) }, yield)
		}, columns...).byYear("date")
}

// A costRow is what a food of a run cost.
type costRow struct {
	runPart
	figures.CostRow
}

func (c *costRow) item() *ledger.ItemCost { return &c.run().Items[c.at] }
func (c *costRow) food() *ledger.Food     { return &c.Foods[c.item().Food] }

// value is what the shelf asks for what was made.
func (c *costRow) value() exact.Opt[exact.Ratio] {
	return exact.Map(c.Shelf, func(price exact.Ratio) exact.Ratio { return price.Times(c.Made) })
}

// eaten is so much of a food value as there is in what was made: 10 times the value
// of 100 g in a kilogram.
func (c *costRow) eaten(per100g exact.Opt[exact.Number]) exact.Opt[exact.Number] {
	value, known := per100g.Get()
	kg, weighed := c.food().Mass(c.Made)
	return exact.OptOf(kg.Mul(exact.Int(10)).Mul(value), known && weighed)
}

func runCosts() Table {
	columns := []column[costRow]{
		text("run", func(c *costRow) string { return c.id() }, "the run").key().refers(runsTable),
		text("item", func(c *costRow) string { return c.food().ID }, "the food").key().refers(foodsTable),
		date("date", func(c *costRow) exact.Date { return c.Date }, "day on which the run began"),
		text("machine", func(c *costRow) string { return c.Machine }, "the machine").refers(machinesTable),
		text("unit", func(c *costRow) string { return c.Unit.String() }, "basis unit of the food: L, kg or ea"),
		amount("loaded", func(c *costRow) exact.Number { return c.Loaded }, "units that went in"),
		amount("reconstituted", func(c *costRow) exact.Number { return c.Made }, "units that all its packs give once water is added again; 0: it is in no pack yet"),
	}
	columns = append(columns, elements("", func(c *costRow) ledger.Costs { return c.Good }, "money, of the good food, with its packs' supplies")...)
	columns = append(columns, money("total", func(c *costRow) exact.Money { return c.Good.Total() }, "money, the five together"))
	columns = append(columns, elements("lost_", func(c *costRow) ledger.Costs { return *c.item().Lost }, "money, of what was lost; beside the good cost, not in it")...)
	columns = append(columns,
		money("lost", func(c *costRow) exact.Money { return c.Lost }, "money, the five together"),
		quotient("shelf_per_unit", func(c *costRow) exact.Opt[exact.Ratio] { return c.Shelf }, "money that the shelf asked for a unit on that day; blank: no price is known"),
		quotient("shelf_value", func(c *costRow) exact.Opt[exact.Ratio] { return c.value() }, "money that it asked for what the run makes"),
		quotient("kwh", func(c *costRow) exact.Opt[exact.Ratio] { return exact.Some(c.Energy) }, "kWh, its part of the run's"),
		quotient("hours", func(c *costRow) exact.Opt[exact.Ratio] { return hours(c.Length) }, "hours of the whole run"),
		maybe("kcal", func(c *costRow) exact.Opt[exact.Number] { return c.eaten(c.food().Kcal) }, "kcal in what the run makes; blank: not known"),
		maybe("protein", func(c *costRow) exact.Opt[exact.Number] { return c.eaten(c.food().Protein) }, "g of protein in it"),
	)
	return newTable("run_costs", "what a food of a run cost, as the report cost has it",
		func(h *Household, yield func(*costRow) bool) {
			parts(h, func(r *ledger.RunCost) int { return len(r.Items) }, func(p *runPart) bool {
				return yield(&costRow{*p, figures.CostOf(h.runs, figures.CostQuery{}, p.i, p.at)})
			})
		}, columns...).byYear("date")
}
