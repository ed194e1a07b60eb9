package energy

import (
	"cmp"
	"slices"
	"time"

	"putby/pricing/exact"
)

// This file estimates: what a kWh will cost at a time whose price is not known
// yet. A mean of exact prices is exact but for its last digit; that the hour
// will cost it is a guess.

// forecastWeeks is how many weeks a forecast looks back.
const forecastWeeks = 8

// A Forecast is what prices tell of a time ahead, and where they tell nothing
// the mean of the same hour of the same weekday, by the clock, in the last eight
// weeks of which they tell: an estimate.
type Forecast struct {
	Prices *Prices   // with what is estimated among them; an hour that no week tells of has none
	Known  time.Time // from here on there are estimates
	// Since and End are of the prices that they rest on: the first, and when the
	// last ends; both Known where there is none. End is before Known where prices
	// had run out by the first instant asked about.
	Since, End time.Time

	guessed []pricedHour
}

// Forecast returns the prices with estimates for what they do not tell of from
// one instant until another, by the clock of a zone.
func (p *Prices) Forecast(from, until time.Time, zone *time.Location) Forecast {
	if p == nil {
		p = &Prices{}
	}
	f := Forecast{Prices: p, Known: p.Until(from)}
	f.Since, f.End = f.Known, p.endBefore(f.Known)
	if len(p.hours) == 0 || !f.Known.Before(until) {
		return f
	}
	clock := &localClock{zone: zone}
	means := f.means(clock)
	f.guessed = make([]pricedHour, 0, until.Sub(f.Known)/time.Hour+1)
	place, _ := p.find(f.Known.Unix())
	// From gap to gap: known prices are passed over, and second rises at each turn.
	for second := f.Known.Unix(); second < until.Unix(); {
		for place < len(p.hours) && p.hours[place].until <= second {
			place++
		}
		if p.holds(place, second) {
			second = p.hours[place].until
			continue
		}
		hour, end := clock.hourOfWeek(second)
		end = min(end, until.Unix())
		if place < len(p.hours) {
			end = min(end, p.hours[place].from)
		}
		if rate, known := means[hour].Get(); known {
			f.guessed = append(f.guessed, pricedHour{second, end, rate, 0})
		}
		second = end
	}
	all := append(slices.Clone(p.hours), f.guessed...)
	slices.SortFunc(all, func(a, b pricedHour) int { return cmp.Compare(a.from, b.from) })
	f.Prices = pricesOf(all)
	return f
}

// Guessed reports whether a price between two instants is an estimate.
func (f Forecast) Guessed(from, until time.Time) bool {
	return slices.ContainsFunc(f.guessed, func(h pricedHour) bool { return h.from < until.Unix() && from.Unix() < h.until })
}

const hoursOfWeek = 7 * 24

// hourOfWeek returns the hour of the week that the clock shows at an instant, counted
// from Monday 0:00, and the instant at which it shows another.
func (c *localClock) hourOfWeek(second int64) (hour, end int64) {
	local, changes := c.read(second)
	const firstMonday = 4 * 24 // hours from 1 January 1970
	count := floorDiv(local, 3600)
	week := floorDiv(count-firstMonday, hoursOfWeek)
	return count - firstMonday - week*hoursOfWeek, min(second+(count+1)*3600-local, changes)
}

// endBefore returns when the last price ends that does so by an instant; without
// one the instant.
func (p *Prices) endBefore(at time.Time) time.Time {
	place, _ := p.find(at.Unix())
	if place == 0 {
		return at
	}
	return unix(p.hours[place-1].until)
}

// means returns the mean price of each hour of the week in the weeks before
// prices end, each second weighing the same.
func (f *Forecast) means(clock *localClock) (means [hoursOfWeek]exact.Opt[exact.Number]) {
	var sums [hoursOfWeek]exact.Number // money per kWh x seconds
	var seconds [hoursOfWeek]int64
	end := f.End.Unix()
	local := f.End.In(clock.zone)
	h, m, s := local.Clock()
	// Eight weeks by the clock: in hours, a clock change since would move the first hour of the week.
	start, _ := exact.LocalTime(exact.DateIn(local).AddDays(-7*forecastWeeks), h*3600+m*60+s, clock.zone)
	p := f.Prices
	place, _ := p.find(start.Unix())
	for ; place < len(p.hours) && p.hours[place].from < end; place++ {
		h := p.hours[place]
		for at := max(h.from, start.Unix()); at < min(h.until, end); {
			hour, next := clock.hourOfWeek(at)
			next = min(next, h.until, end)
			sums[hour] = sums[hour].Add(h.rate.Mul(exact.Int(next - at)))
			seconds[hour] += next - at
			if t := unix(at); t.Before(f.Since) {
				f.Since = t
			}
			at = next
		}
	}
	for i, n := range seconds {
		if n > 0 {
			// As many digits as a record may have: a price that is known has no more.
			means[i] = exact.Some(sums[i].Over(exact.Int(n)).Round(exact.MaxFraction, exact.HalfEven))
		}
	}
	return means
}
