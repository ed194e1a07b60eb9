package energy

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"putby/pricing/exact"
)

// drawWeek writes a week as a person would see it: one letter a half hour.
func drawWeek(w Week) string {
	var b strings.Builder
	for _, d := range w.Days {
		fmt.Fprintf(&b, "%s ", d.Days)
		for _, c := range d.HalfHours() {
			switch {
			case c.Band < 0:
				b.WriteByte('.')
			case c.Mixed:
				b.WriteByte('A' + byte(c.Band))
			default:
				b.WriteByte('a' + byte(c.Band))
			}
		}
		b.WriteByte('\n')
	}
	return b.String()
}

func TestWeekOntario(t *testing.T) {
	w := ontario(t).Week(exact.MustDate("2017-07-05"))
	var rates []string
	for _, b := range w.Bands {
		rates = append(rates, b.Rate.String())
	}
	if got := strings.Join(rates, " "); got != "6.5 6.5 10 11.7 10" {
		t.Errorf("bands are %s", got)
	}
	working := strings.Repeat("b", 14) + strings.Repeat("c", 8) + strings.Repeat("d", 12) + strings.Repeat("e", 4) + strings.Repeat("b", 10)
	want := ""
	for _, d := range []string{"mon", "tue", "wed", "thu", "fri"} {
		want += d + " " + working + "\n"
	}
	free := strings.Repeat("a", 48)
	want += "sat " + free + "\nsun " + free + "\nmon-fri,hol " + free + "\n"
	if got := drawWeek(w); got != want {
		t.Errorf("week is\n%swant\n%s", got, want)
	}
	if c := ontario(t).Check(); len(c.Gaps)+len(c.Unused) != 0 {
		t.Errorf("Ontario has %v", c)
	}
}

func TestCheckGaps(t *testing.T) {
	d := exact.MustDate
	tariff := must(NewTariff("holes", time.UTC, []Band{
		{Line: 2, From: d("2024-02-01"), Months: must(ParseMonths("2-4")), Rate: exact.Int(1)},
		{Line: 3, From: d("2024-05-01"), Days: must(ParseDays("mon-fri")), Start: 7*60 + 15, End: 0, Rate: exact.Int(1)},
		{Line: 4, From: d("2024-05-01"), Days: must(ParseDays("mon-sun")), End: 7*60 + 15, Rate: exact.Int(1)},
		{Line: 5, From: d("2024-05-01"), Months: must(ParseMonths("6-8")), Days: must(ParseDays("sat,sun")), Above: exact.New(50_000_000_000_001, 12), Rate: exact.Int(1)},
		{Line: 6, From: d("2024-05-01"), Start: 3 * 60, End: 5 * 60, Rate: exact.Int(2)},
	}, nil))
	c := tariff.Check()
	var got []string
	for _, g := range c.Gaps {
		got = append(got, g.String())
	}
	want := []string{
		"before 2024-02-01",
		"from 2024-05-01, months 9-5, sat,sun, 07:15-24:00",
		"from 2024-05-01, months 6-8, sat,sun, 07:15-24:00, up to 50.000000000001 kWh of the month", // finer than a record has it
	}
	if strings.Join(got, "\n") != strings.Join(want, "\n") {
		t.Errorf("gaps are\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
	if len(c.Unused) != 1 || c.Unused[0].Line != 6 {
		t.Errorf("rows that never hold: %v, want that of line 6", c.Unused)
	}
	cells := tariff.Week(d("2024-05-04")).Days[5].HalfHours()
	if cells[14] != (Cell{1, true}) || cells[15] != (Cell{-1, false}) {
		t.Errorf("Saturday 7:00 and 7:30 are %v and %v", cells[14], cells[15])
	}
}

// A gap of all months and days names neither.
func TestCheckGapOfEveryDay(t *testing.T) {
	c := must(NewTariff("hole", time.UTC, []Band{{Line: 2, From: exact.MustDate("2024-05-01"), Start: 5 * 60, End: 3 * 60, Rate: exact.Int(1)}}, nil)).Check()
	if len(c.Gaps) != 2 || c.Gaps[1].String() != "from 2024-05-01, 03:00-05:00" {
		t.Errorf("gaps are %v", c.Gaps)
	}
}

// A tariff without gaps by its check has a band for every instant; where the
// twin finds none, the check has named a gap.
func TestCheckIsTwin(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := drawWorld(t, rapid.Bool().Draw(t, "blocks"), rapid.Bool().Draw(t, "gaps"))
		tw := &twin{zone: w.zone, bands: w.bands, holidays: w.holidays}
		check := w.tariff(t).Check()
		at := w.near.Midnight(time.UTC).Add(time.Duration(rapid.IntRange(-72*60, 72*60).Draw(t, "at")) * time.Minute)
		open := true
		for _, b := range tw.matching(at) {
			open = open && b.Above.Sign() > 0
		}
		named := false
		local := at.In(w.zone)
		date, clock := exact.DateIn(local), Clock(local.Hour()*60+local.Minute())
		holiday := false
		for _, d := range w.holidays {
			holiday = holiday || d == date
		}
		for _, g := range check.Gaps {
			named = named || g.From <= date && date < g.Until && g.Months.Has(int(local.Month())) &&
				g.Days.Has(local.Weekday(), false) && g.Start <= clock && clock < g.End
		}
		if open && !named || named && !open && !holiday {
			t.Fatalf("at %v: no band %v, named %v by %v", local, open, named, check.Gaps)
		}
	})
}
