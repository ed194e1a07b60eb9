package energy

import (
	"time"

	"putby/pricing/exact"
)

// A Bill is what one span costs, and why.
type Bill struct {
	Cost   exact.Money // rounded once
	Energy exact.Ratio // kWh
	Pieces []Piece     // in order of time, what the roof gave last; their costs sum to Cost before rounding
}

// A Piece is a part of a span under one band. Pieces that a block edge cuts
// share the From and To of the time that they are cut from.
type Piece struct {
	From, To time.Time   // in the tariff's zone
	Energy   exact.Ratio // kWh
	Tariff   string
	Band     Band
	Hour     exact.Opt[exact.Number] // what a kWh costs at that time, under an hourly band alone
	HourLine int                     // its row, as Band.Line
	Cost     exact.Ratio             // money, unrounded
	Solar    bool                    // it came from the household's own roof; Band is the export tariff's
}

// Rate is what a kWh costs in the piece, before tax.
func (p Piece) Rate() exact.Number { return p.Band.Rate.Add(p.Hour.Or(exact.Number{})) }

// Itemize is [Meter.Bill] with the pieces of each span.
func (m *Meter) Itemize(t *Tariff, spans []Span, places int) ([]Bill, error) {
	b := m.begin(t)
	bills := make([]Bill, len(spans))
	for i, s := range spans {
		pieces, err := b.itemized(s)
		if err != nil {
			return nil, b.undo(err)
		}
		bills[i] = billOf(s, pieces, places)
	}
	b.commit()
	return bills, nil
}

func billOf(s Span, pieces []Piece, places int) Bill {
	var sum exact.Ratio
	for _, p := range pieces {
		sum = sum.Add(p.Cost)
	}
	return Bill{Cost: posted(sum, places), Energy: s.Energy, Pieces: pieces}
}

// itemized returns the pieces of a span: of one that the roof gave a part of,
// first the grid's, then the roof's.
func (b *biller) itemized(s Span) ([]Piece, error) {
	if s.Solar.Sign() > 0 {
		return b.partedPieces(s)
	}
	b.m.parts = b.w.cut(b.m.parts[:0], s)
	pieces, err := b.pieces(s, b.m.parts)
	list := make([]Piece, len(pieces))
	for i, p := range pieces {
		part := b.m.parts[p.part]
		list[i] = Piece{
			From:   s.Start.Add(part.from).In(b.t.zone),
			To:     s.Start.Add(part.to).In(b.t.zone),
			Energy: p.kwh,
			Tariff: b.t.name,
			Band:   b.t.bands[p.band],
			Cost:   p.cost,
			Solar:  b.solar,
		}
		if list[i].Band.Hourly {
			hour := b.t.hourly.hours[part.hour]
			list[i].Hour, list[i].HourLine = exact.Some(hour.rate), hour.line
		}
	}
	return list, err
}
