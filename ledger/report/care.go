package report

import (
	"fmt"

	"putby/ledger"
	"putby/pricing/exact"
)

// SafetyLine stands wherever somebody might take a figure for a promise.
const SafetyLine = "Putby counts money; it does not say that food is safe: follow the makers' manuals and your food-safety authority."

// cautions returns the cautions of foods, each food's together, in file order.
func cautions(g *ledger.Ledger, reported func(food int) bool) []string {
	var notes []string
	for i := range g.Foods {
		if reported(i) {
			notes = append(notes, cautionsOf(g, i, false)...)
		}
	}
	return notes
}

// cautionsOf are a food's cautions: its own, and that of fat where it is dried
// or is about to be.
func cautionsOf(g *ledger.Ledger, food int, toDry bool) []string {
	f := &g.Foods[food]
	var notes []string
	if f.Caution != "" {
		notes = append(notes, caution(f, f.Caution))
	}
	if words := fatCaution(f); words != "" && (toDry || isDried(g, food)) {
		notes = append(notes, caution(f, words))
	}
	return notes
}

// caution words a caution about a food.
func caution(f *ledger.Food, words string) string { return "Caution, " + f.Title() + ": " + words }

// mostFat is how much of the dry matter may be fat, in %, before a food is said
// to turn rancid: a fifth. The line is this project's own; extension guidance
// says only that food stored with oxygen absorbers is low in oil.
var mostFat = exact.Int(20)

// fatCaution says of a food rich in fat what that does to it in store. Of one
// whose fat or water is not known it says nothing.
func fatCaution(f *ledger.Food) string {
	fat, known := f.Fat.Get()
	water, ok := f.Water.Get()
	hundred := exact.Int(100)
	dry := hundred.Sub(water)
	if !known || !ok || !mostFat.Mul(dry).Less(fat.Mul(hundred)) {
		return ""
	}
	part := ""
	if !dry.Less(fat) { // else the figures do not fit, but fat it is
		part = fmt.Sprintf(" (%v %% of its dry matter)", fat.Mul(hundred).Over(dry).Round(0, exact.Up))
	}
	return "Rich in fat" + part + ": turns rancid. Eat soon, do not store on absorbers alone."
}

// isDried reports whether a food was ever loaded or packed, so that its
// cautions for the store concern the household.
func isDried(g *ledger.Ledger, food int) bool {
	for i := range g.Packs {
		if g.Packs[i].Food == food {
			return true
		}
	}
	for i := range g.Records.Loads {
		if g.Records.Loads[i].Item == g.Foods[food].ID {
			return true
		}
	}
	return false
}
