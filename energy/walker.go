package energy

import (
	"math"
	"time"

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
}

// A monthKey is a calendar month: 12 x the year + the month from 0.
type monthKey int32

func monthOf(d exact.Date) monthKey {
	y, m, _ := d.Civil()
	return monthKey(y*12 + int(m) - 1)
}

func newWalker(t *Tariff) *walker {
	return &walker{t: t, plans: map[dayKind]dayPlan{}, date: exact.NoDate}
}

// at returns the segment that holds at an instant, in Unix seconds, the
// calendar month of the local date, and the instant at which the segment, the
// local day or the offset of the clock ends.
func (w *walker) at(second int64) (seg *segment, month monthKey, end int64) {
	if second < w.since || second >= w.until {
		w.since, w.until, w.offset = offsetAt(second, w.t.zone)
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
	return &w.plan[i], w.month, min(second+w.plan[i].end-clock, w.until)
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

// offsetAt returns how far the clock of a zone is ahead of UTC at an instant,
// in seconds, and since and until when, in Unix seconds.
func offsetAt(second int64, zone *time.Location) (since, until, offset int64) {
	t := time.Unix(second, 0).In(zone)
	_, seconds := t.Zone()
	since, until = math.MinInt64, math.MaxInt64
	if start, _ := t.ZoneBounds(); !start.IsZero() {
		since = start.Unix()
	}
	if end, changes := exact.NextChange(t); changes {
		until = end.Unix()
	}
	return since, until, int64(seconds)
}

func floorDiv(a, b int64) int64 {
	q := a / b
	if a%b < 0 {
		q--
	}
	return q
}
