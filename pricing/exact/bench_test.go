package exact

import (
	"testing"
	"time"

	"github.com/shopspring/decimal"
)

// Each benchmark that has a twin does the same work with shopspring/decimal
// (or package time). Compare the two: the machine's speed then drops out.

func BenchmarkSumMillion(b *testing.B) {
	list := amounts(1_000_000)
	b.Run("exact", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			var sum Money
			for _, m := range list {
				sum = sum.Add(m)
			}
		}
	})
	b.Run("decimal", func(b *testing.B) {
		decimals := make([]decimal.Decimal, len(list))
		for i, m := range list {
			decimals[i] = m.Number().decimal()
		}
		b.ReportAllocs()
		for b.Loop() {
			var sum decimal.Decimal
			for _, d := range decimals {
				sum = sum.Add(d)
			}
		}
	})
}

func BenchmarkParseNumber(b *testing.B) {
	cells := []string{"1", "0.99", "12.50", "500", "-3.75", "1234.567891"}
	b.Run("exact", func(b *testing.B) {
		b.ReportAllocs()
		for i := 0; b.Loop(); i++ {
			_, _ = ParseNumber(cells[i%len(cells)])
		}
	})
	b.Run("decimal", func(b *testing.B) {
		b.ReportAllocs()
		for i := 0; b.Loop(); i++ {
			_, _ = decimal.NewFromString(cells[i%len(cells)])
		}
	})
}

// sink keeps what a benchmark makes, so that it must be made.
var sink string

func BenchmarkString(b *testing.B) {
	n := MustNumber("1234.567891")
	d := n.decimal()
	b.Run("exact", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			sink = n.String()
		}
	})
	b.Run("exact append", func(b *testing.B) {
		b.ReportAllocs()
		line := make([]byte, 0, 64)
		for b.Loop() {
			line = n.AppendTo(line[:0])
		}
	})
	b.Run("decimal", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			sink = d.String()
		}
	})
}

func BenchmarkMul(b *testing.B) {
	x, y := MustNumber("14.275"), MustNumber("0.3146")
	b.Run("exact", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			_ = x.Mul(y)
		}
	})
	b.Run("decimal", func(b *testing.B) {
		p, q := x.decimal(), y.decimal()
		b.ReportAllocs()
		for b.Loop() {
			_ = p.Mul(q)
		}
	})
}

// A cost for a part of a quantity, as every draw from a lot asks for.
func BenchmarkShare(b *testing.B) {
	cost, part, whole := MustMoney("47.183264"), MustNumber("1.75"), MustNumber("12.5")
	b.Run("exact", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			_ = cost.Share(part, whole, 6)
		}
	})
	b.Run("decimal", func(b *testing.B) {
		c, p, w := cost.Number().decimal(), part.decimal(), whole.decimal()
		b.ReportAllocs()
		for b.Loop() {
			if !p.Equal(w) {
				q, r := c.Mul(p).QuoRem(w, 6) // what rounds half to even
				if r.Shift(1).Cmp(w.Shift(-6).Mul(decimal.New(5, 0))) > 0 {
					q = q.Add(decimal.New(1, -6))
				}
				_ = q
			}
		}
	})
}

func BenchmarkSplit(b *testing.B) {
	m, weights := MustMoney("1234.567891"), numbersUpTo(8)
	b.Run("exact", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			_, _ = m.Split(weights, 6)
		}
	})
	b.Run("exact wide", func(b *testing.B) {
		wides := make([]Number, len(weights))
		for i, w := range weights {
			wides[i] = wide(w)
		}
		b.ReportAllocs()
		for b.Loop() {
			_, _ = m.Split(wides, 6)
		}
	})
	b.Run("decimal, not handing out the rest", func(b *testing.B) {
		whole, list := m.Number().decimal(), make([]decimal.Decimal, len(weights))
		for i, w := range weights {
			list[i] = w.decimal()
		}
		b.ReportAllocs()
		for b.Loop() {
			var sum decimal.Decimal
			for _, w := range list {
				sum = sum.Add(w)
			}
			parts := make([]decimal.Decimal, len(list))
			for i, w := range list {
				parts[i], _ = whole.Mul(w).QuoRem(sum, 6)
			}
		}
	})
}

// Energy at a rate, over the pieces of a phase: a sum of ratios, rounded once.
func BenchmarkRatioAdd(b *testing.B) {
	var pieces []Ratio
	for i := range int64(16) {
		pieces = append(pieces, New(1300+i, 3).Mul(New(3146, 4)).Over(Int(3600)).Times(Int(60*i+7)))
	}
	b.Run("exact", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			var sum Ratio
			for _, p := range pieces {
				sum = sum.Add(p)
			}
			_ = sum.Round(6, HalfEven)
		}
	})
	b.Run("math/big", func(b *testing.B) {
		wides := make([]Ratio, len(pieces))
		for i, p := range pieces {
			wides[i] = wideRatio(p)
		}
		b.ReportAllocs()
		for b.Loop() {
			sum := wideRatio(Ratio{})
			for _, p := range wides {
				sum = wideRatio(sum).Add(p)
			}
			_ = sum.Round(6, HalfEven)
		}
	})
}

func BenchmarkRatioMul(b *testing.B) {
	x, y := MustNumber("14.275").Over(Int(12)), MustNumber("0.3146").Over(Int(35))
	b.ReportAllocs()
	for b.Loop() {
		_ = x.Mul(y)
	}
}

func BenchmarkParseDate(b *testing.B) {
	b.Run("exact", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			_, _ = ParseDate("2025-02-28")
		}
	})
	b.Run("time", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			_, _ = time.Parse(time.DateOnly, "2025-02-28")
		}
	})
}

func BenchmarkParseMoment(b *testing.B) {
	berlin := zone(b, "Europe/Berlin")
	b.Run("exact", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			_, _ = ParseMoment("2025-02-28 18:30", berlin)
		}
	})
	b.Run("time", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			_, _ = time.ParseInLocation("2006-01-02 15:04", "2025-02-28 18:30", berlin)
		}
	})
}

func BenchmarkParseQuantity(b *testing.B) {
	cells := []string{"500 g", "1.5 L", "12 ea", "14.2 kWh", "300 cc", "1 floz"}
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		_, _ = ParseQuantity(cells[i%len(cells)])
	}
}

func BenchmarkParseUnit(b *testing.B) {
	names := []string{"g", "L", "ea", "kWh", "cc", "floz"}
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		_, _ = ParseUnit(names[i%len(names)])
	}
}

func BenchmarkParseDuration(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		_, _ = ParseDuration("8h24m")
	}
}
