package ledger

import (
	"slices"

	"putby/pricing/exact"
)

// This file holds what is packed of a run's food against what its runs usually
// give, so that nobody takes a run of which half is packed for a finished one.
// It moves no money: the cost of a run's food is on the packs that it has.

// A food of a run is packed in part while its packs make less than
// four of five parts of what is usual.
const shortPart, shortOf = 4, 5

// mostMade is how much of what was kept the packs of a run may make for it to say
// what is usual: no run gives over 130 %, so such a count is wrong.
var mostMade = exact.RatioOf(exact.New(13, 1))

// judgePacked works out what every food of every run usually makes, and which
// are packed in part.
func (g *joiner) judgePacked() {
	all := make([][]*ItemCost, len(g.Foods))
	for i := range g.Runs {
		if !g.Runs[i].Done || g.Records.Runs[i].Spoiled {
			continue
		}
		for j := range g.Runs[i].Items {
			if item := &g.Runs[i].Items[j]; item.kept().Sign() > 0 {
				all[item.Food] = append(all[item.Food], item)
			}
		}
	}
	ParallelEach(all, g.judgeFood)
}

// kept is what was loaded and not lost.
func (item *ItemCost) kept() exact.Number { return item.Loaded.Sub(item.LostPart) }

// ToPack reports whether some of it awaits packing.
func (item *ItemCost) ToPack() bool { return len(item.Packs) == 0 || item.Short }

// judgeFood is judgePacked for the runs of one food. What is usual is the median
// of what its other packed runs made of a unit kept, but for those that are packed
// over; with no other, as much as was loaded. Where each of several runs makes so
// much, that is how the food is: what was loaded was thickened first.
func (g *joiner) judgeFood(items []*ItemCost) {
	type yield struct {
		of    int32       // position in items
		ratio exact.Ratio // made of a unit kept
	}
	packed := make([]yield, 0, len(items))
	for i, item := range items {
		if item.Made.Sign() > 0 {
			packed = append(packed, yield{int32(i), item.Made.Over(item.kept())})
		}
	}
	// Sorted once, so that each run's median of the others is two look-ups: the list
	// with its own place skipped.
	slices.SortFunc(packed, func(a, b yield) int { return a.ratio.Cmp(b.ratio) })
	over, _ := slices.BinarySearchFunc(packed, mostMade, func(y yield, most exact.Ratio) int {
		if y.ratio.Cmp(most) > 0 {
			return 1
		}
		return -1
	})
	if over > 0 || len(packed) == 1 { // else all of several are over, and that is usual
		for _, y := range packed[over:] {
			items[y.of].Over = true
		}
		packed = packed[:over]
	}
	place := slices.Repeat([]int{len(packed)}, len(items)) // of each in packed; its end: it is not there
	for i := range packed {
		place[packed[i].of] = i
	}
	for i, item := range items {
		other := func(k int) exact.Ratio { // the k-th yield of the other runs
			if k >= place[i] {
				k++
			}
			return packed[k].ratio
		}
		n, usual := len(packed), exact.RatioOf(exact.Int(1))
		there := place[i] < n
		if there {
			n--
		}
		if n > 0 {
			usual = other((n - 1) / 2).Add(other(n / 2)).Quo(exact.RatioOf(exact.Int(2)))
		}
		item.Usual = usual.Times(item.kept())
		item.Short = there && !g.saidAll(item) &&
			exact.RatioOf(item.Made.Mul(exact.Int(shortOf))).Cmp(item.Usual.Times(exact.Int(shortPart))) < 0
	}
}

// saidAll reports whether a pack says that nothing more of the food is to come.
func (g *joiner) saidAll(item *ItemCost) bool {
	return slices.ContainsFunc(item.Packs, func(i int32) bool { return g.Records.Packs.rows[i].all })
}
