package energy

import (
	"errors"
	"testing"
	"time"

	"pgregory.net/rapid"

	"putby/pricing/exact"
)

// total bills spans one after another on a new meter and sums the pieces.
func total(t *rapid.T, tariff *Tariff, household [12]exact.Number, spans []Span) exact.Ratio {
	var sum exact.Ratio
	for _, b := range must(NewMeter(household).Itemize(tariff, spans, 6)) {
		for _, p := range b.Pieces {
			sum = sum.Add(p.Cost)
		}
	}
	return sum
}

// Cutting a profile anywhere changes nothing of what it costs.
func TestCutChangesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := drawWorld(t, rapid.Bool().Draw(t, "blocks"), false)
		for i := range w.bands { // every hour has a band for every use
			if w.bands[i].Months != 0 || w.bands[i].Days != 0 || w.bands[i].Start != w.bands[i].End {
				w.bands[i].Above = w.bands[i].Above.Add(exact.New(1, 1))
			}
		}
		tariff, household := w.tariff(t), drawHousehold(t)
		spans := drawSpans(t, w, true)
		var cut []Span
		for _, s := range spans {
			cut = append(cut, cutAt(s, time.Duration(rapid.Int64Range(0, int64(s.Length)).Draw(t, "cut")))...)
		}
		if a, b := total(t, tariff, household, spans), total(t, tariff, household, cut); !a.Equal(b) {
			t.Fatalf("whole it costs %v, cut %v", a, b)
		}
	})
}

// cutAt cuts a span in two, its energy as its shape says.
func cutAt(s Span, at time.Duration) []Span {
	if at == 0 || at == s.Length {
		return []Span{s}
	}
	a, b := s, s
	a.Length, b.Start, b.Length = at, s.Start.Add(at), s.Length-at
	shares := s.shares([]stretch{{to: at}, {from: at, to: s.Length}})
	a.Energy, b.Energy = shares[0], shares[1]
	// A half whose log shows nothing stays at nothing.
	return []Span{a, b}
}

// Blocks of one price are a flat tariff.
func TestEqualBlocksAreFlat(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rate := drawRate(t)
		w := drawWorld(t, false, false)
		w.bands = []Band{{From: exact.NoDate, Rate: rate}}
		flat := w.tariff(t)
		for range rapid.IntRange(1, 4).Draw(t, "blocks") {
			w.bands = append(w.bands, Band{From: exact.NoDate, Rate: rate, Above: exact.New(rapid.Int64Range(1, 500).Draw(t, "above"), 1)})
		}
		blocks, household := w.tariff(t), drawHousehold(t)
		spans := drawSpans(t, w, true)
		a := must(NewMeter(household).Bill(flat, spans, 6))
		b := must(NewMeter(household).Bill(blocks, spans, 6))
		for i := range a {
			if !a[i].Equal(b[i]) {
				t.Fatalf("span %d costs %v flat, %v in blocks", i, a[i], b[i])
			}
		}
	})
}

// A band edge outside the run can move without the run costing anything else.
func TestEdgeOutsideTheRun(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		end := Clock(rapid.IntRange(7*60, 12*60).Draw(t, "end"))
		moved := Clock(rapid.IntRange(7*60, 12*60).Draw(t, "moved"))
		z := must(time.LoadLocation(rapid.SampledFrom(testZones).Draw(t, "zone").name))
		with := func(end Clock) *Tariff {
			return must(NewTariff("test", z, []Band{
				{From: exact.NoDate, Start: 6 * 60, End: end, Rate: exact.MustNumber("0.2")},
				{From: exact.NoDate, Rate: exact.MustNumber("0.1")},
			}, nil))
		}
		start := time.Date(2025, 6, 11, 12, 0, 0, 0, z).Add(time.Duration(rapid.IntRange(0, 5*3600).Draw(t, "start")) * time.Second)
		spans := []Span{{Start: start, Length: 13 * time.Hour, Energy: kwh("17")}}
		a := must(NewMeter([12]exact.Number{}).Bill(with(end), spans, 6))
		b := must(NewMeter([12]exact.Number{}).Bill(with(moved), spans, 6))
		if !a[0].Equal(b[0]) {
			t.Fatalf("%v with the edge at %v, %v with it at %v", a[0], end, b[0], moved)
		}
	})
}

// A week's energy by bands sums to the total, and to the hours of the week.
func TestWeekByBands(t *testing.T) {
	tariff := ontario(t)
	for _, c := range []struct {
		start, hours string // of local clock, with the change inside
	}{{"2017-07-10 00:00", "168"}, {"2017-03-06 00:00", "167"}, {"2017-10-30 00:00", "169"}} {
		start := local(t, tariff.zone, c.start)
		length := start.AddDate(0, 0, 7).Sub(start)
		energy := exact.Int(1000).Mul(seconds(length)).Over(wattSecondsPerKWh)
		var sum exact.Ratio
		byRate := map[string]exact.Ratio{}
		for _, p := range must(NewMeter([12]exact.Number{}).Itemize(tariff, []Span{{Start: start, Length: length, Energy: energy}}, 6))[0].Pieces {
			sum = sum.Add(p.Energy)
			byRate[p.Band.Rate.String()] = byRate[p.Band.Rate.String()].Add(p.Energy)
		}
		if !sum.Equal(energy) || sum.String() != c.hours {
			t.Errorf("week of %s: %v kWh in bands, want %s", c.start, sum, c.hours)
		}
		if on, mid := byRate["11.7"], byRate["10"]; !on.Equal(kwh("30")) || !mid.Equal(kwh("30")) {
			t.Errorf("week of %s: %v on, %v mid, want 30 each", c.start, on, mid)
		}
	}
}

// A run that meets a gap leaves the meter as it was, and names the instant.
func TestGapLeavesTheMeter(t *testing.T) {
	bands := []Band{
		{From: exact.NoDate, Rate: exact.MustNumber("0.10")},
		{From: exact.NoDate, Rate: exact.MustNumber("0.15"), Above: exact.Int(10)},
		{From: exact.MustDate("2025-03-12"), Start: 0, End: 6 * 60, Rate: exact.MustNumber("0.2")},
	}
	tariff := must(NewTariff("holes", zone(t, "Europe/Berlin"), bands, nil))
	m := NewMeter([12]exact.Number{})
	start := local(t, tariff.zone, "2025-03-11 10:00")
	bad := []Span{
		{Start: start, Length: time.Hour, Energy: kwh("8")},
		{Start: start.Add(time.Hour), Length: 24 * time.Hour, Energy: kwh("8")},
	}
	_, err := m.Bill(tariff, bad, 6)
	var gap *GapError
	if !errors.As(err, &gap) || !gap.At.Equal(local(t, tariff.zone, "2025-03-12 06:00")) {
		t.Fatalf("got %v, want a gap at 06:00 on 12 March", err)
	}
	if want := `tariff "holes" has no band for Wed 2025-03-12 06:00`; err.Error() != want {
		t.Errorf("it says %q, want %q", err, want)
	}
	if got := must(m.Bill(tariff, bad[:1], 6))[0].String(); got != "0.8" {
		t.Errorf("8 kWh after the fault cost %s, want 0.8", got)
	}
}

// Use under a tariff without blocks counts for one with blocks.
func TestUseAcrossTariffs(t *testing.T) {
	flat := must(NewTariff("flat", time.UTC, []Band{{From: exact.NoDate, Rate: exact.Int(1)}}, nil))
	blocks := blockTariff(t, "0.10", "0.15", 10)
	m := NewMeter([12]exact.Number{})
	start := local(t, time.UTC, "2025-01-31 22:00")
	for range 2 { // half in January, half in February, twice
		must(m.Bill(flat, []Span{{Start: start, Length: 4 * time.Hour, Energy: kwh("8")}}, 6))
	}
	got := must(m.Bill(blocks, []Span{
		{Start: start, Energy: kwh("4")},
		{Start: start.Add(4 * time.Hour), Energy: kwh("3")},
	}, 6))
	if got[0].String() != "0.5" || got[1].String() != "0.35" {
		t.Errorf("4 and 3 kWh on top of 8 cost %v, want 0.5 and 0.35", got)
	}
}

// What a fork is billed for does not reach the meter that it is of, nor the
// other way round, and both go on from the same use.
func TestFork(t *testing.T) {
	blocks := blockTariff(t, "0.10", "0.15", 10)
	flat := must(NewTariff("flat", time.UTC, []Band{{From: exact.NoDate, Rate: exact.Int(1)}}, nil))
	m := NewMeter([12]exact.Number{})
	span := []Span{{Start: t0, Energy: kwh("8")}}
	must(m.Bill(flat, span, 6))
	f := m.Fork()
	for _, meter := range []*Meter{f, m} {
		if got := must(meter.Bill(blocks, span, 6))[0].String(); got != "1.1" {
			t.Errorf("8 kWh on top of 8 cost %s, want 1.1", got)
		}
	}
}
