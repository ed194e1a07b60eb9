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
}

// WaterLeft is the part of the dried food's weight that is still water:
// 1 - wet (1 - water/100) / dry. It is below 0 where the food weighs less than
// its solids should.
func (w Weighing) WaterLeft() exact.Ratio {
	hundred := exact.Int(100)
	return exact.RatioOf(exact.Int(1)).Sub(w.Wet.Mul(hundred.Sub(w.Water)).Over(w.Dry.Mul(hundred)))
}

// Moist reports whether more than [MostWater] is left. With both sides of
// WaterLeft multiplied by the dry weight it takes no division.
func (w Weighing) Moist() bool {
	hundred := exact.Int(100)
	return w.Wet.Mul(hundred.Sub(w.Water)).Less(w.Dry.Mul(hundred.Sub(MostWater)))
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
	water, ok := food.Water.Get()
	if !ok {
		return Weighing{}, false
	}
	if wet, ok := food.Mass(each); ok && p.Dry.Sign() > 0 {
		return Weighing{wet, p.Dry.Base().Number(), water}, true
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
	water, known := g.Foods[food].Water.Get()
	w, ok := g.WeightsOfRun(run, food)
	w.Water = water
	return w, ok && known
}

// WeightsOfRun is WeighingOfRun whether or not the food's water is known.
func (g *Ledger) WeightsOfRun(run, food int) (w Weighing, ok bool) {
	for _, row := range g.x.loadsOf.of(run) {
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
		if known && next.Moist() && (!moist || w.WaterLeft().Cmp(next.WaterLeft()) < 0) {
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

// Percent is the water left as people are told it, in whole per cent where it is dry
// and rounded up where it is not, so that nobody reads 10 % where it is more.
func (w Weighing) Percent() exact.Number {
	left := w.WaterLeft().Times(exact.Int(100))
	if w.Moist() {
		return left.Ceil()
	}
	return left.Round(0, exact.HalfAway)
}
