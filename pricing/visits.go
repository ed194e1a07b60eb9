package pricing

import (
	"fmt"

	"putby/pricing/exact"
)

// A Visit is one chance to buy packages of one size: a shop on a day.
type Visit struct {
	Price exact.Number   // money per package
	Offer Offer          // what comes off; the zero offer for nothing
	Limit exact.Opt[int] // most packages at this visit
}

// maxSpread bounds the work of [Spread], in packages times packages.
const maxSpread = 50_000_000

// A Round is the cheapest way to buy any number of packages over several
// visits. It is immutable.
type Round struct {
	paid []exact.Money // by packages in all
	take [][]int32     // by visit, by packages up to and including it
}

// Spread finds the cheapest way to buy each number of packages, up to the most
// that is given or that the visits allow together. What a visit costs is rounded at minor
// digits, as its receipt is. It tries every division among the visits, since
// groups such as "3 for 5.00" make some packages cheaper than others; an error
// wraps [ErrNegative], or [ErrTooMany] when that would take too long.
func Spread(visits []Visit, most, minor int) (*Round, error) {
	if most > MaxPackages {
		return nil, ErrTooMany
	}
	r := &Round{paid: make([]exact.Money, 1)}
	for i, v := range visits {
		limit := min(v.Limit.Or(most), most)
		if limit < 0 || v.Price.Sign() < 0 {
			return nil, fmt.Errorf("visit %d: %w", i+1, ErrNegative)
		}
		if reach := min(most, len(r.paid)-1+limit); (reach+1)*(limit+1) > maxSpread {
			return nil, fmt.Errorf("visit %d: %w", i+1, ErrTooMany)
		}
		if err := r.add(v, limit, most, minor); err != nil {
			return nil, fmt.Errorf("visit %d: %w", i+1, err)
		}
	}
	return r, nil
}

// add takes one more visit into account.
func (r *Round) add(v Visit, limit, most, minor int) error {
	here := make([]exact.Money, limit+1)
	for n := range here {
		pay, err := v.Offer.Pay(exact.Int(int64(n)), v.Price, minor)
		if err != nil {
			return err
		}
		here[n] = pay
	}
	// One visit more on the cheapest of those before: each number in all is tried with every number
	// here. TestSpreadAgainstBruteForce.
	before := r.paid
	r.paid = make([]exact.Money, min(most, len(before)-1+limit)+1)
	take := make([]int32, len(r.paid))
	for n := range r.paid {
		// As few as can be at this visit, so that equal costs go to earlier
		// ones.
		fewest := max(0, n-len(before)+1)
		for k := fewest; k <= min(limit, n); k++ {
			if cost := before[n-k].Add(here[k]); k == fewest || cost.Cmp(r.paid[n]) < 0 {
				r.paid[n], take[n] = cost, int32(k)
			}
		}
	}
	r.take = append(r.take, take)
	return nil
}

// Paid returns what so many packages cost, from 0 to the most of [Spread]:
// [Sale].Paid.
func (r *Round) Paid(packages int) exact.Money { return r.paid[packages] }

// Take returns how many of so many packages, from 0 to the most of [Spread],
// to buy at each visit.
func (r *Round) Take(packages int) []int {
	at := make([]int, len(r.take))
	for v := len(at) - 1; v >= 0; v-- {
		at[v] = int(r.take[v][packages])
		packages -= at[v]
	}
	return at
}
