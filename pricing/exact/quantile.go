package exact

// Quantile returns the q-quantile of values sorted from the lowest, q from 0 to
// 1: type 7 of Hyndman and Fan (Sample quantiles in statistical packages, 1996),
// which interpolates linearly between the values that stand around (count - 1)
// * q. It reports false when there are no values or q is out of range.
func Quantile(sorted []Ratio, q Ratio) (Ratio, bool) {
	one := RatioOf(Int(1))
	if len(sorted) == 0 || q.Sign() < 0 || q.Cmp(one) > 0 {
		return Ratio{}, false
	}
	at := q.Times(Int(int64(len(sorted) - 1)))
	floor := at.Floor()
	below, _ := floor.Int64()
	low, part := sorted[below], at.Sub(RatioOf(floor))
	if part.IsZero() {
		return low, true
	}
	return low.Add(part.Mul(sorted[below+1].Sub(low))), true
}

// Median returns the quantile in the middle: of an even number of values the
// mean of the two around it. It reports false when there are no values.
func Median(sorted []Ratio) (Ratio, bool) { return Quantile(sorted, Int(1).Over(Int(2))) }
