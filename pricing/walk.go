package pricing

import "putby/pricing/exact"

// A walk goes through the rows of a sale, from a number of packages on, for one that
// saves more than another. It passes over those that cannot.
type walk struct {
	s        Sale
	at, ends int         // packages gone past; the last
	counted  *count      // rows up to some number: it sums its cycles beforehand
	bare     *count      // rows without electricity; nil: they do not bound those with it
	each     exact.Ratio // money: the most that a package more adds to the value; used with bare alone
}

// newWalk goes from after one number of packages up to another.
func newWalk(s Sale, after, ends int) *walk {
	w := &walk{s: s, at: after, ends: ends}
	if s.Paid != nil || s.LeastFull.Sign() < 0 || s.Load.Sign() <= 0 {
		return w
	}
	// A package more is worth at most its shelf price, and costs never fall.
	w.each = s.Shelf.Times(s.Size)
	if more := w.each.Mul(s.Yield); w.each.Cmp(more) < 0 {
		w.each = more
	}
	s.Electricity = nil
	if c, err := newCount(s, ends); err == nil && w.each.Sign() > 0 {
		w.bare = c
	}
	return w
}

// next returns the next row that may save more than best, and false after the last, or
// where a cycle has no price.
func (w *walk) next(best exact.Ratio) (Row, bool) {
	w.at = min(w.at+w.lacking(best), w.ends)
	if w.at == w.ends {
		return Row{}, false
	}
	n := w.at + 1
	if w.counted == nil || w.counted.most < n {
		c, err := newCount(w.s, min(2*n+16, w.ends))
		if err != nil {
			return Row{}, false
		}
		w.counted = c
	}
	r := w.counted.workOut(n)
	if w.counted.failed != nil {
		return Row{}, false
	}
	w.at = n
	return r, true
}

// lacking is how many rows, the next one first, save no more than best, as far as can
// be said without their electricity: all cycles but the last cost [Sale.LeastFull] at the
// least.
func (w *walk) lacking(best exact.Ratio) (rows int) {
	for w.bare != nil && w.at+rows < w.ends {
		r := w.bare.workOut(w.at + rows + 1)
		full := exact.Int(int64(max(r.Cycles-1, 0)))
		short := best.Sub(r.Saving).Add(exact.RatioOf(w.s.LeastFull.Times(full).Number()))
		if short.Sign() < 0 {
			break
		}
		more, ok := short.Quo(w.each).Floor().Int64()
		if !ok || more > int64(w.ends) {
			return w.ends - w.at
		}
		rows += int(more) + 1
	}
	return rows
}
