package exact

import "fmt"

// SplitEqually divides whole into n equal parts by the rule of [Split]: the
// earlier parts are the larger ones, by one last-place step, when whole does
// not divide evenly. An n below 1 is [ErrWeights].
func SplitEqually(whole Number, n, places int) ([]Number, error) {
	parts := make([]Number, max(n, 0))
	err := splitEqually(whole, n, places, func(i int, part Number) { parts[i] = part })
	if err != nil {
		return nil, err
	}
	return parts, nil
}

// SplitEqually divides m into n equal parts, by the rule of the function
// [SplitEqually].
func (m Money) SplitEqually(n, places int) ([]Money, error) {
	parts := make([]Money, max(n, 0))
	err := splitEqually(m.n, n, places, func(i int, part Number) { parts[i].n = part })
	if err != nil {
		return nil, err
	}
	return parts, nil
}

// FirstOf returns the sum of the first k of n equal parts of m at places, by
// the rule of [SplitEqually]: nothing for a k below 1. Finer digits than that,
// if m has any, come with the last part, so that FirstOf(n, n) is m.
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

// splitEqually hands each of n equal parts to put.
func splitEqually(whole Number, n, places int, put func(int, Number)) error {
	switch {
	case n < 1:
		return fmt.Errorf("splitting %v into %d parts: %w", whole, n, ErrWeights)
	case whole.Places() > places:
		return fmt.Errorf("splitting %v: %w", whole, ErrPlaces)
	}
	part, step, left := equalParts(whole, n, places)
	more := part.Add(step)
	for i := range n {
		if left.IsZero() {
			put(i, part)
			continue
		}
		put(i, more)
		left = left.Sub(step)
	}
	return nil
}

// equalParts returns what each of n parts of whole is at least, one step of the
// last place (with whole's sign), and what is left: less than n steps.
func equalParts(whole Number, n, places int) (part, step, left Number) {
	places = clampPlaces(places)
	count, unit := Int(int64(n)), int64(1)
	if whole.Sign() < 0 {
		unit = -1
	}
	part = whole.Over(count).Round(places, Down)
	return part, New(unit, places), whole.Sub(part.Mul(count))
}
