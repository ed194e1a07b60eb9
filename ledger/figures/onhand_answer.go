package figures

import (
	"putby/ledger"
	"putby/pricing/exact"
)

// An OnHandAnswer is what is in the house in a sentence.
type OnHandAnswer struct {
	Containers, Foods int                    // in store
	Cost              exact.Money            // of all packs in store
	Shelf             exact.Opt[exact.Ratio] // what the shelf asks for all of it; not given where that of some is not known
	Past              int                    // packs beyond their best-by
	Turned            int                    // fresh foods past their day
	Running, Awaiting int                    // runs
}

// Answer sums up what there is.
func (r *OnHandResult) Answer(g *ledger.Ledger) OnHandAnswer {
	a, foods, shelf, known := OnHandAnswer{}, map[int]bool{}, exact.Ratio{}, len(r.Packs) > 0
	for i := range r.Packs {
		p := &r.Packs[i]
		a.Containers, a.Cost, foods[p.Food] = a.Containers+p.Left, a.Cost.Add(p.Cost), true
		if asks, ok := p.Shelf.Get(); ok {
			shelf = shelf.Add(asks)
		} else {
			known = false
		}
		if p.Past {
			a.Past++
		}
	}
	if a.Foods = len(foods); known {
		a.Shelf = exact.Some(shelf)
	}
	for i := range r.Fresh {
		if r.Fresh[i].Soonest.Past {
			a.Turned++
		}
	}
	runs := func(n int, at func(int) int) int {
		seen := map[int]bool{}
		for i := range n {
			seen[at(i)] = true
		}
		return len(seen)
	}
	a.Running = runs(len(r.Running), func(i int) int { return r.Running[i].Run })
	a.Awaiting = runs(len(r.Awaiting), func(i int) int { return r.Awaiting[i].Run })
	return a
}
