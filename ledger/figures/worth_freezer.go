package figures

import (
	"slices"

	"putby/pricing"
	"putby/pricing/exact"
)

// A Crowding is more frozen food than the freezer has room for.
type Crowding struct {
	Litres, Free exact.Number // that the packages take, and that the freezer has free
	Packages     int          // the most that there is room for
}

// crowding is that of so many packages, all of whose dried part waits frozen; not given
// where there is room for it, or nothing tells.
func (f *Facts) crowding(r pricing.Row) (c exact.Opt[Crowding]) {
	each, lacks := f.g.Foods[f.Dried].Litres()
	room := FreezerOf(f.g)
	litres := each.Times(r.Dried).Round(exact.QuantityPlaces, exact.HalfEven)
	if !f.Query.Frozen || lacks != "" || !room.Holds.Given() || !room.Free().Less(litres) {
		return c
	}
	// What fits is what may be dried; what is eaten fresh comes on top: both over the package.
	fit := exact.RatioOf(room.Free()).Quo(each).Add(exact.RatioOf(f.Sale.FreshUse)).Quo(exact.RatioOf(f.Sale.Size))
	most, _ := fit.Floor().Int64()
	return exact.Some(Crowding{litres, room.Free(), int(most)})
}

// A FrozenAnswer is what the answer would be if the food waited frozen.
type FrozenAnswer struct {
	Best    pricing.Row
	Guessed bool // it rests on an estimate
}

// ifFrozen is the best that the freezer has room for of an offer that the machine cannot
// dry before it turns; not given where that is no use.
func (f *Facts) ifFrozen(d pricing.Decision) (better exact.Opt[FrozenAnswer]) {
	if d.Most > 0 || f.Query.Frozen || !slices.Contains(d.Limits, pricing.MachineLimit) || !f.frozenUntil().Given() {
		return better
	}
	q := f.Query
	q.Frozen = true
	frozen, answer, err := Answer(f.g, q)
	if err != nil { // what cannot be told is no advice
		return better
	}
	best := answer.Row(0)
	for r := range answer.Rows() {
		if r.Saving.Cmp(best.Saving) > 0 && !frozen.crowding(r).Given() {
			best = r
		}
	}
	if best.Packages == 0 {
		return better
	}
	return exact.Some(FrozenAnswer{best, frozen.Guessed(best)})
}
