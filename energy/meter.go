package energy

import (
	"errors"
	"time"

	"putby/pricing/exact"
)

// A Span is a stretch of energy on the clock.
type Span struct {
	Start  time.Time
	Length time.Duration // elapsed time; 0: all of Energy is billed at the band of Start
	Energy exact.Ratio   // kWh of the whole span
	// Curve gives the shape of the draw over the span: its power from Start to
	// Start+Length, scaled so that the span holds Energy. Nil, or a curve with
	// no energy there: even.
	Curve *Log
}

// A Meter is a household's electricity meter. It knows how much of each
// calendar month was used before, which the prices of blocks depend on. Runs
// must be billed in order of start. A Meter is not safe for concurrent use.
type Meter struct {
	household [12]exact.Number
}

// NewMeter returns a meter of a household whose other use is so many kWh in
// each calendar month, January first.
func NewMeter(household [12]exact.Number) *Meter { return &Meter{household: household} }

// A Bill is what one span costs, and why.
type Bill struct {
	Cost   exact.Money // rounded once
	Energy exact.Ratio // kWh
	Pieces []Piece     // in order of time; their costs sum to Cost before rounding
}

// A Piece is a part of a span under one band. Pieces that a block edge cuts
// share the From and To of the time that they are cut from.
type Piece struct {
	From, To time.Time
	Energy   exact.Ratio // kWh
	Band     Band
	Cost     exact.Ratio // money, exact
}

var errNotYet = errors.New("not there yet")

// Bill returns what each span costs under t, rounded once, half to even, at
// places: the exact sum over its pieces of energy x rate x (1 + tax/100). It
// adds the energy to the use of the local months it falls in. A *GapError says
// where no band holds; the meter is then as before.
func (m *Meter) Bill(t *Tariff, spans []Span, places int) ([]exact.Money, error) {
	return nil, errNotYet
}

// Itemize is Bill with the pieces of each span.
func (m *Meter) Itemize(t *Tariff, spans []Span, places int) ([]Bill, error) {
	return nil, errNotYet
}
