package energy

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"putby/pricing/exact"
)

// The lines of a week, by hand: seven days; and the weekdays on which a holiday differs, together where
// they are alike, even where a holiday has its own price at the same hours.
func TestWeekHasHolidaysThatDiffer(t *testing.T) {
	z := zone(t, "Europe/Berlin")
	seven, eight := must(ParseClock("07:00")), must(ParseClock("20:00"))
	rest := Band{Rate: exact.MustNumber("0.20")}
	dear := Band{Start: seven, End: eight, Rate: exact.MustNumber("0.30")}
	at := func(b Band, days string) Band {
		b.Days = must(ParseDays(days))
		return b
	}
	for _, c := range []struct {
		bands             []Band
		work, end, others string // a weekday, a day of the weekend, the lines of holidays; each part until when, and its band
	}{
		{[]Band{rest}, "24:00 0", "24:00 0", ""},
		{[]Band{dear, rest}, "07:00 1, 20:00 0, 24:00 1", "07:00 1, 20:00 0, 24:00 1", ""},
		{[]Band{at(dear, "mon-fri"), rest}, "07:00 1, 20:00 0, 24:00 1", "24:00 1", ""},
		{[]Band{at(dear, "hol"), dear, rest}, "07:00 2, 20:00 1, 24:00 2", "07:00 2, 20:00 1, 24:00 2", "mon-sun,hol 07:00 2, 20:00 0, 24:00 2"},
		{[]Band{at(rest, "hol"), at(dear, "mon-fri"), rest}, "07:00 2, 20:00 1, 24:00 2", "24:00 2", "mon-sun,hol 24:00 0"},
		{[]Band{at(rest, "hol"), at(dear, "mon-fri"), at(rest, "sat,sun")}, "07:00 none, 20:00 1, 24:00 none", "24:00 2", "mon-sun,hol 24:00 0"},
	} {
		w := must(NewTariff("week", z, c.bands, nil)).Week(exact.MustDate("2025-03-10"))
		parts := func(d DayLine) string {
			var list []string
			for _, s := range d.Stretches {
				band := "none"
				if len(s.Bands) > 0 {
					band = fmt.Sprint(slices.IndexFunc(c.bands, func(b Band) bool { return b == w.Bands[s.Bands[0]] }))
				}
				list = append(list, fmt.Sprintf("%v %s", s.End, band))
			}
			return strings.Join(list, ", ")
		}
		var others []string
		for _, d := range w.Days[7:] {
			others = append(others, d.Days.String()+" "+parts(d))
		}
		if have := strings.Join(others, "; "); parts(w.Days[0]) != c.work || parts(w.Days[4]) != c.work || parts(w.Days[5]) != c.end || parts(w.Days[6]) != c.end || have != c.others {
			t.Errorf("Monday %s, Saturday %s, holidays %s; want %s, %s, %s", parts(w.Days[0]), parts(w.Days[5]), have, c.work, c.end, c.others)
		}
	}
}
