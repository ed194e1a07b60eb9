package pricing

import (
	"slices"

	"putby/pricing/exact"
)

// A Summary describes the prices of a history, in money per unit.
type Summary struct {
	Count           int         // 1 at least
	Lowest, Highest exact.Ratio // equal where there is one price
	// The quartiles are of type 7; see [exact.Quantile].
	LowerQuartile, Median, UpperQuartile exact.Ratio
	Latest                               Price
}

// Summary describes the history. It reports false when it is empty.
func (h *History) Summary() (Summary, bool) {
	latest, ok := h.Latest()
	if !ok {
		return Summary{}, false
	}
	sorted := h.sorted()
	quartile := func(k int64) exact.Ratio {
		q, _ := exact.Quantile(sorted, exact.Int(k).Over(exact.Int(4)))
		return q
	}
	return Summary{
		Count:         len(sorted),
		Lowest:        sorted[0],
		LowerQuartile: quartile(1),
		Median:        quartile(2),
		UpperQuartile: quartile(3),
		Highest:       sorted[len(sorted)-1],
		Latest:        latest,
	}, true
}

// sorted returns the prices per unit from the lowest.
func (h *History) sorted() []exact.Ratio {
	list := make([]exact.Ratio, len(h.prices))
	for i, p := range h.prices {
		list[i] = p.PerUnit
	}
	slices.SortFunc(list, exact.Ratio.Cmp)
	return list
}

// A Rank says where a price stands among others.
type Rank struct {
	Lower, Equal, Higher int // how many of the others are so
}

// Among is how many other prices there are.
func (r Rank) Among() int { return r.Lower + r.Equal + r.Higher }

// Rank says where a price per unit stands among those of the history.
func (h *History) Rank(perUnit exact.Ratio) Rank {
	var r Rank
	for _, p := range h.prices {
		switch p.PerUnit.Cmp(perUnit) {
		case -1:
			r.Lower++
		case 0:
			r.Equal++
		default:
			r.Higher++
		}
	}
	return r
}

// A Standing says whether an offer is a real one.
type Standing struct {
	Reference exact.Opt[Reference]   // what a reduction is measured against
	Reduction exact.Opt[exact.Ratio] // part of it that is taken off: 1/4 for 25 %; below 0 it is dearer
	Year      Rank                   // among all prices known of the year, asked or paid
	Lowest    exact.Opt[Price]       // of these
	Median    exact.Opt[exact.Ratio] // of these, money per unit
}

// Standing holds an offer of a day, in money per unit, to what is known of the
// year up to that day.
func (h *History) Standing(day exact.Date, perUnit exact.Ratio) Standing {
	var s Standing
	if ref, ok := h.Reference(day); ok {
		s.Reference = exact.Some(ref)
		if ref.PerUnit.Sign() > 0 {
			s.Reduction = exact.Some(ref.PerUnit.Sub(perUnit).Quo(ref.PerUnit))
		}
	}
	year := h.YearTo(day)
	s.Year = year.Rank(perUnit)
	if sum, ok := year.Summary(); ok {
		lowest, _ := year.Lowest()
		s.Median, s.Lowest = exact.Some(sum.Median), exact.Some(lowest)
	}
	return s
}
