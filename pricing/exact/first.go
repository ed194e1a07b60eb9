package exact

// FirstOf returns the sum of the first k of n equal parts of m at places, by
// the rule of [Split] with equal weights: nothing for a k below 1. Finer digits
// than that, if m has any, come with the last part, so that FirstOf(n, n) is m.
func (m Money) FirstOf(k, n, places int) Money {
	switch {
	case k >= n:
		return m
	case k < 1:
		return Money{}
	}
	places = clampPlaces(places)
	if total, ok := m.n.at(places); ok {
		part, left := total/int64(n), total%int64(n)
		more := min(max(left, -int64(k)), int64(k)) // one step each, with total's sign
		return Money{small(part*int64(k)+more, uint8(places))}
	}
	part, step, left := equalParts(m.n, n, places)
	count, more := Int(int64(k)), left.Over(step).Floor()
	return Money{part.Mul(count).Add(step.Mul(more.Min(count)))}
}

// equalParts returns what each of n parts of whole is at least, one step of the
// last place (with whole's sign), and what is left: less than n steps.
func equalParts(whole Number, n, places int) (part, step, left Number) {
	count, unit := Int(int64(n)), int64(1)
	if whole.Sign() < 0 {
		unit = -1
	}
	part = whole.Over(count).Round(places, Down)
	return part, New(unit, places), whole.Sub(part.Mul(count))
}
