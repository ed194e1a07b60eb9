package ledger

import (
	"putby/energy"
	"putby/pricing/exact"
)

// scratch is memory of a join that many records share. The first three lists outlive
// the join: runs and items keep ranges of them. The rest holds what was worked out
// for the record at hand, until the next one overwrites it: nobody may keep it.
type scratch struct {
	loads []LoadCost // of all runs, in the order in which they are dried; when bare, of the run at hand
	items []ItemCost
	packs []int32 // of all items

	itemOf []itemOf // parallel to Records.Foods: its item of the last run that had it
	counts []int    // parallel to the items of a run

	weights []exact.Number // by which an amount is being split
	parts   []exact.Money  // of that amount
	phases  []energy.Phase
	spans   []energy.Span
	posted  []exact.Money // of spans

	receipt  int32   // the last that a load named
	uses     []Use   // the last supplies that were found
	supplies []int32 // their positions

	notes map[Note][]Note // each alone in a list
}

// newScratch makes room. Where the costs of loads are not kept, the runs use one
// room for them after the other.
func newScratch(rec *Records, bare bool) scratch {
	s := scratch{
		itemOf: make([]itemOf, len(rec.Foods)),
		notes:  map[Note][]Note{},
		items:  make([]ItemCost, 0, rec.Loads.Len()),
		packs:  make([]int32, 0, rec.Packs.Len()),
	}
	if !bare {
		s.loads = make([]LoadCost, 0, rec.Loads.Len())
	}
	for i := range s.itemOf {
		s.itemOf[i].run = -1
	}
	return s
}

// itemOf says which item of a run a food is.
type itemOf struct{ run, item int32 } // positions in Records.Runs, -1 before any, and among that run's items

// item returns the position of a food among the items of a run, which begin at
// from, and makes the item if need be.
func (s *scratch) item(run, food, from int) int32 {
	at := &s.itemOf[food]
	if at.run != int32(run) {
		*at = itemOf{int32(run), int32(len(s.items) - from)}
		s.items = append(s.items, ItemCost{Food: food, Lost: &nothing})
	}
	return at.item
}

// itemOfRun returns the position of a food among the items of the run at hand,
// or -1.
func (s *scratch) itemOfRun(run, food int) int {
	if food < 0 || s.itemOf[food].run != int32(run) {
		return -1
	}
	return int(s.itemOf[food].item)
}

// suppliesOf returns the positions of supplies in Records.Supplies, -1 for one
// that is unknown. Most records name the same ones as the record before, and
// then have them from one reading.
func (g *joiner) suppliesOf(uses []Use) []int32 {
	s := &g.scratch
	if sameList(uses, s.uses) {
		return s.supplies
	}
	s.uses, s.supplies = uses, s.supplies[:0]
	for _, u := range uses {
		i, ok := g.x.supplies.find(u.Supply)
		if !ok {
			i = -1
		}
		s.supplies = append(s.supplies, i)
	}
	return s.supplies
}

// noted returns notes with another. Records of which there is one thing to note,
// as there mostly is of many records if it is of one, share a list.
func (g *joiner) noted(notes []Note, n Note) []Note {
	if len(notes) > 0 {
		return append(notes, n)
	}
	list, there := g.scratch.notes[n]
	if !there {
		list = []Note{n}
		g.scratch.notes[n] = list
	}
	return list
}
