package energy

import (
	"math"

	"putby/pricing/exact"
)

const daySeconds = 24 * 60 * 60

// A walker reads a tariff along the clock. It remembers the last clock change
// and the last day it has seen, so that reading on from an instant is cheap.
// It is not safe for concurrent use.
type walker struct {
	t     *Tariff
	plans map[dayKind]dayPlan

	// The clock is offset seconds ahead of UTC from since until until.
	since, until, offset int64

	date  exact.Date
	month monthKey
	plan  dayPlan

	hour int // place of the hourly price seen last
}

// A monthKey is a calendar month: 12 x the year + the month from 0.
type monthKey int32

func monthOf(d exact.Date) monthKey {
	y, m, _ := d.Civil()
	return monthKey(y*12 + int(m) - 1)
}

func newWalker(t *Tariff) *walker {
	return &walker{t: t, plans: map[dayKind]dayPlan{}}
}

// at returns the part of a span that begins at an instant, in Unix seconds, and
// the instant at which it ends: where the segment, the local day, the offset of
// the clock or the hour's price does.
func (w *walker) at(second int64) (part stretch, end int64) {
	if second < w.since || second >= w.until {
		w.since, w.until, w.offset = exact.OffsetAt(second, w.t.zone)
	}
	local := second + w.offset
	day := floorDiv(local, daySeconds)
	if date := exact.UnixDate(day); date != w.date {
		w.turn(date)
	}
	clock := local - day*daySeconds
	i := 0
	for w.plan[i].end <= clock {
		i++
	}
	part = stretch{seg: &w.plan[i], month: w.month, hour: noHour}
	end = min(second+w.plan[i].end-clock, w.until)
	if part.seg.hourly {
		var until int64
		part.hour, until = w.priceAt(second)
		end = min(end, until)
	}
	return part, end
}

// priceAt returns the place of the hourly price that holds at an instant, or
// noHour, and until when.
func (w *walker) priceAt(second int64) (hour int, until int64) {
	p := w.t.hourly
	if p == nil {
		return noHour, math.MaxInt64
	}
	if at := w.hour; at >= len(p.hours) || second < p.hours[at].from || second >= p.hours[at].until {
		if at+1 < len(p.hours) && p.hours[at+1].from <= second && second < p.hours[at+1].until {
			w.hour++
		} else if next, holds := p.find(second); holds {
			w.hour = next
		} else if next < len(p.hours) {
			return noHour, p.hours[next].from
		} else {
			return noHour, math.MaxInt64
		}
	}
	return w.hour, p.hours[w.hour].until
}

// turn goes to another local date.
func (w *walker) turn(d exact.Date) {
	k := w.t.kind(d)
	plan, ok := w.plans[k]
	if !ok {
		plan = w.t.plan(k)
		w.plans[k] = plan
	}
	w.date, w.month, w.plan = d, monthOf(d), plan
}

func floorDiv(a, b int64) int64 {
	q := a / b
	if a%b < 0 {
		q--
	}
	return q
}
