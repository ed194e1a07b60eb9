package exact

// FirstOf returns the sum of the first k of n equal parts of m at places, by
// the rule of [Split]: the earlier parts are the larger ones by one step when
// m does not divide evenly. Only as many steps as places allow are handed out;
// whatever finer digits m has come with the last part, so that FirstOf(n, n)
// is m.
func (m Money) FirstOf(k, n, places int) Money {
	if k >= n {
		return m
	}
	each := m.n.Over(Int(int64(n))).Round(places, Down)
	step := New(1, places)
	if m.Sign() < 0 {
		step = step.Neg()
	}
	over := m.n.Sub(each.Mul(Int(int64(n)))).Over(step).Round(0, Down)
	count := Int(int64(k))
	return Money{each.Mul(count).Add(over.Min(count).Mul(step))}
}
