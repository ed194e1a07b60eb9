package exact

// Money is an exact amount in the ledger's one currency, in major units (one
// euro is 1). It does not carry its currency: a ledger has only one, named in
// its settings. Its zero value is no money.
type Money struct{ n Number }

// MoneyOf returns n as money.
func MoneyOf(n Number) Money { return Money{n} }

// MustMoney is MoneyOf of a constant; it panics on what ParseNumber refuses.
func MustMoney(s string) Money { return Money{MustNumber(s)} }

// Number returns the amount as a plain number.
func (m Money) Number() Number { return m.n }

// Add returns m + o.
func (m Money) Add(o Money) Money { return Money{m.n.Add(o.n)} }

// Sub returns m - o.
func (m Money) Sub(o Money) Money { return Money{m.n.Sub(o.n)} }

// Neg returns -m.
func (m Money) Neg() Money { return Money{m.n.Neg()} }

// Times returns m * f, unrounded.
func (m Money) Times(f Number) Money { return Money{m.n.Mul(f)} }

// Ratio returns m as a ratio, for sums with quotients of money.
func (m Money) Ratio() Ratio { return RatioOf(m.n) }

// Per returns the unit price of m for the amount q. It panics when q is 0.
func (m Money) Per(q Number) Ratio { return m.n.Over(q) }

// Sign returns -1, 0 or 1.
func (m Money) Sign() int { return m.n.Sign() }

// IsZero reports whether m is nothing.
func (m Money) IsZero() bool { return m.n.IsZero() }

// Cmp returns -1, 0 or 1 as m is below, equal to or above o.
func (m Money) Cmp(o Money) int { return m.n.Cmp(o.n) }

// Equal reports whether m and o are the same amount.
func (m Money) Equal(o Money) bool { return m.n.Equal(o.n) }

// Round returns m with at most places digits after the point.
func (m Money) Round(places int, mode Mode) Money { return Money{m.n.Round(places, mode)} }

// String returns the amount without its currency, as [Number.String] does.
func (m Money) String() string { return m.n.String() }

// Fixed returns the amount with at least places digits, as [Number.Fixed] does.
func (m Money) Fixed(places int) string { return m.n.Fixed(places) }

// Share returns what the part q of an amount Q that cost m costs: m * q / Q,
// rounded once, half to even, at places. When q is Q it is all of m, whatever
// its places, so that whoever takes the last of a lot takes all that is left of
// its cost. It panics when Q is 0 and q is not.
func (m Money) Share(part, whole Number, places int) Money {
	if part.Equal(whole) {
		return m
	}
	places = clampPlaces(places)
	if cost, ok := m.n.at(places); ok {
		if p, w, _, ok := align(part, whole); ok && w > 0 {
			if q, ok := quo64(abs64(cost), abs64(p), uint64(w), HalfEven); ok {
				return Money{small(withSign(q, (cost < 0) != (p < 0)), uint8(places))}
			}
		}
	}
	return Money{RatioOf(m.n).Mul(part.Over(whole)).Round(places, HalfEven)}
}

// Split divides m in proportion to weights, by the rule of [Split].
func (m Money) Split(weights []Number, places int) ([]Money, error) {
	return m.AppendSplit(make([]Money, 0, len(weights)), weights, places)
}

// AppendSplit appends the parts that [Money.Split] returns to dst and returns
// the longer slice; with an error it is nil.
func (m Money) AppendSplit(dst []Money, weights []Number, places int) ([]Money, error) {
	from := len(dst)
	dst = append(dst, make([]Money, len(weights))...)
	err := split(m.n, weights, places, func(i int, part Number) { dst[from+i].n = part })
	if err != nil {
		return nil, err
	}
	return dst, nil
}
