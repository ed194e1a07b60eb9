package energy

import (
	"time"

	"putby/pricing/exact"
)

// A Meter is a household's electricity meter. It knows how much of each
// calendar month was used before, which the prices of blocks depend on. Runs
// must be billed in order of start. A Meter is not safe for concurrent use.
type Meter struct {
	household [12]exact.Number
	used      map[monthKey]exact.Ratio // by runs, without the household's other use
	pending   []use                    // by runs too, not yet added to used
	walkers   map[*Tariff]*walker
	parts     []stretch // kept for its memory
}

// A use is energy of a calendar month.
type use struct {
	month monthKey
	kwh   exact.Ratio
}

// NewMeter returns a meter of a household whose other use is so many kWh in
// each calendar month, January first.
func NewMeter(household [12]exact.Number) *Meter {
	return &Meter{
		household: household,
		used:      map[monthKey]exact.Ratio{},
		walkers:   map[*Tariff]*walker{},
	}
}

// Bill returns what each span costs under t, rounded once, half to even, at
// places: the exact sum over its pieces of energy x rate x (1 + tax/100). It
// adds the energy to the use of the local months it falls in. A *GapError says
// where no band holds; the meter is then as before.
func (m *Meter) Bill(t *Tariff, spans []Span, places int) ([]exact.Money, error) {
	b := m.begin(t)
	costs := make([]exact.Money, len(spans))
	for i, s := range spans {
		cost, err := b.cost(s)
		if err != nil {
			b.undo()
			return nil, err
		}
		costs[i] = posted(cost, places)
	}
	return costs, nil
}

// posted rounds a cost as the ledger posts it.
func posted(cost exact.Ratio, places int) exact.Money {
	return exact.MoneyOf(cost.Round(places, exact.HalfEven))
}

// A biller bills one run under one tariff.
type biller struct {
	m       *Meter
	t       *Tariff
	w       *walker
	pending int                      // how much of the meter's pending was there before
	now     map[monthKey]exact.Ratio // use of the months touched, household included; blocks only
}

func (m *Meter) begin(t *Tariff) *biller {
	w := m.walkers[t]
	if w == nil {
		w = newWalker(t)
		m.walkers[t] = w
	}
	if t.blocks {
		m.fold()
	}
	return &biller{m: m, t: t, w: w, pending: len(m.pending)}
}

// fold adds what is pending to what was used. Most ledgers have no blocks, and
// then never pay for these sums.
func (m *Meter) fold() {
	for _, u := range m.pending {
		m.used[u.month] = m.used[u.month].Add(u.kwh)
	}
	m.pending = m.pending[:0]
}

// undo forgets what the run has added.
func (b *biller) undo() { b.m.pending = b.m.pending[:b.pending] }

// cost returns what a span costs, unrounded, and adds its energy.
func (b *biller) cost(s Span) (exact.Ratio, error) {
	b.m.parts = b.w.cut(b.m.parts[:0], s)
	if b.t.blocks || s.Curve != nil {
		pieces, err := b.pieces(s, b.m.parts)
		var sum exact.Ratio
		for _, p := range pieces {
			sum = sum.Add(p.cost)
		}
		return sum, err
	}
	return b.evenCost(s, b.m.parts)
}

// evenCost is the fast path: even power and no blocks. The parts are weighted
// as whole numbers of seconds, and the energy is touched once.
func (b *biller) evenCost(s Span, parts []stretch) (exact.Ratio, error) {
	unit := time.Second
	for _, p := range parts {
		if len(p.seg.steps) == 0 {
			return exact.Ratio{}, b.gap(s, p)
		}
		if p.to%time.Second != 0 {
			unit = time.Nanosecond
		}
	}
	b.addEven(s, parts)
	if len(parts) == 1 {
		return s.Energy.Times(b.t.prices[parts[0].seg.steps[0].band]), nil
	}
	var sum exact.Number
	for _, p := range parts {
		length := exact.Int(int64((p.to - p.from) / unit))
		sum = sum.Add(b.t.prices[p.seg.steps[0].band].Mul(length))
	}
	return s.Energy.Mul(sum.Over(exact.Int(int64(s.Length / unit)))), nil
}

// addEven adds the energy of a span of even power to its months.
func (b *biller) addEven(s Span, parts []stretch) {
	if month := parts[0].month; month == parts[len(parts)-1].month {
		b.m.pending = append(b.m.pending, use{month, s.Energy})
		return
	}
	for i, kwh := range s.shares(parts) {
		b.m.pending = append(b.m.pending, use{parts[i].month, kwh})
	}
}

// gap returns the error of a part for which no band holds.
func (b *biller) gap(s Span, p stretch) error {
	err := &GapError{Tariff: b.t.name, At: s.Start.Add(p.from).In(b.t.zone)}
	if len(p.seg.steps) > 0 {
		err.Above = exact.Some(p.seg.steps[0].above)
	}
	return err
}
