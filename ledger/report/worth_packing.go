package report

import (
	"fmt"

	"putby/ledger"
	"putby/pricing/exact"
)

// findPacking finds what a container gives and what goes into it: as last done
// for the food.
func (f *facts) findPacking() {
	each, with := f.q.Each, f.q.With
	if last := f.lastPack(); last != nil {
		if !each.Given() {
			each = last.Each
		}
		if with == nil && len(last.With) > 0 {
			with = last.With
		} else if with == nil {
			with = []ledger.Use{} // packed in nothing that is counted
		}
	}
	if f.leaves(ledger.SuppliesCost) {
		return
	}
	if each.Given() || each.Sign() > 0 {
		f.sale.Each = f.eaten("each", each)
	} else {
		f.lack("what a container gives", "--each", "a pack of it")
	}
	if cost, given := f.q.PackCost.Get(); given {
		cost = f.post(ratioOf(cost))
		f.sale.Containers = func(n int) exact.Money { return cost.Times(whole(n)) }
		return
	}
	if with == nil {
		f.lack("what goes into a container", "--with or --pack-cost", "a pack of it")
		return
	}
	if f.known(with) {
		f.with = with
		f.sale.Containers = func(n int) exact.Money {
			cost, _ := f.supplies(with, n)
			return cost
		}
	}
}

// lastPack is the newest pack of the food, or nil.
func (f *facts) lastPack() *ledger.Pack {
	var last *ledger.Pack
	for i := range f.g.Packs {
		p := &f.g.Records.Packs[i]
		if f.g.Packs[i].Done && f.g.Packs[i].Food == f.dried && (last == nil || p.Date >= last.Date) {
			last = p
		}
	}
	return last
}

// known reports whether every supply is recorded with a price of some kind.
func (f *facts) known(with []ledger.Use) bool {
	for _, u := range with {
		i, ok := f.g.FindSupply(u.Supply)
		if !ok {
			f.wrong("with", "supplies are in "+ledger.SuppliesFile, "no supply is called %s", exact.Quote(u.Supply))
			return false
		}
		if !f.g.Supplies[i].Price.Given() && len(f.g.SupplyStock(i).Lots()) == 0 {
			f.lack("what "+u.Supply+" costs", "--pack-cost", "a receipt of it, or its price in "+ledger.SuppliesFile)
			return false
		}
	}
	return true
}

// supplies is what so many times the uses would cost if they were drawn now:
// from the lots in hand, and beyond them at list price, or where there is none
// at what the newest lot cost. The notes say what is not in hand.
func (f *facts) supplies(with []ledger.Use, times int) (sum exact.Money, notes []string) {
	for _, u := range with {
		cost, more, err := f.g.NextUses([]ledger.Use{u}, whole(times))
		if err != nil {
			cost, more = f.beyondLots(u, times)
		}
		sum, notes = sum.Add(cost), append(notes, more...)
	}
	return sum, notes
}

// beyondLots prices uses that lots do not cover and that have no list price.
func (f *facts) beyondLots(u ledger.Use, times int) (exact.Money, []string) {
	i, ok := f.g.FindSupply(u.Supply)
	if !ok {
		return exact.Money{}, []string{"no supply is called " + exact.Quote(u.Supply) + ": it is left out"}
	}
	stock := f.g.SupplyStock(i)
	lots := stock.Lots()
	if len(lots) == 0 {
		return exact.Money{}, []string{u.Supply + " has no receipt and no list price: it is left out"}
	}
	newest := &f.g.Lots[lots[len(lots)-1]]
	wanted := u.Number.Mul(whole(times))
	rest := wanted.Sub(stock.Left)
	note := fmt.Sprintf("%v of the %v uses of %s are not in hand: they are reckoned at what the newest cost", rest, wanted, u.Supply)
	return stock.Cost.Add(f.post(newest.Cost.Per(newest.Quantity).Times(rest))), []string{note}
}
