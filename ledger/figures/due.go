package figures

import (
	"cmp"
	"slices"

	"putby/ledger"
	"putby/pricing/exact"
)

// PacksDue lists the packs of a food that have containers left and were packed
// by a day, those soonest due first; packs of which nobody knows the best-by date
// come last. They are positions in Records.Packs.
func PacksDue(g *ledger.Ledger, food int, day exact.Date) []int {
	var list []int
	for i := range g.Packs {
		if p := &g.Packs[i]; p.Done && p.Food == food && p.Left() > 0 && g.PackDate(i) <= day {
			list = append(list, i)
		}
	}
	slices.SortStableFunc(list, func(a, b int) int {
		return cmp.Or(cmp.Compare(orLast(g.Packs[a].BestBy), orLast(g.Packs[b].BestBy)), cmp.Compare(g.PackDate(a), g.PackDate(b)))
	})
	return list
}

// InStore is how many containers of a food are in store.
func InStore(g *ledger.Ledger, food int) (n int) {
	for i := range g.Packs {
		if p := &g.Packs[i]; p.Done && p.Food == food {
			n += p.Left()
		}
	}
	return n
}
