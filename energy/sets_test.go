package energy

import (
	"errors"
	"testing"
	"time"
)

func TestParseMonths(t *testing.T) {
	for in, want := range map[string]struct {
		set  MonthSet
		text string
	}{
		"":        {0, ""},
		"5-10":    {0b11111100000, "5-10"},
		"11-4":    {0b1100000011110, "11-4"},
		"1,7":     {0b10000010, "1,7"},
		" 1, 07 ": {0b10000010, "1,7"},
		"12-1":    {0b1000000000010, "12,1"},
		"3-3":     {0b1000, "3"},
		"1-12":    {0b1111111111110, "1-12"},
		"6-5":     {0b1111111111110, "1-12"},
		"1-3,2-4": {0b11110, "1-4"},
	} {
		got, err := ParseMonths(in)
		if err != nil || got != want.set || got.String() != want.text {
			t.Errorf("%q: %b %q %v, want %b %q", in, got, got, err, want.set, want.text)
		}
	}
	for _, in := range []string{"0", "13", "1-", "-", "1,,2", ",", "1-2-3", "may", "+1", "001", "1.5"} {
		if got, err := ParseMonths(in); !errors.Is(err, ErrMonths) {
			t.Errorf("%q: %v %v, want a fault", in, got, err)
		}
	}
}

func TestParseDays(t *testing.T) {
	for in, want := range map[string]struct {
		set  DaySet
		text string
	}{
		"":            {0, ""},
		"mon-fri":     {0b11111, "mon-fri"},
		"sat":         {0b100000, "sat"},
		"hol":         {Holidays, "hol"},
		"sat,sun,hol": {0b11100000, "sat,sun,hol"},
		"hol, Sat":    {0b10100000, "sat,hol"},
		"fri-mon":     {0b1110001, "fri-mon"},
		"mon-sun":     {0b1111111, "mon-sun"},
		"sun,mon":     {0b1000001, "sun,mon"},
	} {
		got, err := ParseDays(in)
		if err != nil || got != want.set || got.String() != want.text {
			t.Errorf("%q: %b %q %v, want %b %q", in, got, got, err, want.set, want.text)
		}
	}
	for _, in := range []string{"monday", "mon-", "mon,,tue", "hol,", "hol-sun", "x", ",hol", "1-5"} {
		if got, err := ParseDays(in); !errors.Is(err, ErrDays) {
			t.Errorf("%q: %v %v, want a fault", in, got, err)
		}
	}
}

// A holiday is also its weekday.
func TestDaySetHas(t *testing.T) {
	working, free := must(ParseDays("mon-fri")), must(ParseDays("sun,hol"))
	for _, c := range []struct {
		set     DaySet
		day     time.Weekday
		holiday bool
		want    bool
	}{
		{working, time.Friday, true, true},
		{working, time.Saturday, true, false},
		{free, time.Friday, true, true},
		{free, time.Friday, false, false},
		{free, time.Sunday, false, true},
		{Holidays, time.Sunday, false, false},
		{0, time.Monday, false, true},
	} {
		if got := c.set.Has(c.day, c.holiday); got != c.want {
			t.Errorf("%v has %v (holiday %v): %v", c.set, c.day, c.holiday, got)
		}
	}
}

// Whatever a set is, its text reads back as it.
func TestSetsReadBack(t *testing.T) {
	for set := range MonthSet(1 << 12) {
		if got, err := ParseMonths((set << 1).String()); err != nil || got != set<<1 {
			t.Fatalf("%b writes %q, reads %b, %v", set<<1, set<<1, got, err)
		}
	}
	for set := range 256 {
		s := DaySet(set)
		if got, err := ParseDays(s.String()); err != nil || got != s {
			t.Fatalf("%b writes %q, reads %b, %v", s, s, got, err)
		}
	}
	for c := range DayEnd + 1 {
		if got, err := ParseClock(c.String()); err != nil || got != c {
			t.Fatalf("%d writes %q, reads %d, %v", c, c, got, err)
		}
	}
}

func TestParseClock(t *testing.T) {
	for in, want := range map[string]Clock{"7:00": 420, "07:00": 420, "0:00": 0, "24:00": 1440, "23:59": 1439} {
		if got, err := ParseClock(in); err != nil || got != want {
			t.Errorf("%q: %d %v, want %d", in, got, err, want)
		}
	}
	for _, in := range []string{"", "7", "7:0", "7:60", "24:01", "25:00", "007:00", ":00", "7:00:00", "7.00", " 7:00", "-1:00", "7:0x"} {
		if got, err := ParseClock(in); !errors.Is(err, ErrClock) {
			t.Errorf("%q: %v %v, want a fault", in, got, err)
		}
	}
}

// Law: what a parser takes, it takes again as it is written, with the same
// meaning.
func FuzzSets(f *testing.F) {
	for _, s := range []string{"5-10", "11-4", "mon-fri", "sat,sun,hol", "7:00", "24:00", "", "1,,2"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		if set, err := ParseMonths(s); err == nil {
			if again, err := ParseMonths(set.String()); err != nil || again != set {
				t.Errorf("months %q: %v, then %v, %v", s, set, again, err)
			}
		}
		if set, err := ParseDays(s); err == nil {
			if again, err := ParseDays(set.String()); err != nil || again != set {
				t.Errorf("days %q: %v, then %v, %v", s, set, again, err)
			}
		}
		if c, err := ParseClock(s); err == nil {
			if again, err := ParseClock(c.String()); err != nil || again != c {
				t.Errorf("clock %q: %v, then %v, %v", s, c, again, err)
			}
		}
	})
}
