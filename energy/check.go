package energy

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"putby/pricing/exact"
)

// A Check is what a tariff's rows leave open, and those that never apply.
type Check struct {
	Gaps   []Gap
	Unused []Band // rows that hold at no time, since others come first
}

// A Gap is a time for which a tariff has no band.
type Gap struct {
	From, Until exact.Date // of the prices it is in: from, or NoDate; before, or LastDate
	Months      MonthSet
	Days        DaySet
	Start, End  Clock // the end is not in it
	// Above is given where bands hold at that time, but only above so many kWh
	// of the month.
	Above exact.Opt[exact.Number]
}

// String says when the gap is, such as "from 2025-01-01, months 5-10, sat,sun,
// 07:00-09:00".
func (g Gap) String() string {
	var parts []string
	add := func(format string, args ...any) { parts = append(parts, fmt.Sprintf(format, args...)) }
	if g.From != exact.NoDate {
		add("from %v", g.From)
	}
	if g.Until != exact.LastDate {
		add("before %v", g.Until)
	}
	if g.Months != 0 {
		add("months %v", g.Months)
	}
	if g.Days != 0 {
		add("%v", g.Days)
	}
	if g.Start != 0 || g.End != DayEnd {
		add("%v-%v", g.Start, g.End)
	}
	if above, ok := g.Above.Get(); ok {
		add("up to %v kWh of the month", above)
	}
	return cmp.Or(strings.Join(parts, ", "), "always")
}

// Check looks for times without a band, over all dates, and for rows that
// never hold. A holiday has every band that its weekday has, so it has no gaps
// of its own.
func (t *Tariff) Check() Check {
	var c Check
	if first := t.froms[0]; first != exact.NoDate {
		c.Gaps = append(c.Gaps, Gap{Until: first, End: DayEnd})
	}
	held := map[int]bool{}
	for i, from := range t.froms {
		until := exact.LastDate
		if i+1 < len(t.froms) {
			until = t.froms[i+1]
		}
		c.Gaps = append(c.Gaps, t.gaps(from, until, held)...)
	}
	for i, b := range t.bands {
		if !held[i] {
			c.Unused = append(c.Unused, b)
		}
	}
	return c
}

// An opening is a time of day without a band, and the days of each month, from
// 1, that have it.
type opening struct {
	start, end Clock
	above      exact.Opt[exact.Number] // kWh of the month from which a band holds; not given: none does
	days       [13]DaySet              // 0: none
}

// like reports whether two openings are the same but for their days.
func (o opening) like(p opening) bool {
	a, given := o.above.Get()
	b, alike := p.above.Get()
	return o.start == p.start && o.end == p.end && given == alike && a.Equal(b)
}

// gaps returns the gaps of the prices of one date, and notes the bands that
// hold.
func (t *Tariff) gaps(from, until exact.Date, held map[int]bool) []Gap {
	var all []opening
	for _, month := range monthsBetween(from, until) {
		for _, d := range weekdays {
			plan := t.plan(dayKind{from, month, d, false})
			// Rows for holidays alone hold on no plain day, and are not unused for that.
			for _, i := range usedBands([]dayPlan{plan, t.plan(dayKind{from, month, d, true})}) {
				held[i] = true
			}
			for _, o := range openings(plan) {
				at := slices.IndexFunc(all, o.like)
				if at < 0 {
					at, all = len(all), append(all, o)
				}
				all[at].days[month] |= dayBit(d)
			}
		}
	}
	var gaps []Gap
	for _, o := range all {
		gaps = append(gaps, o.gaps(from, until)...)
	}
	return gaps
}

// openings returns the times of a day without a band, or without one from the
// first kWh.
func openings(plan dayPlan) []opening {
	var list []opening
	start := Clock(0)
	for _, seg := range plan {
		o := opening{start: start, end: Clock(seg.end / 60)}
		switch {
		case len(seg.steps) == 0:
			list = append(list, o)
		case seg.steps[0].above.Sign() > 0:
			o.above = exact.Some(seg.steps[0].above)
			list = append(list, o)
		}
		start = o.end
	}
	return list
}

// gaps joins the months in which an opening is on the same days.
func (o opening) gaps(from, until exact.Date) []Gap {
	var gaps []Gap
	for month, set := range o.days {
		if set == 0 {
			continue
		}
		i := slices.IndexFunc(gaps, func(g Gap) bool { return g.Days == set })
		if i < 0 {
			i = len(gaps)
			gaps = append(gaps, Gap{From: from, Until: until, Days: set, Start: o.start, End: o.end, Above: o.above})
		}
		gaps[i].Months |= 1 << month
	}
	for i := range gaps { // all months and all days are written as none
		if gaps[i].Months == 1<<13-2 {
			gaps[i].Months = 0
		}
		if gaps[i].Days == Holidays-1 {
			gaps[i].Days = 0
		}
	}
	return gaps
}

// monthsBetween returns the calendar months that have a day from one date until
// before another.
func monthsBetween(from, until exact.Date) []time.Month {
	if from == exact.NoDate || until == exact.LastDate || until >= from.AddMonths(12) {
		from = exact.UnixDate(0) // any year has all
		until = from.AddMonths(12)
	}
	var months []time.Month
	for d := from; d < until; d = d.Month().AddMonths(1) {
		_, month, _ := d.Civil()
		months = append(months, month)
	}
	slices.Sort(months)
	return slices.Compact(months) // the first one may be the last one too
}
