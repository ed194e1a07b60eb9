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

// A Rehydration is the water that the food in a container lacks.
type Rehydration struct {
	Kg, Litres exact.Number // of water, for one container
	PerDry     exact.Ratio  // kg for each kg of dry food
	Shared     bool         // known by the weights of its run alone
	Lack       WaterLack    // then all else is nothing
}

// litresPerKg is for water, so that a kilogram of it is a litre: common
// practice in a kitchen, and within 0.3 % below 25 °C (memory).
var litresPerKg = exact.Int(1)

// WaterToAdd is the water that the food in a container of a pack lacks: the
// mass of what it gives, less its dry weight.
func WaterToAdd(g *ledger.Ledger, pack int) (w Rehydration) {
	food := &g.Foods[g.Packs[pack].Food]
	dry, shared := DryIn(g, pack)
	mass, ok := food.Mass(g.Packs[pack].Each)
	switch {
	case dry.Sign() <= 0:
		return Rehydration{Lack: NoDryWeight}
	case !ok && food.Basis == exact.Ea:
		return Rehydration{Lack: NoPieceKg}
	case !ok:
		return Rehydration{Lack: NoDensity}
	}
	kg := mass.Round(exact.QuantityPlaces, exact.HalfEven).Sub(dry.Base().Number())
	if kg.Sign() < 0 {
		return Rehydration{Lack: DryTooHeavy}
	}
	return Rehydration{Kg: kg, Litres: kg.Mul(litresPerKg), PerDry: kg.Over(dry.Base().Number()), Shared: shared}
}
