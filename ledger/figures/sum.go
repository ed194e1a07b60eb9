package figures

import (
	"slices"

	"putby/pricing/exact"
)

// sumOf adds ratios up exactly. It adds neighbours pair by pair: exact sums
// grow long, and so only the last few are.
func sumOf(list []exact.Ratio) exact.Ratio { return sumInto(slices.Clone(list)) }

// sumInto is [sumOf], and uses the list for it.
func sumInto(list []exact.Ratio) exact.Ratio {
	for len(list) > 1 {
		half := list[:0]
		for i := 0; i+1 < len(list); i += 2 {
			half = append(half, list[i].Add(list[i+1]))
		}
		if len(list)%2 == 1 {
			half = append(half, list[len(list)-1])
		}
		list = half
	}
	if len(list) == 0 {
		return exact.Ratio{}
	}
	return list[0]
}

// meanOf returns the mean of at least one ratio, exactly.
func meanOf(list []exact.Ratio) exact.Ratio { return sumOf(list).Quo(wholeRatio(len(list))) }

// wholeRatio is a number that is counted, as a ratio.
func wholeRatio(n int) exact.Ratio { return exact.RatioOf(exact.Int(int64(n))) }
