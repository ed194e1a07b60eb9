package exact

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"time"
)

// A Date is a civil date of the Gregorian calendar, without time or zone,
// counted in days: 1 is 1 March of the year 0. Dates compare with == and <, and
// differ by days. The zero value is [NoDate].
type Date int32

// NoDate is a date that was not given. It is before every other date.
const NoDate Date = 0

// LastDate is after every other date.
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
	case d < 1 || d > 28 && d > DaysIn(y, time.Month(m)):
		return NoDate, dateError(s, "that month has no such day")
	}
	return Date(days(y, m, d)), nil
}

func dateError(s, why string) error { return fmt.Errorf("%s is %w: %s", Quote(s), ErrDate, why) }

// digits reads a short run of digits; ok is false when there is anything else.
func digits(s string) (n int, ok bool) {
	for i := 0; i < len(s); i++ {
		if !isDigit(s[i]) {
			return 0, false
		}
		n = n*10 + int(s[i]-'0')
	}
	return n, true
}

// MustDate is ParseDate for constants; it panics on an error.
func MustDate(s string) Date { return must(ParseDate(s)) }

// unixEpoch is 1 January 1970.
const unixEpoch = 719469

// UnixDate returns the date n days after 1 January 1970, or [NoDate] or
// [LastDate] where no date is.
func UnixDate(n int64) Date { return clampDate(near(int(n)) + unixEpoch) }

// UnixDays returns how many days d is after 1 January 1970.
func (d Date) UnixDays() int64 { return int64(d) - unixEpoch }

// DateOf returns a date; a month or day beyond its range runs on as in package
// time. Before the year 0 and after some 5.8 million years it is [NoDate] or
// [LastDate].
func DateOf(y int, m time.Month, d int) Date {
	return clampDate(days(near(y), near(int(m)), near(d)))
}

// near keeps a count of years, months or days where package time cannot wrap, yet
// far beyond all dates.
func near(n int) int { return min(max(n, -1<<36), 1<<36) }

func clampDate(n int) Date {
	return Date(min(max(n, int(NoDate)), int(LastDate)))
}

// DateIn returns the local date of an instant in its own location.
func DateIn(t time.Time) Date { return DateOf(t.Date()) }

// DaysIn returns how many days a month has; a month beyond 1 to 12 runs on.
func DaysIn(y int, m time.Month) int {
	return time.Date(near(y), time.Month(near(int(m)))+1, 0, 0, 0, 0, 0, time.UTC).Day()
}

// secondsInDay are those of a day of UTC.
const secondsInDay = 24 * 60 * 60

// days counts the days through a date from 1 March of the year 0, and civil is its
// inverse.
func days(y, m, d int) int {
	return int(time.Date(y, time.Month(m), d, 0, 0, 0, 0, time.UTC).Unix()/secondsInDay) + unixEpoch
}

func civil(n int) (y, m, d int) {
	y, month, d := time.Unix(int64(n-unixEpoch)*secondsInDay, 0).UTC().Date()
	return y, int(month), d
}

// Civil returns year, month and day.
func (d Date) Civil() (int, time.Month, int) {
	y, m, day := civil(int(d))
	return y, time.Month(m), day
}

// Weekday returns the day of the week.
func (d Date) Weekday() time.Weekday {
	return (time.Weekday(d%7) + time.Tuesday) % 7 // 1 March of the year 0 was a Wednesday
}

// known reports whether d is a date, not one of the two that stand for none.
func (d Date) known() bool { return d > NoDate && d != LastDate }

// AddDays returns the date n days later. [NoDate] and [LastDate] stay.
func (d Date) AddDays(n int) Date {
	if !d.known() {
		return d
	}
	return clampDate(int(d) + near(n))
}

// AddMonths returns the same day n months later, clamped to the month's end:
// 31 January and one month is 28 or 29 February. [NoDate] and [LastDate] stay.
func (d Date) AddMonths(n int) Date {
	if !d.known() {
		return d
	}
	y, m, day := civil(int(d))
	month := time.Month(m + near(n))
	return DateOf(y, month, min(day, DaysIn(y, month)))
}

// Month returns the first day of d's month. [NoDate] and [LastDate] stay.
func (d Date) Month() Date {
	if !d.known() {
		return d
	}
	_, _, day := civil(int(d))
	return clampDate(int(d) - (day - 1))
}

// String returns the ISO 8601 form, or nothing for [NoDate] and [LastDate].
func (d Date) String() string {
	var buf [16]byte
	return string(d.AppendTo(buf[:0]))
}

// AppendTo appends what [Date.String] returns to dst and returns the longer
// slice.
func (d Date) AppendTo(dst []byte) []byte {
	if !d.known() {
		return dst
	}
	y, m, day := civil(int(d))
	for limit := 1000; limit > max(y, 1); limit /= 10 {
		dst = append(dst, '0')
	}
	dst = strconv.AppendInt(dst, int64(y), 10)
	return append(dst, '-', byte('0'+m/10), byte('0'+m%10), '-', byte('0'+day/10), byte('0'+day%10))
}
