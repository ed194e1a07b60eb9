package energy

import (
	"errors"
	"testing"
	"time"

	"putby/pricing/exact"
)

// sunny is 1 kW for 4 h, of which the roof gives 0 W at first and 800 W in the
// end, along a straight line: 1.6 of 4 kWh, a quarter of it in the first half.
func sunny(t *testing.T) *Log {
	t.Helper()
	return must(NewLog([]Sample{
		{At: t0, Watts: exact.Int(1000)},
		{At: t0.Add(2 * time.Hour), Watts: exact.Int(1000), Solar: exact.Int(400)},
		{At: t0.Add(4 * time.Hour), Watts: exact.Int(1000), Solar: exact.Int(800)},
	}))
}

// What the roof gives costs what it would have earned: at 0.30 from the grid
// and 0.08 sold, 2.4 x 0.30 + 1.6 x 0.08 = 0.848. A metered total of 8 kWh
// doubles both parts. A phase with kWh of its own has the same part of them.
func TestSolar(t *testing.T) {
	export := must(NewTariff("export", time.UTC, []Band{{Line: 3, From: exact.NoDate, Rate: exact.MustNumber("0.08")}}, nil))
	flat := must(NewTariff("flat", time.UTC, []Band{{Line: 2, From: exact.NoDate, Rate: exact.MustNumber("0.30")}}, nil)).WithExport(export)
	halves := []Phase{{Name: "freezing", Length: 2 * time.Hour}, {Name: "primary", Length: 2 * time.Hour}}
	for _, c := range []struct {
		name  string
		cycle Cycle
		want  []string
	}{
		{"whole", Cycle{}, []string{"0.848"}},
		{"metered", Cycle{KWh: num("8")}, []string{"1.696"}},
		{"halves", Cycle{Phases: halves}, []string{"0.512", "0.336"}}, // 0.4 and 1.2 of 2 kWh from the roof
		{"own kWh", Cycle{Phases: []Phase{{Name: "hold", Length: 4 * time.Hour, KWh: num("1")}}}, []string{"0.212"}},
	} {
		c.cycle.Start, c.cycle.Log = t0, sunny(t)
		d := must(c.cycle.Resolve())
		for i, cost := range must(NewMeter([12]exact.Number{}).Bill(flat, d.Spans, 6)) {
			if cost.String() != c.want[i] {
				t.Errorf("%s: span %d costs %v, want %s", c.name, i, cost, c.want[i])
			}
		}
	}
	bill := must(NewMeter([12]exact.Number{}).Itemize(flat, must(Cycle{Start: t0, Log: sunny(t)}.Resolve()).Spans, 6))[0]
	if n := len(bill.Pieces); n != 2 || bill.Pieces[0].Solar || !bill.Pieces[1].Solar || bill.Pieces[1].Band.Line != 3 {
		t.Errorf("pieces are %+v", bill.Pieces)
	}
}

// What the roof gives is no use of the month: blocks of 2 kWh at 0.10 and then
// 0.20 see the grid's 2.4 alone, 2 x 0.10 + 0.4 x 0.20 = 0.28.
func TestSolarBesideBlocks(t *testing.T) {
	export := must(NewTariff("export", time.UTC, []Band{{From: exact.NoDate}}, nil))
	blocks := blockTariff(t, "0.10", "0.20", 2)
	spans := must(Cycle{Start: t0, Log: sunny(t)}.Resolve()).Spans
	m := NewMeter([12]exact.Number{})
	if got := must(m.Bill(blocks.WithExport(export), spans, 6))[0].String(); got != "0.28" {
		t.Errorf("it costs %s, want 0.28", got)
	}
	if got := must(m.Bill(blocks, []Span{{Start: t0, Energy: kwh("1")}}, 6))[0].String(); got != "0.2" {
		t.Errorf("the next kWh costs %s, want 0.2", got)
	}
	for _, c := range []struct {
		tariff *Tariff
		want   error
	}{{blocks, ErrNoExport}, {blocks.WithExport(blocks), ErrExportBlocks}} {
		if _, err := m.Bill(c.tariff, spans, 6); !errors.Is(err, c.want) {
			t.Errorf("%v, want %v", err, c.want)
		}
		if _, err := m.Itemize(c.tariff, spans, 6); !errors.Is(err, c.want) {
			t.Errorf("itemized: %v, want %v", err, c.want)
		}
	}
}

func TestSolarLogFaults(t *testing.T) {
	_, err := NewLog([]Sample{{At: t0, Watts: exact.Int(5), Solar: exact.Int(6)}})
	if !errors.Is(err, ErrSolar) {
		t.Errorf("more from the roof than was drawn: %v", err)
	}
	var b LogBuilder
	if err := b.Add(0, 5, 6); !errors.Is(err, ErrSolar) {
		t.Errorf("a builder: %v", err)
	}
}
