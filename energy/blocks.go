package energy

import "putby/pricing/exact"

// A piece is a part of a span under one band.
type piece struct {
	part int // place among the parts of the span
	band int
	kwh  exact.Ratio
	cost exact.Ratio
}

// pieces prices the parts of a span one by one, cut once more where the use of
// the month reaches the next block, and adds the energy to its months. What a
// curve's power is when a block is reached does not matter, only how much
// energy comes before and after.
func (b *biller) pieces(s Span, parts []stretch) ([]piece, error) {
	pieces := make([]piece, 0, len(parts))
	for i, kwh := range s.shares(parts) {
		p := parts[i]
		if len(p.seg.steps) == 0 {
			return nil, b.gap(s, p)
		}
		if b.t.blocks {
			var ok bool
			if pieces, ok = b.stack(pieces, i, p, kwh); !ok {
				return nil, b.gap(s, p)
			}
		} else {
			pieces = append(pieces, b.piece(i, p.seg.steps[0].band, kwh))
		}
		b.add(p.month, kwh)
	}
	return pieces, nil
}

// stack puts the energy of a part on top of what its month has used, and
// appends a piece for each block that it falls in. It reports whether a block
// holds for the use before.
func (b *biller) stack(pieces []piece, part int, p stretch, kwh exact.Ratio) ([]piece, bool) {
	before := b.usedIn(p.month)
	at := p.seg.reached(before)
	if at < 0 {
		return nil, false
	}
	after := before.Add(kwh)
	for ; at+1 < len(p.seg.steps); at++ {
		edge := exact.RatioOf(p.seg.steps[at+1].above)
		if edge.Cmp(after) >= 0 {
			break
		}
		pieces = append(pieces, b.piece(part, p.seg.steps[at].band, edge.Sub(before)))
		before = edge
	}
	return append(pieces, b.piece(part, p.seg.steps[at].band, after.Sub(before))), true
}

// usedIn returns what a month has used so far, the household's other use
// included, in kWh.
func (b *biller) usedIn(month monthKey) exact.Ratio {
	if month != b.month {
		b.turn(month)
	}
	return b.use.Add(exact.RatioOf(b.m.household[month%12]))
}

func (b *biller) piece(part, band int, kwh exact.Ratio) piece {
	return piece{part, band, kwh, kwh.Mul(b.t.ratios[band])}
}
