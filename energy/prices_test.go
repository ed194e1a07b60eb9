package energy

import (
	"errors"
	"math/big"
	"testing"
	"time"

	"pgregory.net/rapid"

	"putby/pricing/exact"
)

// pricesFrom returns prices that follow each other by step from an instant on.
func pricesFrom(t testing.TB, at time.Time, step time.Duration, rates ...string) *Prices {
	t.Helper()
	var list []Price
	for i, rate := range rates {
		p := Price{Line: i + 2, At: at.Add(time.Duration(i) * step)}
		if rate != "" {
			p.Rate = exact.Some(exact.MustNumber(rate))
		}
		list = append(list, p)
	}
	return must(NewPrices(list))
}

// hourlyTariff is one band on top of prices.
func hourlyTariff(t testing.TB, z *time.Location, rate, tax string, p *Prices) *Tariff {
	t.Helper()
	return must(NewTariff("hours", z, []Band{{Line: 2, From: exact.NoDate, Hourly: true, Rate: exact.MustNumber(rate), Tax: exact.MustNumber(tax)}}, nil)).WithPrices(p)
}

// The days on which the clocks change, worked by hand. The prices of the hours
// of the day, counted as they pass, are 0.00, 0.01, 0.02 ...: 1 kW all day costs
// 0 + 1 + ... + 24 = 300 hundredths on the day of 25 hours, and up to 22, 253,
// on that of 23. From 2:00 to 3:00 the clock shows twice what costs 2 and 3 in
// autumn; in spring the hour that begins at 3:00 is the third and costs 2. With
// a fee of 0.10 and 20 % on both, an hour of price p costs (p + 0.10) x 1.2.
func TestClockChangeDay(t *testing.T) {
	z := zone(t, "Europe/Berlin")
	rates := make([]string, 25)
	for i := range rates {
		rates[i] = exact.New(int64(i), 2).String()
	}
	for _, c := range []struct {
		day   string
		hours int
		want  string
		fee   string // with the fee and tax: hours x 0.12 more, and a fifth
		after int    // hours of the day that have passed
		clock string // what the clock shows then
		hour  string // what a kWh costs in the hour that begins
	}{
		{"2025-10-26", 25, "3", "6.6", 2, "02:00 CEST", "0.02"},
		{"2025-10-26", 25, "3", "6.6", 3, "02:00 CET", "0.03"},
		{"2025-10-26", 25, "3", "6.6", 4, "03:00 CET", "0.04"},
		{"2025-03-30", 23, "2.53", "5.796", 2, "03:00 CEST", "0.02"},
		{"2025-03-31", 24, "2.76", "6.192", 3, "03:00 CEST", "0.03"},
	} {
		start := local(t, z, c.day+" 00:00")
		prices := pricesFrom(t, start, time.Hour, rates[:c.hours]...)
		for _, tariff := range []struct{ rate, tax, want string }{{"0", "0", c.want}, {"0.10", "20", c.fee}} {
			span := Span{Start: start, Length: time.Duration(c.hours) * time.Hour, Energy: kwh(exact.Int(int64(c.hours)).String())}
			got := must(NewMeter([12]exact.Number{}).Bill(hourlyTariff(t, z, tariff.rate, tariff.tax, prices), []Span{span}, 6))[0]
			if got.String() != tariff.want {
				t.Errorf("%s with %s and %s %%: 1 kW all day costs %v, want %s", c.day, tariff.rate, tariff.tax, got, tariff.want)
			}
		}
		span := Span{Start: start.Add(time.Duration(c.after) * time.Hour), Length: time.Hour, Energy: kwh("1")}
		got := must(NewMeter([12]exact.Number{}).Bill(hourlyTariff(t, z, "0", "0", prices), []Span{span}, 6))[0].String()
		if clock := span.Start.In(z).Format("15:04 MST"); got != c.hour || clock != c.clock {
			t.Errorf("%s: the hour at %s costs %s, want %s at %s", c.day, clock, got, c.hour, c.clock)
		}
	}
}

// A price holds until the next, three hours at most, and not beyond a row that
// says that none is known. A negative one earns.
func TestPricesHold(t *testing.T) {
	p := pricesFrom(t, t0, 2*time.Hour, "0.10", "-0.05", "", "0.20")
	tariff := hourlyTariff(t, time.UTC, "0.01", "0", p)
	for _, c := range []struct {
		hour int
		want string // "": none
	}{{-1, ""}, {0, "0.11"}, {1, "0.11"}, {2, "-0.04"}, {3, "-0.04"}, {4, ""}, {5, ""}, {6, "0.21"}, {7, "0.21"}, {8, "0.21"}, {9, ""}} {
		span := Span{Start: t0.Add(time.Duration(c.hour) * time.Hour), Length: time.Hour, Energy: kwh("1")}
		costs, err := NewMeter([12]exact.Number{}).Bill(tariff, []Span{span}, 6)
		var none *GapError
		switch {
		case c.want == "" && (!errors.As(err, &none) || !none.Hourly || !none.At.Equal(span.Start)):
			t.Errorf("hour %d: %v, want an error at its start", c.hour, err)
		case c.want != "" && (err != nil || costs[0].String() != c.want):
			t.Errorf("hour %d costs %v (%v), want %s", c.hour, costs, err, c.want)
		}
	}
	_, err := NewMeter([12]exact.Number{}).Bill(tariff, []Span{{Start: t0, Length: 5 * time.Hour, Energy: kwh("1")}}, 6)
	if want := `tariff "hours" has no hourly price for Wed 2025-01-01 04:00 UTC`; err == nil || err.Error() != want {
		t.Errorf("%v, want %s", err, want)
	}
	if until := p.Until(t0); !until.Equal(t0.Add(4 * time.Hour)) {
		t.Errorf("prices are known until %v", until)
	}
	if first, end, ok := p.Span(); !ok || !first.Equal(t0) || !end.Equal(t0.Add(9*time.Hour)) {
		t.Errorf("prices span %v to %v", first, end)
	}
	var lines []int
	for h := range p.Between(t0.Add(time.Hour), t0.Add(7*time.Hour)) {
		lines = append(lines, h.Line)
	}
	if len(lines) != 3 || lines[0] != 2 || lines[1] != 3 || lines[2] != 5 {
		t.Errorf("between come the prices of lines %v", lines)
	}
}

func TestNewPricesFaults(t *testing.T) {
	at := func(s int) Price { return Price{At: t0.Add(time.Duration(s) * time.Second)} }
	for _, c := range []struct {
		list  []Price
		index int
		want  error
	}{
		{[]Price{at(0), at(0)}, 1, ErrPriceOrder},
		{[]Price{at(0), at(9), at(5)}, 2, ErrPriceOrder},
		{[]Price{{At: t0.Add(1)}}, 0, ErrPriceSecond},
	} {
		_, err := NewPrices(c.list)
		var fault *RowError
		if !errors.As(err, &fault) || fault.Index != c.index || !errors.Is(err, c.want) {
			t.Errorf("%v, want %v of price %d", err, c.want, c.index)
		}
	}
}

// A forecast is the mean of the same weekday's hour. Prices of 57 days (an
// invented 0.01 a day counted from the first, 0.24 more from 6:00 to 7:00) end
// at midnight of a Monday in Berlin: its eight Mondays before are those of the
// days 1, 8 ... 50 (day 0 is a Sunday), whose mean is 0.01 x 25.5.
func TestForecast(t *testing.T) {
	z := zone(t, "Europe/Berlin")
	first := exact.MustDate("2025-08-31") // the Sunday eight weeks before the clocks change
	var list []Price
	for day := range 57 {
		for at := first.AddDays(day).Midnight(z); at.Before(first.AddDays(day + 1).Midnight(z)); at = at.Add(15 * time.Minute) {
			rate := exact.New(int64(day), 2)
			if at.In(z).Hour() == 6 {
				rate = rate.Add(exact.New(24, 2))
			}
			list = append(list, Price{At: at, Rate: exact.Some(rate)})
		}
	}
	end := first.AddDays(57).Midnight(z)
	p := must(NewPrices(append(list, Price{At: end})))
	now := end.Add(-30 * time.Hour)
	f := p.Forecast(now, end.AddDate(0, 0, 7), z)
	if !f.Known.Equal(end) || f.Guessed(now, end) || !f.Guessed(now, end.Add(time.Second)) {
		t.Errorf("known until %v, want %v", f.Known, end)
	}
	tariff := hourlyTariff(t, z, "0", "0", f.Prices)
	for at, want := range map[string]string{
		"2025-10-26 12:00": "0.56", // known: the last day
		"2025-10-27 05:00": "0.255",
		"2025-10-27 05:30": "0.375", // half of it from 6:00 on
		"2025-11-02 06:00": "0.555", // a Sunday, of the days 7, 14 ... 56: 0.315, and 0.24
	} {
		got := must(NewMeter([12]exact.Number{}).Bill(tariff, []Span{{Start: local(t, z, at), Length: time.Hour, Energy: kwh("1")}}, 6))[0].String()
		if got != want {
			t.Errorf("1 kWh at %s costs %s, want %s", at, got, want)
		}
	}
	if since := exact.DateIn(f.Since.In(z)); since != first.AddDays(1) {
		t.Errorf("it rests on prices since %v", since)
	}
	late := p.Forecast(end.AddDate(1, 0, 0), end.AddDate(1, 0, 7), z)
	if !late.Known.Equal(end.AddDate(1, 0, 0)) || !late.End.Equal(end) || !late.Since.Equal(f.Since) {
		t.Errorf("a year later it rests on prices from %v until %v, and %v is known", late.Since, late.End, late.Known)
	}
	var none *Prices
	if f := none.Forecast(now, end, z); !f.Known.Equal(now) || f.Prices.Until(now) != now {
		t.Errorf("without prices %v are known", f.Known)
	}
}

// A forecast is that of a twin that goes back minute by minute, in any zone, and
// changes nothing that is known.
func TestForecastIsTwin(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := drawWorld(t, false, true)
		if w.prices == nil {
			drawPrices(t, &w, true)
		}
		p := must(NewPrices(w.prices))
		from := w.near.Midnight(time.UTC).Add(time.Duration(rapid.IntRange(-2*96, 14*96).Draw(t, "from")) * 15 * time.Minute)
		f := p.Forecast(from, from.AddDate(0, 0, 4), w.zone)
		tw := twinOf(w, [12]exact.Number{})
		at := from.Add(time.Duration(rapid.IntRange(0, 4*1440-1).Draw(t, "minute")) * time.Minute)
		rate, known := tw.hour(at)
		want, any := numberRat(rate), known
		if !known {
			want, any = tw.guess(tw.lastKnown(f), at)
		}
		place, have := f.Prices.find(at.Unix())
		if have != any {
			t.Fatalf("at %v: a price %v, by the twin %v", at, have, any)
		}
		if have {
			got := numberRat(f.Prices.hours[place].rate)
			if off := new(big.Rat).Sub(got, want); off.Abs(off).Cmp(big.NewRat(1, 2_000_000_000)) > 0 || known && got.Cmp(want) != 0 {
				t.Fatalf("at %v: %v, by the twin %v", at, got, want)
			}
			if f.Guessed(at, at.Add(time.Minute)) == known {
				t.Fatalf("at %v: known %v, and guessed the same", at, known)
			}
		}
	})
}

// lastKnown is when prices end that a forecast rests on: where the last one does
// by the first instant without a price, looking back minute by minute as far as
// it says.
func (w *twin) lastKnown(f Forecast) time.Time {
	for t := f.Known; t.After(f.End); t = t.Add(-time.Minute) {
		if _, known := w.hour(t.Add(-time.Minute)); known {
			return t
		}
	}
	return f.End
}

// guess is the mean of what was known of the same hour of the weekday in the
// eight weeks up to an instant.
func (w *twin) guess(end, at time.Time) (*big.Rat, bool) {
	local := end.In(w.zone)
	start, _ := exact.LocalTime(exact.DateIn(local).AddDays(-56), local.Hour()*3600+local.Minute()*60+local.Second(), w.zone)
	sum, n := new(big.Rat), int64(0)
	want := at.In(w.zone)
	for t := start; t.Before(end); t = t.Add(time.Minute) {
		if local := t.In(w.zone); local.Weekday() != want.Weekday() || local.Hour() != want.Hour() {
			continue
		}
		if rate, known := w.hour(t); known {
			sum.Add(sum, numberRat(rate))
			n++
		}
	}
	if n == 0 {
		return nil, false
	}
	return sum.Quo(sum, new(big.Rat).SetInt64(n)), true
}

// A kWh costs at the least what that of the cheapest hour does, with the fee and tax on
// both.
func TestLeast(t *testing.T) {
	p := pricesFrom(t, t0, time.Hour, "0.10", "", "-0.05", "0.02")
	for _, c := range []struct{ fee, tax, least string }{
		{"0", "0", "-0.05"}, {"0.0499", "20", "-0.00012"}, {"0.05", "20", "0"}, {"0.06", "0", "0.01"}, {"0.06", "20", "0.012"},
	} {
		if least := hourlyTariff(t, time.UTC, c.fee, c.tax, p).Least(); !least.Equal(num(c.least).Or(exact.Number{})) {
			t.Errorf("with a fee of %s and %s %% of tax a kWh costs %v at the least, want %s", c.fee, c.tax, least, c.least)
		}
	}
	if least := hourlyTariff(t, time.UTC, "-1", "0", nil).Least(); !least.IsZero() {
		t.Errorf("without any price a kWh costs %v at the least", least)
	}
}
