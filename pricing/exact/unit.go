package exact

import (
	"errors"
	"fmt"
	"strings"
)

// A Dimension is what a unit measures. Amounts of different dimensions never
// convert into each other here; litres become kilograms only through a food's
// density.
type Dimension uint8

// The dimensions, each with its base unit.
const (
	NoDimension Dimension = iota
	Volume                // L
	Mass                  // kg
	Count                 // ea
	Energy                // kWh
	Power                 // W
)

var dimensions = [...]struct {
	name string
	base Unit
}{
	NoDimension: {"nothing", NoUnit},
	Volume:      {"volume", L},
	Mass:        {"mass", Kg},
	Count:       {"count", Ea},
	Energy:      {"energy", KWh},
	Power:       {"power", W},
}

func (d Dimension) known() Dimension {
	if int(d) >= len(dimensions) {
		return NoDimension
	}
	return d
}

// String returns the dimension's name.
func (d Dimension) String() string { return dimensions[d.known()].name }

// Base returns the unit that amounts of d are kept in.
func (d Dimension) Base() Unit { return dimensions[d.known()].base }

// A Unit is one of the units that records may use. The zero value is no unit,
// and so is any value that is not one of the constants below.
type Unit uint8

// The units. Factors are exact, from NIST SP 811 appendix B and NIST Handbook
// 44 appendix C: 1 US gal = 231 in³, 1 imp gal = 4.54609 L, 1 lb = 0.45359237 kg.
const (
	NoUnit Unit = iota
	ML          // millilitre, 0.001 L
	CL          // centilitre, 0.01 L
	DL          // decilitre, 0.1 L
	L           // litre
	CC          // cubic centimetre, 0.001 L: absorbers and small jars
	FlOz        // US fluid ounce, 1/128 gal
	Cup         // US cup, 1/16 gal
	Pt          // US liquid pint, 1/8 gal
	Qt          // US liquid quart, 1/4 gal
	Gal         // US gallon, 3.785411784 L
	UKFlOz      // imperial fluid ounce, 1/160 ukgal
	UKPt        // imperial pint, 1/8 ukgal
	UKQt        // imperial quart, 1/4 ukgal
	UKGal       // imperial gallon, 4.54609 L
	G           // gram, 0.001 kg
	Kg          // kilogram
	Oz          // avoirdupois ounce, 1/16 lb
	Lb          // avoirdupois pound, 0.45359237 kg
	Ea          // each, a piece
	Doz         // dozen, 12 ea
	Wh          // watt-hour, 0.001 kWh
	KWh         // kilowatt-hour
	W           // watt
	KW          // kilowatt, 1000 W
	unitCount
)

type unitFacts struct {
	name   string
	dim    Dimension
	factor Number // base units in one of this unit
}

var units = [unitCount]unitFacts{
	NoUnit: {"", NoDimension, Int(1)},
	ML:     {"mL", Volume, New(1, 3)},
	CL:     {"cL", Volume, New(1, 2)},
	DL:     {"dL", Volume, New(1, 1)},
	L:      {"L", Volume, Int(1)},
	CC:     {"cc", Volume, New(1, 3)},
	FlOz:   {"floz", Volume, New(295735295625, 13)},
	Cup:    {"cup", Volume, New(2365882365, 10)},
	Pt:     {"pt", Volume, New(473176473, 9)},
	Qt:     {"qt", Volume, New(946352946, 9)},
	Gal:    {"gal", Volume, New(3785411784, 9)},
	UKFlOz: {"ukfloz", Volume, New(284130625, 10)},
	UKPt:   {"ukpt", Volume, New(56826125, 8)},
	UKQt:   {"ukqt", Volume, New(11365225, 7)},
	UKGal:  {"ukgal", Volume, New(454609, 5)},
	G:      {"g", Mass, New(1, 3)},
	Kg:     {"kg", Mass, Int(1)},
	Oz:     {"oz", Mass, New(28349523125, 12)},
	Lb:     {"lb", Mass, New(45359237, 8)},
	Ea:     {"ea", Count, Int(1)},
	Doz:    {"doz", Count, Int(12)},
	Wh:     {"Wh", Energy, New(1, 3)},
	KWh:    {"kWh", Energy, Int(1)},
	W:      {"W", Power, Int(1)},
	KW:     {"kW", Power, Int(1000)},
}

// ErrUnit is what every error of [ParseUnit] is.
var ErrUnit = errors.New("unknown unit")

// ParseUnit finds a unit by its exact name: capitals matter, since W is not w.
func ParseUnit(name string) (Unit, error) {
	if u, ok := unitByName[name]; ok {
		return u, nil
	}
	return NoUnit, fmt.Errorf("%w %s: %s", ErrUnit, Quote(name), unitHint(name))
}

var unitByName = func() map[string]Unit {
	names := make(map[string]Unit, unitCount)
	for u := NoUnit + 1; u < unitCount; u++ {
		names[units[u].name] = u
	}
	return names
}()

// unitHint names the unit that differs only in capitals, or all of them.
func unitHint(name string) string {
	var names []string
	for _, facts := range units[1:] {
		if strings.EqualFold(facts.name, name) {
			return "write " + facts.name
		}
		names = append(names, facts.name)
	}
	return "the units are " + strings.Join(names, " ")
}

// Units returns the units of a dimension in the order above.
func Units(d Dimension) []Unit {
	var list []Unit
	for u := NoUnit + 1; u < unitCount; u++ {
		if units[u].dim == d {
			list = append(list, u)
		}
	}
	return list
}

func (u Unit) facts() *unitFacts {
	if u >= unitCount {
		u = NoUnit
	}
	return &units[u]
}

// String returns the unit's name; no unit has none.
func (u Unit) String() string { return u.facts().name }

// Dimension returns what u measures.
func (u Unit) Dimension() Dimension { return u.facts().dim }

// Factor returns how many base units of its dimension one u is, exactly.
func (u Unit) Factor() Number { return u.facts().factor }
