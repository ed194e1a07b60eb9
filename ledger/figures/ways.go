package figures

import (
	"slices"
	"time"

	"putby/energy"
	"putby/pricing"
	"putby/pricing/exact"
)

// Ways are what the amount of a row costs by each way to come by it that the
// records tell of.
type Ways struct {
	List     []pricing.Way
	Cheapest int // position in List; of equal ones the first
	// Freezing is what frozen food takes; not given where that is left out.
	Freezing exact.Opt[Freezing]
	Lacks    []WayLack // why ways are left out
}

// Freezing is food in the freezer until it must be eaten.
type Freezing struct {
	Litres exact.Number // of the freezer
	Days   int          // from the purchase
	KWh    exact.Ratio  // the freezer's own, shared by the litre and the day
	Roomy  bool         // the freezer has so many litres free
}

// WayLack is what the records do not tell of a way.
type WayLack uint8

// What may be lacking.
const (
	NoPreservedPrice WayLack = iota
	NoFrozenDays
	NoLitres // of a unit of the food
	NoFreezerVolume
	NoFreezerKWh
	NoFreezerPrice // of a kWh
)

// ways finds them for a row that gives something to eat.
func (f *Facts) ways(d pricing.Decision, r pricing.Row) (w Ways) {
	dear := preserved(f.g, f.Dried, f.Day)
	if w.List = d.Ways(r, dear); w.List == nil {
		return w
	}
	if !dear.Given() {
		w.Lacks = append(w.Lacks, NoPreservedPrice)
	}
	if freezing, lacks := f.freezing(r); lacks == nil {
		w.freeze(f, r, freezing)
	} else {
		w.Lacks = append(w.Lacks, lacks...)
	}
	for i := range w.List {
		if w.List[i].Cost.Cmp(w.List[w.Cheapest].Cost) < 0 {
			w.Cheapest = i
		}
	}
	return w
}

// freezing is what it takes to keep as much as a row gives in the freezer for as
// long as it keeps there.
func (f *Facts) freezing(r pricing.Row) (z Freezing, lacks []WayLack) {
	frozen := Freshness{Frozen: true}
	days, known := frozen.recorded(f.g, f.Made)
	each, column := f.g.Foods[f.Dried].Litres()
	freezer := FreezerOf(f.g)
	kwh, told := f.g.Settings.FreezerKWh.Get()
	for _, lack := range []struct {
		of    WayLack
		there bool
	}{
		{NoFrozenDays, known && days <= MostDays}, {NoLitres, column == ""}, {NoFreezerVolume, freezer.Holds.Given()}, {NoFreezerKWh, told},
	} {
		if !lack.there {
			lacks = append(lacks, lack.of)
		}
	}
	if lacks != nil {
		return z, lacks
	}
	z.Days, z.Litres = days, each.Mul(r.Amount()).Round(exact.QuantityPlaces, exact.HalfEven)
	z.Roomy = !freezer.Free().Less(z.Litres)
	share := z.Litres.Over(freezer.Holds.Or(exact.Number{}))
	months := exact.Int(int64(12 * days)).Over(exact.Int(365)) // each a twelfth of a year
	z.KWh = share.Mul(months).Times(kwh)
	return z, nil
}

// freeze adds the way, where its electricity has a price.
func (w *Ways) freeze(f *Facts, r pricing.Row, z Freezing) {
	start := f.Day.Midnight(f.g.Settings.Zone)
	var power exact.Ratio
	switch rate, given := f.Query.Rate.Get(); {
	case f.Energy.Basis == NotCounted: // nor is that of drying
	case given:
		power = z.KWh.Times(rate)
	default:
		tariff := f.g.Tariff(f.Query.Tariff)
		if tariff == nil {
			w.Lacks = append(w.Lacks, NoFreezerPrice)
			return
		}
		bill, err := f.g.Meter().Bill(tariff, []energy.Span{{Start: start, Length: time.Duration(z.Days) * 24 * time.Hour, Energy: z.KWh}}, f.g.Places())
		if err != nil {
			w.Lacks = append(w.Lacks, NoFreezerPrice)
			return
		}
		power = bill[0].Ratio()
	}
	amount, bought := r.Amount(), r.Fresh.Add(r.Dried)
	// Frozen food is eaten as it was bought: as much at the row's price per unit, and the electricity.
	way := pricing.Way{Kind: pricing.BuyAndFreeze, Cost: r.Cost.Food.Per(bought).Mul(amount).Add(power)}
	way.PerUnit = way.Cost.Quo(amount)
	// Before drying, which comes last.
	w.List = slices.Insert(w.List, len(w.List)-1, way)
	w.Freezing = exact.Some(z)
}
