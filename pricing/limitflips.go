package pricing

import "putby/pricing/exact"

// LimitFlips returns between which values of one limit the answer holds, all
// else being equal: packages for the shop's limit, cycles for the machine's, the
// amount made for what will be used. Below the lower value there is another
// answer; from the upper value on, itself included, there is one. Numbers up to
// most packages are counted, and none of more cycles than have a price; sought is the
// number beyond which more could be bought and a flip above was not looked for, 0
// where all were.
func (d Decision) LimitFlips(l Limit, most int) (flips Flips, sought int) {
	// Below: a limit under what the answer reaches leaves the best of the rows that reach less. Only a
	// larger saving replaces one, so of equal ones the fewest packages stay, as in [Decision.Best].
	if at := l.reached(d.Best); at.Sign() > 0 {
		var left Row
		for r := range d.Rows() {
			if l.reached(r).Cmp(at) < 0 && left.Saving.Cmp(r.Saving) < 0 {
				left = r
			}
		}
		flips.Below = exact.Some(Flip{at, left.Packages})
	}
	if d.losesBeyond() {
		return flips, 0
	}
	lifted, ends := d.count.s.lift(l, most)
	w, lead := newWalk(lifted, d.Most, ends), d.Best
	for {
		r, ok := w.next(lead.Saving)
		if !ok || lead.Packages > d.Most && l.reached(r).Cmp(l.reached(lead)) > 0 {
			break // none is left, or it needs a higher limit than the flip's, of which the lowest is wanted
		}
		if lead.Saving.Cmp(r.Saving) < 0 {
			lead = r
		}
	}
	if lead.Packages > d.Most {
		flips.Above = exact.Some(Flip{l.reached(lead), lead.Packages})
		return flips, 0
	}
	if w.at < ends || ends == most { // it met a cycle without a price, or the search's own end
		return flips, w.at
	}
	return flips, 0
}

// losesBeyond reports that no number of packages above the most is better than
// the answer, whatever the limits: what they are worth, less the packages and
// the least that cycles cost even without containers, never comes to as much, and
// comes to less with each package. The last cycle may be anything but full: of
// electricity, one less than the cycles is counted. It may report false where it is so.
func (d Decision) losesBeyond() bool {
	s, n := &d.count.s, exact.Int(int64(d.Most+1))
	if s.Paid != nil || s.LeastFull.Sign() < 0 || s.Load.Sign() <= 0 || s.Size.Mul(n).Less(s.FreshUse) {
		return false
	}
	cycle := s.Supplies.Add(s.Wear).Add(s.Labour).Add(s.LeastFull)
	each := s.Yield.Mul(s.Shelf).Sub(cycle.Per(s.Load)) // of a unit dried
	dried := s.Size.Mul(n).Sub(s.FreshUse)
	// What the first number beyond comes to at the best. LeastFull is given back once, for a last
	// cycle that may be next to empty.
	top := each.Times(dried).Add(s.Shelf.Times(s.FreshUse)).Add(exact.RatioOf(s.LeastFull.Number())).Sub(exact.RatioOf(s.Price.Mul(n)))
	return each.Times(s.Size).Cmp(exact.RatioOf(s.Price)) <= 0 && top.Cmp(d.Best.Saving) <= 0
}

// reached is what a row needs of what the limit bounds.
func (l Limit) reached(r Row) exact.Ratio {
	switch l {
	case ShopLimit:
		return whole(r.Packages)
	case MachineLimit:
		return whole(r.Cycles)
	}
	return r.Made
}

// lift takes one limit off, and returns the most packages that the others
// allow, if no more than so many.
func (s Sale) lift(l Limit, most int) (Sale, int) {
	switch l {
	case ShopLimit:
		s.Limit = exact.Opt[int]{}
	case MachineLimit:
		s.MaxCycles = exact.Opt[int]{}
	default:
		s.MaxMade = exact.Opt[exact.Number]{}
	}
	if s.MaxCycles.Or(1) > 0 && s.Load.IsZero() {
		return s, 0 // a sale of no cycles need not say what one takes
	}
	if n, _, err := s.bounds(); err == nil {
		most = min(most, n)
	}
	return s, most
}
