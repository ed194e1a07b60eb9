package figures

import (
	"slices"
	"time"

	"putby/pricing"
	"putby/pricing/exact"
)

// A Filling is the room in the last cycle and what would fill it.
type Filling struct {
	pricing.PartLoad
	Food  int          // in hand, or -1 for any
	Takes exact.Number // of it
	Saves exact.Money  // its own cycle, less the electricity that it adds
}

// fill finds what filling the room in the last cycle of a row with a second food
// saves. With food in hand that fits, it is that; else any that fills it, whose
// own cycle is taken to cost what one more of this food would. It is not given
// where there is no room, or nothing tells what it saves.
func (f *Facts) fill(d pricing.Decision, row pricing.Row) (none exact.Opt[Filling]) {
	part, ok := d.PartLoad(row)
	if !ok {
		return none
	}
	fill, fills := Filling{PartLoad: part, Food: -1}, part.Spare
	if w, stands := f.second(part); w != nil {
		fill.Food, fill.Takes, fills = w.Food, w.rest(), stands
		fill.Saves, ok = f.alone(w, row.Cycles)
	} else {
		fill.Saves = d.CycleAlone(row, fills)
	}
	if charge := f.Sale.Electricity; charge != nil {
		fill.Saves = fill.Saves.Sub(charge(part.Cycle, part.Load.Add(fills)).Sub(charge(part.Cycle, part.Load)))
	}
	if !ok {
		return none
	}
	return exact.Some(fill)
}

// second is the food in hand whose last, part-filled cycle fills most of the
// room, and how much of this food's load that stands for; nil where none fits.
func (f *Facts) second(part pricing.PartLoad) (food *FirstFood, fills exact.Number) {
	for i := range f.Queue.First {
		w := &f.Queue.First[i]
		if w.Food == f.Dried {
			continue
		}
		stands := rounded(w.rest().Over(w.load).Times(f.Sale.Load))
		if !part.Spare.Less(stands) && fills.Less(stands) {
			food, fills = w, stands
		}
	}
	return food, fills
}

// alone is what the last, part-filled cycle of a food in hand costs by itself:
// by its own runs, at the time when it would begin, after so many cycles of the
// offer where those go first. It reports false where nothing tells.
func (f *Facts) alone(w *FirstFood, cycles int) (exact.Money, bool) {
	own := Dryer{g: f.g, Food: w.Food, Machine: f.Dryer.Machine, Runs: f.Dryer.Runs}
	if runs := own.RunsOf(w.Food); len(runs) > 0 {
		own.Runs = runs
	}
	cost := own.CycleCost(&WorthQuery{Wear: f.Query.Wear, Without: slices.Clone(f.Query.Without)})
	sum := cost.Supplies.Add(cost.Wear).Add(cost.Labour)
	if f.Energy.Basis == NotCounted {
		return sum, true
	}
	energy, err := own.Energy(exact.Opt[exact.Number]{}, w.load, w.length)
	if err != nil {
		return sum, false
	}
	kwh := energy.KWh(w.rest())
	if rate, ok := f.Price.Rate.Get(); ok {
		return sum.Add(post(f.g, exact.RatioOf(kwh.Mul(rate)))), true
	}
	before, at := 0, w.last
	if at.IsZero() { // the offer's cycles go first
		before, at = cycles, f.Queue.Free.Add(time.Duration(cycles)*(f.Length.Time+f.Query.Turnaround))
	}
	meter := (&biller{CyclePrice: &f.Price, kwh: f.Energy.KWh, failed: new(error)}).before(before)
	price := CyclePrice{g: f.g, Tariff: f.Price.Tariff, Phases: UsualPhases(f.g, own.Runs, w.length), length: w.length}
	paid, err := price.at(meter.Fork(), at, kwh)
	return sum.Add(post(f.g, paid)), err == nil
}
