package energy

import (
	"time"

	"putby/pricing/exact"
)

// A Bill is what one span costs, and why.
type Bill struct {
	Cost   exact.Money // rounded once
	Energy exact.Ratio // kWh
	Pieces []Piece     // in order of time; their costs sum to Cost before rounding
}

// A Piece is a part of a span under one band. Pieces that a block edge cuts
// share the From and To of the time that they are cut from.
type Piece struct {
	From, To time.Time   // in the tariff's zone
	Energy   exact.Ratio // kWh
	Band     Band
	Cost     exact.Ratio // money, unrounded
}

// Itemize is [Meter.Bill] with the pieces of each span.
func (m *Meter) Itemize(t *Tariff, spans []Span, places int) ([]Bill, error) {
	b := m.begin(t)
	bills := make([]Bill, len(spans))
	for i, s := range spans {
		m.parts = b.w.cut(m.parts[:0], s)
		pieces, err := b.pieces(s, m.parts)
		if err != nil {
			return nil, b.undo(err)
		}
		bills[i] = b.itemized(s, pieces, places)
	}
	b.commit()
	return bills, nil
}

func (b *biller) itemized(s Span, pieces []piece, places int) Bill {
	bill := Bill{Energy: s.Energy, Pieces: make([]Piece, len(pieces))}
	var sum exact.Ratio
	for i, p := range pieces {
		part := b.m.parts[p.part]
		bill.Pieces[i] = Piece{
			From:   s.Start.Add(part.from).In(b.t.zone),
			To:     s.Start.Add(part.to).In(b.t.zone),
			Energy: p.kwh,
			Band:   b.t.bands[p.band],
			Cost:   p.cost,
		}
		sum = sum.Add(p.cost)
	}
	bill.Cost = posted(sum, places)
	return bill
}
