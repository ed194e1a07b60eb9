package energy

import "putby/pricing/exact"

// A piece is a part of a span under one band.
type piece struct {
	part int         // place among the parts of the span
	band int         // index in the tariff
	kwh  exact.Ratio // at least 0
	cost exact.Ratio // major units with tax, unrounded; below 0 where the price is
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
			var err error
			if pieces, err = b.stack(pieces, i, s, p, kwh); err != nil {
				return nil, err
			}
		} else {
			if !b.knows(p, p.seg.steps[0].band) {
				return nil, b.noPrice(s, p)
			}
			pieces = append(pieces, b.piece(i, p, p.seg.steps[0].band, kwh))
		}
		b.add(p.month, kwh) // before the next part, which it may lift into another block
	}
	return pieces, nil
}

// stack puts the energy of a part on top of what its month has used, and
// appends a piece for each block that it falls in. An error is that no block
// holds for the use before, or that one has no price there.
func (b *biller) stack(pieces []piece, part int, s Span, p stretch, kwh exact.Ratio) ([]piece, error) {
	before := b.usedIn(p.month)
	at := p.seg.reached(before)
	if at < 0 {
		return nil, b.gap(s, p)
	}
	// before rises from block to block up to after, where the part ends.
	after, reached := before.Add(kwh), false
	for ; !reached; at++ {
		band, to := p.seg.steps[at].band, after
		reached = at+1 == len(p.seg.steps)
		if !reached {
			edge := exact.RatioOf(p.seg.steps[at+1].above)
			if reached = edge.Cmp(after) >= 0; !reached {
				to = edge
			}
		}
		if !b.knows(p, band) {
			return nil, b.noPrice(s, p)
		}
		pieces = append(pieces, b.piece(part, p, band, to.Sub(before)))
		before = to
	}
	return pieces, nil
}

// usedIn returns what a month has used so far, the household's other use
// included, in kWh.
func (b *biller) usedIn(month monthKey) exact.Ratio {
	if month != b.month {
		b.turn(month)
	}
	return b.use.Add(exact.RatioOf(b.m.household[month%12]))
}

func (b *biller) piece(part int, p stretch, band int, kwh exact.Ratio) piece {
	return piece{part, band, kwh, kwh.Mul(b.ratio(p, band))}
}
