package energy

import (
	"math"
	"time"

	"putby/pricing/exact"
)

const daySeconds = 24 * 60 * 60

// A localClock is the clock of a zone. It remembers the stretch between two
// changes of the clock that it was read in last, since to find one takes long.
// It is not safe for concurrent use.
type localClock struct {
	zone                 *time.Location
	since, until, offset int64 // ahead of UTC by so many seconds between two instants
}

// read returns what the clock shows at an instant, in seconds since it showed
// 1 January 1970, and the instant at which it is next put forward or back.
func (c *localClock) read(second int64) (shown, until int64) {
	if second < c.since || second >= c.until {
		c.since, c.until, c.offset = exact.OffsetAt(second, c.zone)
	}
	return second + c.offset, c.until
}

// A walker reads a tariff along the clock. It remembers the last clock change,
// day and price it has seen, so that reading on from an instant is cheap.
// It is not safe for concurrent use.
type walker struct {
	t     *Tariff
	clock localClock
	plans map[dayKind]dayPlan

	date  exact.Date // local, of month and plan; NoDate: none seen yet
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
	return &walker{t: t, clock: localClock{zone: t.zone}, plans: map[dayKind]dayPlan{}}
}

// at returns the part of a span that begins at an instant, in Unix seconds, and
// the instant at which it ends: where the segment, the local day, the offset of
// the clock or the hour's price does.
func (w *walker) at(second int64) (part stretch, end int64) {
	local, changes := w.clock.read(second)
	day := floorDiv(local, daySeconds)
	if date := exact.UnixDate(day); date != w.date {
		w.turn(date)
	}
	clock := local - day*daySeconds
	i := 0
	for w.plan[i].end <= clock { // the last ends at 24:00, so one is found
		i++
	}
	part = stretch{seg: &w.plan[i], month: w.month, hour: noHour}
	// A change of the clock may come before the segment's end, or move it.
	end = min(second+w.plan[i].end-clock, changes)
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
	switch {
	case p.holds(w.hour, second):
	case p.holds(w.hour+1, second): // reading on
		w.hour++
	default:
		place, holds := p.find(second)
		switch {
		case place == len(p.hours):
			return noHour, math.MaxInt64
		case !holds:
			return noHour, p.hours[place].from
		}
		w.hour = place
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
