package energy

import (
	"time"

	"putby/pricing/exact"
)

// A Span is a stretch of energy on the clock.
type Span struct {
	Start  time.Time     // the first instant, in any zone
	Length time.Duration // elapsed time; 0: all of Energy is billed at the band of Start
	Energy exact.Ratio   // kWh of the whole span, at least 0
	// Curve gives the shape of the draw over the span: its power from Start to
	// Start+Length, scaled so that the span holds Energy. Nil, or a log that
	// has no energy there: even.
	Curve *Log
	// Solar is the part of Energy, in kWh, that the household's own roof gave. It
	// follows what Curve has of it, or is as even as the rest.
	Solar exact.Ratio
}

// parted returns what of a span came from the grid and what from the roof.
func (s Span) parted() (grid, solar Span) {
	grid, solar = s, s
	grid.Solar, solar.Solar = exact.Ratio{}, exact.Ratio{}
	grid.Energy, solar.Energy = s.Energy.Sub(s.Solar), s.Solar
	if s.Curve != nil {
		grid.Curve, solar.Curve = s.Curve.grid, s.Curve.solar
	}
	return grid, solar
}

// A stretch is a part of a span within one segment of a local day and one
// hour's price.
type stretch struct {
	seg      *segment
	month    monthKey
	hour     int           // place of the hour's price, or noHour
	from, to time.Duration // since the span's start
}

// cut cuts a span at every edge of a band, at every local midnight, at every
// clock change and, in hourly bands, where the price changes, and appends the
// parts to dst. A span without length is one part without length.
func (w *walker) cut(dst []stretch, s Span) []stretch {
	// The walker counts whole seconds; a start within one shortens the first part.
	second, fraction := s.Start.Unix(), time.Duration(s.Start.Nanosecond())
	for at := time.Duration(0); ; {
		part, end := w.at(second)
		till := at + time.Duration(end-second)*time.Second - fraction
		fraction = 0
		part.from, part.to = at, min(till, s.Length)
		dst = append(dst, part)
		if till >= s.Length {
			return dst
		}
		at, second = till, end
	}
}

// shares returns the energy of each part of a span, in kWh.
func (s Span) shares(parts []stretch) []exact.Ratio {
	shares := make([]exact.Ratio, len(parts))
	if len(parts) == 1 {
		shares[0] = s.Energy
		return shares
	}
	if s.Curve != nil {
		if total := s.Curve.Energy(s.Start, s.Start.Add(s.Length)); total.Sign() > 0 {
			scale := s.Energy.Quo(total)
			for i, p := range parts {
				shares[i] = s.Curve.Energy(s.Start.Add(p.from), s.Start.Add(p.to)).Mul(scale)
			}
			return shares
		}
	}
	for i, p := range parts {
		shares[i] = s.Energy.Mul(exact.Int(int64(p.to - p.from)).Over(exact.Int(int64(s.Length))))
	}
	return shares
}
