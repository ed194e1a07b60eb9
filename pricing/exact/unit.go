package exact

import (
	"errors"
	"fmt"
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

// String returns the dimension's name.
func (d Dimension) String() string {
	return [...]string{"nothing", "volume", "mass", "count", "energy", "power"}[d]
}

// Base returns the unit that amounts of d are kept in.
func (d Dimension) Base() Unit { return [...]Unit{NoUnit, L, Kg, Ea, KWh, W}[d] }

// A Unit is one of the units that records may use. The zero value is no unit.
type Unit uint8

// The units. Factors are exact, from NIST SP 811 appendix B and NIST Handbook
// 44 appendix C: 1 US gal = 231 in³, 1 imp gal = 4.54609 L, 1 lb = 0.45359237 kg.
const (
	NoUnit Unit = iota
	ML
	CL
	DL
	L
	CC
	FlOz
	Cup
	Pt
	Qt
	Gal
	UKFlOz
	UKPt
	UKQt
	UKGal
	G
	Kg
	Oz
	Lb
	Ea
	Doz
	Wh
	KWh
	W
	KW
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

// ParseUnit finds a unit by its exact name.
func ParseUnit(name string) (Unit, error) {
	for u := NoUnit + 1; u < unitCount; u++ {
		if units[u].name == name {
			return u, nil
		}
	}
	return NoUnit, fmt.Errorf("%w %s", ErrUnit, Quote(name))
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

// String returns the unit's name.
func (u Unit) String() string { return units[u].name }

// Dimension returns what u measures.
func (u Unit) Dimension() Dimension { return units[u].dim }

// Factor returns how many base units of its dimension one u is, exactly.
func (u Unit) Factor() Number { return units[u].factor }
