package exact

import (
	"errors"
	"strings"
	"testing"
)

// NIST SP 811 appendix B and NIST Handbook 44 appendix C, which agree with GNU
// units; the metric ones by their prefixes. In base units, exactly.
func TestFactors(t *testing.T) {
	for _, c := range []struct {
		unit Unit
		name string
		dim  Dimension
		want string
	}{
		{ML, "mL", Volume, "0.001"},
		{CL, "cL", Volume, "0.01"},
		{DL, "dL", Volume, "0.1"},
		{L, "L", Volume, "1"},
		{CC, "cc", Volume, "0.001"},
		{FlOz, "floz", Volume, "0.0295735295625"},
		{Cup, "cup", Volume, "0.2365882365"},
		{Pt, "pt", Volume, "0.473176473"},
		{Qt, "qt", Volume, "0.946352946"},
		{Gal, "gal", Volume, "3.785411784"},
		{UKFlOz, "ukfloz", Volume, "0.0284130625"},
		{UKPt, "ukpt", Volume, "0.56826125"},
		{UKQt, "ukqt", Volume, "1.1365225"},
		{UKGal, "ukgal", Volume, "4.54609"},
		{G, "g", Mass, "0.001"},
		{Kg, "kg", Mass, "1"},
		{Oz, "oz", Mass, "0.028349523125"},
		{Lb, "lb", Mass, "0.45359237"},
		{Ea, "ea", Count, "1"},
		{Doz, "doz", Count, "12"},
		{Wh, "Wh", Energy, "0.001"},
		{KWh, "kWh", Energy, "1"},
		{W, "W", Power, "1"},
		{KW, "kW", Power, "1000"},
	} {
		if got := c.unit.Factor().String(); got != c.want || c.unit.Dimension() != c.dim || c.unit.String() != c.name {
			t.Errorf("%s: %s of %v (%v), want %s of %v", c.name, got, c.unit.Dimension(), c.unit, c.want, c.dim)
		}
		if u, err := ParseUnit(c.name); u != c.unit || err != nil {
			t.Errorf("ParseUnit(%q) = %v, %v", c.name, u, err)
		}
	}
	// 1 US gal = 231 in3, 1 in = 2.54 cm; 1 oz = 1/16 lb; 1 imp fl oz = 1/160 imp gal.
	cubicInch := MustNumber("2.54").Mul(MustNumber("2.54")).Mul(MustNumber("2.54")).Mul(New(1, 3))
	if got := cubicInch.Mul(Int(231)); !got.Equal(Gal.Factor()) {
		t.Errorf("231 cubic inches are %v L, a gallon %v", got, Gal.Factor())
	}
}

// 16 cup = 8 pt = 4 qt = 1 gal exactly; 20 imperial fl oz = 1 imperial pt (NIST
// Handbook 44 appendix C).
func TestMultiples(t *testing.T) {
	for _, c := range []struct {
		n     int64
		small Unit
		large Unit
	}{
		{16, Cup, Gal}, {8, Pt, Gal}, {4, Qt, Gal}, {128, FlOz, Gal}, {2, Cup, Pt}, {2, Pt, Qt}, {8, FlOz, Cup},
		{20, UKFlOz, UKPt}, {8, UKPt, UKGal}, {4, UKQt, UKGal}, {160, UKFlOz, UKGal},
		{16, Oz, Lb}, {12, Ea, Doz}, {1000, ML, L}, {1, CC, ML}, {1000, G, Kg}, {1000, Wh, KWh}, {1000, W, KW},
	} {
		got, err := c.small.Of(Int(c.n)).In(c.large)
		if err != nil || !got.Number().Equal(Int(1)) {
			t.Errorf("%d %v = %v (%v), want 1 %v", c.n, c.small, got, err, c.large)
		}
		back, err := c.large.Of(Int(1)).In(c.small)
		if err != nil || !back.Number().Equal(Int(c.n)) {
			t.Errorf("1 %v = %v (%v), want %d %v", c.large, back, err, c.n, c.small)
		}
	}
}

func TestParseUnitRefuses(t *testing.T) {
	for in, hint := range map[string]string{
		"":                "the units are mL cL",
		"ml":              "write mL",
		"l":               "write L",
		"KG":              "write kg",
		"kwh":             "write kWh",
		"Floz":            "write floz",
		"litre":           "the units are mL cL",
		"L ":              "the units are",
		"stone":           "the units are",
		"\x1b[2J":         `\x1b[2J`,
		"\u212a":          "the units are", // the Kelvin sign, which folds to k
		"\uff2c":          "the units are",
		"L\u0000":         "the units are",
		"kg\u202elacking": `\u202e`,
	} {
		u, err := ParseUnit(in)
		if u != NoUnit || !errors.Is(err, ErrUnit) || !strings.Contains(err.Error(), hint) {
			t.Errorf("ParseUnit(%q) = %v, %v; want a hint of %q", in, u, err, hint)
		}
	}
}

func TestUnitsOfADimension(t *testing.T) {
	seen := 0
	for d := NoDimension; d <= Power; d++ {
		list := Units(d)
		for _, u := range list {
			if u.Dimension() != d || d.Base().Dimension() != d {
				t.Errorf("%v is listed under %v", u, d)
			}
		}
		seen += len(list)
	}
	if seen != int(unitCount)-1 {
		t.Errorf("%d units are listed, want %d", seen, unitCount-1)
	}
	if got := strings.Join(texts(Units(Mass)), " "); got != "g kg oz lb" {
		t.Errorf("units of mass: %s", got)
	}
	for d, want := range map[Dimension]string{
		NoDimension: "nothing", Volume: "volume L", Mass: "mass kg", Count: "count ea", Energy: "energy kWh", Power: "power W",
	} {
		if got := strings.TrimSpace(d.String() + " " + d.Base().String()); got != want {
			t.Errorf("%d is %q, want %q", d, got, want)
		}
		if !d.Base().Factor().Equal(Int(1)) {
			t.Errorf("the base unit of %v is not 1 of itself", d)
		}
	}
}

func TestUnknownUnitIsNoUnit(t *testing.T) {
	for _, u := range []Unit{unitCount, unitCount + 1, 255} {
		if u.String() != "" || u.Dimension() != NoDimension || !u.Factor().Equal(Int(1)) {
			t.Errorf("Unit(%d) is %v of %v", u, u, u.Dimension())
		}
	}
	for _, d := range []Dimension{Power + 1, 255} {
		if d.String() != "nothing" || d.Base() != NoUnit || Units(d) != nil {
			t.Errorf("Dimension(%d) is %v in %v", d, d, d.Base())
		}
	}
}
