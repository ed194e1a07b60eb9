package energy

import (
	"fmt"
	"testing"
	"time"

	"putby/pricing/exact"
)

// Figures from outside. The source stands beside each.

// ontario is the regulated time-of-use plan of the Ontario Energy Board with
// the prices of 2017 in cents per kWh: 6.5 off, 10.0 mid, 11.7 on peak.
func ontario(t testing.TB) *Tariff {
	const off, mid, on = "6.5", "10.0", "11.7"
	rows := []struct{ months, days, start, end, rate string }{
		{"", "sat,sun,hol", "0:00", "24:00", off},
		{"", "mon-fri", "19:00", "7:00", off},
		{"5-10", "mon-fri", "7:00", "11:00", mid},
		{"5-10", "mon-fri", "11:00", "17:00", on},
		{"5-10", "mon-fri", "17:00", "19:00", mid},
		{"11-4", "mon-fri", "7:00", "11:00", on},
		{"11-4", "mon-fri", "11:00", "17:00", mid},
		{"11-4", "mon-fri", "17:00", "19:00", on},
	}
	var bands []Band
	for i, r := range rows {
		bands = append(bands, Band{
			Line: i + 2, From: exact.NoDate,
			Months: must(ParseMonths(r.months)), Days: must(ParseDays(r.days)),
			Start: must(ParseClock(r.start)), End: must(ParseClock(r.end)),
			Rate: exact.MustNumber(r.rate),
		})
	}
	holidays := []exact.Date{exact.MustDate("2017-07-03")}
	return must(NewTariff("ontario", zone(t, "America/Toronto"), bands, holidays))
}

func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

func local(t testing.TB, z *time.Location, s string) time.Time {
	t.Helper()
	at, err := time.ParseInLocation("2006-01-02 15:04", s, z)
	if err != nil {
		t.Fatal(err)
	}
	return at
}

func kwh(s string) exact.Ratio { return exact.RatioOf(exact.MustNumber(s)) }

// billOne bills one span of so many kW from a local time, at 6 places.
func billOne(t testing.TB, tariff *Tariff, start string, hours int, kw string) string {
	t.Helper()
	length := time.Duration(hours) * time.Hour
	span := Span{Start: local(t, tariff.zone, start), Length: length, Energy: kwh(kw).Times(exact.Int(int64(hours)))}
	costs, err := NewMeter([12]exact.Number{}).Bill(tariff, []Span{span}, 6)
	if err != nil {
		t.Fatal(err)
	}
	return costs[0].String()
}

// Ontario Energy Board, regulated price plan, time-of-use prices of 2017.
func TestOntario2017(t *testing.T) {
	for _, c := range []struct {
		start string
		hours int
		want  string
	}{
		{"2017-07-05 00:00", 24, "208.2"}, // a Wednesday
		{"2017-07-03 00:00", 24, "156"},   // a Monday, observed holiday
		{"2017-07-07 18:00", 30, "198.5"}, // Friday evening through Saturday
	} {
		if got := billOne(t, ontario(t), c.start, c.hours, "1"); got != c.want {
			t.Errorf("1 kW for %d h from %s costs %s c, want %s", c.hours, c.start, got, c.want)
		}
	}
}

// Ontario Energy Board, same prices: 135 kWh on, 127 mid and 488 off peak,
// placed within those hours, come to 60.215 dollars exactly.
func TestOntarioMonth(t *testing.T) {
	tariff := ontario(t)
	z := tariff.zone
	spans := []Span{
		{Start: local(t, z, "2017-07-05 11:00"), Length: 6 * time.Hour, Energy: kwh("135")},
		{Start: local(t, z, "2017-07-05 17:00"), Length: 2 * time.Hour, Energy: kwh("127")},
		{Start: local(t, z, "2017-07-05 19:00"), Length: 12 * time.Hour, Energy: kwh("488")},
	}
	var sum exact.Money
	for _, c := range must(NewMeter([12]exact.Number{}).Bill(tariff, spans, 6)) {
		sum = sum.Add(c)
	}
	if got := sum.Times(exact.New(1, 2)).String(); got != "60.215" {
		t.Errorf("135 on, 127 mid, 488 off cost %s dollars, want 60.215", got)
	}
}

// US Department of Energy, Estimating Appliance and Home Electronic Energy
// Use: (120 + 150) W, 4 hours a day, 365 days: 394.2 kWh, printed as 394.
func TestEstimatingApplianceUse(t *testing.T) {
	var phases []Phase
	for range 365 {
		phases = append(phases, Phase{Length: 4 * time.Hour, Watts: exact.Some(exact.Int(120 + 150))})
	}
	d := must(Cycle{Phases: phases}.Resolve())
	if n, ends := d.Energy.Number(); !ends || n.String() != "394.2" {
		t.Errorf("energy is %v kWh, want 394.2", d.Energy)
	}
}

// SciPy documentation of its trapezoid rule: y = 1, 2, 3 at x = 4, 6, 8 has
// the area 8. Here kilowatts at hours.
func TestTrapezoidOfThree(t *testing.T) {
	var samples []Sample
	for i, hour := range []int{4, 6, 8} {
		at := time.Date(2025, 1, 1, hour, 0, 0, 0, time.UTC)
		samples = append(samples, Sample{At: at, Watts: exact.Int(int64(i+1) * 1000)})
	}
	l := must(NewLog(samples))
	if got := l.Energy(l.First(), l.Last()); !got.Equal(kwh("8")) {
		t.Errorf("area is %v, want 8", got)
	}
}

// Own numbers, added up by hand: an uneven log of 492.5 Wh.
func TestTrapezoidUneven(t *testing.T) {
	l := unevenLog()
	if got := l.Energy(l.First(), l.Last()); !got.Equal(kwh("0.4925")) {
		t.Errorf("energy is %v kWh, want 0.4925", got)
	}
}

func unevenLog() *Log {
	start := time.Date(2025, 1, 1, 0, 0, 0, 0, time.UTC)
	var samples []Sample
	for _, s := range []struct{ seconds, watts int64 }{{0, 0}, {60, 1500}, {600, 1500}, {630, 300}, {3600, 300}} {
		samples = append(samples, Sample{At: start.Add(time.Duration(s.seconds) * time.Second), Watts: exact.Int(s.watts)})
	}
	return must(NewLog(samples))
}

func blockTariff(t testing.TB, first, above string, edge int64) *Tariff {
	return must(NewTariff("blocks", time.UTC, []Band{
		{Line: 2, From: exact.NoDate, Rate: exact.MustNumber(first)},
		{Line: 3, From: exact.NoDate, Rate: exact.MustNumber(above), Above: exact.Int(edge)},
	}, nil))
}

// Own numbers: 0.10 up to 100 kWh of the month, 0.15 above; 90
// used by the household, then a cycle of 20: 10 x 0.10 + 10 x 0.15 = 2.50.
func TestBlocks(t *testing.T) {
	var household [12]exact.Number
	household[2] = exact.Int(90)
	tariff := blockTariff(t, "0.10", "0.15", 100)
	span := Span{Start: local(t, time.UTC, "2025-03-10 00:00"), Length: 24 * time.Hour, Energy: kwh("20")}
	m := NewMeter(household)
	bill := must(m.Itemize(tariff, []Span{span}, 6))[0]
	if bill.Cost.String() != "2.5" || len(bill.Pieces) != 2 {
		t.Fatalf("20 kWh on top of 90 cost %v in %d pieces, want 2.5 in 2", bill.Cost, len(bill.Pieces))
	}
	for i, want := range []string{"10 kWh in row 2", "10 kWh in row 3"} {
		p := bill.Pieces[i]
		if got := fmt.Sprintf("%v kWh in row %d", p.Energy, p.Band.Line); got != want {
			t.Errorf("piece %d is %s, want %s", i, got, want)
		}
		if !p.From.Equal(span.Start) || !p.To.Equal(span.Start.Add(span.Length)) {
			t.Errorf("piece %d is from %v to %v, want those of the span", i, p.From, p.To)
		}
	}
	// The next run of the month stands on both; that of the next month does not.
	span.Start = span.Start.AddDate(0, 0, 1)
	if got := must(m.Bill(tariff, []Span{span}, 6))[0].String(); got != "3" {
		t.Errorf("the next 20 kWh cost %s, want 3", got)
	}
	span.Start = span.Start.AddDate(0, 1, 0)
	if got := must(m.Bill(tariff, []Span{span}, 6))[0].String(); got != "2" {
		t.Errorf("20 kWh of the next month cost %s, want 2", got)
	}
}

// Two machines over a month's end (own numbers): 10 kWh of each month at 0.10,
// 0.15 above. The first run has 12 kWh in each of two months: 2 x (1.00 + 0.30).
// The second, begun six hours later, finds both months beyond their 10: 12 kWh
// at 0.15.
func TestBlocksOverAMonthsEnd(t *testing.T) {
	m := NewMeter([12]exact.Number{})
	tariff := blockTariff(t, "0.10", "0.15", 10)
	for i, c := range []struct {
		start  string
		length time.Duration
		energy string
		want   string
	}{
		{"2025-01-31 12:00", 24 * time.Hour, "24", "2.6"},
		{"2025-01-31 18:00", 12 * time.Hour, "12", "1.8"},
	} {
		span := Span{Start: local(t, time.UTC, c.start), Length: c.length, Energy: kwh(c.energy)}
		if got := must(m.Bill(tariff, []Span{span}, 6))[0].String(); got != c.want {
			t.Errorf("run %d costs %s, want %s", i+1, got, c.want)
		}
	}
}
