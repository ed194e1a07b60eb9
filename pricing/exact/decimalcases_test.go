package exact

import (
	"strings"
	"testing"
)

// Cases of the General Decimal Arithmetic test set (Mike Cowlishaw, IBM;
// speleotrove.com/decimal/dectest.html) from add, multiply, divide, rounding and
// quantize, by their own names. Read in the copy that comes with CPython. Left
// out is what a Number has no form for: exponents, NaN, infinities, signed zero.
//
// quantize rounds to the digits after the point of its second operand; the
// others round to the digits that the result shows, as their precision asks.
const decimalCases = `
rounding half_up
addx003 add 5.75 3.3 -> 9.05
addx004 add 5 -3 -> 2
addx005 add -5 -3 -> -8
addx006 add -7 2.5 -> -4.5
addx007 add 0.7 0.3 -> 1.0
addx008 add 1.25 1.25 -> 2.50
addx009 add 1.23456789 1.00000000 -> 2.23456789
addx010 add 1.23456789 1.00000011 -> 2.23456800
addx011 add 0.4444444444 0.5555555555 -> 1.00000000
addx013 add 0.4444444444 0.5555555550 -> 0.999999999
addx014 add 0.44444444449 0 -> 0.444444444
addx016 add 0.4444444444999 0 -> 0.444444444
addx017 add 0.4444444445000 0 -> 0.444444445
addx020 add 0.44444444451 0 -> 0.444444445
mulx004 multiply 1.20 2 -> 2.40
mulx006 multiply 1.20 -2 -> -2.40
mulx009 multiply -1.20 -2 -> 2.40
mulx010 multiply 5.09 7.1 -> 36.139
mulx013 multiply 1.23456789 1.00000000 -> 1.23456789
mulx014 multiply 9.999999999 9.999999999 -> 100.000000
mulx017 multiply 9.999999999 9.999999999 -> 100.000
mulx018 multiply 9.999999999 -9.999999999 -> -100.000
mulx160 multiply 999999999999 9765625 -> 9765624999990234375
mulx050 multiply 1.20 3 -> 3.60
mulx052 multiply 0.9 0.8 -> 0.72
divx003 divide 1 2 -> 0.5
divx007 divide 1 3 -> 0.333333333
divx008 divide 2 3 -> 0.666666667
divx011 divide 2.4 -1 -> -2.4
divx013 divide -2.4 -1 -> 2.4
divx029 divide 5 0.200 -> 25
divx040 divide 1 64 -> 0.015625
divx058 divide -1 -64 -> 0.015625
divx071 divide 999999999.4 1 -> 999999999
quax006 quantize 0.1 1 -> 0
quax012 quantize 0.9 1 -> 1
quax015 quantize 0.9 0.001 -> 0.900
quax032 quantize -0.9 1 -> -1
quax038 quantize -0.5 1 -> -1
quax060 quantize 2.17 0.001 -> 2.170
quax061 quantize 2.17 0.01 -> 2.17
quax062 quantize 2.17 0.1 -> 2.2
quax063 quantize 2.17 1 -> 2
quax071 quantize 217 0.1 -> 217.0
quax093 quantize 1.2345 0.01 -> 1.23
quax094 quantize 1.2355 0.01 -> 1.24
quax095 quantize 1.2345 0.000001 -> 1.234500
quax096 quantize 9.9999 0.01 -> 10.00
quax097 quantize 0.0001 0.01 -> 0.00
quax099 quantize 0.009 0.01 -> 0.01
quax126 quantize 1.05 0.1 -> 1.1
quax131 quantize 1.05 1 -> 1
quax152 quantize 1.0600 0.001 -> 1.060
quax154 quantize 1.0600 0.1 -> 1.1
quax302 quantize 0.0078 0.001 -> 0.008
quax313 quantize -0.0078 0.01 -> -0.01
quax345 quantize 0.78 1 -> 1
quax375 quantize -7.8 1 -> -8
quax380 quantize 352364.506 0.01 -> 352364.51
quax381 quantize 3523645.06 0.01 -> 3523645.06
quax384 quantize -352364.506 0.01 -> -352364.51
quax431 quantize 0.00999 0.0001 -> 0.0100
quax440 quantize 0.000999 0.00001 -> 0.00100
quax443 quantize 0.000999 0.01 -> 0.00
quax487 quantize 1234.987643 0.0001 -> 1234.9876
quax488 quantize 1234.987647 0.0001 -> 1234.9876
quax1004 quantize 0.0018 0.001 -> 0.002
quax1007 quantize 0.5018 0.001 -> 0.502
rdvx402 divide 12345 1.0001 -> 12344
rdvx406 divide 12355 4 -> 3088.8
rdvx407 divide 12345 4 -> 3086.3
rdvx410 divide 12345 4.9 -> 2519.4
rdvx418 divide 12345 5.1 -> 2420.6

rounding half_even
radx170 add 12345 -0.1 -> 12345
radx175 add 12345 -0.0000001 -> 12345
radx177 add 12345 0.0000001 -> 12345
radx185 add 12346 0.49999 -> 12346
radx186 add 12346 0.5 -> 12346
radx187 add 12346 0.50001 -> 12347
radx193 add 12345 0.49999 -> 12345
radx194 add 12345 0.5 -> 12346
radx195 add 12345 0.50001 -> 12346
rdvx306 divide 12355 4 -> 3088.8
rdvx307 divide 12345 4 -> 3086.2
rdvx311 divide 12345 4.99 -> 2473.9
rdvx315 divide 12345 5.0001 -> 2469.0
rdvx318 divide 12345 5.1 -> 2420.6

rounding down
radx100 add 12345 -0.1 -> 12344
radx105 add 12345 -0.0000001 -> 12344
radx107 add 12345 0.0000001 -> 12345
radx116 add 12346 0.5 -> 12346
radx129 add 12345 0.6 -> 12345
rsux100 add -12345 -0.1 -> -12345
rsux107 add -12345 0.0000001 -> -12344
rsux116 add -12346 0.5 -> -12345
rdvx103 divide 12345 1.001 -> 12332
rdvx106 divide 12355 4 -> 3088.7
rdvx107 divide 12345 4 -> 3086.2
rdvx113 divide 12345 4.9999 -> 2469.0
rdvx118 divide 12345 5.1 -> 2420.5

rounding up
radx239 add 12345 0.00001 -> 12346
radx243 add 12345 0.1 -> 12346
radx245 add 12346 0.49999 -> 12347
radx247 add 12346 0.50001 -> 12347
rdvx503 divide 12345 1.001 -> 12333
rdvx506 divide 12355 4 -> 3088.8
rdvx511 divide 12345 4.99 -> 2474.0
rdvx513 divide 12345 4.9999 -> 2469.1
rdvx516 divide 12345 5.001 -> 2468.6
`

func TestGeneralDecimalArithmetic(t *testing.T) {
	names := map[string]Mode{"half_up": HalfAway, "half_even": HalfEven, "down": Down, "up": Up}
	var mode Mode
	cases := 0
	for line := range strings.Lines(decimalCases) {
		f := strings.Fields(line)
		switch {
		case len(f) == 2:
			m, ok := names[f[1]]
			if !ok {
				t.Fatalf("no rounding %q", f[1])
			}
			mode = m
		case len(f) == 6:
			cases++
			if got := decimalCase(f[1], num(f[2]), num(f[3]), shownPlaces(f[5]), mode); got != f[5] {
				t.Errorf("%s: %s %s %s (%v) = %s, want %s", f[0], f[1], f[2], f[3], mode, got, f[5])
			}
		}
	}
	if want := strings.Count(decimalCases, "->"); cases != want {
		t.Errorf("%d of %d cases were run", cases, want)
	}
}

// decimalCase returns the result with the places that were asked for.
func decimalCase(verb string, a, b Number, places int, mode Mode) string {
	var r Ratio
	switch verb {
	case "add":
		r = RatioOf(a.Add(b))
	case "multiply":
		r = RatioOf(a.Mul(b))
	case "divide":
		r = a.Over(b)
	case "quantize":
		return a.Round(places, mode).Fixed(places)
	}
	return r.Round(places, mode).Fixed(places)
}

func shownPlaces(s string) int {
	_, fraction, _ := strings.Cut(s, ".")
	return len(fraction)
}
