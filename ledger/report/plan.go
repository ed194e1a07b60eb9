package report

import (
	"errors"
	"fmt"
	"slices"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/pricing/exact"
)

// A PlanQuery is what to buy of several offers, for one machine.
type PlanQuery struct {
	Common WorthQuery // what holds for every offer that does not say otherwise
	File   string     // the offers' file, for faults
	Offers []PlanOffer
}

// Plan lays out which offers to buy, how many packages of each, and in what
// order to dry them; see [figures.Plan]. Errors are [ledger.Faults] in the offers'
// file, or a [*QueryError].
func Plan(g *ledger.Ledger, q PlanQuery) (Doc, error) {
	var faults ledger.Faults
	var queries []figures.WorthQuery
	for _, o := range q.Offers {
		asked, err := o.query(q.Common)
		var typed figures.WorthQuery
		if err == nil {
			typed, err = asked.in(g.Settings.Zone)
		}
		if err != nil {
			faults = append(faults, o.fault(q.File, err))
		}
		queries = append(queries, typed)
	}
	if faults != nil {
		faults.Sort()
		return Doc{}, faults
	}
	p, err := figures.Plan(g, queries)
	var offers figures.OfferErrors
	switch {
	case errors.As(err, &offers):
		for i, err := range offers {
			faults = append(faults, q.Offers[i].faults(q.File, factWords(g, &queries[i], err))...)
		}
		faults.Sort()
		return Doc{}, faults
	case err != nil:
		return Doc{}, factWords(g, &queries[0], err)
	}
	return (&planning{reportingOn(g), p}).doc(), nil
}

// PlanOf is [Plan] of offers that are not of a file. Its error is that of the first
// offer that has one: as of [Worth].
func PlanOf(g *ledger.Ledger, offers []WorthQuery) (Doc, error) {
	var queries []figures.WorthQuery
	for _, o := range offers {
		q, err := o.in(g.Settings.Zone)
		if err != nil {
			return Doc{}, err
		}
		queries = append(queries, q)
	}
	p, err := figures.Plan(g, queries)
	var wrong figures.OfferErrors
	if errors.As(err, &wrong) {
		for i := range queries {
			if wrong[i] != nil {
				return Doc{}, ofOffer(queries[i].Item, factWords(g, &queries[i], wrong[i]))
			}
		}
	}
	if err != nil {
		return Doc{}, factWords(g, &queries[0], err)
	}
	return (&planning{reportingOn(g), p}).doc(), nil
}

// ofOffer names the food of an offer, among several, in what its answer lacks.
func ofOffer(item string, err error) error {
	if missing := (*MissingError)(nil); errors.As(err, &missing) {
		for i := range missing.Facts {
			missing.Facts[i].What = item + ": " + missing.Facts[i].What
		}
	}
	return err
}

// planning is a plan being laid out.
type planning struct {
	reporting
	*figures.PlanResult
}

func (p *planning) doc() Doc {
	d := newDoc(p.g, "What to buy, and in which order to dry it")
	d.Words = p.words()
	var busy Value
	if p.Busy > 0 {
		busy = SpanOf(p.Busy)
	}
	d.Fields = []Field{
		{"saving", "saving of all", p.guess(MoneyQuotient(p.Saving))},
		{"free", "the machine is free from", MomentOf(p.Free)},
		{"busy_hours", "and busy for", busy},
		field("plan", "In this order", p.table()),
		field("left_out", "Not worth buying now", p.leftOut()),
		packingField(p.g, p.Needs),
		{NotesKey, "", List{}},
	}
	d.Notes = p.notes()
	return d
}

func (p *planning) notes() []string {
	var notes doubts
	for _, f := range p.Offers {
		notes.add(notesOn(p.reporting, f)...)
	}
	if p.Moved {
		notes.add("the offers were weighed as if the runs of each began when the machine is free; costs are those of the times shown")
	}
	bought := func(food int) bool {
		return slices.ContainsFunc(p.Rows, func(r figures.PlanRow) bool { return r.Bought == food })
	}
	dried := func(food int) bool {
		return slices.ContainsFunc(p.Rows, func(r figures.PlanRow) bool { return r.Dried == food })
	}
	all := append(notes, refuses(p.g, func(food int) bool { return bought(food) || dried(food) })...)
	for food := range p.g.Foods {
		if bought(food) || dried(food) {
			all = append(all, cautionsOf(p.g, food, dried(food))...)
		}
	}
	return append(all, SafetyLine)
}

// guess marks a figure that comes from an estimate.
func (p *planning) guess(v Value) Value {
	if slices.ContainsFunc(p.Rows, func(r figures.PlanRow) bool { return r.Guessed(r.Row) }) {
		return v.Estimated()
	}
	return v
}

func (p *planning) words() []string {
	if len(p.Rows) == 0 {
		return []string{"Buy none of it: no offer saves anything."}
	}
	var words []string
	for _, r := range p.Rows {
		s := fmt.Sprintf("%d of %s", r.Row.Packages, p.g.Foods[r.Bought].ID)
		if r.Row.Cycles > 0 {
			s += " (" + counted(r.Row.Cycles, "run") + ")"
		}
		words = append(words, s)
	}
	return []string{fmt.Sprintf("Buy %s, and dry them in this order. Together that saves %s against the shelf.",
		listed(words), p.sum(p.guess(MoneyQuotient(p.Saving)))) + p.shortWords(p.Needs)}
}

func (p *planning) table() *Table {
	t := &Table{Columns: []Column{
		{Key: "item", Title: "food"}, {Key: "buy", Title: "buy"}, {Key: "unit"},
		{Key: "fresh"}, {Key: "dried"}, {Title: "fresh", Rank: 3}, {Title: "dried", Rank: 1},
		{Key: "cycles", Title: "runs"}, {Key: "start", Title: "start", Rank: 1}, {Key: "end", Title: "end", Rank: 2},
		{Key: "turns", Title: "turns", Rank: 4}, {Key: "cost", Title: "cost", Rank: 2}, {Key: "value", Title: "value", Rank: 4}, {Key: "saving", Title: "saving"},
	}}
	for _, r := range p.Rows {
		start, end, turns := None, None, None
		if r.Row.Cycles > 0 {
			start, end = MomentOf(r.Start), MomentOf(r.End)
		}
		if at, ok := r.Freshness.Turns.Get(); ok {
			turns = MomentOf(at)
		}
		unit, amount := p.g.Foods[r.Dried].Basis, func(n exact.Number) Value { return TextOf(p.amount(n, p.g.Foods[r.Dried].Basis)) }
		guess := func(v Value) Value { return guess(r.Facts, v, r.Row) }
		t.Rows = append(t.Rows, Row{Cells: []Value{
			foodValue(&p.g.Foods[r.Bought]), CountOf(r.Row.Packages), UnitOf(unit), AmountOf(r.Row.Fresh, unit), AmountOf(r.Row.Dried, unit),
			amount(r.Row.Fresh), amount(r.Row.Dried),
			CountOf(r.Row.Cycles), start, end, turns, guess(MoneyOf(r.Cost)), MoneyQuotient(r.Row.Value), guess(MoneyQuotient(r.Saving)),
		}})
	}
	return t
}

// leftOut lists the offers that the plan does not take, with what each would
// save if it had the machine to itself.
func (p *planning) leftOut() *Table {
	t := &Table{Columns: []Column{{Key: "item", Title: "food"}, {Key: "saving_alone", Title: "it alone would save"}}}
	for _, l := range p.Left {
		t.Rows = append(t.Rows, Row{Cells: []Value{foodValue(&p.g.Foods[l.Bought]), guess(l.Facts, MoneyQuotient(l.Alone.Saving), l.Alone)}})
	}
	return t
}
