package figures

import (
	"slices"

	"putby/pricing"
	"putby/pricing/exact"
)

// A Filling is the room in the last cycle and what would fill it.
type Filling struct {
	pricing.PartLoad
	Food  int          // in hand, or -1 for any
	Takes exact.Number // of it, in its basis unit
	Saves exact.Money  // its own cycle, less the electricity that it adds; below 0: it costs more
	// Worth is what the shelf asks for what it takes, where a cycle of its own costs
	// more, so that nobody would run one.
	Worth exact.Opt[exact.Ratio]
}

// Helps reports whether filling the room saves anything, and it is a tenth of a load
// at the least.
func (f *Filling) Helps(load exact.Number) bool {
	return f.Saves.Sign() > 0 && !f.Spare.Mul(exact.Int(10)).Less(load)
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
	if w, ahead, stands := f.second(part, row.Cycles); w != nil {
		slot, _ := w.Slot.Get()
		fill.Food, fill.Takes, fills = w.Food, slot.rest(w.Quantity), stands
		fill.Saves, ok = f.alone(w, ahead)
		if all, known := w.value(f.g, f.Day).Get(); known {
			if worth := all.Times(fill.Takes).Quo(exact.RatioOf(w.Quantity)); worth.Cmp(fill.Saves.Ratio()) < 0 {
				fill.Worth = exact.Some(worth)
			}
		}
	} else {
		fill.Saves, ok = d.CycleAlone(row, fills)
	}
	extra, err := f.extra(part, fills)
	if !ok || err != nil {
		return none
	}
	fill.Saves = fill.Saves.Sub(extra)
	return exact.Some(fill)
}

// extra is the electricity that filling so much of the room adds.
func (f *Facts) extra(part pricing.PartLoad, fills exact.Number) (exact.Money, error) {
	if f.Sale.Electricity == nil {
		return exact.Money{}, nil
	}
	more, err := f.Sale.Electricity(part.Cycle, part.Load.Add(fills))
	if err != nil {
		return more, err
	}
	less, err := f.Sale.Electricity(part.Cycle, part.Load)
	return more.Sub(less), err
}

// second is the food in hand whose last, part-filled cycle fills most of the room
// in the offer's last cycle, and keeps until that begins; how many cycles of the
// offer go before its own; and how much of the offer's load it stands for. It is
// nil where none fits.
func (f *Facts) second(part pricing.PartLoad, cycles int) (food *Waiting, ahead int, fills exact.Number) {
	try := func(list []Waiting, before int) {
		for i := range list {
			w := &list[i]
			slot, _ := w.Slot.Get()
			stands := rounded(slot.rest(w.Quantity).Over(slot.load).Times(f.Sale.Load))
			if w.Food != f.Dried && f.begins(cycles-1).Before(endOf(f.g, w.UseBy)) && !part.Spare.Less(stands) && fills.Less(stands) {
				food, ahead, fills = w, before, stands
			}
		}
	}
	// Of two that fill as much the first stays: what goes before the offer, then what would not
	// pay for a run of its own, then what waits behind.
	try(f.Queue.First, 0)
	try(f.Queue.Losing, 0)
	try(f.BehindAfter(cycles), cycles)
	return food, ahead, fills
}

// ownDryer is the offer's machine as another food's runs tell of it, where it has any.
func (f *Facts) ownDryer(food int) Dryer {
	own := Dryer{g: f.g, Food: food, Machine: f.Dryer.Machine, Runs: f.Dryer.Runs}
	if runs := own.RunsOf(food); len(runs) > 0 {
		own.Runs = runs
	}
	return own
}

// alone is what the last, part-filled cycle of a food in hand costs by itself:
// by its own runs, at the time when it would begin, with so many cycles of the
// offer before it. It reports false where nothing tells.
func (f *Facts) alone(w *Waiting, ahead int) (exact.Money, bool) {
	slot, _ := w.Slot.Get()
	own := f.ownDryer(w.Food)
	cost := own.CycleCost(&WorthQuery{Wear: f.Query.Wear, Without: slices.Clone(f.Query.Without)})
	sum := cost.Total()
	if f.Energy.Basis == NotCounted {
		return sum, true
	}
	energy, err := own.Energy(exact.Opt[exact.Number]{}, slot.load, slot.length)
	if err != nil {
		return sum, false
	}
	kwh := energy.KWh(slot.rest(w.Quantity))
	if rate, ok := f.Price.Rate.Get(); ok {
		return sum.Add(post(f.g, exact.RatioOf(kwh.Mul(rate)))), true
	}
	meter, err := (&biller{CyclePrice: &f.Price, kwh: f.Energy.KWh}).before(ahead)
	if err != nil {
		return sum, false
	}
	price := CyclePrice{g: f.g, Tariff: f.Price.Tariff, Phases: own.usualPhases(slot.length), length: slot.length}
	paid, err := price.at(meter.Fork(), slot.Last, kwh)
	return sum.Add(post(f.g, paid)), err == nil
}
