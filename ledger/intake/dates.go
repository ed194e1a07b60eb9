package intake

import (
	"errors"
	"strings"
	"time"
	"unicode"

	"putby/pricing/exact"
)

// An Order is the order in which dates name day, month and year.
type Order uint8

// The orders of dates. Serial is a workbook's count of days, which only a text
// file needs to be told.
const (
	AnyOrder Order = iota // to be found out
	DayMonthYear
	MonthDayYear
	YearMonthDay
	Serial
)

var orderWords = [...]string{"", "dmy", "mdy", "ymd", "serial"}

// OrderWords are the words of the orders that a text file may have.
func OrderWords() []string { return orderWords[1:Serial] }

// String returns the order's word, or nothing for [AnyOrder].
func (o Order) String() string { return orderWords[o] }

// ParseOrder reads dmy, mdy, ymd or serial. Nothing is [AnyOrder].
func ParseOrder(word string) (Order, error) {
	return parseWord[Order](orderWords[:], word, "no order of dates; write dmy, mdy, ymd or serial")
}

// A writtenDate is a date and time taken apart, before its order is known.
type writtenDate struct {
	numbers [3]int // in the order in which they are written; a year of two digits as it stands
	lengths [3]int // how many digits each has
	count   int    // how many of the three there are
	month   int    // 1 to 12 when a word names it, with two numbers beside it; else 0
	clock   clock
}

// A clock is the time of day behind a date.
type clock struct {
	given  bool
	sec    int    // since midnight
	nanos  int64  // beyond them
	offset string // as it is written: Z, +01:00 or nothing
	east   int    // what that is, in seconds
}

var (
	errNotDate = errors.New("is not a date")
	errNoClock = errors.New("has no time of day")
)

// takeApart reads a date, with or without a time of day behind it.
func takeApart(s string) (writtenDate, error) {
	var w writtenDate
	day, rest := cutDay(s)
	if rest != "" {
		c, ok := readClock(rest)
		if !ok {
			return w, errNotDate
		}
		w.clock = c
	}
	if !w.takeDay(strings.ToLower(day)) {
		return w, errNotDate
	}
	return w, nil
}

// cutDay parts a date from the time of day behind it, if there is one.
func cutDay(s string) (day, rest string) {
	at := strings.IndexByte(s, ':')
	if at < 0 {
		return s, ""
	}
	at = len(strings.TrimRight(s[:at], "0123456789")) // the digits before the first colon are the hour
	return s[:at], s[at:]
}

// takeDay collects the numbers and the month's name of a date in lower case.
func (w *writtenDate) takeDay(s string) bool {
	for s != "" {
		r := rune(s[0])
		switch {
		case r >= '0' && r <= '9':
			size := len(s) - len(strings.TrimLeft(s, "0123456789"))
			if w.count == 3 || size > 8 {
				return false
			}
			w.numbers[w.count], w.lengths[w.count] = int(mustInt(s[:size])), size
			w.count++
			s = s[size:]
		case r >= 0x80 || unicode.IsLetter(r):
			size := len(s) - len(strings.TrimLeftFunc(s, unicode.IsLetter))
			if size == 0 || !w.takeWord(s[:size]) {
				return false
			}
			s = s[size:]
		case strings.ContainsRune(" \t./-,'", r):
			s = s[1:]
		default:
			return false
		}
	}
	return w.split()
}

// takeWord takes a month's name, and lets pass what says nothing.
func (w *writtenDate) takeWord(word string) bool {
	if word == "t" && w.count > 0 { // ISO 8601's, before the time
		return true
	}
	if month := monthOf(word); month > 0 && w.month == 0 {
		w.month = month
		return true
	}
	return idle(word)
}

// split checks that there is as much as a date needs; eight digits alone are
// year, month and day.
func (w *writtenDate) split() bool {
	if w.count == 1 && w.lengths[0] == 8 && w.month == 0 {
		n := w.numbers[0]
		w.numbers, w.lengths, w.count = [3]int{n / 10000, n / 100 % 100, n % 100}, [3]int{4, 2, 2}, 3
		return true
	}
	for _, size := range w.lengths[:w.count] {
		if size != 1 && size != 2 && size != 4 {
			return false
		}
	}
	return w.count == 3 && w.month == 0 || w.count == 2 && w.month > 0
}

// in reads the date in an order, and reports whether it is one then.
func (w writtenDate) in(o Order) (exact.Date, bool) {
	var y, m, d int
	var yearSize int
	n, size := w.numbers, w.lengths
	switch {
	case w.month > 0 && size[0] == 4: // 2025 March 3
		y, m, d, yearSize = n[0], w.month, n[1], 4
	case w.month > 0:
		y, m, d, yearSize = n[1], w.month, n[0], size[1]
	case o == YearMonthDay || size[0] == 4: // a year in front is followed by the month
		y, m, d, yearSize = n[0], n[1], n[2], size[0]
	case o == DayMonthYear:
		d, m, y, yearSize = n[0], n[1], n[2], size[2]
	case o == MonthDayYear:
		m, d, y, yearSize = n[0], n[1], n[2], size[2]
	}
	// Of any other order the year is still 0, which is refused below.
	if yearSize == 1 || w.wide(yearSize) {
		return exact.NoDate, false
	}
	if yearSize == 2 {
		y += 2000 // two digits are 2000 to 2099
	}
	if y < 1900 || y > 2999 || m < 1 || m > 12 || d < 1 || d > exact.DaysIn(y, time.Month(m)) {
		return exact.NoDate, false
	}
	return exact.DateOf(y, time.Month(m), d), true
}

// wide reports whether a number that is not the year has four digits.
func (w writtenDate) wide(yearSize int) bool {
	fours := 0
	for _, size := range w.lengths[:w.count] {
		if size == 4 {
			fours++
		}
	}
	return fours > 1 || fours == 1 && yearSize != 4
}

// readClock reads a time of day: 8:05, 18:30:07.25, 6:30 pm, with an offset or
// without.
func readClock(s string) (c clock, ok bool) {
	c.given = true
	if at := strings.IndexAny(s, "zZ+-"); at >= 0 {
		c.offset = strings.ToUpper(strings.ReplaceAll(strings.TrimSpace(s[at:]), " ", ""))
		if c.east, ok = scanOffset(c.offset); !ok {
			return c, false
		}
		s = s[:at]
	}
	s = strings.TrimSpace(strings.ToLower(s))
	s = strings.TrimSpace(strings.TrimSuffix(s, "uhr"))
	half := 0
	for i, suffixes := range [...][2]string{{"a.m.", "am"}, {"p.m.", "pm"}} {
		for _, suffix := range suffixes {
			if rest, ok := strings.CutSuffix(s, suffix); ok {
				s, half = strings.TrimSpace(rest), i+1
			}
		}
	}
	hour, minute, second, nanos, ok := scanClock(s)
	if half > 0 {
		ok = ok && hour >= 1 && hour <= 12
		hour = hour%12 + 12*int64(half-1) // 12 am is 0:00, 12 pm is 12:00
	}
	c.sec, c.nanos = int(hour*3600+minute*60+second), nanos
	return c, ok && hour < 24 && minute < 60 && second < 60
}
