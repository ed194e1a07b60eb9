package report

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"putby/energy"
	"putby/ledger"
	"putby/pricing"
	"putby/pricing/exact"
)

// A PlanQuery is what to buy of several offers, for one machine.
type PlanQuery struct {
	Common WorthQuery // what holds for every offer that does not say otherwise
	File   string     // the offers' file, for faults
	Offers []PlanOffer
}

// Plan answers which offers to buy, how many packages of each, and in what
// order to dry them, for the greatest saving that one machine allows. It is
// exact but for the time at which a cycle's electricity is priced (see
// [pricing.MakePlan]): that is then priced again as the plan lays it out. Errors
// are [ledger.Faults] in the offers' file, or a [*QueryError].
func Plan(g *ledger.Ledger, q PlanQuery) (Doc, error) {
	p := &planning{g: g, q: q}
	if err := p.oneMachine(); err != nil {
		return Doc{}, err
	}
	if p.gather(); p.faults != nil {
		p.faults.Sort()
		return Doc{}, p.faults
	}
	p.free = slices.MaxFunc(p.offers, func(a, b *facts) int { return a.free.Compare(b.free) }).free
	if err := p.make(); err != nil {
		return Doc{}, err
	}
	return p.doc(), nil
}

// planning is a plan being made.
type planning struct {
	g      *ledger.Ledger
	q      PlanQuery
	offers []*facts // parallel to q.Offers
	free   time.Time
	plan   pricing.Plan
	rows   []planRow
	faults ledger.Faults
}

// A planRow is a choice as the plan lays it out.
type planRow struct {
	*facts
	pricing.Choice
	electricity exact.Money // priced when its cycles run
}

// cost is what the choice costs as it is laid out.
func (r planRow) cost() exact.Money {
	return r.Row.Cost.Total().Sub(r.Row.Cost.Electricity).Add(r.electricity)
}

// saving is what it saves as it is laid out.
func (r planRow) saving() exact.Ratio { return r.Row.Value.Sub(ratioOf(r.cost())) }

// oneMachine refuses to guess among several machines.
func (p *planning) oneMachine() error {
	if p.q.Common.Machine == "" && len(p.g.Machines) > 1 {
		var names []string
		for i := range p.g.Machines {
			names = append(names, p.g.Machines[i].ID)
		}
		return errorf("machine", "one of: "+strings.Join(names, ", "), "a plan is for one machine, and there are %d", len(names))
	}
	if p.q.Common.Machine == "" && len(p.g.Machines) == 1 {
		p.q.Common.Machine = p.g.Machines[0].ID
	}
	return nil
}

// gather finds the facts of every offer, and all that is wrong or missing.
func (p *planning) gather() {
	for _, o := range p.q.Offers {
		q, err := o.query(p.q.Common)
		if err != nil {
			p.fault(o, err)
			continue
		}
		f, err := p.facts(q)
		if err != nil {
			p.fault(o, err)
			continue
		}
		p.offers = append(p.offers, f)
	}
}

// fault notes what is wrong with an offer.
func (p *planning) fault(o PlanOffer, err error) {
	var missing *MissingError
	if !errors.As(err, &missing) {
		p.faults = append(p.faults, o.fault(p.q.File, err))
		return
	}
	for _, m := range missing.Facts {
		p.faults = append(p.faults, ledger.Fault{File: p.q.File, Line: o.Line, Column: 1,
			What: o.Item + ": " + m.What + " is not known", Hint: "give " + m.Flag + " (also as a column), or record " + m.Record})
	}
}

// facts gathers those of one offer, and checks that it can be decided alone.
func (p *planning) facts(q WorthQuery) (*facts, error) {
	f, err := gather(p.g, q)
	if err != nil {
		return nil, err
	}
	if !f.needCycle() {
		return nil, &MissingError{f.missing}
	}
	if err := f.pay(); err != nil {
		return nil, err
	}
	_, err = f.decide()
	return f, err
}

// farAway stands for a food that never turns.
const farAway = 10 * 366 * 24 * time.Hour

// make finds the plan, and prices its electricity as it is laid out.
func (p *planning) make() error {
	candidates := make([]pricing.Candidate, len(p.offers))
	for i, f := range p.offers {
		due := farAway
		if turns, ok := f.turns(); ok && !f.q.Cycles.Given() {
			due = min(turns.Sub(p.free), farAway)
		}
		candidates[i] = pricing.Candidate{Sale: f.sale, Cycle: f.cycle, Due: due}
	}
	var err error
	if p.plan, err = pricing.MakePlan(candidates, p.q.Common.Turnaround); err != nil {
		return errorf("plan", "leave offers out, or give limits", "%v", p.offers[0].explain(err))
	}
	meter := p.g.Meter()
	for _, c := range p.plan.Choices {
		row := planRow{facts: p.offers[c.Candidate], Choice: c}
		if row.electricity, err = p.price(meter, row); err != nil {
			return err
		}
		p.rows = append(p.rows, row)
	}
	return nil
}

// price prices the electricity of a choice when its cycles run, on a meter that
// has seen the cycles before.
func (p *planning) price(meter *energy.Meter, r planRow) (exact.Money, error) {
	if r.power.tariff == nil || r.sale.Electricity == nil {
		return r.Row.Cost.Electricity, nil
	}
	var sum exact.Money
	for k := range r.Row.Cycles {
		load := r.sale.Load
		if k == r.Row.Cycles-1 {
			load = r.Row.Dried.Sub(r.sale.Load.Mul(whole(k)))
		}
		at := p.free.Add(r.Start + time.Duration(k)*(r.cycle+r.q.Turnaround))
		cost, err := billed(meter, r.power.tariff, r.legs(r.power.kwh(load)), at, p.g.Places())
		if err != nil {
			return sum, errorf("tariff", "name another tariff, or give --rate", "pricing the cycles of %s: %v", r.q.Item, err)
		}
		sum = sum.Add(r.post(cost))
	}
	return sum, nil
}

// saving is what the whole plan saves as it is laid out.
func (p *planning) saving() (sum exact.Ratio) {
	for _, r := range p.rows {
		sum = sum.Add(r.saving())
	}
	return sum
}

func (p *planning) doc() Doc {
	d := newDoc(p.g, "What to buy, and in which order to dry it")
	d.Words = p.words()
	var busy Value
	if p.plan.Busy > 0 {
		busy = SpanOf(p.plan.Busy)
	}
	d.Fields = []Field{
		{"saving", "saving of all", p.guess(MoneyQuotient(p.saving()))},
		{"free", "the machine is free from", MomentOf(p.free)},
		{"busy_hours", "and busy for", busy},
		field("plan", "In this order", p.table()),
		field("left_out", "Not worth buying now", p.leftOut()),
		packingField(p.g, p.needs()),
		{NotesKey, "", List{}},
	}
	for _, f := range p.offers {
		for _, n := range f.notes {
			if !slices.Contains(d.Notes, n) {
				d.Notes = append(d.Notes, n)
			}
		}
	}
	if p.saving().Cmp(p.plan.Saving) != 0 {
		d.Notes = append(d.Notes, "the offers were weighed as if the cycles of each began when the machine is free; costs are those of the times shown")
	}
	reported := func(food int) bool {
		return slices.ContainsFunc(p.rows, func(r planRow) bool { return r.bought == food || r.dried == food })
	}
	d.Notes = append(d.Notes, refuses(p.g, reported)...)
	for food := range p.g.Foods {
		toDry := slices.ContainsFunc(p.rows, func(r planRow) bool { return r.dried == food })
		if toDry || slices.ContainsFunc(p.rows, func(r planRow) bool { return r.bought == food }) {
			d.Notes = append(d.Notes, cautionsOf(p.g, food, toDry)...)
		}
	}
	d.Notes = append(d.Notes, SafetyLine)
	return d
}

// guess marks a figure that comes from an estimate.
func (p *planning) guess(v Value) Value {
	for _, r := range p.rows {
		if r.power.estimated() && r.Row.Cycles > 0 {
			return v.Estimated()
		}
	}
	return v
}

func (p *planning) words() []string {
	if len(p.rows) == 0 {
		return []string{"Buy none of it: no offer saves anything."}
	}
	var words []string
	for _, r := range p.rows {
		s := fmt.Sprintf("%d of %s", r.Row.Packages, r.q.Item)
		if r.Row.Cycles > 0 {
			s += " (" + counted(r.Row.Cycles, "cycle") + ")"
		}
		words = append(words, s)
	}
	return []string{fmt.Sprintf("Buy %s, and dry them in this order. Together that saves %s against the shelf.",
		listed(words), p.offers[0].say().sum(p.guess(MoneyQuotient(p.saving())))) + shortWords(p.g, p.needs())}
}

// needs are what all choices together take to pack.
func (p *planning) needs() (list []supplyNeed) {
	for _, r := range p.rows {
		for _, n := range r.facts.needs(r.Row.Containers) {
			list = addNeed(list, n)
		}
	}
	return list
}

func (p *planning) table() *Table {
	t := &Table{Columns: []Column{
		{Key: "item", Title: "item"}, {Key: "buy", Title: "buy"}, {Key: "unit"},
		{Key: "fresh"}, {Key: "dried"}, {Title: "fresh", Rank: 3}, {Title: "dried", Rank: 1},
		{Key: "cycles", Title: "cycles"}, {Key: "start", Title: "start", Rank: 1}, {Key: "end", Title: "end", Rank: 2},
		{Key: "turns", Title: "turns", Rank: 4}, {Key: "cost", Title: "cost", Rank: 2}, {Key: "value", Title: "value", Rank: 4}, {Key: "saving", Title: "saving"},
	}}
	for _, r := range p.rows {
		start, end, turns := None, None, None
		if r.Row.Cycles > 0 {
			start, end = MomentOf(p.free.Add(r.Start)), MomentOf(p.free.Add(r.End))
		}
		if at, ok := r.turns(); ok {
			turns = MomentOf(at)
		}
		fresh, dried := AmountOf(r.Row.Fresh, r.unit()), AmountOf(r.Row.Dried, r.unit())
		s := r.say()
		t.Rows = append(t.Rows, Row{Cells: []Value{
			itemValue(p.g, r.q.Item), CountOf(r.Row.Packages), UnitOf(r.unit()), fresh, dried,
			TextOf(s.amount(r.Row.Fresh, r.unit())), TextOf(s.amount(r.Row.Dried, r.unit())),
			CountOf(r.Row.Cycles), start, end, turns, r.guess(MoneyOf(r.cost()), r.Row), MoneyQuotient(r.Row.Value), r.guess(MoneyQuotient(r.saving()), r.Row),
		}})
	}
	return t
}

// leftOut lists the offers that the plan does not take, with what each would
// save if it had the machine to itself.
func (p *planning) leftOut() *Table {
	t := &Table{Columns: []Column{{Key: "item", Title: "item"}, {Key: "saving_alone", Title: "it alone would save"}}}
	for i, f := range p.offers {
		if slices.ContainsFunc(p.rows, func(r planRow) bool { return r.Candidate == i }) {
			continue
		}
		alone := None
		if d, err := f.decide(); err == nil {
			alone = f.guess(MoneyQuotient(d.Best.Saving), d.Best)
		}
		t.Rows = append(t.Rows, Row{Cells: []Value{itemValue(p.g, f.q.Item), alone}})
	}
	return t
}
