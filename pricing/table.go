package pricing

import (
	"maps"
	"slices"
)

// Worth returns the rows that are worth seeing, at most so many (and at least
// one), in order of packages: all of them when they are few enough. Otherwise, in this
// order until there are enough: none, the answer and its neighbours, the most,
// the answer without drying, each last number before another cycle and the
// first that needs it (nearest to the answer first), and then numbers spread
// evenly.
func (d Decision) Worth(rows int) []Row {
	pick := picker{most: d.Most, room: max(rows, 1), seen: map[int]bool{}}
	if d.Most < pick.room {
		pick.all()
	} else {
		best := d.Best.Packages
		pick.add(0, best, best+1, best-1, d.Most, d.WithoutDrying.Packages)
		d.addSteps(&pick)
		pick.evenly()
	}
	list := make([]Row, 0, len(pick.seen))
	for _, n := range slices.Sorted(maps.Keys(pick.seen)) {
		list = append(list, d.Row(n))
	}
	return list
}

// addSteps picks the numbers around each new cycle, outwards from the answer.
func (d Decision) addSteps(pick *picker) {
	last := d.Row(d.Most).Cycles
	for away := 0; pick.room > 0 && away <= last; away++ {
		for _, k := range []int{d.Best.Cycles - away, d.Best.Cycles + away} {
			if k >= 0 && k < last {
				step := d.count.lastWith(k)
				pick.add(step, step+1)
			}
		}
	}
}

// lastWith returns the most packages that need no more than k cycles, found by
// halving, since more packages never need fewer cycles.
func (c *count) lastWith(k int) int {
	low, high := 0, c.most+1
	for high-low > 1 {
		mid := (low + high) / 2
		if _, dried := c.portions(mid); c.cycles(dried) <= k {
			low = mid
		} else {
			high = mid
		}
	}
	return low
}

// A picker gathers numbers of packages until there is no more room.
type picker struct {
	most, room int          // packages at the most; how many more numbers may be picked
	seen       map[int]bool // numbers of packages, from 0
}

// add picks those of the numbers that are possible and not picked yet.
func (p *picker) add(numbers ...int) {
	for _, n := range numbers {
		if n >= 0 && n <= p.most && p.room > 0 && !p.seen[n] {
			p.seen[n] = true
			p.room--
		}
	}
}

// evenly fills room with numbers spread over the whole range.
func (p *picker) evenly() {
	steps := p.room
	for i := range steps {
		p.add(p.most * i / steps)
	}
}

// all picks every number.
func (p *picker) all() {
	for n := range p.most + 1 {
		p.add(n)
	}
}
