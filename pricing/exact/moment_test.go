package exact

import (
	"errors"
	"strings"
	"testing"
	"time"
	_ "time/tzdata" // the tests must not depend on the machine's zones

	"pgregory.net/rapid"
)

func zone(t rapid.TB, name string) *time.Location {
	t.Helper()
	z, err := time.LoadLocation(name)
	if err != nil {
		t.Fatal(err)
	}
	return z
}

// Clock changes of the IANA time zone database at and around midnight.
func TestMidnight(t *testing.T) {
	for _, c := range []struct{ why, zone, date, want string }{
		{"a plain day", "Europe/Berlin", "2025-06-01", "2025-05-31T22:00:00Z"},
		{"a change later that day", "Europe/Berlin", "2025-03-30", "2025-03-29T23:00:00Z"},
		{"the day after a change", "Europe/Berlin", "2025-03-31", "2025-03-30T22:00:00Z"},
		{"universal time", "UTC", "2025-06-01", "2025-06-01T00:00:00Z"},
		{"no 0:00, west of Greenwich", "America/Sao_Paulo", "2017-10-15", "2017-10-15T03:00:00Z"},
		{"no 0:00, east of Greenwich", "Asia/Beirut", "2022-03-27", "2022-03-26T22:00:00Z"},
		{"23:00 twice the evening before", "America/Sao_Paulo", "2018-02-18", "2018-02-18T03:00:00Z"},
		{"0:00 twice, west of Greenwich", "America/Havana", "2023-11-05", "2023-11-05T04:00:00Z"},
		{"0:00 twice, east of Greenwich", "Asia/Amman", "2021-10-29", "2021-10-28T21:00:00Z"},
		{"0:00 twice, at Greenwich's own", "Atlantic/Azores", "2023-10-29", "2023-10-29T00:00:00Z"},
		{"0:00 and then the day before again", "America/St_Johns", "2006-10-29", "2006-10-29T02:30:00Z"},
		{"a date that never was", "Pacific/Apia", "2011-12-30", "2011-12-30T10:00:00Z"},
		{"the date after it", "Pacific/Apia", "2011-12-31", "2011-12-30T10:00:00Z"},
		{"beyond the last change on record", "America/New_York", "2980-07-01", "2980-07-01T04:00:00Z"},
		{"the last day of a leap year, by rule", "Europe/Berlin", "2040-12-31", "2040-12-30T23:00:00Z"},
		{"the day after it", "Europe/Berlin", "2041-01-01", "2040-12-31T23:00:00Z"},
		{"the second day after it", "America/New_York", "2097-01-02", "2097-01-02T05:00:00Z"},
		{"before the first", "Asia/Kathmandu", "1900-01-01", "1899-12-31T18:18:44Z"},
	} {
		got := MustDate(c.date).Midnight(zone(t, c.zone))
		if text := got.UTC().Format(time.RFC3339); text != c.want {
			t.Errorf("%s: %s in %s begins %s, want %s", c.why, c.date, c.zone, text, c.want)
		}
		if got.Location().String() != c.zone {
			t.Errorf("%s: the instant is in %v", c.why, got.Location())
		}
	}
}

func TestLocalTime(t *testing.T) {
	const clock = 3600
	for _, c := range []struct {
		why, zone, date string
		sec             int
		want            string
		ok              bool
	}{
		{"a plain time", "Europe/Berlin", "2025-06-01", 12 * clock, "2025-06-01T10:00:00Z", true},
		{"skipped in spring", "Europe/Berlin", "2025-03-30", 2*clock + 1800, "2025-03-30T01:00:00Z", false},
		{"the end of the gap", "Europe/Berlin", "2025-03-30", 3 * clock, "2025-03-30T01:00:00Z", true},
		{"twice in autumn: the first", "Europe/Berlin", "2025-10-26", 2*clock + 1800, "2025-10-26T00:30:00Z", true},
		{"twice in autumn, in the west", "America/New_York", "2025-11-02", 1*clock + 1800, "2025-11-02T05:30:00Z", true},
		{"after both", "America/New_York", "2025-11-02", 2 * clock, "2025-11-02T07:00:00Z", true},
		{"half an hour's change", "Australia/Lord_Howe", "2025-10-05", 2*clock + 900, "2025-10-04T15:30:00Z", false},
		{"a date that never was", "Pacific/Apia", "2011-12-30", 12 * clock, "2011-12-30T10:00:00Z", false},
		{"beyond the day", "UTC", "2025-06-01", 24 * clock, "2025-06-02T00:00:00Z", false},
		{"before the day", "UTC", "2025-06-01", -1, "2025-05-31T23:59:59Z", false},
	} {
		got, ok := LocalTime(MustDate(c.date), c.sec, zone(t, c.zone))
		if text := got.UTC().Format(time.RFC3339); text != c.want || ok != c.ok {
			t.Errorf("%s: %s, %v; want %s, %v", c.why, text, ok, c.want, c.ok)
		}
	}
}

func TestParseMoment(t *testing.T) {
	berlin := zone(t, "Europe/Berlin")
	for in, want := range map[string]string{
		"2025-02-28 18:30":          "2025-02-28T17:30:00Z",
		"2025-02-28T18:30:05":       "2025-02-28T17:30:05Z",
		"2025-02-28 00:00":          "2025-02-27T23:00:00Z",
		"2025-02-28 23:59:59":       "2025-02-28T22:59:59Z",
		"2025-02-28 18:30Z":         "2025-02-28T18:30:00Z",
		"2025-02-28T18:30:05+01:00": "2025-02-28T17:30:05Z",
		"2025-02-28 18:30-0330":     "2025-02-28T22:00:00Z",
		"2025-02-28 18:30+14:00":    "2025-02-28T04:30:00Z",
		"2025-10-26 02:30":          "2025-10-26T00:30:00Z", // twice: the first
		"2025-10-26 02:30+01:00":    "2025-10-26T01:30:00Z", // the second, by its offset
		"2025-03-30 02:30+01:00":    "2025-03-30T01:30:00Z",
	} {
		got, err := ParseMoment(in, berlin)
		if err != nil || got.UTC().Format(time.RFC3339) != want || got.Location() != berlin {
			t.Errorf("%q = %v (%v), want %s", in, got, err, want)
		}
	}
}

func TestParseMomentRefuses(t *testing.T) {
	for _, c := range []struct{ in, why string }{
		{"", "write it as"},
		{"2025-02-28", "write it as"},
		{"2025-02-28x18:30", "write it as"},
		{"2025-02-28 18", "write it as"},
		{"2025-02-30 18:30", "that month has no such day"},
		{"2025-02-28 24:00", "the time of day"},
		{"2025-02-28 18:60", "the time of day"},
		{"2025-02-28 18:30:60", "the time of day"},
		{"2025-02-28 1830:00", "the time of day"},
		{"2025-02-28 18:30:5", "the time of day"},
		{"2025-02-28 18:30 ", "the time of day"},
		{"2025-02-28 6:30 pm", "the time of day"},
		{"2025-02-28 18:30 +01:00", "the time of day"},
		{"2025-02-28 18:30:05.5", "the time of day"},
		{"2025-02-28 -8:30", "the time of day"},
		{"2025-02-28 18:30+", "write the offset"},
		{"2025-02-28 18:30+1", "write the offset"},
		{"2025-02-28 18:30+0:330", "write the offset"},
		{"2025-02-28 18:30+01:60", "write the offset"},
		{"2025-02-28 18:30+14:01", "write the offset"},
		{"2025-02-28 18:30+15:00", "write the offset"},
		{"2025-02-28 18:30+01:00Z", "write the offset"},
		{"2025-02-28 18:30Z0100", "write the offset"},
		{"2025-02-28 18:30ZZ", "write the offset"},
		{"2025-02-28 18:30-+100", "write the offset"},
		{"2025-03-30 02:30", "the clocks of Europe/Berlin skip that time"},
		{"2025-02-28 18:30" + strings.Repeat("0", 1<<20), "the time of day"},
	} {
		_, err := ParseMoment(c.in, zone(t, "Europe/Berlin"))
		if !errors.Is(err, ErrMoment) || !strings.Contains(err.Error(), c.why) {
			t.Errorf("%s: %v, want %q", Quote(c.in), err, c.why)
		}
	}
	if _, err := ParseMoment("2025-13-01 00:00", time.UTC); !errors.Is(err, ErrDate) {
		t.Errorf("a bad date in a moment is %v, not ErrDate too", err)
	}
}

var zonesToTry = []string{
	"UTC", "Europe/Berlin", "Europe/London", "Europe/Lisbon", "Atlantic/Azores", "America/New_York", "America/St_Johns",
	"America/Sao_Paulo", "America/Havana", "Asia/Kolkata", "Asia/Kathmandu", "Asia/Amman", "Asia/Beirut", "Africa/Casablanca",
	"Africa/Monrovia", "Australia/Lord_Howe", "Pacific/Apia", "Pacific/Kiritimati", "Antarctica/Troll", "Asia/Manila",
}

// The time to the next change is never none, and its offset one.
func TestNextChange(t *testing.T) {
	for _, name := range zonesToTry {
		z := zone(t, name)
		for at := MustDate("2030-01-01").Midnight(z); at.Year() < 2101; {
			next, changes := NextChange(at)
			if !changes {
				break
			}
			_, now := at.Zone()
			if _, then := next.Add(-time.Second).Zone(); !next.After(at) || then != now {
				t.Fatalf("%s: the offset of %v does not last until %v", name, at, next)
			}
			at = next
		}
	}
	if _, changes := NextChange(time.Unix(0, 0).UTC()); changes {
		t.Error("universal time changes")
	}
}

// From 1900 on, and most often within some hours of a clock change.
func instants() *rapid.Generator[time.Time] {
	return rapid.Custom(func(t *rapid.T) time.Time {
		z := zone(t, rapid.SampledFrom(zonesToTry).Draw(t, "zone"))
		from, to := MustDate("1900-01-03").UnixDays()*86400, MustDate("2150-01-01").UnixDays()*86400
		at := time.Unix(rapid.Int64Range(from, to).Draw(t, "second"), 0).In(z)
		if change, _ := at.ZoneBounds(); !change.IsZero() && change.Unix() > from && rapid.Bool().Draw(t, "near a change") {
			at = change.Add(time.Duration(rapid.IntRange(-200, 200).Draw(t, "minutes")) * time.Minute)
		}
		return at
	})
}

func reading(t time.Time) (Date, int) {
	h, m, s := t.Clock()
	return DateIn(t), h*3600 + m*60 + s
}

// What the clocks show at an instant is found again, and no earlier instant,
// under any offset of the days around it, shows the same.
func TestLocalTimeIsTheFirstThatShows(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at := instants().Draw(t, "at")
		date, sec := reading(at)
		got, ok := LocalTime(date, sec, at.Location())
		if gotDate, gotSec := reading(got); !ok || gotDate != date || gotSec != sec || got.After(at) {
			t.Fatalf("%v is found as %v (%v)", at, got, ok)
		}
		shown := date.UnixDays()*86400 + int64(sec)
		for h := -72; h <= 72; h++ {
			_, east := at.Add(time.Duration(h) * time.Hour).Zone()
			other := time.Unix(shown-int64(east), 0).In(at.Location())
			if d, s := reading(other); d == date && s == sec && other.Before(got) {
				t.Fatalf("%v shows the same as %v, and before it", other, got)
			}
		}
		back, err := ParseMoment(got.Format("2006-01-02 15:04:05"), at.Location())
		if err != nil || !back.Equal(got) {
			t.Fatalf("%v, printed, reads as %v (%v)", got, back, err)
		}
		_, east := at.Zone()
		if east%60 != 0 {
			return // an offset with seconds, of the time before zones, can't be written
		}
		back, err = ParseMoment(at.Format("2006-01-02T15:04:05-07:00"), at.Location())
		if err != nil || !back.Equal(at) {
			t.Fatalf("%v, printed with its offset, reads as %v (%v)", at, back, err)
		}
	})
}

// Midnight is of its date (or later, where the date was skipped), and no instant
// of the two days before it is.
func TestMidnightIsTheFirstOfItsDate(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at := instants().Draw(t, "at")
		d := DateIn(at)
		m := d.Midnight(at.Location())
		if DateIn(m) != d || m.After(at) {
			t.Fatalf("%v, of %v, begins at %v", d, at, m)
		}
		for back := time.Second; back < 48*time.Hour; back += 10 * time.Minute {
			if DateIn(m.Add(-back)) >= d {
				t.Fatalf("%v begins at %v, but %v is of it", d, m, m.Add(-back))
			}
		}
	})
}

// What the clocks show at an instant they show first at one instant, and again at
// most once: these two are found from each other.
func TestShownAgain(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at := instants().Draw(t, "at")
		date, sec := reading(at)
		first, _ := LocalTime(date, sec, at.Location())
		again := ShownAgain(first)
		if d, s := reading(again); d != date || s != sec || again.Before(first) || !at.Equal(first) && !at.Equal(again) {
			t.Fatalf("%v is shown first at %v, again at %v", at, first, again)
		}
	})
	berlin := zone(t, "Europe/Berlin")
	if got := ShownAgain(must(ParseMoment("2025-10-26 02:30", berlin))); got.UTC().Format("15:04") != "01:30" {
		t.Errorf("half past two is shown again at %v", got.UTC())
	}
}

// The offset holds from its beginning to its end.
func TestOffsetAt(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at := instants().Draw(t, "at")
		since, until, offset := OffsetAt(at.Unix(), at.Location())
		for _, second := range []int64{max(since, at.Unix()-1e9), at.Unix(), min(until-1, at.Unix()+1e9)} {
			if _, east := time.Unix(second, 0).In(at.Location()).Zone(); int64(east) != offset || at.Unix() < since || at.Unix() >= until {
				t.Fatalf("%v: %d s from %d until %d, at %d it is %d", at, offset, since, until, second, east)
			}
		}
	})
}
