package ledger

import (
	"hash/maphash"
	"iter"
)

// A finder finds positions by identifiers that records hold. It keeps no
// identifier itself, and has nothing in it that the collector must follow: of many
// records it takes a fifth of the memory of a map. Its zero value finds none.
type finder struct {
	id    func(int32) string // of the record at a position
	seed  maphash.Seed
	slots []int32 // positions from 1, each at its hash or behind it; 0: free
	n     int     // how many it finds: positions in slots that are not free
	full  bool    // the records at the first n positions were added, and no other
}

// newFinder makes a finder with room for so many records.
func newFinder(most int, id func(int32) string) finder {
	// A power of two, so that a mask cuts the hash; never full, so that slot always ends.
	size := 4
	for size < most+most/2 {
		size *= 2
	}
	return finder{id: id, seed: maphash.MakeSeed(), slots: make([]int32, size), full: true}
}

// slot is where the position of an identifier is, or would be.
func (f *finder) slot(id string) *int32 {
	last := uint64(len(f.slots) - 1)
	for at := maphash.String(f.seed, id); ; at++ {
		slot := &f.slots[at&last]
		if *slot == 0 || f.id(*slot-1) == id {
			return slot
		}
	}
}

// add adds a record, unless there is one of its identifier already: then it
// returns that.
func (f *finder) add(i int32) (first int32, there bool) {
	slot := f.slot(f.id(i))
	if *slot != 0 {
		return *slot - 1, true
	}
	*slot, f.full = i+1, f.full && int(i) == f.n
	f.n++
	return i, false
}

// find returns the position of the record that has an identifier.
func (f *finder) find(id string) (int32, bool) {
	if f.n == 0 {
		return 0, false
	}
	at := *f.slot(id)
	return max(at-1, 0), at != 0
}

// findNear is find that looks first at the record behind the one found last, or
// behind none, -1: files mostly name things in their order.
func (f *finder) findNear(last int32, id string) (int32, bool) {
	if next := last + 1; f.full && int(next) < f.n && f.id(next) == id {
		return next, true
	}
	return f.find(id)
}

// position is find for positions of every size.
func (f *finder) position(id string) (int, bool) {
	at, ok := f.find(id)
	return int(at), ok
}

func (f *finder) has(id string) bool { _, ok := f.find(id); return ok }

func (f *finder) len() int { return f.n }

// names gives all identifiers, in no order.
func (f *finder) names() iter.Seq[string] {
	return func(yield func(string) bool) {
		for _, at := range f.slots {
			if at != 0 && !yield(f.id(at-1)) {
				return
			}
		}
	}
}
