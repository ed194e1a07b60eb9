package report

import "putby/pricing/exact"

// A Series is a figure over time, in order of time. For people it is a line,
// drawn where charts are asked for; in JSON it is an array of dates and values.
type Series struct {
	Points []Point
	Steps  bool // a value holds until the next one, as a shelf price does
}

// A Point is the figure of a [Series] on a date.
type Point struct {
	Date  exact.Date
	Value Value // a number, or null where there is a gap
}

func (*Series) node() {}

// Range returns the lowest and the highest value of s, and false when it has
// none.
func (s *Series) Range() (low, high Value, ok bool) {
	for _, p := range s.Points {
		if p.Value.IsNull() {
			continue
		}
		if !ok || p.Value.Ratio().Cmp(low.Ratio()) < 0 {
			low = p.Value
		}
		if !ok || p.Value.Ratio().Cmp(high.Ratio()) > 0 {
			high = p.Value
		}
		ok = true
	}
	return low, high, ok
}
