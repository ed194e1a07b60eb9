package pricing

import (
	"iter"

	"putby/pricing/exact"
)

// LimitFlips returns between which values of one limit the answer holds, all
// else being equal: packages for the shop's limit, cycles for the machine's, the
// amount made for what will be used. Below the lower value there is another
// answer; from the upper value on, itself included, there is one. Numbers up to
// most packages are counted, and none of more cycles than have a price; sought is the
// number beyond which more could be bought and a flip above was not looked for, 0
// where all were.
func (d Decision) LimitFlips(l Limit, most int) (flips Flips, sought int) {
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
	lead, seen := d.Best, d.Most
	for r := range d.beyond(lifted, ends) {
		if lead.Packages > d.Most && l.reached(r).Cmp(l.reached(lead)) > 0 {
			break // a higher limit than the flip's, of which the lowest is wanted
		}
		if seen = r.Packages; lead.Saving.Cmp(r.Saving) < 0 {
			lead = r
		}
	}
	if lead.Packages > d.Most {
		flips.Above = exact.Some(Flip{l.reached(lead), lead.Packages})
		return flips, 0
	}
	if seen < ends || ends == most { // it met a cycle without a price, or the search's own end
		return flips, seen
	}
	return flips, 0
}

// losesBeyond reports that no number of packages above the most is better than
// the answer, whatever the limits: what they are worth, less the packages and
// what cycles cost even without electricity and containers, never comes to as
// much, and comes to less with each package. It may report false where it is so.
func (d Decision) losesBeyond() bool {
	s, n := &d.count.s, exact.Int(int64(d.Most+1))
	if s.Paid != nil || s.Earns || s.Load.Sign() <= 0 || s.Size.Mul(n).Less(s.FreshUse) {
		return false
	}
	cycle := s.Supplies.Add(s.Wear).Add(s.Labour)
	each := s.Yield.Mul(s.Shelf).Sub(cycle.Per(s.Load)) // of a unit dried
	dried := s.Size.Mul(n).Sub(s.FreshUse)
	top := each.Times(dried).Add(s.Shelf.Times(s.FreshUse)).Sub(exact.RatioOf(s.Price.Mul(n)))
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

// beyond yields the rows that a sale with a limit lifted has after the most of
// this one, as they are asked for, and ends before those of a cycle without a price.
func (d Decision) beyond(lifted Sale, most int) iter.Seq[Row] {
	return func(yield func(Row) bool) {
		n := d.Most
		for reach := n; reach < most; {
			reach = min(2*reach+16, most) // a count sums its cycles beforehand
			c, err := newCount(lifted, reach)
			if err != nil {
				return
			}
			for n < reach {
				n++
				if r := c.workOut(n); c.failed != nil || !yield(r) {
					return
				}
			}
		}
	}
}
