package exact

import (
	"errors"
	"math/big"
	"strings"
	"testing"
	"unsafe"

	"pgregory.net/rapid"
)

func TestParseQuantity(t *testing.T) {
	for in, want := range map[string]string{
		"500 g":               "500 g",
		"1.5L":                "1.5 L",
		"1.50   L":            "1.5 L",
		"-3 ea":               "-3 ea",
		"12ea":                "12 ea",
		"300 cc":              "300 cc",
		"0 kWh":               "0 kWh",
		"1 floz":              "1 floz",
		"2doz":                "2 doz",
		"999999999999999 g":   "999999999999999 g",
		"0.000000001 kg":      "0.000000001 kg",
		"-0 L":                "0 L",
		"123456789012345.5 L": "123456789012345.5 L",
	} {
		q, err := ParseQuantity(in)
		if err != nil || q.String() != want || !q.Given() {
			t.Errorf("%q = %v (%v), want %s", in, q, err, want)
		}
	}
}

func TestParseQuantityRefuses(t *testing.T) {
	for _, c := range []struct {
		in  string
		is  error
		why string
	}{
		{"", ErrQuantity, "write a number and a unit"},
		{" ", ErrQuantity, "write a number and a unit"},
		{"5", ErrQuantity, "write a number and a unit"},
		{"5 ", ErrQuantity, "write a number and a unit"},
		{"L", ErrQuantity, "write a number and a unit"},
		{"+5 L", ErrQuantity, "write a number and a unit"},
		{" 5 L", ErrQuantity, "write a number and a unit"},
		{"five L", ErrQuantity, "write a number and a unit"},
		{"\u22125 L", ErrQuantity, "write a number and a unit"},
		{"1,5 L", ErrNumber, "a comma"},
		{"1,234.5 L", ErrNumber, "a comma"},
		{"1 000 g", ErrNumber, "a space"},
		{"1e3 g", ErrNumber, "an exponent"},
		{"1e999999999 L", ErrNumber, "an exponent"},
		{"1E-3kg", ErrNumber, "an exponent"},
		{"1e+3 g", ErrNumber, "an exponent"},
		{"--5 L", ErrNumber, "a misplaced '-'"},
		{"- L", ErrNumber, "no digits"},
		{".5 L", ErrNumber, "a misplaced point"},
		{"5.L", ErrNumber, "no digits after the point"},
		{"1.2.3 L", ErrNumber, "a misplaced point"},
		{strings.Repeat("9", 40) + " L", ErrNumber, "more than 15 digits"},
		{"1.0123456789 L", ErrNumber, "more than 9 digits"},
		{"5 l", ErrUnit, "write L"},
		{"5 ML", ErrUnit, "write mL"},
		{"5 each", ErrUnit, "the units are"},
		{"5 e", ErrUnit, "the units are"},
		{"5 Ea", ErrUnit, "write ea"},
		{"5 EA", ErrUnit, "write ea"},
		{"5 L ", ErrUnit, "the units are"},
		{"5\tL", ErrUnit, "the units are"},
		{"5\u00a0L", ErrUnit, "the units are"},
		{"5 kg/L", ErrUnit, "the units are"},
		{"5\x00L", ErrUnit, "the units are"},
		{"5 " + strings.Repeat("L", 10<<20), ErrUnit, "the units are"},
	} {
		q, err := ParseQuantity(c.in)
		switch {
		case err == nil:
			t.Errorf("%s was read as %v", Quote(c.in), q)
		case !errors.Is(err, c.is) || !strings.Contains(err.Error(), c.why):
			t.Errorf("%s: %v; want %v, %q", Quote(c.in), err, c.is, c.why)
		case len(err.Error()) > 400 || q != Quantity{}:
			t.Errorf("%s: %v came back, with an error of %d bytes", Quote(c.in), q, len(err.Error()))
		}
	}
}

func TestIn(t *testing.T) {
	for _, c := range []struct{ in, unit, want string }{
		{"1 gal", "L", "3.785411784 L"},
		{"1 L", "gal", "0.264172052358 gal"},
		{"1.5 L", "mL", "1500 mL"},
		{"1 cup", "cc", "236.5882365 cc"},
		{"1 ukgal", "gal", "1.200949925505 gal"},
		{"1 kg", "lb", "2.204622621849 lb"},
		{"16 oz", "lb", "1 lb"},
		{"3 ea", "doz", "0.25 doz"},
		{"1 ea", "doz", "0.083333333333 doz"},
		{"2.5 doz", "ea", "30 ea"},
		{"750 W", "kW", "0.75 kW"},
		{"999999999999999.999999999 ukgal", "L", "4546089999999999.99999999545391 L"},
		{"0.000000001 floz", "L", "0.0000000000295735295625 L"},
	} {
		u, err := ParseUnit(c.unit)
		if err != nil {
			t.Fatal(err)
		}
		if got, err := MustQuantity(c.in).In(u); err != nil || got.String() != c.want {
			t.Errorf("%s in %s = %v (%v), want %s", c.in, c.unit, got, err, c.want)
		}
	}
}

func TestThrough(t *testing.T) {
	for _, c := range []struct{ in, density, unit, want string }{
		{"1 L", "1.03", "kg", "1.03 kg"},
		{"1 kg", "1.03", "L", "0.970873786408 L"},
		{"500 g", "0.9", "mL", "555.555555555556 mL"},
		{"1 cup", "0.5", "g", "118.29411825 g"},
		{"0.000000001 L", "0.0005", "kg", "0 kg"},              // 0.0000000000005 is a tie: to even
		{"0.000000003 L", "0.0005", "kg", "0.000000000002 kg"}, // 1.5 steps: to even
		{"0.000000001 L", "0.001000001", "kg", "0.000000000001 kg"},
		{"2 L", "0", "mL", "2000 mL"}, // within a dimension the density does not matter
		{"-1 L", "1.5", "kg", "-1.5 kg"},
	} {
		u, err := ParseUnit(c.unit)
		if err != nil {
			t.Fatal(err)
		}
		if got, err := MustQuantity(c.in).Through(num(c.density), u); err != nil || got.String() != c.want {
			t.Errorf("%s through %s in %s = %v (%v), want %s", c.in, c.density, c.unit, got, err, c.want)
		}
	}
	for _, density := range []string{"0", "-1", "-123456789012345678901234567890"} {
		for _, c := range []struct {
			q Quantity
			u Unit
		}{{L.Of(Int(1)), Kg}, {Kg.Of(Int(1)), L}} {
			if got, err := c.q.Through(num(density), c.u); !errors.Is(err, ErrDensity) || got.Given() {
				t.Errorf("%v through a density of %s = %v (%v)", c.q, density, got, err)
			}
		}
	}
}

func TestDimensionsDoNotMix(t *testing.T) {
	litre, kilo := MustQuantity("1.5 L"), MustQuantity("2 kg")
	for _, c := range []struct {
		do   func() error
		want string
	}{
		{func() error { _, err := litre.Add(kilo); return err }, "cannot add 1.5 L (volume) and 2 kg (mass)"},
		{func() error { _, err := litre.Sub(kilo); return err }, "cannot subtract 1.5 L (volume) and 2 kg (mass)"},
		{func() error { _, err := litre.Cmp(kilo); return err }, "cannot compare 1.5 L (volume) and 2 kg (mass)"},
		{func() error { _, err := litre.In(Kg); return err }, "cannot convert 1.5 L (volume) to kg (mass)"},
		{func() error { _, err := litre.Through(Int(1), Ea); return err }, "cannot convert 1.5 L (volume) to ea (count)"},
		{func() error { _, err := MustQuantity("3 ea").Through(Int(1), Kg); return err }, "cannot convert 3 ea (count) to kg (mass)"},
		{func() error { _, err := MustQuantity("3 W").In(KWh); return err }, "cannot convert 3 W (power) to kWh (energy)"},
		{func() error { _, err := (Quantity{}).Add(litre); return err }, "cannot add 0 (nothing) and 1.5 L (volume)"},
	} {
		err := c.do()
		var mixed *DimensionError
		if !errors.As(err, &mixed) || err.Error() != c.want {
			t.Errorf("got %v, want %s", err, c.want)
			continue
		}
		if mixed.A.Unit().Dimension() == mixed.B.Unit().Dimension() {
			t.Errorf("%v does not hold both operands", err)
		}
	}
}

func TestQuantityArithmetic(t *testing.T) {
	a, b := MustQuantity("1.5 L"), MustQuantity("250 mL")
	for _, c := range []struct {
		what string
		do   func() (Quantity, error)
		want string
	}{
		{"a + b", func() (Quantity, error) { return a.Add(b) }, "1.75 L"},
		{"b + a", func() (Quantity, error) { return b.Add(a) }, "1750 mL"},
		{"a - b", func() (Quantity, error) { return a.Sub(b) }, "1.25 L"},
		{"b - a", func() (Quantity, error) { return b.Sub(a) }, "-1250 mL"},
	} {
		if got, err := c.do(); err != nil || got.String() != c.want {
			t.Errorf("%s = %v (%v), want %s", c.what, got, err, c.want)
		}
	}
	if got, err := a.Cmp(b); got != 1 || err != nil {
		t.Errorf("1.5 L against 250 mL: %d, %v", got, err)
	}
	if got, err := MustQuantity("1 lb").Cmp(MustQuantity("16 oz")); got != 0 || err != nil {
		t.Errorf("1 lb against 16 oz: %d, %v", got, err)
	}
	if zero := (Quantity{}); zero.Given() || zero.Sign() != 0 || zero.String() != "0" || zero.Unit() != NoUnit {
		t.Error("the zero value is a quantity that was given")
	}
	if got := MustQuantity("2 gal").Base(); got.String() != "7.570823568 L" {
		t.Errorf("2 gal in base units: %v", got)
	}
}

func quantities(d Dimension) *rapid.Generator[Quantity] {
	return rapid.Custom(func(t *rapid.T) Quantity {
		return rapid.SampledFrom(Units(d)).Draw(t, "unit").Of(recorded().Draw(t, "n"))
	})
}

func dimensionsOfRecords() *rapid.Generator[Dimension] {
	return rapid.SampledFrom([]Dimension{Volume, Mass, Count, Energy, Power})
}

// parse(print(q)) = q.
func TestParsePrintedQuantity(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := quantities(dimensionsOfRecords().Draw(t, "dimension")).Draw(t, "q")
		for _, s := range []string{q.String(), strings.Replace(q.String(), " ", "", 1)} {
			got, err := ParseQuantity(s)
			if err != nil || got.Unit() != q.Unit() || !got.Number().Equal(q.Number()) {
				t.Fatalf("%q reads as %v (%v)", s, got, err)
			}
		}
	})
}

// A conversion is the exact quotient of the factors, rounded once; where the
// digits end it loses nothing, and there and back is where it began.
func TestConversionLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := dimensionsOfRecords().Draw(t, "dimension")
		q, p := quantities(d).Draw(t, "q"), quantities(d).Draw(t, "p")
		u := rapid.SampledFrom(Units(d)).Draw(t, "to")
		exact := new(big.Rat).Mul(asRat(t, q.Number()), asRat(t, q.Unit().Factor()))
		exact.Quo(exact, asRat(t, u.Factor()))
		got, err := q.In(u)
		if err != nil || got.Unit() != u {
			t.Fatalf("%v in %v = %v (%v)", q, u, got, err)
		}
		want := exact
		if _, ends := exact.FloatPrec(); !ends {
			want = roundRat(exact, QuantityPlaces, HalfEven)
		} else if back, err := got.In(q.Unit()); err != nil || !back.Number().Equal(q.Number()) {
			t.Fatalf("%v became %v and came back as %v", q, got, back)
		}
		is(t, "the conversion", got.Number(), want)
		is(t, "the base", q.Base().Number(), new(big.Rat).Mul(asRat(t, q.Number()), asRat(t, q.Unit().Factor())))

		c1, err1 := q.Cmp(p)
		c2, err2 := p.Cmp(q)
		if err1 != nil || err2 != nil || c1 != -c2 || c1 != q.Base().Number().Cmp(p.Base().Number()) {
			t.Fatalf("%v against %v: %d and %d", q, p, c1, c2)
		}
	})
}

// Through a density: exact, then rounded once, half to even, at 12 places.
func TestThroughLaw(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		from, to := Volume, Mass
		if rapid.Bool().Draw(t, "from mass") {
			from, to = Mass, Volume
		}
		q := quantities(from).Draw(t, "q")
		u := rapid.SampledFrom(Units(to)).Draw(t, "to")
		density := recorded().Filter(func(n Number) bool { return n.Sign() > 0 }).Draw(t, "density")
		want := new(big.Rat).Mul(asRat(t, q.Number()), asRat(t, q.Unit().Factor()))
		if to == Mass {
			want.Mul(want, asRat(t, density))
		} else {
			want.Quo(want, asRat(t, density))
		}
		want.Quo(want, asRat(t, u.Factor()))
		got, err := q.Through(density, u)
		if err != nil || got.Unit() != u {
			t.Fatalf("%v through %v in %v = %v (%v)", q, density, u, got, err)
		}
		is(t, "the conversion", got.Number(), roundRat(want, QuantityPlaces, HalfEven))
	})
}

// Adding in either unit is the same amount, and taking off again the first.
func TestQuantitySums(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := dimensionsOfRecords().Draw(t, "dimension")
		base := d.Base()
		q, p := base.Of(recorded().Draw(t, "q")), quantities(d).Draw(t, "p")
		sum, err := q.Add(p)
		if err != nil {
			t.Fatal(err)
		}
		back, err := sum.Sub(p)
		if err != nil || !back.Number().Equal(q.Number()) || back.Unit() != base {
			t.Fatalf("%v + %v - %v = %v (%v)", q, p, p, back, err)
		}
		if sum.Sign() != sum.Number().Sign() {
			t.Fatalf("%v has the sign %d", sum, sum.Sign())
		}
	})
}

// TestQuantityIsSmall: ledgers hold millions of them.
func TestQuantityIsSmall(t *testing.T) {
	if quantity, number := unsafe.Sizeof(Quantity{}), unsafe.Sizeof(Number{}); quantity != number {
		t.Errorf("a quantity takes %d bytes, a number %d", quantity, number)
	}
	wide := MustNumber("123456789012345.123456789").Mul(MustNumber("123456789012345.123456789"))
	for _, q := range []Quantity{L.Of(wide), L.Of(Int(7)), NoUnit.Of(wide), Unit(200).Of(Int(7))} {
		if back := q.Unit().Of(q.Number()); back.String() != q.String() || back.Unit() != q.Unit() {
			t.Errorf("%v comes back as %v", q, back)
		}
	}
	if q := L.Of(wide); !q.Number().Equal(wide) || q.Unit() != L || q.Number().Add(Int(1)).Equal(wide) {
		t.Errorf("%v is not %v L", q, wide)
	}
}
