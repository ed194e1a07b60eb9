package entry

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"putby/ledger"
	"putby/pricing/exact"
	"putby/pricing/locale"
)

// A Moment is when a command is given. A ledger that is kept as an example
// stands at the day of its setting as_of, whatever the clock says.
type Moment struct {
	Now   time.Time  // in the ledger's zone, on Today
	Today exact.Date // the day of the setting as_of, else Clock
	Clock exact.Date // the date of the clock in the ledger's zone

	Locale locale.Locale // how dates may be typed, beside those of records

	AnyDay bool // days that are still to come are taken
}

// At is the moment of now in the ledger.
func At(rec *ledger.Records, now time.Time) Moment {
	now = now.In(rec.Settings.Zone)
	m := Moment{Locale: rec.Settings.Locale, Now: now, Today: exact.DateIn(now), Clock: exact.DateIn(now)}
	if day, ok := rec.Settings.AsOf.Get(); ok {
		m = m.On(day)
	}
	return m
}

// On is the same time of another day.
func (m Moment) On(day exact.Date) Moment {
	if day == m.Today {
		return m
	}
	m.Now, _ = exact.LocalTime(day, m.Now.Hour()*3600+m.Now.Minute()*60+m.Now.Second(), m.Now.Location())
	m.Today = day
	return m
}

// Standing reads the day at which a report stands: today and yesterday by the
// clock, a date, and by default the moment's own day.
func (m Moment) Standing(text string) (exact.Date, error) {
	switch strings.ToLower(strings.TrimSpace(text)) {
	case "":
		return m.Today, nil
	case "today":
		return m.Clock, nil
	case "yesterday":
		return m.Clock.AddDays(-1), nil
	case "tomorrow": // of which nothing is recorded yet
		return exact.ParseDate(text)
	}
	return exact.ParseDate(m.Dated(text))
}

// Begins is the moment to the minute, before which no run begins, where a question
// names no day and the ledger stands at none; else zero: runs begin with the day.
func (m Moment) Begins(asOf string, s *ledger.Settings) (now time.Time) {
	if asOf == "" && !s.AsOf.Given() {
		now = m.Now.Truncate(time.Minute)
	}
	return now
}

// Day reads the day of a cell that holds one, with the words today and
// yesterday besides dates; a blank or broken one is today.
func (m Moment) Day(text string) exact.Date {
	if d, err := exact.ParseDate(m.Dated(text)); err == nil {
		return d
	}
	return m.Today
}

// Dated writes today, yesterday, the last sat and dates as the locale has them, such as Sun
// 16.11.2025, or as people write them by hand, such as 16.11. for the last one, as records
// do, and 8:05 or 8:05 am after a date as 08:05; all else it leaves.
func (m Moment) Dated(text string) string { return m.dated(text, m.Today) }

// datedWhole is Dated for dates that may be still to come, whose year has to be said.
func (m Moment) datedWhole(text string) string { return m.dated(text, exact.NoDate) }

// dated is Dated with the day up to which a date without its year is looked for.
func (m Moment) dated(text string, until exact.Date) string {
	day, clock := halfDay(strings.TrimSpace(text)), ""
	if at := strings.LastIndexByte(day, ' '); at >= 0 && strings.Contains(day[at:], ":") {
		day, clock = strings.TrimSuffix(strings.TrimSpace(day[:at]), " at"), day[at:]
	}
	if d, ok := m.named(day, until); ok {
		day = d.String()
	}
	if strings.IndexByte(clock, ':') == 2 {
		clock = " 0" + clock[1:]
	}
	return day + clock
}

// inHalves is a time of day at the end of a text that is told by the hours of one half of
// the day.
var inHalves = pattern(`(?i)(^| )(\d{1,2})(?::(\d\d))? ?([ap])\.?m\.?$`)

// halfDay writes 7:15pm, 7 pm and 12 a.m. at the end of a text as 19:15, 19:00 and 00:00.
func halfDay(text string) string {
	found := inHalves().FindStringSubmatch(text)
	if found == nil {
		return text
	}
	hour, _ := strconv.Atoi(found[2])
	hour, ok := ofHalf(hour, found[4])
	if !ok {
		return text
	}
	return fmt.Sprintf("%s%s%02d:%s", strings.TrimSuffix(text, found[0]), found[1], hour, cmp.Or(found[3], "00"))
}

// ofHalf is an hour of one half of the day, a or p, as it is counted from midnight.
func ofHalf(hour int, half string) (int, bool) {
	from := 0
	if strings.EqualFold(half, "p") {
		from = 12
	}
	return from + hour%12, hour >= 1 && hour <= 12
}

// named finds the day that is told by words, or as the locale writes dates.
func (m Moment) named(day string, until exact.Date) (exact.Date, bool) {
	switch strings.ToLower(day) {
	case "today":
		return m.Today, true
	case "yesterday":
		return m.Today.AddDays(-1), true
	case "tomorrow":
		return m.Today.AddDays(1), true
	}
	if d, ok := m.weekday(day); ok {
		return d, ok
	}
	if d, ok := m.Locale.ReadShortDate(day, until); ok {
		return d, ok
	}
	weekday, date, two := strings.Cut(day, " ")
	d, ok := m.Locale.ReadShortDate(date, until)
	if iso, err := exact.ParseDate(date); err == nil {
		d, ok = iso, true
	}
	return d, two && ok && isWeekday(weekday, d)
}

// weekday finds the day that "sat" or "last saturday" is: the one before today.
func (m Moment) weekday(text string) (exact.Date, bool) {
	name := strings.TrimPrefix(strings.ToLower(text), "last ")
	for back := 1; back <= 7; back++ {
		d := m.Today.AddDays(-back)
		if isWeekday(name, d) {
			return d, true
		}
	}
	return exact.NoDate, false
}

// isWeekday reports whether a name, or its beginning, is that of a date's day of
// the week.
func isWeekday(name string, d exact.Date) bool {
	return len(name) >= 3 && strings.HasPrefix(strings.ToLower(d.Weekday().String()), strings.ToLower(name))
}

// Period reads what --from and --to are given: a date, or a month, such as
// october (the last one begun), 2025-10 or 10/2025, or a year, from whose first to
// whose last day it is. A day without its year is the last such one.
func (m Moment) Period(text string) (first, last exact.Date, ok bool) {
	text = m.Dated(text)
	if d, err := exact.ParseDate(text); err == nil {
		return d, d, true
	}
	if first, ok := locale.ReadMonth(text); ok {
		return first, first.AddMonths(1).AddDays(-1), true
	}
	if first, err := exact.ParseDate(text + "-01-01"); err == nil {
		return first, first.AddMonths(12).AddDays(-1), true
	}
	for back := range 12 {
		first := m.Today.AddMonths(-back).Month()
		_, month, _ := first.Civil()
		if name := strings.ToLower(month.String()); len(text) >= 3 && strings.HasPrefix(name, strings.ToLower(text)) {
			return first, first.AddMonths(1).AddDays(-1), true
		}
	}
	return exact.NoDate, exact.NoDate, false
}

// howToDate says how a day is typed.
func (m Moment) howToDate() string {
	return "write " + m.forms("2025-02-28", "") + ", yesterday or last sat"
}

// howToTime says how a day and its time are typed.
func (m Moment) howToTime() string {
	return "yesterday 21:40 or " + m.forms("2025-02-28", " 21:40")
}

// forms are a date as records have it and, before it, as the locale writes it, in figures
// and otherwise; behind each comes then, such as a time: "28.02.2025 or 2025-02-28".
func (m Moment) forms(date, then string) string {
	d := exact.MustDate(date)
	list := slices.Compact([]string{m.Locale.Figures(d), m.Locale.Date(d), date})
	list = slices.DeleteFunc(list[:len(list)-1], func(form string) bool { return form == date })
	return strings.Join(append(list, date), then+" or ") + then
}
