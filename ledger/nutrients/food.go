package nutrients

import (
	"cmp"
	"slices"
	"strings"

	"putby/pricing/exact"
)

// Source names the table and its release. Whatever shows a figure of this
// package prints it.
const Source = "USDA National Nutrient Database for Standard Reference, Release 28 (public domain)"

// A Food is one food of the table. Foods are shared: callers must not change
// the slice of measures.
type Food struct {
	NDB         string                  // number in the release, five digits
	Description string                  // the release's own short description
	Water       exact.Opt[exact.Number] // g in 100 g, so % by weight
	Kcal        exact.Opt[exact.Number] // in 100 g
	Protein     exact.Opt[exact.Number] // g in 100 g
	Fat         exact.Opt[exact.Number] // g in 100 g
	Refuse      exact.Opt[exact.Number] // % of the weight bought that is thrown away
	Measures    []Measure               // household measures, in the order of the release
}

// Get returns the food with an NDB number, with or without leading zeros, and
// whether there is one.
func Get(ndb string) (Food, bool) {
	if len(ndb) < 5 {
		ndb = strings.Repeat("0", 5-len(ndb)) + ndb
	}
	foods := table()
	at, ok := slices.BinarySearchFunc(foods, ndb, func(f Food, ndb string) int { return cmp.Compare(f.NDB, ndb) })
	if !ok {
		return Food{}, false
	}
	return foods[at], true
}

// Dry returns what 1 kg of the food weighs once it is dried to a residual
// moisture in %, in kg: solids / (1 - moisture). It reports false where the
// table does not give the food's water, or moisture is not from 0 to under 100.
func (f Food) Dry(moisture exact.Number) (exact.Ratio, bool) {
	water, ok := f.Water.Get()
	hundred := exact.Int(100)
	if !ok || moisture.Sign() < 0 || !moisture.Less(hundred) {
		return exact.Ratio{}, false
	}
	return hundred.Sub(water).Over(hundred.Sub(moisture)), true
}
