package energy

import (
	"math/big"
	"testing"
	"time"
	_ "time/tzdata"

	"putby/pricing/exact"
)

// The twin prices energy minute by minute in big rationals, with a matcher
// written straight from what README says of bands: no edges, no plans, no cuts.

type twin struct {
	zone      *time.Location
	bands     []Band
	holidays  []exact.Date
	household [12]exact.Number
	used      map[string]*big.Rat
	prices    []Price
	export    *twin
}

// twinOf is the twin of a world.
func twinOf(w world, household [12]exact.Number) *twin {
	tw := &twin{zone: w.zone, bands: w.bands, holidays: w.holidays, household: household, used: map[string]*big.Rat{}, prices: w.prices}
	if w.export != nil {
		tw.export = twinOf(*w.export, [12]exact.Number{})
	}
	return tw
}

// hour returns the price of the last row not after an instant, three hours at
// most, or false.
func (w *twin) hour(at time.Time) (exact.Number, bool) {
	for i := len(w.prices) - 1; i >= 0; i-- {
		if p := w.prices[i]; !p.At.After(at) {
			rate, known := p.Rate.Get()
			return rate, known && at.Sub(p.At) < 3*time.Hour
		}
	}
	return exact.Number{}, false
}

func rat(r exact.Ratio) *big.Rat {
	q, ok := new(big.Rat).SetString(r.String())
	if !ok {
		panic(r.String())
	}
	return q
}

func numberRat(n exact.Number) *big.Rat { return rat(exact.RatioOf(n)) }

// matching returns the rows that match an instant, by file order.
func (w *twin) matching(at time.Time) []Band {
	local := at.In(w.zone)
	date := exact.DateIn(local)
	newest, found := exact.NoDate, false
	for _, b := range w.bands {
		if b.From <= date && (!found || b.From > newest) {
			newest, found = b.From, true
		}
	}
	holiday := false
	for _, d := range w.holidays {
		holiday = holiday || d == date
	}
	var rows []Band
	for _, b := range w.bands {
		clock := Clock(local.Hour()*60 + local.Minute())
		var inside bool
		switch start, end := b.Start%DayEnd, b.End; {
		case start == end, start == end%DayEnd && start == 0:
			inside = true
		case start < end:
			inside = clock >= start && clock < end
		default:
			inside = clock >= start || clock < end
		}
		month := b.Months == 0 || b.Months&(1<<int(local.Month())) != 0
		names := map[time.Weekday]string{1: "mon", 2: "tue", 3: "wed", 4: "thu", 5: "fri", 6: "sat", 0: "sun"}
		one, _ := ParseDays(names[local.Weekday()])
		day := b.Days == 0 || b.Days&one != 0 || holiday && b.Days&Holidays != 0
		if b.From == newest && inside && month && day {
			rows = append(rows, b)
		}
	}
	return rows
}

// use returns the use of the instant's month, ready to be added to.
func (w *twin) use(at time.Time) *big.Rat {
	local := at.In(w.zone)
	key := local.Format("2006-01")
	if w.used[key] == nil {
		w.used[key] = numberRat(w.household[local.Month()-1])
	}
	return w.used[key]
}

// price returns what kwh used at an instant cost, or false at a gap.
func (w *twin) price(at time.Time, kwh *big.Rat) (*big.Rat, bool) {
	rows, use := w.matching(at), w.use(at)
	cost, left := new(big.Rat), new(big.Rat).Set(kwh)
	for {
		best, next := -1, (*big.Rat)(nil)
		for i, b := range rows {
			above := numberRat(b.Above)
			if above.Cmp(use) <= 0 {
				if best < 0 || rows[best].Above.Less(b.Above) {
					best = i
				}
			} else if next == nil || above.Cmp(next) < 0 {
				next = above
			}
		}
		if best < 0 {
			return nil, false
		}
		take := new(big.Rat).Set(left)
		if next != nil {
			if room := new(big.Rat).Sub(next, use); room.Cmp(take) < 0 {
				take = room
			}
		}
		b := rows[best]
		tax := new(big.Rat).Add(big.NewRat(1, 1), new(big.Rat).Quo(numberRat(b.Tax), big.NewRat(100, 1)))
		rate := numberRat(b.Rate)
		if b.Hourly {
			hour, known := w.hour(at)
			if !known {
				return nil, false
			}
			rate.Add(rate, numberRat(hour))
		}
		cost.Add(cost, new(big.Rat).Mul(new(big.Rat).Mul(take, rate), tax))
		use.Add(use, take)
		if left.Sub(left, take); left.Sign() == 0 {
			return cost, true
		}
	}
}

// cost prices a span whose start and length are whole minutes.
func (w *twin) cost(s Span) (*big.Rat, bool) {
	if s.Length == 0 {
		return w.priceParted(s.Start, rat(s.Energy), rat(s.Solar))
	}
	sum := new(big.Rat)
	total := new(big.Rat)
	if s.Curve != nil {
		total = twinEnergy(s.Curve, s.Start, s.Start.Add(s.Length))
	}
	for at := time.Duration(0); at < s.Length; at += time.Minute {
		kwh := new(big.Rat).Mul(rat(s.Energy), big.NewRat(int64(time.Minute), int64(s.Length)))
		solar := new(big.Rat).Mul(rat(s.Solar), big.NewRat(int64(time.Minute), int64(s.Length)))
		if total.Sign() > 0 {
			kwh = twinEnergy(s.Curve, s.Start.Add(at), s.Start.Add(at+time.Minute))
			kwh.Mul(kwh, rat(s.Energy)).Quo(kwh, total)
			if s.Solar.Sign() > 0 {
				solar = twinPart(s.Curve, s.Start.Add(at), s.Start.Add(at+time.Minute), func(s Sample) exact.Number { return s.Solar })
				solar.Mul(solar, rat(s.Energy)).Quo(solar, total)
			}
		}
		cost, ok := w.priceParted(s.Start.Add(at), kwh, solar)
		if !ok {
			return nil, false
		}
		sum.Add(sum, cost)
	}
	return sum, true
}

// priceParted is price of energy that the roof gave a part of.
func (w *twin) priceParted(at time.Time, kwh, solar *big.Rat) (*big.Rat, bool) {
	if solar.Sign() == 0 {
		return w.price(at, kwh)
	}
	cost, ok := w.price(at, new(big.Rat).Sub(kwh, solar))
	if !ok {
		return nil, false
	}
	sold, ok := w.export.price(at, solar)
	return cost.Add(cost, sold), ok
}

// twinEnergy integrates a log between two instants, piece by piece.
func twinEnergy(l *Log, from, to time.Time) *big.Rat {
	return twinPart(l, from, to, func(s Sample) exact.Number { return s.Watts })
}

// twinPart is twinEnergy of a part of the power.
func twinPart(l *Log, from, to time.Time, power func(Sample) exact.Number) *big.Rat {
	sum := new(big.Rat)
	var last Sample
	first := true
	for s := range l.All() {
		if !first {
			a, b := last.At, s.At
			if from.After(a) {
				a = from
			}
			if to.Before(b) {
				b = to
			}
			if a.Before(b) {
				mean := new(big.Rat).Add(twinPower(last, s, a, power), twinPower(last, s, b, power))
				mean.Mul(mean, big.NewRat(1, 2))
				sum.Add(sum, mean.Mul(mean, big.NewRat(int64(b.Sub(a)), 1)))
			}
		}
		last, first = s, false
	}
	return sum.Quo(sum, big.NewRat(3_600_000_000_000_000, 1))
}

func twinPower(a, b Sample, at time.Time, power func(Sample) exact.Number) *big.Rat {
	slope := new(big.Rat).Sub(numberRat(power(b)), numberRat(power(a)))
	slope.Mul(slope, big.NewRat(int64(at.Sub(a.At)), int64(b.At.Sub(a.At))))
	return slope.Add(slope, numberRat(power(a)))
}

// roundTwin rounds half to even at places, by way of a decimal string.
func roundTwin(r *big.Rat, places int) string {
	scale := new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(places)), nil)
	n := new(big.Rat).Mul(r, new(big.Rat).SetInt(scale))
	q, m := new(big.Int).DivMod(n.Num(), n.Denom(), new(big.Int))
	switch m.Lsh(m, 1).Cmp(n.Denom()) {
	case 1:
		q.Add(q, big.NewInt(1))
	case 0:
		q.Add(q, new(big.Int).And(q, big.NewInt(1)))
	}
	v := new(big.Rat).SetFrac(q, scale)
	return exact.MustNumber(v.FloatString(places)).String()
}

func zone(t testing.TB, name string) *time.Location {
	t.Helper()
	z, err := time.LoadLocation(name)
	if err != nil {
		t.Fatal(err)
	}
	return z
}
