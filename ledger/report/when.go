package report

import (
	"cmp"
	"errors"
	"slices"
	"time"

	"putby/energy"
	"putby/ledger"
	"putby/pricing/exact"
)

// When reports when it costs least to start a cycle of a food: the cheapest
// start of each day, the cheapest of all first, beside what starting at once
// costs. A cycle is as this household's usually are, as for [Worth]; what
// the month has used counts for the prices of blocks. Every start on a step is
// priced. The ledger must be joined
// through the day asked about. Errors are a [*QueryError] and a [*MissingError].
func When(g *ledger.Ledger, q WhenQuery) (Doc, error) {
	f, err := whenFactsOf(g, q)
	if err != nil {
		return Doc{}, err
	}
	w := &whenAnswer{whenFacts: f}
	if err := w.find(); err != nil {
		return Doc{}, err
	}
	return w.doc(), nil
}

// A whenAnswer is when to start.
type whenAnswer struct {
	*whenFacts
	now  energy.Start
	best []bestStart // of each day that has a start, cheapest first; of equal ones the earlier
}

// A bestStart is the cheapest start of a day.
type bestStart struct {
	energy.Start
	saving exact.Money // against starting at once; negative: it costs more
}

// find searches day by day, as long as the food in hand is good, and further
// only where no start is in time for it.
func (w *whenAnswer) find() error {
	var err error
	if w.now, err = w.search(w.from, w.to).Price(w.from); err != nil {
		return w.explainPrice(err)
	}
	if err := w.findUntil(w.lastInTime()); err != nil || len(w.best) > 0 || w.useBy == exact.NoDate {
		return err
	}
	w.late = true
	return w.findUntil(w.to)
}

// findUntil searches until an end.
func (w *whenAnswer) findUntil(until time.Time) error {
	for _, day := range w.days(until) {
		best, found, err := w.search(day[0], day[1]).Cheapest()
		if err != nil {
			return w.explainPrice(err)
		}
		if found {
			w.best = append(w.best, bestStart{best, w.now.Cost.Sub(best.Cost)})
		}
	}
	slices.SortStableFunc(w.best, func(a, b bestStart) int {
		return cmp.Or(a.Cost.Cmp(b.Cost), a.At.Compare(b.At))
	})
	return nil
}

// explainPrice says what a search that failed asks for.
func (w *whenAnswer) explainPrice(err error) error {
	if none := (*energy.NoPriceError)(nil); errors.As(err, &none) {
		return errorf("tariff", w.g.PricesWanted(none.Tariff), "%v, nor had that hour of the week one in the 8 weeks before", err)
	}
	if gap := (*energy.GapError)(nil); errors.As(err, &gap) {
		return errorf("tariff", "add a band for it, or name another tariff; putby tariff check "+gap.Tariff+" draws its week", "%v", err)
	}
	return errorf("days", "", "%v", err)
}

func (w *whenAnswer) doc() Doc {
	d := newDoc(w.g, "When to start a cycle of "+w.food().Title())
	d.Words = w.words()
	d.Fields = []Field{
		{Key: "item", Node: foodValue(w.food())},
		{Key: "tariff", Node: TextOf(w.tariff.Name())},
		{Key: "from", Node: MomentOf(w.from)},
		{Key: "to", Node: MomentOf(w.to)},
		{Key: "use_by", Node: DateOf(w.useBy)},
		{Key: "in_time", Node: w.inTime()},
		field("rows", "The cheapest start of each day, cheapest first", w.table()),
		{Key: "now", Node: w.startObject(w.now)},
		{Key: "best", Node: w.bestObject()},
		{Key: "cycle", Title: "A usual cycle", Node: w.cycleObject()},
		field("phases", titleOf(len(w.phases), "Its phases"), w.phasesTable()),
	}
	if end, hourly := w.pricesEnd(); hourly {
		d.Fields = slices.Insert(d.Fields, 4, Field{Key: "prices_known_until", Node: MomentOf(end)})
	}
	d.Notes = append(w.remarks(), careOf(w.g, w.dried, w.dried)...)
	return d
}

// guess marks what rests on an estimate of the cycle's electricity.
func (w *whenAnswer) guess(v Value) Value {
	if w.energy.Estimated() {
		return v.Estimated()
	}
	return v
}

// guessCost marks what a start costs, or saves, where that rests on an estimate
// of the cycle's electricity or of an hour's price.
func (w *whenAnswer) guessCost(m exact.Money, of ...energy.Start) Value {
	if w.guessed(of...) {
		return MoneyOf(m).Estimated()
	}
	return w.guess(MoneyOf(m))
}

func (w *whenAnswer) table() *Table {
	t := &Table{Columns: []Column{
		{Title: "day"}, {Key: "start", Title: "start"}, {Title: "until", Rank: 2}, {Key: "finish", Title: "finish"},
		{Key: "cost", Title: "cost", Bar: true}, {Key: "saving", Title: "saving against now"},
	}, Empty: w.noStart()}
	for _, s := range w.best {
		t.Rows = append(t.Rows, Row{Cells: []Value{
			TextOf(s.At.Format("Mon")), MomentOf(s.At), TextOf(s.Finish.Format("Mon")), MomentOf(s.Finish),
			w.guessCost(s.Cost, s.Start), w.guessCost(s.saving, s.Start, w.now),
		}})
	}
	return w.withPrices(t)
}

// inTime tells machines whether the starts are in time for the food in hand;
// null where none is known to turn.
func (w *whenAnswer) inTime() Value {
	if w.useBy == exact.NoDate {
		return None
	}
	return YesNoOf(!w.late)
}

// startObject is one start, for machines.
func (w *whenAnswer) startObject(s energy.Start) Object {
	return Object{
		{Key: "start", Node: MomentOf(s.At)}, {Key: "finish", Node: MomentOf(s.Finish)}, {Key: "cost", Node: MoneyOf(s.Cost)},
	}
}

func (w *whenAnswer) bestObject() Object {
	if len(w.best) == 0 {
		return Object{{Key: "start", Node: None}, {Key: "finish", Node: None}, {Key: "cost", Node: None}, {Key: "saving", Node: None}}
	}
	return append(w.startObject(w.best[0].Start), Field{Key: "saving", Node: MoneyOf(w.best[0].saving)})
}

// cycleObject says what a cycle is taken to be, and from what.
func (w *whenAnswer) cycleObject() Object {
	machine := None
	if w.dryer.Machine >= 0 {
		machine = nameValue(w.g.Machines[w.dryer.Machine].ID, w.g.Machines[w.dryer.Machine].Name)
	}
	low, high, spread := None, None, 0
	if w.energy.Spread() { // one run tells no bounds
		spread = 1
	}
	if w.energy.Estimated() {
		low, high = PlainOf(w.energy.Low(w.load)).Estimated(), PlainOf(w.energy.High(w.load)).Estimated()
	}
	return Object{
		{Key: "machine", Title: "machine", Node: machine},
		{Key: "hours", Title: "takes", Node: SpanOf(w.cycle)},
		{Key: "kwh", Title: "kWh", Node: w.guess(PlainOf(w.kwh))},
		{Key: "low", Title: titleOf(spread, "kWh at least, 9 in 10"), Node: low},
		{Key: "high", Title: titleOf(spread, "kWh at most, 9 in 10"), Node: high},
		{Key: "basis", Title: "known by", Node: basisValue(w.energy.Basis)},
		{Key: "runs", Title: "runs", Node: CountOf(w.energy.Runs)},
	}
}

func (w *whenAnswer) phasesTable() *Table {
	t := &Table{Columns: []Column{
		{Key: "phase", Title: "phase"}, {Key: "hours", Title: "takes"}, {Key: "kwh", Title: "kWh"}, {Key: "watts", Title: "mean W", Rank: 1},
	}}
	for i, leg := range w.legs() {
		if len(w.phases) == 0 {
			break
		}
		watts := None
		if leg.Length > 0 {
			watts = w.guess(QuotientOf(leg.Energy.Mul(exact.Int(3_600_000).Over(exact.Int(int64(leg.Length/time.Second)))), 0))
		}
		t.Rows = append(t.Rows, Row{Cells: []Value{
			TextOf(w.phases[i].Name.String()), SpanOf(leg.Length), w.guess(QuotientOf(leg.Energy, energy.KWhPlaces)), watts,
		}})
	}
	return t
}
