package report

import (
	"fmt"
	"slices"
	"time"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/pricing/exact"
)

// Plan lays out which offers to buy, how many packages of each, and in what
// order to dry them, with a budget for the food of all; see [figures.Plan], whose
// errors it returns.
func Plan(g *ledger.Ledger, offers []figures.WorthQuery, budget exact.Opt[exact.Money], names Names) (Doc, error) {
	p, err := figures.Plan(g, offers, budget)
	if err != nil {
		return Doc{}, err
	}
	return (&planning{reportingOn(g), p, names}).doc(), nil
}

// planning is a plan being laid out.
type planning struct {
	reporting
	*figures.PlanResult
	names Names
}

func (p *planning) doc() Doc {
	d := newDoc(p.g, "What to buy, and in which order to dry it")
	d.Words = p.words()
	d.Fields = []Field{
		{"saving", "saving of all", p.guess(MoneyQuotient(p.Saving))},
		{"paid", "the food costs", MoneyOf(p.Paid)},
		{"budget", titleIf(p.Budget.Given(), "of a budget of"), optional(p.Budget, MoneyOf)},
		{"free", "", MomentOf(p.Free)},
		{"", "the machine is free from", p.about(p.Free)},
		{"busy_hours", "", onlyIf(p.Busy > 0, SpanOf(p.Busy))},
		{"", titleIf(p.Busy > 0, "and busy for"), SpanOf(p.Busy.Round(time.Minute)).estimatedIf(p.lengthsGuessed(p.Order))},
		{"freezer_free", titleIf(p.Freezer.Holds.Given(), "room in the freezer, litres"), p.room(p.Freezer.Free())},
		{"freezer_taken", titleIf(p.Frozen.Sign() > 0, "of which the plan takes, litres"), p.room(p.Frozen)},
		{"missed_at_most", titleIf(p.Short.Sign() > 0, "a better plan may save, at most, more"), MoneyQuotient(p.Short)},
		field("plan", titleOf(len(p.Rows), "What to buy"), p.table()),
		field("order", titleOf(len(p.Order), "The order to dry in"), p.order()),
		field("left_out", titleOf(len(p.Left), "Left out of this plan"), p.leftOut()),
		packingField(p.g, p.Needs),
		{NotesKey, "", List{}},
	}
	d.Notes, d.Cautions = p.notes()
	return d
}

// room is litres of the freezer, where it is known what it holds.
func (p *planning) room(litres exact.Number) Value {
	return onlyIf(p.Freezer.Holds.Given(), PlainOf(litres))
}

func (p *planning) notes() (notes noteList, care []Remark) {
	notes = notesOnAll(p.reporting, p.Offers, p.names)
	if i := slices.IndexFunc(p.Order, func(s figures.PlanStretch) bool { return s.PricesGuessed }); i >= 0 {
		notes.add(hourlyRemark(p.g, p.Order[i].Price.Tariff.Name(), p.Free))
	}
	notes.add(p.freezerNotes()...)
	if p.Moved {
		notes.add("the offers were weighed as if the runs of each began when the machine is free; costs are those of the times shown")
	}
	bought := func(food int) bool {
		return slices.ContainsFunc(p.Rows, func(r figures.PlanRow) bool { return r.Bought == food })
	}
	dried := func(food int) bool {
		return slices.ContainsFunc(p.Rows, func(r figures.PlanRow) bool { return r.Dried == food })
	}
	all := func(food int) bool { return bought(food) || dried(food) }
	return append(notes, refuses(p.g, all)...), careOfAll(p.g, all, dried)
}

// freezerNotes say what is not frozen, and why.
func (p *planning) freezerNotes() (notes []string) {
	for _, i := range p.Roomy {
		food := &p.g.Foods[p.Offers[i].Dried]
		_, lacks := food.Litres()
		notes = append(notes, fmt.Sprintf("%s is not frozen: it has no %s, which would tell how much room it takes in the freezer", food.Title(), lacks))
	}
	for _, i := range p.Freezer.Untold {
		food := &p.g.Foods[i]
		_, lacks := food.Litres()
		notes = append(notes, fmt.Sprintf("the %s in the freezer is taken to need no room: it has no %s", food.Title(), lacks))
	}
	if p.Frozen.Sign() > 0 {
		notes = append(notes, "what is frozen is taken to be frozen on the day of purchase, and to stay in the freezer until its run begins; the electricity of the freezer is not counted")
	}
	return notes
}

// guess marks a figure that comes from an estimate.
func (p *planning) guess(v Value) Value {
	return v.estimatedIf(slices.ContainsFunc(p.Rows, func(r figures.PlanRow) bool { return r.Estimated }))
}

func (p *planning) words() []string {
	if len(p.Rows) == 0 {
		return []string{"Buy none of it: no offer saves anything."}
	}
	var words, freeze []string
	for _, r := range p.Rows {
		s := p.packages(&r)
		if r.Row.Cycles > 0 {
			s += " (" + counted(r.Row.Cycles, "run") + ")"
		}
		words = append(words, s)
		if r.Frozen.Sign() > 0 {
			food := &p.g.Foods[r.Dried]
			freeze = append(freeze, p.amount(r.Frozen, food.Basis)+" of "+food.Title())
		}
	}
	said := fmt.Sprintf("Buy %s%s. Together that saves %s against the shelf.", Listed(words), p.drying(), p.sum(p.guess(MoneyQuotient(p.Saving))))
	if len(p.Rows) == 1 {
		r := p.Rows[0]
		said = fmt.Sprintf("Buy %s%s. That saves %s against the shelf.", p.packages(&r), p.drying(), p.sum(p.guess(MoneyQuotient(p.Saving))))
	}
	if freeze != nil {
		said += " Freeze " + Listed(freeze) + " at once: it waits in the freezer until the machine can take it."
	}
	if p.Short.Sign() > 0 {
		said += " There were too many ways to try them all: a better one may save up to " + p.money(p.Short) + " more."
	}
	return []string{said + p.shortWords(p.Needs)}
}

// packages says how many to buy of what size, and of which food: five dozen eggs
// are not five eggs.
func (p *planning) packages(r *figures.PlanRow) string {
	return fmt.Sprintf("%d × %s of %s", r.Row.Packages, p.quantity(r.Query.Size), p.title(r.Bought))
}

// drying says how to dry what is bought: one food by its runs, several in their
// order, none not at all.
func (p *planning) drying() string {
	dried := slices.DeleteFunc(slices.Clone(p.Rows), func(r figures.PlanRow) bool { return r.Row.Cycles == 0 })
	switch {
	case len(dried) == 0:
		return ""
	case len(p.Rows) == 1:
		return " and dry them in " + counted(dried[0].Row.Cycles, "run")
	case len(dried) == 1:
		return ", and dry the " + p.title(dried[0].Bought)
	}
	return ", and dry them in this order"
}

func (p *planning) table() *Table {
	t := &Table{Columns: []Column{
		{Key: "item", Title: "food"}, {Key: "buy", Title: "buy"}, {Title: "package", Rank: 1}, {Key: "unit"},
		{Key: "fresh"}, {Key: "dried"}, {Key: "frozen"}, {Title: "fresh", Rank: 3}, {Title: "dried", Rank: 1},
		{Key: "cycles", Title: "runs"}, {Key: "start"}, {Key: "end"},
		{Key: "turns"}, {Title: "turns", Rank: 4}, {Key: "cost", Title: "cost", Rank: 2}, {Key: "value", Title: "value", Rank: 4}, {Key: "saving", Title: "saving"},
	}}
	for _, r := range p.Rows {
		dries := r.Row.Cycles > 0
		unit, amount := p.g.Foods[r.Dried].Basis, func(n exact.Number) Value { return TextOf(p.amount(n, p.g.Foods[r.Dried].Basis)) }
		t.add(foodValue(&p.g.Foods[r.Bought]), CountOf(r.Row.Packages), TextOf(p.quantity(r.Query.Size)), UnitOf(unit), AmountOf(r.Row.Fresh, unit), AmountOf(r.Row.Dried, unit), AmountOf(r.Frozen, unit),
			amount(r.Row.Fresh), amount(r.Row.Dried),
			CountOf(r.Row.Cycles), onlyIf(dries, MomentOf(r.Start)), onlyIf(dries, MomentOf(r.End)), optional(r.Freshness.Turns, MomentOf), optional(r.Freshness.Turns, toMinute), MoneyOf(r.Cost).estimatedIf(r.Estimated), MoneyQuotient(r.Row.Value), MoneyQuotient(r.Saving).estimatedIf(r.Estimated))
	}
	return t
}

// toMinute is a time as people go by it.
func toMinute(t time.Time) Value { return MomentOf(t.Round(time.Minute)) }

// about is a time from when the machine is free on: an estimate where food in hand
// goes first, as long as a run of it usually takes.
func (p *planning) about(t time.Time) Value {
	return toMinute(t).estimatedIf(slices.ContainsFunc(p.Offers, func(f *figures.Facts) bool { return !f.Queue.Asked && len(f.Queue.First) > 0 }))
}

// lengthsGuessed reports whether a stretch is as long as such runs usually are, and
// not as was given.
func (p *planning) lengthsGuessed(stretches []figures.PlanStretch) bool {
	return slices.ContainsFunc(stretches, func(s figures.PlanStretch) bool { return !s.Query.CycleTime.Given() })
}

// order lists what the machine dries, one food after the other.
func (p *planning) order() *Table {
	t := &Table{Columns: []Column{
		{Key: "item", Title: "food"}, {Key: "unit"}, {Key: "amount"}, {Title: "amount"}, {Key: "cycles", Title: "runs"},
		{Key: "from", Title: "from", Rank: 2}, {Key: "start"}, {Key: "end"}, {Key: "turns"}, {Title: "start"}, {Title: "end"}, {Title: "turns", Rank: 1},
	}}
	for i, s := range p.Order {
		unit, from := p.g.Foods[s.Dried].Basis, "fresh"
		if s.Frozen {
			from = "freezer"
		}
		t.add(foodValue(&p.g.Foods[s.Bought]), UnitOf(unit), AmountOf(s.Amount, unit), TextOf(p.amount(s.Amount, unit)), CountOf(s.Cycles),
			TextOf(from), MomentOf(s.Start), MomentOf(s.End), optional(s.By, MomentOf),
			p.about(s.Start).estimatedIf(p.lengthsGuessed(p.Order[:i])), p.about(s.End).estimatedIf(p.lengthsGuessed(p.Order[:i+1])), optional(s.By, toMinute))
	}
	return t
}

// leftOut lists the offers that the plan does not take, with what each would
// save if it had the machine and the freezer to itself.
func (p *planning) leftOut() *Table {
	t := &Table{Columns: []Column{{Key: "item", Title: "food"}, {Key: "saving_alone", Title: "it alone would save"}, {Title: "why", Wrap: true}}}
	for _, l := range p.Left {
		t.add(foodValue(&p.g.Foods[l.Bought]), guess(l.Facts, MoneyQuotient(l.Alone.Saving), l.Alone), TextOf(p.why(l)))
	}
	return t
}

// why says why the plan does not take an offer.
func (p *planning) why(l figures.PlanLeft) string {
	if l.Alone.Saving.Sign() <= 0 {
		if l.Most == 0 {
			return noRoom(l.Limits, "")
		}
		return "no number of packages saves anything"
	}
	shared := []string{"one machine"}
	if l.Frozen {
		shared = append(shared, "the room in the freezer")
	}
	if p.Budget.Given() {
		shared = append(shared, "the budget")
	}
	if p.Short.Sign() > 0 {
		return "no plan with it was found to save more: the offers share " + Listed(shared)
	}
	return "no plan with it saves more: the offers share " + Listed(shared)
}
