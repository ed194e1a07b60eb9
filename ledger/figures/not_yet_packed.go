package figures

import (
	"putby/ledger"
	"putby/pricing/exact"
)

// NotYetPacked is food that is in no pack yet and will be before an offer of its
// kind is, so that it is used first.
type NotYetPacked struct {
	From   ComingFrom
	Amount exact.Number // it will give about so much, in the basis unit: an estimate
}

// ComingFrom says where food is that will be packed.
type ComingFrom uint8

// The places.
const (
	FromDried   ComingFrom = iota // dried, and awaits packing
	FromMachine                   // being dried
	FromHand                      // fresh, and goes into the machine first
)

// comingOf sums a food by where it is: in no pack yet, in a machine, and among
// what goes into the machine first. The runs give what is usual, what is fresh
// the yield of the offer.
func comingOf(g *ledger.Ledger, food int, yield exact.Ratio, first []Waiting) (list []NotYetPacked) {
	var sums [FromHand + 1]exact.Ratio
	for _, a := range awaitingOf(g) {
		if a.Food == food {
			sums[FromDried] = sums[FromDried].Add(a.ToPack)
		}
	}
	for _, i := range Running(g) {
		for j := range g.Runs[i].Items {
			if item := &g.Runs[i].Items[j]; item.Food == food {
				sums[FromMachine] = sums[FromMachine].Add(item.Usual)
			}
		}
	}
	for _, w := range first {
		if w.Food == food {
			sums[FromHand] = sums[FromHand].Add(yield.Times(w.Quantity))
		}
	}
	for from, sum := range sums {
		if sum.Sign() > 0 {
			list = append(list, NotYetPacked{ComingFrom(from), rounded(sum)})
		}
	}
	return list
}

// Held is what is used before the offer: what the packs give, and what will be
// packed first.
func (u *Use) Held() exact.Number {
	held := u.Stock
	for _, c := range u.NotYetPacked {
		held = held.Add(c.Amount)
	}
	return held
}
