package exact

import (
	"math"
	"math/big"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

func TestNew(t *testing.T) {
	for _, c := range []struct {
		coef   int64
		places int
		want   string
	}{
		{150, 2, "1.5"},
		{-150, 2, "-1.5"},
		{0, 18, "0"},
		{7, 0, "7"},
		{5, -2, "500"},
		{1, 18, "0.000000000000000001"},
		{1, 19, "0.0000000000000000001"},
		{-1, -20, "-100000000000000000000"},
		{math.MaxInt64, 0, "9223372036854775807"},
		{math.MinInt64, 0, "-9223372036854775808"},
		{math.MinInt64, 18, "-9.223372036854775808"},
	} {
		n := New(c.coef, c.places)
		wellFormed(t, n)
		if n.String() != c.want {
			t.Errorf("New(%d, %d) = %v, want %s", c.coef, c.places, n, c.want)
		}
	}
	if a, b := New(1, math.MaxInt), New(1, MaxPlaces); !a.Equal(b) || a.Places() != MaxPlaces {
		t.Errorf("places beyond MaxPlaces are not taken as MaxPlaces: %v", a)
	}
	if a, b := New(1, math.MinInt), New(1, -MaxPlaces); !a.Equal(b) {
		t.Errorf("places below -MaxPlaces are not taken as that: %v", a)
	}
}

// The carries of 64-bit arithmetic: each case is one step inside or outside.
func TestArithmeticAtTheEdge(t *testing.T) {
	const most = "9223372036854775807"
	for _, c := range []struct {
		a, op, b, want string
	}{
		{most, "+", "0", most},
		{most, "+", "1", "9223372036854775808"},
		{most, "+", "-1", "9223372036854775806"},
		{most, "+", most, "18446744073709551614"},
		{"-" + most, "+", "0", "-" + most},
		{"-" + most, "-", "1", "-9223372036854775808"},
		{"-" + most, "-", "2", "-9223372036854775809"},
		{"-9223372036854775808", "+", "1", "-" + most},
		{"-9223372036854775808", "-", "-9223372036854775808", "0"},
		{"9.223372036854775807", "+", "0.000000000000000001", "9.223372036854775808"},
		{"922337203685477580.7", "+", "0.01", "922337203685477580.71"},
		{"922337203685477580.7", "-", "922337203685477580.69", "0.01"},
		{"3037000500", "*", "3037000500", "9223372037000250000"},
		{"3037000499", "*", "-3037000499", "-9223372030926249001"},
		{"4294967296", "*", "2147483648", "9223372036854775808"},
		{"4294967296", "*", "-2147483648", "-9223372036854775808"},
		{"4294967296", "*", "4294967296", "18446744073709551616"},
		{"0.000000001", "*", "0.000000001", "0.000000000000000001"},
		{"0.0000000001", "*", "0.000000001", "0.0000000000000000001"},
		{"1.500000000000", "*", "2.000000000", "3"},
		{most, "*", "-1", "-" + most},
		{most, "*", "0", "0"},
	} {
		a, b := num(c.a), num(c.b)
		got := map[string]func(Number) Number{"+": a.Add, "-": a.Sub, "*": a.Mul}[c.op](b)
		wellFormed(t, got)
		if got.String() != c.want {
			t.Errorf("%s %s %s = %v, want %s", c.a, c.op, c.b, got, c.want)
		}
	}
}

func TestInt64(t *testing.T) {
	for _, c := range []struct {
		in   string
		want int64
		ok   bool
	}{
		{"0", 0, true},
		{"12.000", 12, true},
		{"-12", -12, true},
		{"12.5", 0, false},
		{"0.000000000000000001", 0, false},
		{"9223372036854775807", math.MaxInt64, true},
		{"-9223372036854775808", math.MinInt64, true},
		{"9223372036854775808", 0, false},
		{"-9223372036854775809", 0, false},
		{"9223372036854775807.5", 0, false},
		{"100000000000000000000000", 0, false},
	} {
		if got, ok := num(c.in).Int64(); got != c.want || ok != c.ok {
			t.Errorf("%s.Int64() = %d, %v", c.in, got, ok)
		}
	}
	if got, ok := New(1200, 2).Int64(); got != 12 || !ok {
		t.Errorf("12.00.Int64() = %d, %v", got, ok)
	}
}

func TestPlaces(t *testing.T) {
	for in, want := range map[string]int{
		"0": 0, "0.000": 0, "1.50": 1, "-1.25": 2, "100": 0, "0.000000000000000001": 18,
		"123456789012345678901234567890": 0, "1234567890123456789012345.678900": 4,
		"0.0000000000000000000000000001": 28,
	} {
		n := num(in)
		if got := n.Places(); got != want {
			t.Errorf("%s.Places() = %d, want %d", in, got, want)
		}
		if got := wide(n).Places(); got != want {
			t.Errorf("the slow %s.Places() = %d, want %d", in, got, want)
		}
		if n.IsInt() != (want == 0) {
			t.Errorf("%s.IsInt() = %v", in, n.IsInt())
		}
	}
}

func TestFixed(t *testing.T) {
	for _, c := range []struct {
		in     string
		places int
		want   string
	}{
		{"0", 2, "0.00"},
		{"0", 0, "0"},
		{"1.5", 2, "1.50"},
		{"-1.5", 4, "-1.5000"},
		{"-0.05", 1, "-0.05"},
		{"12", -3, "12"},
		{"1.2345", 2, "1.2345"},
		{"1200", 2, "1200.00"},
		{"9223372036854775807", 3, "9223372036854775807.000"},
		{"92233720368547758070.12", 4, "92233720368547758070.1200"},
		{"92233720368547758070", 1, "92233720368547758070.0"},
		{"0.5", 30, "0.500000000000000000000000000000"},
	} {
		if got := num(c.in).Fixed(c.places); got != c.want {
			t.Errorf("%s.Fixed(%d) = %s, want %s", c.in, c.places, got, c.want)
		}
	}
	if got := len(Int(1).Fixed(math.MaxInt)); got != len("1.")+MaxPlaces {
		t.Errorf("Fixed beyond MaxPlaces wrote %d bytes", got)
	}
}

func TestAppendKeepsWhatIsThere(t *testing.T) {
	line := append([]byte(nil), "total,"...)
	line = New(-12345, 3).AppendTo(line)
	line = append(line, ',')
	line = num("123456789012345678901.5").AppendTo(line)
	line = append(line, ',')
	line = New(5, 1).AppendFixed(line, 2)
	if want := "total,-12.345,123456789012345678901.5,0.50"; string(line) != want {
		t.Errorf("got %q, want %q", line, want)
	}
}

func TestMinMaxTakeTheFirstOfEquals(t *testing.T) {
	a, b := New(10, 1), Int(1) // equal, held in different ways
	if got := a.Min(b); got != a {
		t.Errorf("Min gave the second of equals")
	}
	if got := a.Max(b); got != a {
		t.Errorf("Max gave the second of equals")
	}
}

// Fast path = slow path = math/big, for every operation of two numbers.
func TestNumberLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := numbers().Draw(t, "a"), numbers().Draw(t, "b")
		x, y := asRat(t, a), asRat(t, b)
		for _, form := range []struct {
			name string
			a, b Number
		}{{"fast", a, b}, {"slow", wide(a), wide(b)}, {"mixed", a, wide(b)}} {
			a, b := form.a, form.b
			is(t, form.name+" a+b", a.Add(b), new(big.Rat).Add(x, y))
			is(t, form.name+" a-b", a.Sub(b), new(big.Rat).Sub(x, y))
			is(t, form.name+" a*b", a.Mul(b), new(big.Rat).Mul(x, y))
			if got, want := a.Cmp(b), x.Cmp(y); got != want {
				t.Fatalf("%s: %v.Cmp(%v) = %d, want %d", form.name, a, b, got, want)
			}
			if a.Equal(b) != (x.Cmp(y) == 0) || a.Less(b) != (x.Cmp(y) < 0) {
				t.Fatalf("%s: Equal or Less of %v and %v differ from Cmp", form.name, a, b)
			}
			if a.Min(b).Cmp(a.Max(b)) > 0 || !a.Min(b).Add(a.Max(b)).Equal(a.Add(b)) {
				t.Fatalf("%s: Min and Max of %v and %v are not the two", form.name, a, b)
			}
			if !b.IsZero() {
				isRatio(t, form.name+" a/b", a.Over(b), new(big.Rat).Quo(x, y))
			}
		}
	})
}

// Fast path = slow path = math/big, for every operation of one number.
func TestOneNumberLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := numbers().Draw(t, "a")
		places, mode := places().Draw(t, "places"), modes().Draw(t, "mode")
		x := asRat(t, a)
		for name, a := range map[string]Number{"fast": a, "slow": wide(a)} {
			is(t, name+" -a", a.Neg(), new(big.Rat).Neg(x))
			if got := a.Abs(); asRat(t, got).Cmp(new(big.Rat).Abs(x)) != 0 {
				t.Fatalf("%s: %v.Abs() = %v", name, a, got)
			}
			if a.Sign() != x.Sign() || a.IsZero() != (x.Sign() == 0) || a.IsInt() != x.IsInt() {
				t.Fatalf("%s: Sign, IsZero or IsInt of %v is wrong", name, a)
			}
			got, fits := a.Int64()
			if want := x.IsInt() && x.Num().IsInt64(); fits != want || fits && got != x.Num().Int64() {
				t.Fatalf("%s: %v.Int64() = %d, %v", name, a, got, fits)
			}
			if r := a.Round(places, mode); asRat(t, r).Cmp(roundRat(x, places, mode)) != 0 || r.Places() > places {
				t.Fatalf("%s: %v.Round(%d, %v) = %v", name, a, places, mode, r)
			}
			if got, want := a.Fixed(places), x.FloatString(max(places, a.Places())); got != want {
				t.Fatalf("%s: Fixed(%d) = %s, want %s", name, places, got, want)
			}
			if a.String() != string(a.AppendTo(nil)) || a.Fixed(places) != string(a.AppendFixed(nil, places)) {
				t.Fatalf("%s: %v prints and appends differently", name, a)
			}
			isRatio(t, name+" RatioOf(a)", RatioOf(a), x)
		}
	})
}

// Sums do not depend on the order, however large their terms grow on the way.
func TestSumInAnyOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		terms := rapid.SliceOf(numbers()).Draw(t, "terms")
		shuffled := rapid.Permutation(slices.Clone(terms)).Draw(t, "shuffled")
		var a, b Number
		for i := range terms {
			a, b = a.Add(terms[i]), b.Add(shuffled[i])
		}
		if !a.Equal(b) {
			t.Fatalf("%v in one order, %v in another", a, b)
		}
		for _, term := range terms {
			a = a.Sub(term)
		}
		if !a.IsZero() {
			t.Fatalf("adding and taking off again leaves %v", a)
		}
	})
}

// Products that outgrow every fixed size come back exactly by division.
func TestGrowingProducts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		factors := rapid.SliceOfN(recorded().Filter(func(n Number) bool { return !n.IsZero() }), 1, 20).Draw(t, "factors")
		product := Int(1)
		for _, f := range factors {
			product = product.Mul(f)
			wellFormed(t, product)
		}
		r := RatioOf(product)
		for _, f := range factors {
			r = r.Quo(RatioOf(f))
		}
		isRatio(t, "the product over all its factors", r, big.NewRat(1, 1))
	})
}
