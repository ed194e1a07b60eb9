package report

import (
	"slices"

	"putby/energy"
	"putby/ledger"
	"putby/ledger/figures"
	"putby/pricing/exact"
)

// When lays out when it costs least to start a cycle of a food; see
// [figures.When], whose errors it returns.
func When(g *ledger.Ledger, q figures.WhenQuery) (Doc, error) {
	return laid(g, q, figures.When, func(g *ledger.Ledger, q figures.WhenQuery, r *figures.WhenResult) Doc {
		d := (&whenAnswer{reportingOn(g), q, r}).doc()
		if n, ok := figures.LosesOnItsOwn(g, q, r.Food).Get(); ok {
			d.Words = slices.Insert(d.Words, 0, reportingOn(g).losing(&n))
		}
		return d
	})
}

// A whenAnswer is when to start, being laid out.
type whenAnswer struct {
	reporting
	q figures.WhenQuery
	*figures.WhenResult
}

// food is the food that is dried.
func (w *whenAnswer) food() *ledger.Food { return &w.g.Foods[w.Food] }

func (w *whenAnswer) doc() Doc {
	d := newDoc(w.g, "When to start a run of "+w.food().Title())
	d.Words = w.words()
	d.Fields = []Field{
		{Key: "item", Node: foodValue(w.food())},
		{Key: "tariff", Node: TextOf(w.Tariff.Name())},
		{Key: "from", Node: MomentOf(w.From)},
		{Key: "to", Node: MomentOf(w.To)},
		{Key: "use_by", Node: DateOf(w.UseBy)},
		{Key: "in_time", Node: w.inTime()},
		field("rows", "The cheapest start of each day, cheapest first", w.table()),
		{Key: "now", Node: w.startObject(w.Now)},
		{Key: "best", Node: w.bestObject()},
		{Key: "cycle", Title: "A usual run", Node: w.cycleObject()},
		field("phases", titleOf(len(w.Cycle.Phases), "Its phases"), w.phasesTable()),
	}
	if end, hourly := w.pricesEnd(); hourly {
		d.Fields = slices.Insert(d.Fields, 4, Field{Key: "prices_known_until", Node: MomentOf(end)})
	}
	d.Notes, d.Cautions = w.remarks(), careOf(w.g, w.Food, w.Food)
	return d
}

// guess marks what rests on an estimate of the cycle's electricity.
func (w *whenAnswer) guess(v Value) Value { return v.estimatedIf(w.Cycle.Energy.Estimated()) }

// guessCost marks what a start costs, or saves, where that rests on an estimate
// of the cycle's electricity or of an hour's price.
func (w *whenAnswer) guessCost(m exact.Money, of ...energy.Start) Value {
	return w.guess(MoneyOf(m)).estimatedIf(w.guessed(of...))
}

func (w *whenAnswer) table() *Table {
	t := &Table{Columns: []Column{
		{Title: "day"}, {Key: "start", Title: "start"}, {Title: "until", Rank: 2}, {Key: "finish", Title: "finish"},
		{Key: "cost", Title: "cost", Bar: true}, {Key: "saving", Title: "saving against now"},
	}, Empty: w.noStart()}
	for _, s := range w.Best {
		t.add(TextOf(s.At.Format("Mon")), MomentOf(s.At), TextOf(s.Finish.Format("Mon")), MomentOf(s.Finish),
			w.guessCost(s.Cost, s.Start), w.guessCost(s.Saving, s.Start, w.Now))
	}
	return w.withPrices(t)
}

// inTime tells machines whether the starts are in time for the food in hand;
// null where none is known to turn.
func (w *whenAnswer) inTime() Value {
	return onlyIf(w.UseBy != exact.NoDate, YesNoOf(!w.Late))
}

// startObject is one start, for machines.
func (w *whenAnswer) startObject(s energy.Start) Object {
	return Object{
		{Key: "start", Node: MomentOf(s.At)}, {Key: "finish", Node: MomentOf(s.Finish)}, {Key: "cost", Node: MoneyOf(s.Cost)},
	}
}

func (w *whenAnswer) bestObject() Object {
	if len(w.Best) == 0 {
		return Object{{Key: "start", Node: None}, {Key: "finish", Node: None}, {Key: "cost", Node: None}, {Key: "saving", Node: None}}
	}
	return append(w.startObject(w.Best[0].Start), Field{Key: "saving", Node: MoneyOf(w.Best[0].Saving)})
}

// cycleObject says what a cycle is taken to be, and from what.
func (w *whenAnswer) cycleObject() Object {
	machine := None
	if w.Cycle.Dryer.Machine >= 0 {
		machine = nameValue(w.g.Machines[w.Cycle.Dryer.Machine].ID, w.g.Machines[w.Cycle.Dryer.Machine].Name)
	}
	low, high, spread := None, None, 0
	if w.Cycle.Energy.Spread() { // one run tells no bounds
		spread = 1
	}
	if w.Cycle.Energy.Estimated() {
		low, high = PlainOf(w.Cycle.Energy.Low(w.Cycle.Load)).Estimated(), PlainOf(w.Cycle.Energy.High(w.Cycle.Load)).Estimated()
	}
	return Object{
		{Key: "machine", Title: "machine", Node: machine},
		{Key: "hours", Title: "takes", Node: SpanOf(w.Cycle.Length.Time)},
		{Key: "kwh", Title: "kWh", Node: w.guess(PlainOf(w.Cycle.KWh))},
		{Key: "low", Title: titleOf(spread, "kWh at least, 9 in 10"), Node: low},
		{Key: "high", Title: titleOf(spread, "kWh at most, 9 in 10"), Node: high},
		{Key: "basis", Title: "known by", Node: basisValue(w.Cycle.Energy.Basis)},
		{Key: "runs", Title: "runs", Node: CountOf(w.Cycle.Energy.Runs)},
	}
}

func (w *whenAnswer) phasesTable() *Table {
	t := &Table{Columns: []Column{
		{Key: "phase", Title: "phase"}, {Key: "hours", Title: "takes"}, {Key: "kwh", Title: "kWh"}, {Key: "watts", Title: "mean W", Rank: 1},
	}}
	for i, leg := range w.Cycle.Legs() {
		if len(w.Cycle.Phases) == 0 {
			break
		}
		watts := optional(leg.Watts(), func(r exact.Ratio) Value { return w.guess(QuotientOf(r, 0)) })
		t.add(TextOf(w.Cycle.Phases[i].Name.String()), SpanOf(leg.Length), w.guess(QuotientOf(leg.Energy, energy.KWhPlaces)), watts)
	}
	return t
}
