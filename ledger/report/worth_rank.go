package report

import (
	"fmt"

	"putby/pricing"
	"putby/pricing/exact"
)

// standingWords say in one line whether the offer is a real one.
func (a *answer) standingWords() []string {
	s, asked, unit := a.Standing, a.Asked(a.Shown.Packages), a.g.Foods[a.Bought].Basis
	var words []string
	if ref, ok := s.Reference.Get(); ok {
		words = append(words, a.againstReference(ref, s))
	}
	if lowest, ok := s.Lowest.Get(); ok {
		words = append(words, a.amongPrices(s.Year, lowest))
	}
	if median, ok := s.Median.Get(); ok {
		words = append(words, "the year's median price is "+a.price(median, unit))
	}
	if len(words) == 0 {
		return []string{fmt.Sprintf("The offer is %s; no other price is recorded to compare it with.", a.price(asked, unit))}
	}
	return []string{fmt.Sprintf("Is it a real offer? %s: %s.", a.price(asked, unit), Listed(words))}
}

// amongPrices says how many of the year's prices were lower, asked or paid, and
// the lowest of them.
func (a *answer) amongPrices(year pricing.Rank, lowest pricing.Price) string {
	if year.Lower == 0 {
		return fmt.Sprintf("none of the year's %s, asked or paid, is lower", counted(year.Among(), "price"))
	}
	return fmt.Sprintf("%d of the year's %s, asked or paid, %s lower, down to %s (%s at %s, %s)", year.Lower, counted(year.Among(), "price"), verb(year.Lower, "is", "are"),
		a.price(lowest.PerUnit, a.g.Foods[a.Bought].Basis), lowest.Kind, shopName(lowest.Shop), a.day(lowest.Date))
}

// againstReference measures the reduction as Directive 98/6/EC, article 6a,
// does.
func (a *answer) againstReference(ref pricing.Reference, s pricing.Standing) string {
	what := "the lowest price of the 30 days before"
	if ref.Presumed {
		what = "the last regular price before"
	}
	off, ok := s.Reduction.Get()
	if !ok {
		return what + " is 0"
	}
	side := "under"
	if off.Sign() < 0 {
		off, side = off.Neg(), "over"
	}
	beside := a.percent(off) + " " + side
	if off.Sign() == 0 {
		beside = "the same as"
	}
	return fmt.Sprintf("%s %s (%s at %s, %s)", beside, what,
		a.price(ref.PerUnit, a.g.Foods[a.Bought].Basis), shopName(ref.Shop), a.day(ref.Date))
}

// rankObject is the same for machines, per edible unit of the food bought.
func (a *answer) rankObject() Object {
	s, unit := a.Standing, a.g.Foods[a.Bought].Basis
	o := Object{
		{"per_unit", "", PriceOf(a.Asked(a.Shown.Packages), unit)}, {"unit", "", UnitOf(unit)},
		{"prices_lower", "", CountOf(s.Year.Lower)}, {"prices_equal", "", CountOf(s.Year.Equal)}, {"prices_higher", "", CountOf(s.Year.Higher)},
	}
	reference, date, presumed, low, lowDate, lowKind := None, None, None, None, None, None
	if ref, ok := s.Reference.Get(); ok {
		reference, date, presumed = PriceOf(ref.PerUnit, unit), DateOf(ref.Date), YesNoOf(ref.Presumed)
	}
	reduction := optional(s.Reduction, func(off exact.Ratio) Value { return QuotientOf(off, 3) })
	if p, ok := s.Lowest.Get(); ok {
		low, lowDate, lowKind = PriceOf(p.PerUnit, unit), DateOf(p.Date), TextOf(p.Kind.String())
	}
	return append(o, Field{"lowest_of_year", "", low}, Field{"lowest_date", "", lowDate}, Field{"lowest_kind", "", lowKind}, Field{"reference", "", reference}, Field{"reference_date", "", date},
		Field{"reference_presumed", "", presumed}, Field{"reduction", "", reduction}, Field{"median_of_year", "", optPrice(s.Median, unit)})
}
