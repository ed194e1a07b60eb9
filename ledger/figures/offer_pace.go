package figures

import (
	"math"
	"slices"

	"putby/energy"
	"putby/pricing"
	"putby/pricing/exact"
)

// When a food is on offer again is an estimate: it passes through floats, and is
// not to be shown without being marked as one.

// FewestGaps is how many gaps between offers an estimate of the next one rests
// on at least: with two, 95 in 100 would span years (this project's own line).
const FewestGaps = 3

// An OfferPace is how often a food is on offer as cheaply as it last was, over all
// that is known. Offers that begin within [SameOffer] days of one another, at
// whatever shops, are one occasion.
type OfferPace struct {
	Last  pricing.Spell        // the latest occasion: its first and last day, and its lowest price, with that price's shop and day
	Good  int                  // occasions at least as good, the latest included
	Seen  int                  // occasions
	Since exact.Date           // of the first price that is known
	Next  exact.Opt[NextOffer] // not given: fewer than [FewestGaps]
}

// A NextOffer is when one at least as good is likely to begin: an estimate.
type NextOffer struct {
	Gaps            int         // that it rests on
	Mean            exact.Ratio // days from the beginning of one to that of the next
	About           exact.Date  // Mean after the last one began, to the nearest day
	Earliest, Until exact.Date  // between which 95 in 100 lie
}

// paceOf works the pace out; false where no offer was seen.
func paceOf(history *pricing.History) (p OfferPace, ok bool) {
	seen := occasions(history.Spells(SameOffer))
	if len(seen) == 0 {
		return p, false
	}
	p = OfferPace{Last: seen[len(seen)-1], Seen: len(seen), Since: history.Prices()[0].Date}
	seen = slices.DeleteFunc(seen, func(s pricing.Spell) bool { return s.Lowest.Cmp(p.Last.Lowest) > 0 })
	p.Good = len(seen)
	var gaps []exact.Ratio
	for i := 1; i < len(seen); i++ {
		gaps = append(gaps, exact.RatioOf(exact.Int(int64(seen[i].From-seen[i-1].From))))
	}
	p.Next = exact.OptOf(nextAfter(p.Last.From, gaps))
	return p, true
}

// occasions joins spells that begin within [SameOffer] days of the one before.
func occasions(spells []pricing.Spell) (list []pricing.Spell) {
	var began exact.Date
	for _, s := range spells {
		last := len(list) - 1
		if last < 0 || s.From > began.AddDays(SameOffer) {
			list, began = append(list, s), s.From
			continue
		}
		o := &list[last]
		began, o.To = s.From, max(o.To, s.To)
		if s.Lowest.Cmp(o.Lowest) < 0 {
			o.Lowest, o.Shop, o.On = s.Lowest, s.Shop, s.On
		}
	}
	return list
}

// nextAfter estimates when the next offer begins, from the gaps between those
// before: their mean, and to each side the prediction interval of one more of
// a normal sample, t s sqrt(1 + 1/n) (common practice).
func nextAfter(last exact.Date, gaps []exact.Ratio) (n NextOffer, ok bool) {
	if len(gaps) < FewestGaps {
		return n, false
	}
	spread, err := spreadOf(gaps)
	sd, told := spread.SD.Get()
	mean, whole := spread.Mean.Number(exact.QuantityPlaces)
	if err != nil || !told || !whole {
		return n, false
	}
	count := float64(spread.N)
	off := energy.StudentQuantile(0.975, spread.N-1) * float64(sd) * math.Sqrt(1+1/count)
	const longest = 36500 // days, beyond which nothing is said
	if float64(spread.Mean)+off > longest {
		return n, false
	}
	after := func(days float64) exact.Date { return last.AddDays(int(days)) }
	return NextOffer{
		Gaps: spread.N, Mean: exact.RatioOf(mean), About: after(math.Round(float64(spread.Mean))),
		Earliest: after(math.Max(1, math.Floor(float64(spread.Mean)-off))), Until: after(math.Ceil(float64(spread.Mean) + off)),
	}, true
}
