package figures

import (
	"cmp"
	"slices"

	"putby/ledger"
	"putby/pricing/exact"
)

// A FreshFood is what is in hand of a food that is not dried.
type FreshFood struct {
	Food     int          // position in Foods
	Quantity exact.Number // in the food's basis unit
	Cost     exact.Money  // that its lots still carry, or its pool
	Soonest  FreshLot     // to turn; of what is more than a crumb, where anything is
	Lots     []FreshLot   // the oldest first; two for one that is partly frozen
}

// A FreshLot is what is in hand of a lot, frozen or not.
type FreshLot struct {
	Food int // position in Foods
	ledger.FreshPart
	Past     bool       // it has turned by the day, and is more than a crumb
	FrozenBy exact.Date // its last day if it were frozen; NoDate: it is, or nobody knows
}

// fresh lists the foods of which some is in hand, and their lots.
func (h *holdings) fresh() {
	for i := range h.g.Foods {
		if !h.scope.Wants(i) {
			continue
		}
		parts := h.g.FreshParts(i)
		soonest, any := ledger.SoonestToTurn(parts)
		if !any {
			continue
		}
		stock := h.g.FoodStock(i)
		f := FreshFood{Food: i, Quantity: stock.Left, Cost: stock.Cost, Soonest: h.freshLot(i, soonest)}
		for _, p := range parts {
			f.Lots = append(f.Lots, h.freshLot(i, p))
		}
		h.Fresh = append(h.Fresh, f)
	}
	slices.SortStableFunc(h.Fresh, func(a, b FreshFood) int { return byUseBy(a.Soonest, b.Soonest) })
	for i := range h.Fresh {
		h.Lots = append(h.Lots, h.Fresh[i].Lots...)
	}
	slices.SortStableFunc(h.Lots, byUseBy)
	h.Fresh = slices.DeleteFunc(h.Fresh, func(f FreshFood) bool { return !h.wants(f.Soonest.UseBy) })
	h.Lots = slices.DeleteFunc(h.Lots, func(l FreshLot) bool { return !h.wants(l.UseBy) })
}

// freshLot is what is in hand of a lot, as it stands on the day.
func (h *holdings) freshLot(food int, p ledger.FreshPart) FreshLot {
	l := FreshLot{Food: food, FreshPart: p, Past: p.Turned(h.Day)}
	if days, ok := h.g.Foods[food].FrozenDays.Get(); ok && !p.Frozen {
		l.FrozenBy = h.g.Lots[p.Lot].Date.AddDays(days)
	}
	return l
}

// byUseBy puts what turns soonest first, and what nobody knows of last.
func byUseBy(a, b FreshLot) int {
	if a.UseBy == exact.NoDate || b.UseBy == exact.NoDate {
		return cmp.Compare(b.UseBy, a.UseBy)
	}
	return cmp.Compare(a.UseBy, b.UseBy)
}
