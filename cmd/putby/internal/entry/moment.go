package entry

import (
	"strings"
	"time"

	"putby/ledger"
	"putby/pricing/exact"
)

// A Moment is when a command is given. A ledger that is kept as an example
// stands at the day of its setting as_of, whatever the clock says.
type Moment struct {
	Now   time.Time  // in the ledger's zone, on Today
	Today exact.Date // the day of the setting as_of, else Clock
	Clock exact.Date // the date of the clock in the ledger's zone

	AnyDay bool // days that are still to come are taken
}

// At is the moment of now in the ledger.
func At(rec *ledger.Records, now time.Time) Moment {
	now = now.In(rec.Settings.Zone)
	m := Moment{Now: now, Today: exact.DateIn(now), Clock: exact.DateIn(now)}
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
	}
	return exact.ParseDate(text)
}

// Day reads the day of a cell that holds one, with the words today and
// yesterday besides dates; a blank or broken one is today.
func (m Moment) Day(text string) exact.Date {
	if d, err := exact.ParseDate(m.Dated(text)); err == nil {
		return d
	}
	return m.Today
}

// Dated writes today and yesterday as dates, and 8:05 after a date as 08:05; all
// else it leaves.
func (m Moment) Dated(text string) string {
	day, clock, timed := strings.Cut(strings.TrimSpace(text), " ")
	switch strings.ToLower(day) {
	case "today":
		day = m.Today.String()
	case "yesterday":
		day = m.Today.AddDays(-1).String()
	}
	if !timed {
		return day
	}
	if clock = strings.TrimSpace(clock); strings.IndexByte(clock, ':') == 1 {
		clock = "0" + clock
	}
	return day + " " + clock
}

// Cell writes a cell that holds a date, or a date and time, as [Moment.Dated]
// does; other cells it leaves.
func (m Moment) Cell(c *ledger.Column, text string) string {
	if c.Cell == ledger.DateCell || c.Cell == ledger.MomentCell {
		return m.Dated(text)
	}
	return text
}
