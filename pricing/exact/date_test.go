package exact

import (
	"errors"
	"math"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"
)

// Every day of the years that records may name, against package time.
func TestEveryDate(t *testing.T) {
	d := MustDate("1900-01-01")
	day := time.Date(1900, 1, 1, 0, 0, 0, 0, time.UTC)
	for ; day.Year() < 3000; d, day = d+1, day.AddDate(0, 0, 1) {
		y, m, n := d.Civil()
		if y != day.Year() || m != day.Month() || n != day.Day() || d.Weekday() != day.Weekday() {
			t.Fatalf("%d is %d-%d-%d, a %v; want %v", d, y, m, n, d.Weekday(), day)
		}
		text := day.Format(time.DateOnly)
		if d.String() != text {
			t.Fatalf("%d prints as %s, want %s", d, d, text)
		}
		if got, err := ParseDate(text); got != d || err != nil {
			t.Fatalf("%s reads as %d (%v), want %d", text, got, err, d)
		}
		if DateOf(y, m, n) != d || d.Month() != DateOf(y, m, 1) || DateIn(day) != d {
			t.Fatalf("%v is not made of its parts", d)
		}
	}
	if d.AddDays(-1) != MustDate("2999-12-31") {
		t.Fatalf("the last day came out as %v", d.AddDays(-1))
	}
}

func TestParseDateRefuses(t *testing.T) {
	for _, c := range []struct{ in, why string }{
		{"", "write it as 2025-02-28"},
		{"2025-2-28", "write it as 2025-02-28"},
		{"28.02.2025", "write it as 2025-02-28"},
		{"2025/02/28", "write it as 2025-02-28"},
		{"2025-02-28 ", "write it as 2025-02-28"},
		{" 2025-02-28", "write it as 2025-02-28"},
		{"20250228", "write it as 2025-02-28"},
		{"2025-02-2x", "write it as 2025-02-28"},
		{"+025-02-28", "write it as 2025-02-28"},
		{"2025-02--8", "write it as 2025-02-28"},
		{"2025-02-28T", "write it as 2025-02-28"},
		{"\uff12025-02", "write it as 2025-02-28"},
		{strings.Repeat("2025-02-28", 1<<16), "write it as 2025-02-28"},
		{"1899-12-31", "the year must be from 1900 to 2999"},
		{"3000-01-01", "the year must be from 1900 to 2999"},
		{"0000-00-00", "the year must be from 1900 to 2999"},
		{"2025-00-10", "there is no such month"},
		{"2025-13-10", "there is no such month"},
		{"2025-01-00", "that month has no such day"},
		{"2025-01-32", "that month has no such day"},
		{"2025-04-31", "that month has no such day"},
		{"2025-02-29", "that month has no such day"},
		{"1900-02-29", "that month has no such day"}, // a century not divisible by 400
		{"2100-02-29", "that month has no such day"},
	} {
		d, err := ParseDate(c.in)
		if d != NoDate || !errors.Is(err, ErrDate) || !strings.Contains(err.Error(), c.why) {
			t.Errorf("%s = %d (%v), want %q", Quote(c.in), d, err, c.why)
		}
	}
	for _, leap := range []string{"2000-02-29", "2024-02-29", "2400-02-29"} {
		if _, err := ParseDate(leap); err != nil {
			t.Errorf("%s: %v", leap, err)
		}
	}
}

func TestAddMonthsClampsToTheEnd(t *testing.T) {
	for _, c := range []struct {
		from string
		n    int
		want string
	}{
		{"2025-01-31", 1, "2025-02-28"},
		{"2024-01-31", 1, "2024-02-29"},
		{"2025-01-31", 2, "2025-03-31"},
		{"2025-03-31", -1, "2025-02-28"},
		{"2025-10-31", 13, "2026-11-30"},
		{"2025-12-15", 1, "2026-01-15"},
		{"2025-01-15", -1, "2024-12-15"},
		{"2024-02-29", 12, "2025-02-28"},
		{"2024-02-29", 48, "2028-02-29"},
		{"2025-05-05", 0, "2025-05-05"},
		{"2025-08-31", 300, "2050-08-31"},
	} {
		if got := MustDate(c.from).AddMonths(c.n); got != MustDate(c.want) {
			t.Errorf("%s and %d months = %v, want %s", c.from, c.n, got, c.want)
		}
	}
}

func TestNoDateAndLastDateStay(t *testing.T) {
	for _, d := range []Date{NoDate, LastDate} {
		for _, n := range []int{0, 1, -1, 1000, math.MaxInt, math.MinInt} {
			if d.AddDays(n) != d || d.AddMonths(n) != d || d.Month() != d {
				t.Errorf("%d moved by %d", d, n)
			}
		}
		if d.String() != "" || string(d.AppendTo([]byte("x"))) != "x" {
			t.Errorf("%d prints as %q", d, d.String())
		}
	}
	if d := Date(0); d != NoDate {
		t.Error("a date that is not set was given")
	}
	if first, last := MustDate("1900-01-01"), MustDate("2999-12-31"); NoDate >= first || LastDate <= last {
		t.Error("the two are not before and after all dates")
	}
	if MustDate("2025-01-01").AddDays(math.MaxInt) != LastDate || MustDate("2025-01-01").AddDays(math.MinInt) != NoDate {
		t.Error("a sum beyond all dates is not the nearest")
	}
	if DateOf(6_000_000, 1, 1) != LastDate || DateOf(-6_000_000, 1, 1) != NoDate {
		t.Error("a year beyond all dates is not the nearest")
	}
	if (NoDate+1).AddDays(30).Month() != NoDate+1 || DateOf(0, 2, 29) != NoDate {
		t.Error("the first date is not 1 March of the year 0")
	}
}

func TestDaysIn(t *testing.T) {
	for _, c := range []struct{ y, m, want int }{
		{2025, 1, 31}, {2025, 2, 28}, {2024, 2, 29}, {1900, 2, 28}, {2000, 2, 29}, {2025, 4, 30}, {2025, 12, 31},
		{2025, 13, 31}, {2025, 14, 28}, {2023, 14, 29}, {2025, 0, 31}, {2025, -9, 31}, {2024, -10, 28},
	} {
		if got := DaysIn(c.y, time.Month(c.m)); got != c.want {
			t.Errorf("%d-%d has %d days, want %d", c.y, c.m, got, c.want)
		}
	}
}

// Months and days run on as in package time, whatever the year.
func TestDateOfRunsOn(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		y := rapid.IntRange(-20000, 20000).Draw(t, "y")
		m := time.Month(rapid.IntRange(-100, 100).Draw(t, "m"))
		day := rapid.IntRange(-10000, 10000).Draw(t, "day")
		want := time.Date(y, m, day, 0, 0, 0, 0, time.UTC)
		d := DateOf(y, m, day)
		if want.Before(time.Date(0, 3, 1, 0, 0, 0, 0, time.UTC)) {
			if d != NoDate || DateIn(want) != NoDate {
				t.Fatalf("%d-%d-%d is %v, before all dates", y, m, day, d)
			}
			return
		}
		if got := DateIn(want); got != d || d.String() != want.Format(time.DateOnly) {
			t.Fatalf("%d-%d-%d is %v, want %v", y, m, day, d, want)
		}
		if got := DaysIn(y, m); got != time.Date(y, m+1, 0, 0, 0, 0, 0, time.UTC).Day() {
			t.Fatalf("%d-%d has %d days", y, m, got)
		}
	})
}

// Days and civil dates turn into each other up to the end of an int32 too.
func TestCivilAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := Date(rapid.Int32Range(1, math.MaxInt32).Draw(t, "d"))
		y, m, day := d.Civil()
		if back := DateOf(y, m, day); back != d {
			t.Fatalf("%d is %d-%d-%d, which is %d", d, y, m, day, back)
		}
		if m < 1 || m > 12 || day < 1 || day > DaysIn(y, m) {
			t.Fatalf("%d is %d-%d-%d", d, y, m, day)
		}
	})
}

func TestDateArithmetic(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := UnixDate(rapid.Int64Range(-25567, 376200).Draw(t, "d")) // 1900 to 2999
		n := rapid.IntRange(-5000, 5000).Draw(t, "n")
		at := time.Unix(d.UnixDays()*86400, 0).UTC()
		if got := d.AddDays(n); got != DateIn(at.AddDate(0, 0, n)) || got.AddDays(-n) != d {
			t.Fatalf("%v and %d days = %v", d, n, got)
		}
		got := d.AddMonths(n)
		y, m, day := d.Civil()
		first := time.Date(y, m+time.Month(n), 1, 0, 0, 0, 0, time.UTC)
		if got.Month() != DateIn(first) {
			t.Fatalf("%v and %d months = %v", d, n, got)
		}
		_, _, gotDay := got.Civil()
		if gotDay != min(day, DaysIn(first.Year(), first.Month())) {
			t.Fatalf("%v and %d months = %v", d, n, got)
		}
		if d.Month() > d || d.AddDays(40).Month() <= d {
			t.Fatalf("%v is not of the month that begins %v", d, d.Month())
		}
	})
}

// The calendar of package time is that of days_from_civil in Howard Hinnant,
// "chrono-Compatible Low-Level Date Algorithms": a year that begins in March has its
// leap day last, and 400 years have 146,097 days.
func TestCalendarIsTwin(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		y, m, d := rapid.IntRange(1, 5_000_000).Draw(t, "y"), rapid.IntRange(1, 12).Draw(t, "m"), rapid.IntRange(1, 28).Draw(t, "d")
		year, month := y, m-3
		if m <= 2 {
			year, month = y-1, m+9
		}
		era, of := year/400, year%400
		want := era*146097 + of*365 + of/4 - of/100 + (153*month+2)/5 + d
		got := DateOf(y, time.Month(m), d)
		if int(got) != want {
			t.Fatalf("%d-%d-%d is day %d, want %d", y, m, d, got, want)
		}
		if gy, gm, gd := got.Civil(); gy != y || int(gm) != m || gd != d {
			t.Fatalf("%d-%d-%d comes back as %d-%d-%d", y, m, d, gy, gm, gd)
		}
	})
}
