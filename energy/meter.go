package energy

import (
	"maps"
	"slices"
	"time"

	"putby/pricing/exact"
)

// A Meter is a household's electricity meter. It knows how much of each
// calendar month was used before, which the prices of blocks depend on. Runs
// must be billed in order of start. A Meter is not safe for concurrent use.
type Meter struct {
	household [12]exact.Number         // kWh of other use in a calendar month, January first; 0: none
	used      map[monthKey]exact.Ratio // kWh by runs, without the household's other use
	later     []monthUse               // not in used yet: only prices of blocks ask for it
	walkers   map[*Tariff]*walker      // a tariff never changes, so what they remember holds
	parts     []stretch                // of the span that is being billed; kept for its memory
}

// A monthUse is energy used in a month, in kWh.
type monthUse struct {
	month monthKey
	kwh   exact.Ratio // at least 0
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

// Expect makes room for so many runs to be billed, of which some, being in two months,
// take two places.
func (m *Meter) Expect(runs int) { m.later = slices.Grow(m.later, runs+runs/8) }

// Bill returns what each span costs under t, rounded once, half to even, at
// places: the exact sum over its pieces of energy x rate x (1 + tax/100). It
// adds the energy to the use of the local months it falls in. A *GapError says
// where no band holds; the meter is then as before.
func (m *Meter) Bill(t *Tariff, spans []Span, places int) ([]exact.Money, error) {
	return m.AppendBill(make([]exact.Money, 0, len(spans)), t, spans, places)
}

// Cost is Bill for what all spans cost together, unrounded.
func (m *Meter) Cost(t *Tariff, spans []Span) (sum exact.Ratio, err error) {
	b := m.begin(t)
	for _, s := range spans {
		cost, err := b.cost(s)
		if err != nil {
			return exact.Ratio{}, b.undo(err)
		}
		sum = sum.Add(cost)
	}
	b.commit()
	return sum, nil
}

// AppendBill is Bill that appends the costs to dst.
func (m *Meter) AppendBill(dst []exact.Money, t *Tariff, spans []Span, places int) ([]exact.Money, error) {
	b := m.begin(t)
	for _, s := range spans {
		cost, err := b.cost(s)
		if err != nil {
			return nil, b.undo(err)
		}
		dst = append(dst, posted(cost, places))
	}
	b.commit()
	return dst, nil
}

// posted rounds a cost as the ledger posts it.
func posted(cost exact.Ratio, places int) exact.Money {
	return exact.MoneyOf(cost.Round(places, exact.HalfEven))
}

// A biller bills one run under one tariff. What it adds to the months' use
// reaches the meter when the whole run has been billed.
type biller struct {
	m *Meter
	t *Tariff
	w *walker

	// These three are of a tariff with blocks alone.
	month monthKey                 // of the last energy added; 0: none yet
	use   exact.Ratio              // kWh that runs used in it, this one included
	done  map[monthKey]exact.Ratio // the same of the other months that this run was in; nil: none

	later int // how much the meter had left for later

	asking bool // what is used reaches no meter: whoever sets it never commits
	solar  bool // what is billed came from the roof
}

func (m *Meter) begin(t *Tariff) biller {
	w := m.walkers[t]
	if w == nil {
		w = newWalker(t)
		m.walkers[t] = w
	}
	if t.blocks {
		m.settle()
	}
	return biller{m: m, t: t, w: w, later: len(m.later)}
}

// settle adds up what was left for later. (Sums of exact ratios grow long, and
// most households never ask for them.)
func (m *Meter) settle() {
	if len(m.later) == 0 {
		return // also so that a fork may be asked from many sides at once
	}
	for _, u := range m.later {
		m.used[u.month] = m.used[u.month].Add(u.kwh)
	}
	m.later = m.later[:0]
}

// turn goes to the use of another month.
func (b *biller) turn(month monthKey) {
	if b.month != 0 {
		if b.done == nil {
			b.done = map[monthKey]exact.Ratio{}
		}
		b.done[b.month] = b.use
	}
	use, ok := b.done[month]
	if !ok {
		use = b.m.used[month]
	}
	b.month, b.use = month, use
}

// add adds energy to a month's use.
func (b *biller) add(month monthKey, kwh exact.Ratio) {
	if !b.t.blocks {
		// Joined with the last entry only if this run made it, since undo cuts off all from b.later on.
		if last := len(b.m.later) - 1; last >= b.later && b.m.later[last].month == month {
			b.m.later[last].kwh = b.m.later[last].kwh.Add(kwh)
		} else {
			b.m.later = append(b.m.later, monthUse{month, kwh})
		}
		return
	}
	if month != b.month {
		b.turn(month)
	}
	b.use = b.use.Add(kwh)
}

// undo leaves the meter as it was before a run that cannot be billed, or was
// only asked about, and passes the error on.
func (b *biller) undo(err error) error {
	b.m.later = b.m.later[:b.later]
	return err
}

// commit tells the meter what was used.
func (b *biller) commit() {
	if b.month != 0 {
		b.m.used[b.month] = b.use
	}
	for month, use := range b.done {
		if month != b.month { // of which done may have less: the run left it and came back
			b.m.used[month] = use
		}
	}
}

// cost returns what a span costs, unrounded, and adds its energy.
func (b *biller) cost(s Span) (exact.Ratio, error) {
	if s.Solar.Sign() > 0 {
		return b.partedCost(s)
	}
	parts := b.cut(s)
	if b.t.blocks || s.Curve != nil {
		pieces, err := b.pieces(s, parts)
		var sum exact.Ratio
		for _, p := range pieces {
			sum = sum.Add(p.cost)
		}
		return sum, err
	}
	return b.evenCost(s, parts)
}

// cut returns the parts of a span, until it is asked for others.
func (b *biller) cut(s Span) []stretch {
	b.m.parts = b.w.cut(b.m.parts[:0], s)
	return b.m.parts
}

// evenCost is the fast path: even power and no blocks. The parts are weighted
// by their seconds, and the energy is touched once.
func (b *biller) evenCost(s Span, parts []stretch) (exact.Ratio, error) {
	if err := b.priced(s, parts); err != nil {
		return exact.Ratio{}, err
	}
	if !b.asking {
		b.addEven(s, parts)
	}
	if b.onePrice(parts) {
		return s.Energy.Mul(b.ratio(parts[0], parts[0].seg.steps[0].band)), nil
	}
	return s.Energy.Mul(b.overTime(parts).Over(seconds(s.Length))), nil
}

// priced returns the error of the first part that has no price.
func (b *biller) priced(s Span, parts []stretch) error {
	for _, p := range parts {
		switch {
		case len(p.seg.steps) == 0:
			return b.gap(s, p)
		case !b.knows(p, p.seg.steps[0].band):
			return b.noPrice(s, p)
		}
	}
	return nil
}

// overTime adds up the prices of the parts of a span, each times its seconds.
func (b *biller) overTime(parts []stretch) (sum exact.Number) {
	for _, p := range parts {
		sum = sum.Add(b.price(p, p.seg.steps[0].band).Mul(seconds(p.to - p.from)))
	}
	return sum
}

func seconds(d time.Duration) exact.Number {
	if d%time.Second == 0 {
		return exact.Int(int64(d / time.Second))
	}
	return exact.New(int64(d), 9)
}

// onePrice reports whether all parts have one price, as under a band that always
// holds.
func (b *biller) onePrice(parts []stretch) bool {
	band := parts[0].seg.steps[0].band
	for _, p := range parts[1:] {
		if p.seg.steps[0].band != band || b.t.bands[band].Hourly {
			return false
		}
	}
	return true
}

// addEven adds the energy of a span of even power to its months.
func (b *biller) addEven(s Span, parts []stretch) {
	if month := parts[0].month; month == parts[len(parts)-1].month {
		b.add(month, s.Energy)
		return
	}
	for i, kwh := range s.shares(parts) {
		b.add(parts[i].month, kwh)
	}
}

// knows reports whether a band has a price in a part.
func (b *biller) knows(p stretch, band int) bool { return p.hour != noHour || !b.t.bands[band].Hourly }

// price is what a kWh costs in a part under a band that has a price there.
func (b *biller) price(p stretch, band int) exact.Number {
	if !b.t.bands[band].Hourly {
		return b.t.prices[band]
	}
	return b.t.bands[band].PriceAt(b.t.hourly.hours[p.hour].rate)
}

// ratio is price as a ratio.
func (b *biller) ratio(p stretch, band int) exact.Ratio {
	if !b.t.bands[band].Hourly {
		return b.t.ratios[band]
	}
	return exact.RatioOf(b.price(p, band))
}

// noPrice returns the error of a part for which no hourly price is known.
func (b *biller) noPrice(s Span, p stretch) error {
	return &GapError{Hourly: true, Tariff: b.t.name, At: s.Start.Add(p.from).In(b.t.zone)}
}

// gap returns the error of a part for which no band holds.
func (b *biller) gap(s Span, p stretch) error {
	err := &GapError{Tariff: b.t.name, At: s.Start.Add(p.from).In(b.t.zone)}
	if len(p.seg.steps) > 0 {
		err.Above = exact.Some(p.seg.steps[0].above)
	}
	return err
}

// Fork returns a meter that stands where m does, to work ahead from; m is not
// changed by what is billed on it.
func (m *Meter) Fork() *Meter {
	m.settle() // what was left for later is not copied
	f := NewMeter(m.household)
	maps.Copy(f.used, m.used)
	return f
}
