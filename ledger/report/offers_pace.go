package report

import (
	"fmt"

	"putby/ledger/figures"
	"putby/pricing/exact"
)

// paceWords say how often an offer as good as the last comes, and when the next is
// likely.
func (o *offers) paceWords(p figures.OfferPace) []string {
	low := fmt.Sprintf("%s at %s on %s", o.price(p.Last.Lowest, o.unit), shopName(p.Last.Shop), o.day(p.Last.On))
	if p.Last.On > p.Last.From {
		low = "which began on " + o.day(p.Last.From) + " and came down to " + low
	}
	line := fmt.Sprintf("An offer at least as good as the last, %s, was seen %s since %s, of %s in all (those that begin within %d days of one another are one)",
		low, counted(p.Good, "time"), o.day(p.Since), counted(p.Seen, "offer"), figures.SameOffer)
	next, ok := p.Next.Get()
	if p.Seen == 1 { // which is as good as itself
		return []string{fmt.Sprintf("One offer is known since %s (those that begin within %d days of one another are one), %s; too little to say when the next comes: that takes %d of them.",
			o.day(p.Since), figures.SameOffer, low, figures.FewestGaps+1)}
	}
	if !ok {
		return []string{line + fmt.Sprintf("; too little is known to say when the next comes: that takes %d of them.", figures.FewestGaps+1)}
	}
	line += fmt.Sprintf(", ~%s days apart.", o.number(next.Mean.Round(0, exact.HalfAway)))
	rests := fmt.Sprintf("(an estimate from %d gaps, right 95 times in 100 if they go on as they did)", next.Gaps)
	if next.Until <= o.Day {
		return []string{line, fmt.Sprintf("The next was to begin by ~%s %s, and none is recorded.", o.day(next.Until), rests)}
	}
	return []string{line, fmt.Sprintf("The next is likely to begin about ~%s, between %s and %s %s.",
		o.day(max(next.About, o.Day.AddDays(1))), o.day(max(next.Earliest, o.Day.AddDays(1))), o.day(next.Until), rests)}
}

// asGood is how often it is as cheap as when it last was on offer, and when it is
// likely to be again.
func (o *offers) asGood() Object {
	perUnit, shop, on, from, good, seen, since := None, None, None, None, CountOf(0), CountOf(0), None
	gaps, mean, about, earliest, until := CountOf(0), None, None, None, None
	if p, ok := o.Pace.Get(); ok {
		perUnit, shop, on, from = PriceOf(p.Last.Lowest, o.unit), TextOf(p.Last.Shop), DateOf(p.Last.On), DateOf(p.Last.From)
		good, seen, since, gaps = CountOf(p.Good), CountOf(p.Seen), DateOf(p.Since), CountOf(p.Good-1)
		if n, ok := p.Next.Get(); ok {
			mean = QuotientOf(n.Mean, 1).Estimated()
			about, earliest, until = DateOf(n.About).Estimated(), DateOf(n.Earliest).Estimated(), DateOf(n.Until).Estimated()
		}
	}
	return Object{{"per_unit", "lowest price", perUnit}, {"shop", "at", shop}, {"on", "on", on}, {"from", "began, at any shop", from},
		{"times", "times at least as cheap", good}, {"offers", "offers seen", seen}, {"since", "since", since},
		{"gaps", "gaps between them", gaps}, {"mean_days", "days apart", mean},
		{"next", "the next about", about}, {"next_earliest", "at the earliest", earliest}, {"next_latest", "at the latest", until}}
}
