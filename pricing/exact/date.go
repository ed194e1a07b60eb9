package exact

import (
	"errors"
	"fmt"
	"math"
	"time"
)

// A Date is a civil date, without time or zone: days since 1 January 1970.
// Dates compare with == and <. The zero value is 1970-01-01; records use
// [NoDate] for a date that was not given.
type Date int32

// NoDate is before every date that can be parsed.
const NoDate Date = math.MinInt32

// LastDate is after every date that can be parsed.
const LastDate Date = math.MaxInt32

// ErrDate is what every error of [ParseDate] is.
var ErrDate = errors.New("not a date")

// ParseDate reads an ISO 8601 calendar date, such as 2025-02-28, of the years
// 1900 to 2999.
func ParseDate(s string) (Date, error) {
	if len(s) != 10 || s[4] != '-' || s[7] != '-' {
		return NoDate, dateError(s, "write it as 2025-02-28")
	}
	y, ok1 := digits(s[:4])
	m, ok2 := digits(s[5:7])
	d, ok3 := digits(s[8:])
	switch {
	case !ok1 || !ok2 || !ok3:
		return NoDate, dateError(s, "write it as 2025-02-28")
	case y < 1900 || y > 2999:
		return NoDate, dateError(s, "the year must be from 1900 to 2999")
	case m < 1 || m > 12:
		return NoDate, dateError(s, "there is no such month")
	case d < 1 || d > DaysIn(y, time.Month(m)):
		return NoDate, dateError(s, "that month has no such day")
	}
	return DateOf(y, time.Month(m), d), nil
}

func dateError(s, why string) error { return fmt.Errorf("%s is %w: %s", Quote(s), ErrDate, why) }

func digits(s string) (n int, ok bool) {
	for i := 0; i < len(s); i++ {
		if s[i] < '0' || s[i] > '9' {
			return 0, false
		}
		n = n*10 + int(s[i]-'0')
	}
	return n, true
}

// MustDate is ParseDate for constants; it panics on an error.
func MustDate(s string) Date {
	d, err := ParseDate(s)
	if err != nil {
		panic(err)
	}
	return d
}

// DateOf returns a date; a day beyond the month's end runs on as in package
// time.
func DateOf(y int, m time.Month, d int) Date {
	return Date(time.Date(y, m, d, 0, 0, 0, 0, time.UTC).Unix() / 86400)
}

// DateIn returns the local date of an instant in its own location.
func DateIn(t time.Time) Date { return DateOf(t.Date()) }

// DaysIn returns how many days a month has.
func DaysIn(y int, m time.Month) int { return time.Date(y, m+1, 0, 0, 0, 0, 0, time.UTC).Day() }

// Civil returns year, month and day.
func (d Date) Civil() (int, time.Month, int) { return d.utc().Date() }

// Weekday returns the day of the week.
func (d Date) Weekday() time.Weekday { return d.utc().Weekday() }

func (d Date) utc() time.Time { return time.Unix(int64(d)*86400, 0).UTC() }

// Midnight returns the first instant of d in a zone.
func (d Date) Midnight(zone *time.Location) time.Time {
	y, m, day := d.Civil()
	return time.Date(y, m, day, 0, 0, 0, 0, zone)
}

// AddDays returns the date n days later.
func (d Date) AddDays(n int) Date { return d + Date(n) }

// AddMonths returns the same day n months later, clamped to the month's end:
// 31 January and one month is 28 or 29 February.
func (d Date) AddMonths(n int) Date {
	y, m, day := d.Civil()
	first := DateOf(y, m+time.Month(n), 1)
	y, m, _ = first.Civil()
	return first + Date(min(day, DaysIn(y, m))-1)
}

// Month returns the first day of d's month.
func (d Date) Month() Date {
	_, _, day := d.Civil()
	return d - Date(day-1)
}

// String returns the ISO 8601 form, or nothing for [NoDate].
func (d Date) String() string {
	if d == NoDate || d == LastDate {
		return ""
	}
	return d.utc().Format(time.DateOnly)
}
