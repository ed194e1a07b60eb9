package report

import (
	"strings"

	"putby/ledger"
	"putby/pricing/exact"
)

// inBasis returns a quantity of a food in its basis unit: through its density,
// or the weight of a piece, where it is counted otherwise. What does not end is
// rounded half to even at 12 decimals. It reports false
// for a quantity that was not given, or does not convert.
func inBasis(f *ledger.Food, q exact.Quantity) (exact.Number, bool) {
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

// lacks says what a food's record would need for all figures of a comparison.
func lacks(f *ledger.Food) []string {
	var what []string
	if !f.Serving.Given() {
		what = append(what, "serving")
	} else if _, ok := inBasis(f, f.Serving); !ok {
		what = append(what, weightOf(f))
	}
	if _, ok := f.Mass(exact.Int(1)); !ok && (len(what) == 0 || what[0] != weightOf(f)) {
		what = append(what, weightOf(f))
	}
	if !f.Kcal.Given() {
		what = append(what, "kcal")
	}
	if !f.Protein.Given() {
		what = append(what, "protein")
	}
	if len(what) == 0 {
		return nil
	}
	return []string{"its record in " + ledger.FoodsFile + " has no " + strings.Join(what, ", no ")}
}

// weightOf names the column that says what a food weighs.
func weightOf(f *ledger.Food) string {
	if f.Basis == exact.Ea {
		return "piece_kg"
	}
	return "density"
}
