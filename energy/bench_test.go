package energy

import (
	"math/big"
	"testing"
	"time"

	"putby/pricing/exact"
)

// benchRuns returns runs of six phases, two days long, one after another.
func benchRuns(n int) [][]Span {
	runs := make([][]Span, n)
	start := time.Date(2017, 1, 1, 18, 20, 0, 0, time.UTC)
	for i := range runs {
		c := Cycle{Start: start.Add(time.Duration(i) * 53 * time.Hour)}
		for j, minutes := range []int{600, 25, 1440, 500, 120, 60} {
			c.Phases = append(c.Phases, Phase{
				Length: time.Duration(minutes) * time.Minute,
				Watts:  exact.Some(exact.Int(int64(400 + 150*j + i%7))),
			})
		}
		runs[i] = must(c.Resolve()).Spans
	}
	return runs
}

// The hot path: a report over every phase of a ledger, time of use, no blocks.
// One op is one phase.
func BenchmarkBillPhase(b *testing.B) {
	runs, tariff := benchRuns(500), ontario(b)
	m := NewMeter([12]exact.Number{})
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		if i%(6*len(runs)) == 0 {
			m = NewMeter([12]exact.Number{}) // a ledger's worth of runs each
		}
		if i%6 == 0 {
			if _, err := m.Bill(tariff, runs[i/6%len(runs)], 6); err != nil {
				b.Fatal(err)
			}
		}
	}
}

func BenchmarkBillPhaseFlat(b *testing.B) {
	runs := benchRuns(500)
	tariff := must(NewTariff("flat", zone(b, "America/Toronto"), []Band{{From: exact.NoDate, Rate: exact.MustNumber("0.2987"), Tax: exact.Int(19)}}, nil))
	m := NewMeter([12]exact.Number{})
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		if i%(6*len(runs)) == 0 {
			m = NewMeter([12]exact.Number{}) // a ledger's worth of runs each
		}
		if i%6 == 0 {
			if _, err := m.Bill(tariff, runs[i/6%len(runs)], 6); err != nil {
				b.Fatal(err)
			}
		}
	}
}

// The same with every piece made and priced as a ratio.
func BenchmarkItemizePhase(b *testing.B) {
	runs, tariff := benchRuns(500), ontario(b)
	m := NewMeter([12]exact.Number{})
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		if i%(6*len(runs)) == 0 {
			m = NewMeter([12]exact.Number{}) // a ledger's worth of runs each
		}
		if i%6 == 0 {
			if _, err := m.Itemize(tariff, runs[i/6%len(runs)], 6); err != nil {
				b.Fatal(err)
			}
		}
	}
}

// The same by the straightforward twin: minute by minute.
func BenchmarkTwinPhase(b *testing.B) {
	runs, tariff := benchRuns(500), ontario(b)
	tw := &twin{zone: tariff.zone, bands: tariff.bands, holidays: nil, used: map[string]*big.Rat{}}
	for i := 0; b.Loop(); i++ {
		if i%6 == 0 {
			for _, s := range runs[i/6%len(runs)] {
				if _, ok := tw.cost(s); !ok {
					b.Fatal("gap")
				}
			}
		}
	}
}

func BenchmarkResolvePhase(b *testing.B) {
	b.ReportAllocs()
	c := Cycle{Start: t0}
	for range 6 {
		c.Phases = append(c.Phases, Phase{Length: 7 * time.Hour, Watts: exact.Some(exact.Int(450))})
	}
	for i := 0; b.Loop(); i++ {
		if i%6 == 0 {
			if _, err := c.Resolve(); err != nil {
				b.Fatal(err)
			}
		}
	}
}

// A log of 31 days at a sample every ten seconds, between its ends.
func BenchmarkLogEnergy(b *testing.B) {
	l := &Log{}
	for i := range int64(267_840) {
		l.at = append(l.at, i*10e9)
		l.power = append(l.power, 450e9+i%97*1e8)
	}
	b.ReportAllocs()
	for b.Loop() {
		l.Energy(l.First(), l.Last())
	}
}

// The cheapest start of a cycle in the next seven days, every minute of them.
func BenchmarkSearch(b *testing.B) {
	tariff := ontario(b)
	s := Search{Tariff: tariff, Step: time.Minute, Places: 6, From: local(b, tariff.zone, "2017-07-05 12:00")}
	s.To = s.From.AddDate(0, 0, 7)
	for _, h := range []time.Duration{10, 1, 20, 6} {
		s.Profile = append(s.Profile, Leg{h * time.Hour, kwh("4.25")})
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, _, err := s.Cheapest(); err != nil {
			b.Fatal(err)
		}
	}
}
