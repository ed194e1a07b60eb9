package exact

import (
	"errors"
	"fmt"
	"math/big"
	"math/bits"
	"slices"
)

// The errors of splitting.
var (
	ErrWeights = errors.New("the weights must not be negative and must not all be zero")
	ErrPlaces  = errors.New("the amount has more decimal places than its parts may have")
)

// Split divides whole into one part for each weight, in proportion, each with
// at most places digits after the point, by the largest-remainder rule: every
// part is first rounded down, then what is left is handed out one last-place
// step at a time to the largest dropped fractions, on a tie to the earlier
// part. The parts always sum to whole. A negative amount splits as its
// absolute value does.
func Split(whole Number, weights []Number, places int) ([]Number, error) {
	if whole.Places() > places {
		return nil, fmt.Errorf("splitting %v: %w", whole, ErrPlaces)
	}
	var sum Number
	for _, w := range weights {
		if w.Sign() < 0 {
			return nil, fmt.Errorf("splitting %v: %w", whole, ErrWeights)
		}
		sum = sum.Add(w)
	}
	if sum.IsZero() {
		return nil, fmt.Errorf("splitting %v: %w", whole, ErrWeights)
	}
	if parts, ok := splitSmall(whole, weights, sum, places); ok {
		return parts, nil
	}
	return splitBig(whole, weights, places), nil
}

// SplitEqually divides whole into n equal parts by the rule of [Split]; n must
// be positive.
func SplitEqually(whole Number, n, places int) ([]Number, error) {
	weights := make([]Number, n)
	for i := range weights {
		weights[i] = Int(1)
	}
	return Split(whole, weights, places)
}

// splitSmall is Split while everything fits 64 bits, products 128.
func splitSmall(whole Number, weights []Number, sum Number, places int) ([]Number, bool) {
	total, _, scale, ok := align(whole, Number{scale: uint8(min(places, maxScale))})
	if !ok || int(scale) != places || sum.big != nil {
		return nil, false
	}
	units := make([]uint64, len(weights))
	for i, w := range weights {
		_, x, _, ok := align(Number{scale: sum.scale}, w)
		if !ok || w.big != nil || w.scale > sum.scale {
			return nil, false
		}
		units[i] = uint64(x)
	}
	parts := make([]Number, len(weights))
	rests := make([]uint64, len(weights))
	left := abs64(total)
	for i, u := range units {
		hi, lo := bits.Mul64(abs64(total), u)
		q, r := bits.Div64(hi, lo, uint64(sum.coef))
		parts[i] = Number{coef: withSign(q, total < 0), scale: uint8(places)}
		rests[i] = r
		left -= q
	}
	step := withSign(1, total < 0)
	for _, i := range largest(int(left), len(rests), func(i, j int) int {
		return cmpUint(rests[i], rests[j])
	}) {
		parts[i].coef += step
	}
	return parts, true
}

func cmpUint(a, b uint64) int {
	switch {
	case a < b:
		return -1
	case a > b:
		return 1
	}
	return 0
}

// splitBig is Split for numbers of any size.
func splitBig(whole Number, weights []Number, places int) []Number {
	weightPlaces := 0
	for _, w := range weights {
		weightPlaces = max(weightPlaces, w.Places())
	}
	total := whole.Abs().scaled(places)
	units, sum := make([]*big.Int, len(weights)), new(big.Int)
	for i, w := range weights {
		units[i] = w.scaled(weightPlaces)
		sum.Add(sum, units[i])
	}
	left := new(big.Int).Set(total)
	rests := make([]*big.Int, len(weights))
	for i, u := range units {
		rests[i] = new(big.Int)
		u.Mul(u, total).QuoRem(u, sum, rests[i])
		left.Sub(left, u)
	}
	for _, i := range largest(int(left.Int64()), len(rests), func(i, j int) int {
		return rests[i].Cmp(rests[j])
	}) {
		units[i].Add(units[i], big.NewInt(1))
	}
	parts := make([]Number, len(weights))
	for i, u := range units {
		parts[i] = fromScaled(u, places)
		if whole.Sign() < 0 {
			parts[i] = parts[i].Neg()
		}
	}
	return parts
}

// largest returns which k of n indexes come first when ordered by cmp from the
// largest, the earlier first on a tie.
func largest(k, n int, cmp func(i, j int) int) []int {
	if k == 0 {
		return nil
	}
	order := make([]int, n)
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, j int) int { return cmp(j, i) })
	return order[:k]
}
