package energy

import (
	"strings"
	"testing"
	"time"

	"putby/pricing/exact"
)

// mondays are prices of hours of some Mondays, each from a clock time on, "" where none is known.
func mondays(t *testing.T, z *time.Location, days ...[]string) *Prices {
	t.Helper()
	var list []Price
	for _, rows := range days {
		for _, row := range rows {
			at, rate, _ := strings.Cut(row, "=")
			instant, err := time.ParseInLocation("2006-01-02 15:04", at, z)
			if err != nil {
				t.Fatal(err)
			}
			p := Price{At: instant}
			if rate != "" {
				p.Rate = exact.Some(exact.MustNumber(rate))
			}
			list = append(list, p)
		}
	}
	return must(NewPrices(list))
}

// By hand, on Monday 20 January. Prices run out at 1:00, come back from 3:30 to 4:00, and end.
// An hour is guessed at the mean of the same hour of the Mondays before: 2:00 at (0.30 + 0.60) / 2, cut
// where a price is known. 25 November is eight weeks back from 1:00 on: its 0.90 of 1:00 counts,
// (0.20 + 0.40 + 0.90) / 3, and its 5.00 of 0:00 does not: a week on, 0:00 is (0.10 + 0.20 + 0.11) / 3.
// Of 6:00 no Monday tells.
func TestForecastByHand(t *testing.T) {
	z := zone(t, "Europe/Berlin")
	p := mondays(t, z,
		[]string{"2024-11-25 00:00=5.00", "2024-11-25 01:00=0.90", "2024-11-25 02:00="},
		[]string{"2025-01-06 00:00=0.10", "2025-01-06 01:00=0.20", "2025-01-06 02:00=0.30", "2025-01-06 03:00=0.40", "2025-01-06 04:00=0.50", "2025-01-06 05:00=0.60", "2025-01-06 06:00="},
		[]string{"2025-01-13 00:00=0.20", "2025-01-13 01:00=0.40", "2025-01-13 02:00=0.60", "2025-01-13 03:00=0.80", "2025-01-13 04:00=1.00", "2025-01-13 05:00=1.20", "2025-01-13 06:00="},
		[]string{"2025-01-20 00:00=0.11", "2025-01-20 01:00=", "2025-01-20 03:30=0.77", "2025-01-20 04:00="})
	at := func(text string) time.Time { return must(time.ParseInLocation("2006-01-02 15:04", text, z)) }
	f := p.Forecast(at("2025-01-20 00:00"), at("2025-01-27 01:00"), z)
	var list []string
	for h := range f.Prices.Between(at("2025-01-20 00:00"), at("2025-02-01 00:00")) {
		list = append(list, h.From.In(z).Format("02 15:04")+" to "+h.Until.In(z).Format("15:04")+" "+h.Rate.String())
	}
	want := "20 00:00 to 01:00 0.11, 20 01:00 to 02:00 0.5, 20 02:00 to 03:00 0.45, 20 03:00 to 03:30 0.6, 20 03:30 to 04:00 0.77, " +
		"20 04:00 to 05:00 0.75, 20 05:00 to 06:00 0.9, 27 00:00 to 01:00 0.136666667"
	if have := strings.Join(list, ", "); have != want {
		t.Errorf("have %s\nwant %s", have, want)
	}
	if !f.Known.Equal(at("2025-01-20 01:00")) || !f.End.Equal(f.Known) || !f.Since.Equal(at("2024-11-25 01:00")) {
		t.Errorf("known until %v, from prices of %v to %v", f.Known, f.Since, f.End)
	}
	for span, guessed := range map[string]bool{
		"00:00 01:00": false, "00:00 01:01": true, "01:59 02:00": true, "03:30 04:00": false, "03:29 03:30": true, "04:00 04:01": true, "05:59 06:30": true, "06:00 06:30": false,
	} {
		from, until, _ := strings.Cut(span, " ")
		if f.Guessed(at("2025-01-20 "+from), at("2025-01-20 "+until)) != guessed {
			t.Errorf("%s is guessed: %t", span, !guessed)
		}
	}
	if same := p.Forecast(at("2025-01-06 00:00"), at("2025-01-06 06:00"), z); same.Prices != p || same.Guessed(at("2025-01-06 00:00"), at("2025-02-01 00:00")) {
		t.Error("where prices are known something is guessed")
	}
}

// A day's prices part by part, by hand: with tax, by the band that holds; below the blocks, as the
// month begins; of hours that have no price, none. The parts are cut where the clocks change, and come
// to the 23 hours of that day.
func TestDayPartByPart(t *testing.T) {
	z := zone(t, "Europe/Berlin")
	n := exact.MustNumber
	flat := must(NewTariff("flat", z, []Band{{Rate: n("0.20"), Tax: n("10")}}, nil))
	day := must(NewTariff("day", z, []Band{{Start: must(ParseClock("07:00")), End: must(ParseClock("20:00")), Rate: n("0.30")}, {Rate: n("0.20")}}, nil))
	blocks := must(NewTariff("blocks", z, []Band{{Above: n("100"), Rate: n("0.15")}, {Rate: n("0.10")}}, nil))
	hours := hourlyTariff(t, z, "0.10", "20", mondays(t, z, []string{"2025-03-30 01:00=0.05", "2025-03-30 03:00=0.15", "2025-03-30 04:00="}))
	for _, c := range []struct {
		tariff *Tariff
		want   string
	}{
		{flat, "00:00 to 03:00 0.22, 03:00 to 00:00 0.22"},
		{day, "00:00 to 03:00 0.2, 03:00 to 07:00 0.2, 07:00 to 20:00 0.3, 20:00 to 00:00 0.2"},
		{blocks, "00:00 to 03:00 0.1, 03:00 to 00:00 0.1"},
		{hours, "00:00 to 01:00 none, 01:00 to 03:00 0.18 0.05, 03:00 to 04:00 0.3 0.15, 04:00 to 00:00 none"},
	} {
		var list []string
		length := time.Duration(0)
		for _, p := range c.tariff.Day(exact.MustDate("2025-03-30")) {
			text := p.From.Format("15:04") + " to " + p.Until.Format("15:04")
			if price, ok := p.Price.Get(); ok {
				text += " " + price.String()
			} else {
				text += " none"
			}
			if hour, ok := p.Hour.Get(); ok {
				text += " " + hour.String()
			}
			list, length = append(list, text), length+p.Until.Sub(p.From)
		}
		if have := strings.Join(list, ", "); have != c.want || length != 23*time.Hour {
			t.Errorf("%s: %s, %v in all, want %s", c.tariff.Name(), have, length, c.want)
		}
	}
}
