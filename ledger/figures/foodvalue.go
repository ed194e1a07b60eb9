package figures

import (
	"putby/ledger"
	"putby/pricing/exact"
)

// InBasis returns a quantity of a food in its basis unit: through its density,
// or the weight of a piece, where it is counted otherwise. What does not end is
// rounded half to even at 12 decimals. It reports false
// for a quantity that was not given, or does not convert.
func InBasis(f *ledger.Food, q exact.Quantity) (exact.Number, bool) {
	if !q.Given() {
		return exact.Number{}, false
	}
	if n, err := f.InBasis(q); err == nil {
		return n, true
	}
	kg, ok := kilograms(f, q)
	if !ok {
		return exact.Number{}, false
	}
	one, ok := f.Mass(exact.Int(1))
	if !ok || one.Sign() <= 0 {
		return exact.Number{}, false
	}
	return kg.Over(one).Round(exact.QuantityPlaces, exact.HalfEven), true
}

// kilograms returns what a quantity of a food weighs, exactly.
func kilograms(f *ledger.Food, q exact.Quantity) (exact.Number, bool) {
	n := q.Base().Number()
	switch q.Unit().Dimension() {
	case exact.Mass:
		return n, true
	case exact.Count:
		piece, ok := f.PieceKg.Get()
		return n.Mul(piece), ok
	}
	density, ok := f.Density.Get()
	return n.Mul(density), ok
}
