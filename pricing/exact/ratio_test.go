package exact

import (
	"math"
	"math/big"
	"testing"

	"pgregory.net/rapid"
)

func TestZeroRatioIsZero(t *testing.T) {
	var zero Ratio
	third := Int(1).Over(Int(3))
	for _, c := range []struct {
		name      string
		got, want Ratio
	}{
		{"0 + 1/3", zero.Add(third), third},
		{"1/3 + 0", third.Add(zero), third},
		{"0 - 1/3", zero.Sub(third), third.Neg()},
		{"0 * 1/3", zero.Mul(third), RatioOf(Int(0))},
		{"1/3 * 0", third.Mul(zero), RatioOf(Int(0))},
		{"0 / 1/3", zero.Quo(third), RatioOf(Int(0))},
		{"-0", zero.Neg(), RatioOf(Int(0))},
		{"0 * 5", zero.Times(Int(5)), RatioOf(Int(0))},
	} {
		if !c.got.Equal(c.want) || c.got.String() != c.want.String() {
			t.Errorf("%s = %v, want %v", c.name, c.got, c.want)
		}
	}
	if n, ends := zero.Number(); !ends || !n.IsZero() {
		t.Errorf("Number() = %v, %v", n, ends)
	}
	if zero.Sign() != 0 || !zero.IsZero() || !zero.Round(6, Up).IsZero() || !zero.Ceil().IsZero() || !zero.Floor().IsZero() {
		t.Error("the zero value is not zero in every way")
	}
	if zero.String() != "0" || zero.Cmp(third) != -1 || third.Cmp(zero) != 1 {
		t.Error("the zero value does not print or compare as zero")
	}
}

func TestRatioCmpGivesOneStep(t *testing.T) {
	plus, minus := RatioOf(Int(5)), RatioOf(Int(-7))
	if got := plus.Cmp(minus); got != 1 {
		t.Errorf("5.Cmp(-7) = %d, want 1", got)
	}
	if got := minus.Cmp(plus); got != -1 {
		t.Errorf("-7.Cmp(5) = %d, want -1", got)
	}
}

func TestRatioString(t *testing.T) {
	for _, c := range []struct{ n, d, want string }{
		{"1", "3", "1/3"},
		{"-10", "4", "-5/2"},
		{"10", "-4", "-5/2"},
		{"-10", "-5", "2"},
		{"0", "7", "0"},
		{"3.00", "1.5", "2"},
		{"9223372036854775807", "2", "9223372036854775807/2"},
		{"1", "18446744073709551616", "1/18446744073709551616"},
		{"0.1", "0.30000000000000000000001", "10000000000000000000000/30000000000000000000001"},
	} {
		r := num(c.n).Over(num(c.d))
		wellFormedRatio(t, r)
		if r.String() != c.want {
			t.Errorf("%s over %s = %v, want %s", c.n, c.d, r, c.want)
		}
	}
}

func TestRatioRoundAtTheEdge(t *testing.T) {
	for _, c := range []struct {
		n, d   string
		places int
		mode   Mode
		want   string
	}{
		{"2", "3", 6, HalfEven, "0.666667"},
		{"-2", "3", 6, HalfEven, "-0.666667"},
		{"1", "3", 0, Up, "1"},
		{"-1", "3", 0, Up, "-1"},
		{"-1", "3", 0, Down, "0"},
		{"1", "2", 0, HalfEven, "0"},
		{"3", "2", 0, HalfEven, "2"},
		{"1", "2", 0, HalfAway, "1"},
		{"-1", "2", 0, HalfAway, "-1"},
		{"1", "3", 20, HalfEven, "0.33333333333333333333"},
		{"1", "3", -5, HalfEven, "0"},
		// Quotients that round up out of 63 and out of 64 bits.
		{"18446744073709551615", "2", 0, HalfAway, "9223372036854775808"},
		{"9223372036854775807", "9223372036854775806", 18, HalfEven, "1"},
		{"9223372036854775807", "5", 1, HalfEven, "1844674407370955161.4"},
		{"9223372036854775807", "4", 1, Up, "2305843009213693951.8"},
		{"36893488147419103231", "2", 0, HalfAway, "18446744073709551616"},
	} {
		got := num(c.n).Over(num(c.d)).Round(c.places, c.mode)
		wellFormed(t, got)
		if got.String() != c.want {
			t.Errorf("%s/%s to %d %v = %v, want %s", c.n, c.d, c.places, c.mode, got, c.want)
		}
	}
}

// A quotient of 2^64 - 1 and a remainder that rounds up must not wrap to 0.
func TestQuotientOfAllOnes(t *testing.T) {
	const d = uint64(math.MaxInt64)
	for _, mode := range []Mode{HalfEven, HalfAway, Up, Down} {
		// a*b/d is 2^64 - 1 and two thirds or more.
		if q, ok := quo64(2*d, d+d/2, d, mode); ok {
			t.Errorf("mode %v: a quotient beyond 63 bits is said to fit: %d", mode, q)
		}
		if q, ok := quo64(math.MaxUint64, d, d, mode); ok {
			t.Errorf("mode %v: 2^64 - 1 is said to fit 63 bits: %d", mode, q)
		}
	}
	for _, c := range []struct {
		a, b, d uint64
		mode    Mode
		q       uint64
		ok      bool
	}{
		{math.MaxInt64, 1, 1, Up, math.MaxInt64, true},
		{math.MaxUint64, 1, 2, Down, math.MaxInt64, true},
		{math.MaxUint64, 1, 2, Up, 0, false},
		{math.MaxUint64, 1, 2, HalfEven, 0, false}, // a tie, and 2^63 - 1 is odd
		{math.MaxUint64 - 1, 1, 2, HalfEven, math.MaxInt64, true},
		{math.MaxUint64, math.MaxUint64, math.MaxUint64, Down, 0, false},
	} {
		if q, ok := quo64(c.a, c.b, c.d, c.mode); ok != c.ok || ok && q != c.q {
			t.Errorf("%d * %d / %d %v = %d, %v", c.a, c.b, c.d, c.mode, q, ok)
		}
	}
}

func TestRatioNumber(t *testing.T) {
	for _, c := range []struct {
		n, d, want string
		ends       bool
	}{
		{"1", "8", "0.125", true},
		{"1", "3", "0", false},
		{"6", "3", "2", true},
		{"7", "640", "0.0109375", true},
		{"1", "1048576", "0.00000095367431640625", true},
		{"-1", "36893488147419103232", "-0.00000000000000000002710505431213761085018632002174854278564453125", true},
		{"1", "36893488147419103233", "0", false},
		{"123456789012345678901234567891", "7", "0", false},
		{"123456789012345678901234567890", "5", "24691357802469135780246913578", true},
		{"1", "7450580596923828125", "0.0000000000000000001342177280", true},
	} {
		n, ends := num(c.n).Over(num(c.d)).Number()
		if ends != c.ends || !n.Equal(num(c.want)) {
			t.Errorf("%s/%s = %v, %v; want %s, %v", c.n, c.d, n, ends, c.want, c.ends)
		}
	}
}

func TestCeilFloor(t *testing.T) {
	for _, c := range []struct{ n, d, floor, ceil string }{
		{"7", "2", "3", "4"},
		{"-7", "2", "-4", "-3"},
		{"6", "2", "3", "3"},
		{"-6", "2", "-3", "-3"},
		{"1", "1000000000000000000000", "0", "1"},
		{"-1", "1000000000000000000000", "-1", "0"},
		{"9223372036854775807", "2", "4611686018427387903", "4611686018427387904"},
		{"18446744073709551615", "2", "9223372036854775807", "9223372036854775808"},
	} {
		r := num(c.n).Over(num(c.d))
		if got := r.Floor(); !got.Equal(num(c.floor)) {
			t.Errorf("floor of %v = %v, want %s", r, got, c.floor)
		}
		if got := r.Ceil(); !got.Equal(num(c.ceil)) {
			t.Errorf("ceil of %v = %v, want %s", r, got, c.ceil)
		}
	}
}

func TestDivisionByZeroPanics(t *testing.T) {
	for name, divide := range map[string]func(){
		"Over":  func() { Int(1).Over(Number{}) },
		"0/0":   func() { Number{}.Over(New(0, 5)) },
		"Per":   func() { MustMoney("1.00").Per(Number{}) },
		"Quo":   func() { RatioOf(Int(1)).Quo(Ratio{}) },
		"Share": func() { MustMoney("1.00").Share(Int(1), Number{}, 2) },
	} {
		func() {
			defer func() {
				if got := recover(); got != zeroDivision {
					t.Errorf("%s: recovered %v, want %q", name, got, zeroDivision)
				}
			}()
			divide()
		}()
	}
}

func TestGCD(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b, c := rapid.Uint64().Draw(t, "a"), rapid.Uint64().Draw(t, "b"), rapid.Uint64Range(0, 1<<20).Draw(t, "c")
		for _, p := range [][2]uint64{{a, b}, {a * c, b * c}, {a, 0}, {0, b}, {a, a}, {a << 7, b << 3}} {
			x, y := new(big.Int).SetUint64(p[0]), new(big.Int).SetUint64(p[1])
			if got, want := gcd(p[0], p[1]), new(big.Int).GCD(nil, nil, x, y).Uint64(); got != want {
				t.Fatalf("gcd(%d, %d) = %d, want %d", p[0], p[1], got, want)
			}
		}
	})
}

// Fast path = slow path = math/big, for every operation of two ratios.
func TestRatioLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r, s := ratios().Draw(t, "r"), ratios().Draw(t, "s")
		n := numbers().Draw(t, "n")
		x, y := ratioRat(t, r), ratioRat(t, s)
		for _, form := range []struct {
			name string
			r, s Ratio
		}{{"fast", r, s}, {"slow", wideRatio(r), wideRatio(s)}, {"mixed", r, wideRatio(s)}} {
			r, s := form.r, form.s
			isRatio(t, form.name+" r+s", r.Add(s), new(big.Rat).Add(x, y))
			isRatio(t, form.name+" r-s", r.Sub(s), new(big.Rat).Sub(x, y))
			isRatio(t, form.name+" r*s", r.Mul(s), new(big.Rat).Mul(x, y))
			isRatio(t, form.name+" r*n", r.Times(n), new(big.Rat).Mul(x, asRat(t, n)))
			isRatio(t, form.name+" -r", r.Neg(), new(big.Rat).Neg(x))
			if !s.IsZero() {
				isRatio(t, form.name+" r/s", r.Quo(s), new(big.Rat).Quo(x, y))
			}
			if r.Cmp(s) != x.Cmp(y) || r.Equal(s) != (x.Cmp(y) == 0) || r.Sign() != x.Sign() {
				t.Fatalf("%s: %v and %v compare or sign wrongly", form.name, r, s)
			}
		}
	})
}

// The laws of a field, without a judge.
func TestRatioField(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b, c := ratios().Draw(t, "a"), ratios().Draw(t, "b"), ratios().Draw(t, "c")
		one := RatioOf(Int(1))
		for name, sides := range map[string][2]Ratio{
			"a+b = b+a":         {a.Add(b), b.Add(a)},
			"ab = ba":           {a.Mul(b), b.Mul(a)},
			"a+(b+c) = (a+b)+c": {a.Add(b.Add(c)), a.Add(b).Add(c)},
			"a(bc) = (ab)c":     {a.Mul(b.Mul(c)), a.Mul(b).Mul(c)},
			"a(b+c) = ab+ac":    {a.Mul(b.Add(c)), a.Mul(b).Add(a.Mul(c))},
			"a+0 = a":           {a.Add(Ratio{}), a},
			"a*1 = a":           {a.Mul(one), a},
			"a-a = 0":           {a.Sub(a), Ratio{}},
			"-(-a) = a":         {a.Neg().Neg(), a},
		} {
			if !sides[0].Equal(sides[1]) {
				t.Fatalf("%s fails: %v and %v", name, sides[0], sides[1])
			}
		}
		if !a.IsZero() && (!a.Quo(a).Equal(one) || !b.Quo(a).Mul(a).Equal(b)) {
			t.Fatalf("dividing by %v and multiplying again loses something", a)
		}
	})
}

// Rounding is that of the definition, Number is exact, Floor <= r <= Ceil.
func TestRatioToNumber(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := ratios().Draw(t, "r")
		places, mode := places().Draw(t, "places"), modes().Draw(t, "mode")
		x := ratioRat(t, r)
		for name, r := range map[string]Ratio{"fast": r, "slow": wideRatio(r)} {
			is(t, name+" Round", r.Round(places, mode), roundRat(x, places, mode))
			floor, ceil := asRat(t, r.Floor()), asRat(t, r.Ceil())
			if !floor.IsInt() || !ceil.IsInt() || floor.Cmp(x) > 0 || ceil.Cmp(x) < 0 ||
				new(big.Rat).Sub(ceil, floor).Cmp(big.NewRat(1, 1)) > 0 {
				t.Fatalf("%s: floor %v and ceil %v do not enclose %v", name, floor, ceil, r)
			}
			n, ends := r.Number()
			if _, exact := x.FloatPrec(); exact != ends {
				t.Fatalf("%s: %v.Number() says %v", name, r, ends)
			}
			if ends {
				is(t, name+" Number", n, x)
			}
		}
	})
}

// What is whole makes the ratios again, and of no larger unit would they be multiples.
func TestWhole(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		list := rapid.SliceOfN(ratios(), 0, 4).Draw(t, "list")
		numbers, unit := Whole(list)
		common := new(big.Int)
		for i, n := range numbers {
			if !n.IsInt() || !unit.Times(n).Equal(list[i]) {
				t.Fatalf("%v become %v of %v", list, numbers, unit)
			}
			common.GCD(nil, nil, common, new(big.Int).Abs(asRat(t, n).Num()))
		}
		if unit.Sign() < 0 || common.Cmp(big.NewInt(1)) > 0 {
			t.Fatalf("%v become %v of %v, which have %v in common", list, numbers, unit, common)
		}
	})
}
