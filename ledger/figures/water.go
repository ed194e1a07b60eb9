package figures

import (
	"putby/ledger"
	"putby/pricing/exact"
)

// A WaterLack is what is missing to know how much water a container lacks.
type WaterLack uint8

// What may be missing, or cannot be.
const (
	NoLack      WaterLack = iota
	NoDryWeight           // the pack has no dry weight
	NoPieceKg             // what a piece of the food weighs
	NoDensity             // the food's density
	DryTooHeavy           // the dry weight is above the weight of what it gives
)

// DryIn is the weight of the dry food in a container of a pack: as recorded, else
// its part of the weights of its run, as they were before and after, which Shared
// says. It is not given where neither is known.
func DryIn(g *ledger.Ledger, pack int) (dry exact.Quantity, shared bool) {
	p, cost := g.Records.Packs.At(pack), &g.Packs[pack]
	if p.Dry.Given() {
		return p.Dry, false
	}
	run, ok := g.FindRun(p.Run)
	if !ok {
		return dry, false
	}
	return DryOfRun(g, run, cost.Food, cost.Each)
}

// DryOfRun is the part of a run's dry food that is in a container that makes so much
// of a food, by the weights of its loads before and after, where they are known.
func DryOfRun(g *ledger.Ledger, run, food int, each exact.Number) (dry exact.Quantity, ok bool) {
	w, weighed := g.WeightsOfRun(run, food)
	mass, known := g.Foods[food].Mass(each)
	if !weighed || !known || w.Wet.Sign() <= 0 {
		return dry, false
	}
	grams := w.Dry.Over(w.Wet).Times(mass.Mul(exact.Int(1000))).Round(0, exact.HalfEven)
	if grams.Sign() <= 0 {
		return dry, false
	}
	return exact.G.Of(grams), true
}

// WaterToAdd is the kg of water that the food in a container of a pack lacks: the
// mass of what it gives, less its dry weight. Shared says that it is known by its
// run's weights alone.
func WaterToAdd(g *ledger.Ledger, pack int) (kg exact.Number, shared bool, lack WaterLack) {
	food := &g.Foods[g.Packs[pack].Food]
	dry, shared := DryIn(g, pack)
	mass, ok := food.Mass(g.Packs[pack].Each)
	switch {
	case dry.Sign() <= 0:
		return kg, false, NoDryWeight
	case !ok && food.Basis == exact.Ea:
		return kg, false, NoPieceKg
	case !ok:
		return kg, false, NoDensity
	}
	if kg = mass.Round(exact.QuantityPlaces, exact.HalfEven).Sub(dry.Base().Number()); kg.Sign() < 0 {
		return kg, false, DryTooHeavy
	}
	return kg, shared, NoLack
}
