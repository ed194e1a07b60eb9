package ledger_test

import (
	"fmt"
	"testing"

	"putby/pricing/exact"
)

// The lesser limit holds, whichever it is, each told in the food's unit through
// density or the weight of a piece; what cannot be told is passed over. A large
// egg is 50 g (USDA SR28, 01123); a pound 0.45359237 kg (NIST Handbook 44).
func TestCapacityIsTheLesserLimit(t *testing.T) {
	for _, c := range []struct {
		food         string // basis, density, piece_kg
		volume, mass string
		want, passed string
	}{
		{"volume,1.25,", "4 L", "6 kg", "4", ""},   // 4 L or 4.8 L
		{"volume,1.25,", "6 L", "6 kg", "4.8", ""}, // 6 L or 4.8 L
		{"volume,1.25,", "", "6 kg", "4.8", ""},    // only through the density
		{"volume,1.25,", "1 gal", "", "3.785411784", ""},
		{"volume,,", "4 L", "1 kg", "4", "load_mass density"},
		{"volume,,", "", "1 kg", "", "load_mass density"},
		{"volume,3,", "9 L", "1 kg", "0.333333333333", ""},
		{"mass,,", "4 L", "4 lb", "1.81436948", "load_volume density"},
		{"mass,0.5,", "4 L", "4 kg", "2", ""}, // leaves fill the trays long before they are heavy
		{"mass,0.5,", "4 L", "1 kg", "1", ""},
		{"mass,0.5,", "4 L", "", "2", ""},
		{"count,,0.05", "4 L", "4 kg", "80", "load_volume density"},
		{"count,,0.03", "", "4 kg", "133", ""},      // 133.33 pieces
		{"count,0.8,0.05", "4 L", "4 kg", "64", ""}, // 4 L x 0.8 kg/L / 0.05 kg
		{"count,0.8,0.05", "9 L", "4 kg", "80", ""},
		{"count,,9", "", "4.5 kg", "0.5", ""}, // half a pumpkin
		{"count,,", "4 L", "4 kg", "", "load_volume piece_kg and density, load_mass piece_kg"},
		{"count,0.8,", "4 L", "", "", "load_volume piece_kg"},
		{"mass,,", "", "", "", ""},
	} {
		g := book(t, "-- foods.csv --\nfood,basis,density,piece_kg\nx,"+c.food+
			"\n-- machines.csv --\nmachine,cycles,load_volume,load_mass\ndryer,100,"+c.volume+","+c.mass+"\n")
		have := g.Machines[0].Capacity(&g.Foods[0])
		if most := numberOrNone(have.Most); most != c.want {
			t.Errorf("%s in %q and %q: %s, want %s", c.food, c.volume, c.mass, most, c.want)
		}
		passed := ""
		for i, p := range have.Passed {
			if i > 0 {
				passed += ", "
			}
			passed += p.Column + " " + p.Lacks
		}
		if passed != c.passed {
			t.Errorf("%s in %q and %q: passed over %q, want %q", c.food, c.volume, c.mass, passed, c.passed)
		}
	}
}

func numberOrNone(n exact.Opt[exact.Number]) string {
	if v, ok := n.Get(); ok {
		return v.String()
	}
	return ""
}

// A run's loads are held against both limits, all together; a weight before
// drying outranks a density.
func TestOverloads(t *testing.T) {
	for _, c := range []struct{ volume, mass, loads, want string }{
		{"3 L", "4 kg", "r,stock,3 L,,\n", "[]"}, // 3.06 kg
		{"3 L", "3 kg", "r,stock,3 L,,\n", "[load_mass 3 kg 3.06 kg]"},
		{"2.9 L", "4 kg", "r,stock,3 L,,\n", "[load_volume 2.9 L 3 L]"},
		{"2 L", "3 kg", "r,stock,3 L,,\n", "[load_volume 2 L 3 L load_mass 3 kg 3.06 kg]"},
		{"3 L", "3 kg", "r,stock,3 L,3 kg,1 kg\n", "[]"},
		{"", "4 lb", "r,leek,12 lb,12 lb,1 kg\n", "[load_mass 4 lb 5.44310844 kg]"},
		{"1 L", "3 kg", "r,leek,2 kg,,\nr,egg,30,,\n", "[load_mass 3 kg 3.5 kg]"}, // leeks have no density
		{"5 L", "3.5 kg", "r,leek,2 kg,,\nr,egg,30,,\n", "[]"},
		{"", "", "r,leek,9 kg,9 kg,1 kg\n", "[]"},
	} {
		g := book(t, "-- machines.csv --\nmachine,cycles,load_volume,load_mass\ndryer,100,"+c.volume+","+c.mass+`
-- receipts.csv --
receipt,date,line,kind,item,count,size,price
a,2025-01-01,1,food,leek,1,12 kg,0
a,2025-01-01,2,food,egg,90,1 ea,0
a,2025-01-01,3,food,stock,9,1 L,0
-- runs.csv --
run,machine,start,kwh
r,dryer,2025-01-02 08:00,4
-- loads.csv --
run,item,quantity,wet,dry
`+c.loads)
		var have []string
		for _, o := range g.Overloads(0) {
			have = append(have, fmt.Sprintf("%s %v %v", o.Column, o.Most, o.Loaded))
		}
		if s := fmt.Sprint(have); s != c.want {
			t.Errorf("%q in %q and %q: %s, want %s", c.loads, c.volume, c.mass, s, c.want)
		}
	}
}
