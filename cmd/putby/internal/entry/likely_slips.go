package entry

import (
	"fmt"
	"strings"

	"putby/ledger"
	"putby/pricing/exact"
)

// mostLikely is how many likely lines are told.
const mostLikely = 3

// Adds holds a receipt against its printed total, if it has one. The error is an
// [ErrTotal], by how much it does not come to it and which lines are likely to be why, or
// what keeps a line from being added up.
func (r *Receipt) Adds() error {
	sum, err := r.Sum()
	if err != nil {
		return err
	}
	printed, given := sum.Printed.Get()
	if !given || printed.Equal(sum.Total) {
		return nil
	}
	off, word := sum.Total.Sub(printed), "more"
	if off.Sign() < 0 {
		off, word = off.Neg(), "less"
	}
	likely := r.likelySlips(sum, printed)
	if hint := ledger.RoundingHint(sum.Total, printed, r.bought(), r.Currency.Minor(), r.Locale); hint != "" {
		likely = append(likely, hint)
	}
	if likely == nil {
		likely = []string{"look for a line left out, or a wrong count, price or discount"}
	}
	what := fmt.Sprintf("the lines come to %s and the receipt says %s: %s %s", r.Amount(sum.Total), r.Amount(printed), r.Amount(off), word)
	return &ledger.Fault{Kind: ErrTotal, What: what, Hint: strings.Join(likely, "\n")}
}

// bought is how many lines there are of things bought.
func (r *Receipt) bought() (n int) {
	for i := range r.Lines {
		if r.Lines[i].Kind.Bought() {
			n++
		}
	}
	return n
}

// likelySlips finds lines which, read in another way, would make the receipt add up.
func (r *Receipt) likelySlips(sum Sum, printed exact.Money) (list []string) {
	for _, try := range otherReadings {
		for i := range r.Lines {
			was := r.Lines[i]
			for _, other := range try.read(was) {
				again := *r
				again.Lines = append([]Line(nil), r.Lines...)
				again.Lines[i] = other
				if s, err := again.Sum(); err == nil && s.Total.Equal(printed) && len(list) < mostLikely {
					list = append(list, fmt.Sprintf("line %d, %s: %s, as in \"%s\"", i+1, quote(r.Typed(&was)), try.why, r.Typed(&other)))
				}
			}
		}
	}
	return append(list, r.onceMore(sum, printed)...)
}

// onceMore finds a line that is as much as the receipt is off: it may stand on it
// twice, or not at all.
func (r *Receipt) onceMore(sum Sum, printed exact.Money) (list []string) {
	off := sum.Total.Sub(printed)
	for i := range r.Lines {
		l := &r.Lines[i]
		what, was := quote(r.Typed(l)), "was it bought"
		if !l.Kind.Bought() {
			what, was = l.Kind.String()+" "+r.Typed(l), "is it on the receipt"
		}
		switch {
		case l.Kind == ledger.TotalLine || off.IsZero():
		case sum.Lines[i].Equal(off):
			list = append(list, fmt.Sprintf("line %d, %s, is as much: %s?", i+1, what, was))
		case sum.Lines[i].Equal(off.Neg()):
			list = append(list, fmt.Sprintf("line %d, %s, is as much: %s twice?", i+1, what, was))
		}
	}
	return list
}

// An otherReading is what may be wrong with a line.
type otherReading struct {
	why  string
	read func(Line) []Line
}

// otherReadings are what is wrong most often, in that order.
var otherReadings = []otherReading{
	{"its price may be that of all of them", func(l Line) []Line {
		if !l.Kind.Bought() || l.Whole || l.Count == "" || l.Price == "" {
			return nil
		}
		l.Whole = true
		return []Line{l}
	}},
	{"its price may be that of one", func(l Line) []Line {
		if !l.Whole {
			return nil
		}
		l.Whole = false
		return []Line{l}
	}},
	{"its price may be that of a unit", perUnit},
	{"its count may be one more or less", func(l Line) []Line {
		n, whole := number(l.Count).Int64()
		if l.Whole || !whole || l.Price == "" || l.Count != "" && n < 1 {
			return nil
		}
		more, less := l, l
		more.Count, less.Count = exact.Int(max(n, 1)+1).String(), exact.Int(n-1).String()
		if n < 2 {
			return []Line{more}
		}
		return []Line{less, more}
	}},
	{"it may be without the offer", func(l Line) []Line {
		if l.Offer == "" || l.Price == "" {
			return nil
		}
		l.Offer = ""
		return []Line{l}
	}},
	{"two digits may be the wrong way round", swapped},
}

// perUnit reads the price of a package as that of a kilogram, a pound or a litre.
func perUnit(l Line) []Line {
	if l.Count != "" || l.Size == "" || l.Per != "" || l.Price == "" || l.Offer != "" {
		return nil
	}
	q, err := exact.ParseQuantity(Amount(l.Size))
	if err != nil {
		return nil
	}
	l.Per = q.Unit().String()
	if why := l.checkPer(); why != "" {
		return nil
	}
	return []Line{l}
}

// swapped are a line with each two neighbouring digits of its price changed about.
func swapped(l Line) (list []Line) {
	for i := 1; i < len(l.Price); i++ {
		a, b := i-1, i
		if l.Price[b] == '.' && b+1 < len(l.Price) {
			b++
		}
		if l.Price[a] == '.' || l.Price[a] == l.Price[b] {
			continue
		}
		digits := []byte(l.Price)
		digits[a], digits[b] = digits[b], digits[a]
		other := l
		other.Price = string(digits)
		if isNumber(other.Price) && !strings.HasPrefix(other.Price, "-") {
			list = append(list, other)
		}
	}
	return list
}
