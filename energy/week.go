package energy

import (
	"slices"
	"time"

	"putby/pricing/exact"
)

// A Week is a tariff drawn by the days of one week: what holds at which time
// of a day without a clock change.
type Week struct {
	Date  exact.Date // the day whose season and prices are drawn
	Bands []Band     // those that hold at some time of the week, in file order
	Days  []DayLine  // Monday to Sunday; then holidays, where they differ from their weekday
}

// A DayLine is one day of a week.
type DayLine struct {
	// Days is one weekday; or, with [Holidays], the weekdays on which a holiday
	// looks like this.
	Days      DaySet
	Stretches []Stretch // in order, from 0:00 to 24:00
}

// A Stretch is a part of a day with the same bands throughout.
type Stretch struct {
	Start, End Clock // the end is not in it
	Bands      []int // places in Week.Bands, the lowest block first; none: no band holds
}

// A Cell is half an hour of a day line.
type Cell struct {
	Band  int  // place in Week.Bands of the lowest block at its start; -1: no band holds
	Mixed bool // another band holds later in the half hour
}

// weekdays lists the days of the week from Monday.
var weekdays = [...]time.Weekday{
	time.Monday, time.Tuesday, time.Wednesday, time.Thursday, time.Friday, time.Saturday, time.Sunday,
}

// Week draws the week of a date with the prices and the season of that date,
// also where the season changes within the week.
func (t *Tariff) Week(date exact.Date) Week {
	k := t.kind(date)
	var days, holidays []dayPlan
	for _, d := range weekdays {
		days = append(days, t.plan(dayKind{k.from, k.month, d, false}))
		holidays = append(holidays, t.plan(dayKind{k.from, k.month, d, true}))
	}
	used := usedBands(append(slices.Clone(days), holidays...))
	w := Week{Date: date}
	for _, i := range used {
		w.Bands = append(w.Bands, t.bands[i])
	}
	for i, d := range weekdays {
		w.Days = append(w.Days, DayLine{dayBit(d), stretches(days[i], used)})
	}
	for i, d := range weekdays {
		if samePlan(holidays[i], days[i]) {
			continue
		}
		line := DayLine{dayBit(d) | Holidays, stretches(holidays[i], used)}
		w.Days = joinHoliday(w.Days, line)
	}
	return w
}

// joinHoliday adds a holiday's line, or its weekday to a line that is alike.
func joinHoliday(days []DayLine, line DayLine) []DayLine {
	for i, d := range days {
		if d.Days&Holidays != 0 && slices.EqualFunc(d.Stretches, line.Stretches, sameStretch) {
			days[i].Days |= line.Days
			return days
		}
	}
	return append(days, line)
}

func sameStretch(a, b Stretch) bool {
	return a.Start == b.Start && a.End == b.End && slices.Equal(a.Bands, b.Bands)
}

func samePlan(a, b dayPlan) bool {
	return slices.EqualFunc(a, b, func(a, b segment) bool {
		return a.end == b.end && slices.EqualFunc(a.steps, b.steps, sameStep)
	})
}

// usedBands returns the places of the bands that plans have, in order.
func usedBands(plans []dayPlan) []int {
	var used []int
	for _, p := range plans {
		for _, seg := range p {
			for _, s := range seg.steps {
				used = append(used, s.band)
			}
		}
	}
	slices.Sort(used)
	return slices.Compact(used)
}

func stretches(p dayPlan, used []int) []Stretch {
	list := make([]Stretch, len(p))
	start := Clock(0)
	for i, seg := range p {
		list[i] = Stretch{Start: start, End: Clock(seg.end / 60)}
		for _, s := range seg.steps {
			place, _ := slices.BinarySearch(used, s.band)
			list[i].Bands = append(list[i].Bands, place)
		}
		start = list[i].End
	}
	return list
}

// HalfHours returns the day in 48 cells.
func (d DayLine) HalfHours() [48]Cell {
	var cells [48]Cell
	for i := range cells {
		start := Clock(i * 30)
		for _, s := range d.Stretches {
			if s.Start <= start && start < s.End {
				cells[i] = Cell{Band: -1, Mixed: s.End < start+30}
				if len(s.Bands) > 0 {
					cells[i].Band = s.Bands[0]
				}
			}
		}
	}
	return cells
}
