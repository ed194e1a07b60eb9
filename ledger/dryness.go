package ledger

import "putby/pricing/exact"

// MostWater is how much of the weight of dried food may be water, in %, for it
// to be sealed without oxygen (university extension guidance on oxygen
// absorbers: about 10 % moisture or less; memory).
var MostWater = exact.Int(10)

// A Weighing is what food weighed before it was dried, and what it weighs now:
// since solids do not leave, it tells how much water is left.
type Weighing struct {
	Wet, Dry exact.Number // kg; Dry above 0
	Water    exact.Number // % of the fresh food
	Fat      exact.Number // % of the fresh food, where it is rich in fat; else 0
}

// WeighingOf is one of a food, and false where its water is not known.
func WeighingOf(food *Food, wet, dry exact.Number) (w Weighing, known bool) {
	w.Wet, w.Dry = wet, dry
	w.Water, known = food.Water.Get()
	if _, fits := food.FatOfDry(); fits && food.RichInFat() {
		w.Fat = food.Fat.Or(exact.Number{})
	}
	return w, known
}

// mostFat is how much of the dry matter may be fat, in %, before a food counts as
// rich in it: a fifth. The line is this project's own; extension guidance says only
// that food stored with oxygen absorbers is low in oil.
var mostFat = exact.Int(20)

// RichInFat reports whether a food is known to be.
func (f *Food) RichInFat() bool {
	fat, known := f.Fat.Get()
	water, ok := f.Water.Get()
	hundred := exact.Int(100)
	return known && ok && mostFat.Mul(hundred.Sub(water)).Less(fat.Mul(hundred))
}

// FatOfDry is how much of a food's dry matter is fat, in %; false where that is not
// known, or its figures do not fit each other.
func (f *Food) FatOfDry() (percent exact.Ratio, ok bool) {
	fat, known := f.Fat.Get()
	water, told := f.Water.Get()
	dry := exact.Int(100).Sub(water)
	if !known || !told || dry.Sign() <= 0 || dry.Less(fat) {
		return percent, false
	}
	return fat.Mul(exact.Int(100)).Over(dry), true
}

// WaterLeft is the part of the dried food's weight that is still water:
// 1 - wet (1 - water/100) / dry. It is below 0 where the food weighs less than
// its solids should.
func (w Weighing) WaterLeft() exact.Ratio {
	hundred := exact.Int(100)
	return exact.RatioOf(exact.Int(1)).Sub(w.Wet.Mul(hundred.Sub(w.Water)).Over(w.Dry.Mul(hundred)))
}

// LeanWater is the part of what is not fat that is still water: of food rich in fat
// that is what decides, since fat takes up next to none and [MostWater] is for food
// low in oil (common practice; memory). Of any other food it is WaterLeft.
func (w Weighing) LeanWater() exact.Ratio {
	lean := exact.RatioOf(w.Dry).Sub(w.Wet.Mul(w.Fat).Over(exact.Int(100)))
	if lean.Sign() <= 0 {
		return w.WaterLeft()
	}
	return w.WaterLeft().Times(w.Dry).Quo(lean)
}

// Moist reports whether LeanWater is above [MostWater], m. With both sides multiplied
// by the lean weight it takes no division: the solids that there were, wet (1 - water),
// are less than dry (1 - m) + m wet fat; all of it times 100 twice, for the per cent.
func (w Weighing) Moist() bool {
	hundred := exact.Int(100)
	most := w.Dry.Mul(hundred.Sub(MostWater)).Mul(hundred).Add(w.Wet.Mul(w.Fat).Mul(MostWater))
	return w.Wet.Mul(hundred.Sub(w.Water)).Mul(hundred).Less(most)
}

// WeighingOf returns the weights that tell how dry a pack is: its own, beside
// the mass of what it gives, or where those are not known those of its run's
// loads of the food. It reports false where neither are, or the food's water
// is not.
func (g *Ledger) WeighingOf(pack int) (Weighing, bool) {
	cost := &g.Packs[pack]
	if cost.Food < 0 || !g.Foods[cost.Food].Water.Given() {
		return Weighing{}, false
	}
	p := g.Records.Packs.At(pack)
	return g.WeighingOfNew(&p, cost.Food, cost.Each)
}

// WeighingOfNew is [Ledger.WeighingOf] of a pack that need not be among the
// records, each container of which makes so much of a food.
func (g *Ledger) WeighingOfNew(p *Pack, of int, each exact.Number) (Weighing, bool) {
	food := &g.Foods[of]
	if !food.Water.Given() {
		return Weighing{}, false
	}
	if wet, ok := food.Mass(each); ok && p.Dry.Sign() > 0 {
		return WeighingOf(food, wet, p.Dry.Base().Number())
	}
	run, ok := g.FindRun(p.Run)
	if !ok {
		return Weighing{}, false
	}
	return g.WeighingOfRun(run, of)
}

// WeighingOfRun returns the weights of a food's loads in a run, and false where
// none was weighed before and after, or the food's water is not known.
func (g *Ledger) WeighingOfRun(run, food int) (Weighing, bool) {
	w, ok := g.WeightsOfRun(run, food)
	w, known := WeighingOf(&g.Foods[food], w.Wet, w.Dry)
	return w, ok && known
}

// WeightsOfRun is WeighingOfRun whether or not the food's water is known.
func (g *Ledger) WeightsOfRun(run, food int) (w Weighing, ok bool) {
	for _, row := range g.find.loadsOf.of(run) {
		if l := g.Records.Loads.At(int(row)); l.Item == g.Foods[food].ID && l.Wet.Given() && l.Dry.Sign() > 0 {
			w.Wet, w.Dry = w.Wet.Add(l.Wet.Base().Number()), w.Dry.Add(l.Dry.Base().Number())
		}
	}
	return w, w.Dry.Sign() > 0
}

// Wettest is the food of a run that holds the most water of those that hold more
// than they may, and false where none is known to.
func (g *Ledger) Wettest(run int) (w Weighing, moist bool) {
	for i := range g.Runs[run].Items {
		next, known := g.WeighingOfRun(run, g.Runs[run].Items[i].Food)
		if known && next.Moist() && (!moist || w.LeanWater().Cmp(next.LeanWater()) < 0) {
			w, moist = next, true
		}
	}
	return w, moist
}

// Moist reports whether a pack is known to hold more water than it may.
func (g *Ledger) Moist(pack int) bool {
	w, known := g.WeighingOf(pack)
	return known && w.Moist()
}

// noteMoist notes on a pack's cost that it is not dry.
func (g *joiner) noteMoist(pack int) {
	if g.Moist(pack) {
		cost := &g.Packs[pack]
		cost.setNotes(append(cost.Notes(), Note{Kind: NotDry, At: pack}))
	}
}

// Percent is the water left in what is not fat as people are told it, in whole per cent where it is dry
// and rounded up where it is not, so that nobody reads 10 % where it is more.
func (w Weighing) Percent() exact.Number {
	left := w.LeanWater().Times(exact.Int(100))
	if w.Moist() {
		return left.Ceil()
	}
	return left.Round(0, exact.HalfAway)
}
