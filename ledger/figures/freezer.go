package figures

import (
	"time"

	"putby/ledger"
	"putby/pricing/exact"
)

// A Freezer is the room in the household's freezer.
type Freezer struct {
	Holds exact.Opt[exact.Number] // litres; not given: the settings do not say
	Taken exact.Number            // litres, by the food in hand that is frozen
	// Untold are foods in it of which nothing tells how much room they take.
	Untold []int
}

// FreezerOf is the freezer as it stands.
func FreezerOf(g *ledger.Ledger) (f Freezer) {
	if !g.Settings.Freezer.Given() {
		return f
	}
	f.Holds = exact.Some(g.Settings.Freezer.Base().Number())
	for food := range g.Foods {
		var frozen exact.Number
		for _, p := range g.FreshParts(food) {
			if p.Frozen {
				frozen = frozen.Add(p.Quantity)
			}
		}
		if frozen.Sign() <= 0 {
			continue
		}
		if each, lacks := g.Foods[food].Litres(); lacks == "" {
			f.Taken = f.Taken.Add(each.Times(frozen).Round(exact.QuantityPlaces, exact.HalfEven))
		} else {
			f.Untold = append(f.Untold, food)
		}
	}
	return f
}

// Free is how many litres are left.
func (f *Freezer) Free() exact.Number {
	return f.Holds.Or(exact.Number{}).Sub(f.Taken).Max(exact.Number{})
}

// frozenUntil is until when what is frozen on the day of purchase must be dried.
// It is not given where nothing tells, or that is no later than it turns fresh.
func (f *Facts) frozenUntil() (until exact.Opt[time.Time]) {
	fresh, turns := f.Freshness.Turns.Get()
	if f.Query.Cycles.Given() || !turns {
		return until
	}
	if f.Query.Frozen {
		return f.Freshness.Turns
	}
	frozen := Freshness{Frozen: true}
	days, known := frozen.recorded(f.g, f.Made)
	if !known || days > MostDays {
		return until
	}
	if at := f.Day.AddDays(days).Midnight(f.g.Settings.Zone); at.After(fresh) {
		return exact.Some(at)
	}
	return until
}
