package intake

import (
	"fmt"
	"slices"
	"time"

	"putby/pricing/exact"
)

// This file reads files that number the hours of a day. A day of 24 hours has
// them from 1 to 24, or from 0 to 23. On a day of 25 some number on to 25, some
// have 3a and 3b, some have 3 twice; on one of 23 some end at 23, some leave out
// the number of the skipped hour. Which it is, each such day's numbers tell.

// numberedDay are the rows of one date.
type numberedDay struct {
	date exact.Date // by the zone of the file's times
	rows []*hourRow
	nums []label
}

// readNumbered finds when the rows of numbered hours begin.
func (h *hourly) readNumbered(order Order) error {
	days, most, least := h.numberedDays(order)
	if len(h.faults) > 0 {
		return nil
	}
	unit := time.Hour
	// No hour has a higher number, so these are quarters.
	if most > 25 {
		unit = time.Hour / 4
	}
	for _, d := range days {
		if least == 0 {
			for i := range d.nums {
				d.nums[i].n++
			}
		}
		h.placeDay(d, unit)
	}
	return nil
}

// numberedDays gathers the rows by their dates, and the highest and lowest
// number of all.
func (h *hourly) numberedDays(order Order) (days []*numberedDay, most, least int) {
	least = 1
	of := map[exact.Date]*numberedDay{}
	for i := range h.rows {
		r := &h.rows[i]
		text := cellAt(r.cells, h.columns.date)
		day, _, _ := cutInterval(text)
		date, _, ok := h.dated(day, order)
		if !ok {
			h.fail(r.line, h.columns.timeName, "write dates as 2025-10-26", "%s is not a date", exact.Quote(text))
			continue
		}
		num, ok := readLabel(r.label)
		if !ok {
			h.fail(r.line, h.columns.timeName, "number the hours of a day from 1", "%s is not the number of an hour", exact.Quote(r.label))
			continue
		}
		d := of[date]
		if d == nil {
			d = &numberedDay{date: date}
			of[date] = d
			days = append(days, d)
		}
		d.rows, d.nums = append(d.rows, r), append(d.nums, num)
		most, least = max(most, num.n), min(least, num.n)
	}
	return days, most, least
}

// placeDay finds when the numbered hours of a day begin.
func (h *hourly) placeDay(d *numberedDay, unit time.Duration) {
	midnight := d.date.Midnight(h.o.Zone)
	length := d.date.AddDays(1).Midnight(h.o.Zone).Sub(midnight) // by the zone's clock: 23 or 25 hours where it changes
	usual := int(24 * time.Hour / unit)
	have := int(length / unit)
	byClock, why := d.numbering(have, usual, h.oddHours(d.date, unit))
	if why != "" {
		r := d.rows[len(d.rows)-1]
		h.failZone(r.line, "number its hours from 1 to the last, or 3a and 3b, or take the day out",
			"%v has %s in %s, and the file %s", d.date, exact.FormatDuration(length), h.o.Zone, why)
		return
	}
	seen := map[int]bool{}
	for i, r := range d.rows {
		num := d.nums[i]
		if byClock {
			r.from = h.byClock(d.date, num, unit, seen[num.n] && !num.marked)
		} else {
			r.from = midnight.Add(time.Duration(num.n-1) * unit)
		}
		seen[num.n] = true
		if r.from.IsZero() {
			h.failZone(r.line, "", "the clocks of %s skip hour %v of %v", h.o.Zone, num, d.date)
		}
	}
}

// byClock is when the hour of a number begins by the clock; zero where the clock
// skips it.
func (h *hourly) byClock(date exact.Date, num label, unit time.Duration, again bool) time.Time {
	sec := (num.n - 1) * int(unit/time.Second)
	at, shown := exact.LocalTime(date, sec, h.o.Zone)
	switch {
	case !shown:
		return time.Time{}
	case again || num.second:
		return exact.ShownAgain(at)
	}
	return at
}

// oddHours are the numbers of the hours that the clock skips or shows twice on a
// date.
func (h *hourly) oddHours(date exact.Date, unit time.Duration) (odd []int) {
	for n := 1; n <= int(24*time.Hour/unit); n++ {
		at := h.byClock(date, label{n: n}, unit, false)
		if at.IsZero() || !exact.ShownAgain(at).Equal(at) {
			odd = append(odd, n)
		}
	}
	return odd
}

// numbering says whether the numbers of a day are those of the clock, or count
// the hours as they pass; or why neither can be. Of a day that has fewer hours,
// or more, than usual, odd are those that the clock skips or doubles.
func (d *numberedDay) numbering(have, usual int, odd []int) (byClock bool, why string) {
	most, twice, marked, hasOdd := 0, false, false, false
	count := map[label]int{}
	for _, n := range d.nums {
		plain := label{n: n.n, second: n.second}
		count[plain]++
		twice = twice || count[plain] > 1
		marked = marked || n.second
		most = max(most, n.n)
		hasOdd = hasOdd || slices.Contains(odd, n.n)
		if count[plain] > 2 || count[plain] > 1 && (have <= usual || n.second) {
			return false, "has hour " + plain.String() + " more than once"
		}
	}
	switch {
	case most > max(have, usual):
		return false, "numbers one " + fmt.Sprint(most)
	case have <= usual && marked:
		return false, "has a second of one hour"
	case have == usual:
		return true, ""
	case have < usual && hasOdd && most > have:
		return false, "has one that the clocks skip"
	case have < usual:
		return !hasOdd, "" // by the clock if the skipped number is left out; else numbered on without a gap
	case most == have && (marked || twice):
		return false, "both numbers them on and has one twice"
	case most == have:
		return false, ""
	case marked || twice || most <= odd[0]: // up to the doubled hour both ways are the same
		return true, ""
	}
	return false, "does not tell which of the doubled hour it has"
}
