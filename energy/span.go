package energy

import (
	"time"

	"putby/pricing/exact"
)

// A Span is a stretch of energy on the clock.
type Span struct {
	Start  time.Time
	Length time.Duration // elapsed time; 0: all of Energy is billed at the band of Start
	Energy exact.Ratio   // kWh of the whole span, at least 0
	// Curve gives the shape of the draw over the span: its power from Start to
	// Start+Length, scaled so that the span holds Energy. Nil, or a log that
	// has no energy there: even.
	Curve *Log
}

// A stretch is a part of a span within one segment of a local day.
type stretch struct {
	seg      *segment
	month    monthKey
	from, to time.Duration // since the span's start
}

// cut cuts a span at every edge of a band, at every local midnight and at
// every clock change, and appends the parts to dst. A span without length is
// one part without length.
func (w *walker) cut(dst []stretch, s Span) []stretch {
	second, fraction := s.Start.Unix(), time.Duration(s.Start.Nanosecond())
	for at := time.Duration(0); ; {
		seg, month, end := w.at(second)
		till := at + time.Duration(end-second)*time.Second - fraction
		fraction = 0
		if till >= s.Length {
			return append(dst, stretch{seg, month, at, s.Length})
		}
		dst = append(dst, stretch{seg, month, at, till})
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
