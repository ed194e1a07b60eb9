package exact

import (
	"cmp"
	"errors"
	"fmt"
	"math/big"
	"math/bits"
	"slices"
)

// The errors of splitting.
var (
	ErrWeights = errors.New("there must be a weight above zero, and none below")
	ErrPlaces  = errors.New("the amount has more decimal places than its parts may have")
)

// Split divides whole into one part for each weight, in proportion, each with
// at most places digits after the point, by the largest-remainder rule: every
// part is first rounded down, then what is left is handed out one last-place
// step at a time to the largest dropped fractions, on a tie to the earlier
// part. The parts always sum to whole. A negative amount splits as its
// absolute value does.
//
// A weight below zero, no weight above zero (so, no weights) is [ErrWeights];
// a whole that has more than places digits is [ErrPlaces].
func Split(whole Number, weights []Number, places int) ([]Number, error) {
	parts := make([]Number, len(weights))
	err := split(whole, weights, places, func(i int, part Number) { parts[i] = part })
	if err != nil {
		return nil, err
	}
	return parts, nil
}

// split hands each part to put, once.
func split(whole Number, weights []Number, places int, put func(int, Number)) error {
	sum, err := sumWeights(weights)
	if err == nil && whole.Places() > places {
		err = ErrPlaces
	}
	if err != nil {
		return fmt.Errorf("splitting %v: %w", whole, err)
	}
	places = clampPlaces(places)
	if !splitSmall(whole, weights, sum, places, put) {
		splitBig(whole, weights, places, put)
	}
	return nil
}

func sumWeights(weights []Number) (sum Number, err error) {
	for _, w := range weights {
		if w.Sign() < 0 {
			return sum, ErrWeights
		}
		sum = sum.Add(w)
	}
	if sum.IsZero() {
		return sum, ErrWeights
	}
	return sum, nil
}

// A portion is a part in the making, in last-place steps.
type portion struct {
	at         int    // index of its weight
	part, rest uint64 // rounded down; what that dropped, in steps / sum of weights
}

// splitSmall is split while everything fits 64 bits, products 128; else it
// does nothing and returns false.
func splitSmall(whole Number, weights []Number, sum Number, places int, put func(int, Number)) bool {
	total, ok := whole.at(places)
	if !ok || sum.big() != nil {
		return false
	}
	var few [16]portion // so that a usual receipt or run allocates only its parts
	portions, left := few[:0], abs64(total)
	for i, w := range weights {
		units, ok := w.at(int(sum.scale()))
		if !ok {
			return false
		}
		// No weight is above their sum, so no quotient is above total.
		hi, lo := bits.Mul64(abs64(total), uint64(units))
		part, rest := bits.Div64(hi, lo, uint64(sum.coef))
		portions = append(portions, portion{i, part, rest})
		left -= part
	}
	// Each dropped less than a step, so fewer steps are left than there are parts.
	if left > 0 {
		slices.SortFunc(portions, func(p, q portion) int {
			return cmp.Or(cmp.Compare(q.rest, p.rest), cmp.Compare(p.at, q.at))
		})
	}
	for i, p := range portions {
		if uint64(i) < left {
			p.part++
		}
		put(p.at, small(withSign(p.part, total < 0), uint8(places)))
	}
	return true
}

// splitBig is split for numbers of any size.
func splitBig(whole Number, weights []Number, places int, put func(int, Number)) {
	units, sum := bigUnits(weights)
	total := whole.Abs().scaled(places)
	parts, rests := units, make([]*big.Int, len(units))
	order, left := make([]int, len(units)), new(big.Int).Set(total)
	for i, u := range units {
		rests[i], order[i] = new(big.Int), i
		parts[i].Mul(u, total).QuoRem(parts[i], sum, rests[i])
		left.Sub(left, parts[i])
	}
	slices.SortStableFunc(order, func(i, j int) int { return rests[j].Cmp(rests[i]) })
	for _, i := range order[:left.Int64()] { // fewer than parts, as in splitSmall
		parts[i].Add(parts[i], big.NewInt(1))
	}
	for i, p := range parts {
		if whole.Sign() < 0 {
			p.Neg(p)
		}
		put(i, fromScaled(p, places))
	}
}

// bigUnits returns weights as whole numbers of one unit, and their sum.
func bigUnits(weights []Number) (units []*big.Int, sum *big.Int) {
	places := 0
	for _, w := range weights {
		places = max(places, w.Places())
	}
	sum = new(big.Int)
	for _, w := range weights {
		u := w.scaled(places)
		units = append(units, u)
		sum.Add(sum, u)
	}
	return units, sum
}
