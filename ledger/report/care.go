package report

import (
	"fmt"
	"slices"
	"strings"

	"putby/ledger"
	"putby/ledger/nutrients"
	"putby/pricing/exact"
)

// SafetyLine stands wherever somebody might take a figure for a promise.
const SafetyLine = "Putby counts money; it does not say that food is safe: follow the makers' manuals and your food-safety authority."

// MachineCare is what to heed with a freeze-dryer, in lines of a terminal: where
// one is added, where a run is taught and where one begins.
const MachineCare = `Caution: a freeze-dryer is a mains appliance with a vacuum pump. Give it an
earthed socket of its own that bears its current; never open it under vacuum;
let hot pump oil cool before you drain it; unplug it before service. Its maker's
manual and local rules come first.`

// MachineCaution is [MachineCare] as one paragraph, which the caller breaks at a
// screen's width.
func MachineCaution() string { return strings.ReplaceAll(MachineCare, "\n", " ") }

// cautions returns the cautions of foods, each food's together, in file order.
func cautions(g *ledger.Ledger, reported func(food int) bool) []string {
	return cautionsOfAll(g, reported, func(int) bool { return false })
}

// cautionsOfAll are those of foods, some of which are about to be dried.
func cautionsOfAll(g *ledger.Ledger, reported, toDry func(food int) bool) (notes []string) {
	for food := range g.Foods {
		if reported(food) {
			notes = append(notes, cautionsOf(g, food, toDry(food))...)
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
	if words := FatCaution(f, g.Settings.Show()); words != "" && (toDry || isDried(g, food)) {
		notes = append(notes, caution(f, words))
	}
	return notes
}

// careOf are the cautions of the food of a decision, as bought and as dried, and
// that the decision says nothing of safety.
func careOf(g *ledger.Ledger, bought, dried int) []string {
	return append(cautionsFor(g, bought, dried), SafetyLine)
}

// cautionsFor are those of the food of a decision.
func cautionsFor(g *ledger.Ledger, bought, dried int) []string {
	notes := cautionsOf(g, dried, true)
	if bought != dried {
		notes = append(notes, cautionsOf(g, bought, false)...)
	}
	return notes
}

// careOfAll is for foods of several decisions, some of which are dried: what of them is
// thrown away, their cautions, and that the decisions say nothing of safety.
func careOfAll(g *ledger.Ledger, reported, dried func(food int) bool) []string {
	return append(append(refuses(g, reported), cautionsOfAll(g, reported, dried)...), SafetyLine)
}

// aCaution is how a caution about a food begins.
const aCaution = "Caution, "

// caution words a caution about a food.
func caution(f *ledger.Food, words string) string { return aCaution + f.Title() + ": " + words }

// CautionOf takes a line apart that is a caution, about a food or about none; false
// where it is no caution.
func CautionOf(line string) (food, words string, ok bool) {
	head, words, ok := strings.Cut(line, ": ")
	food, is := strings.CutPrefix(head, aCaution)
	if head == "Caution" { // of the machine
		return "", words, ok
	}
	return food, words, ok && is
}

// FatCaution says of a food rich in fat what that does to it in store. Of one
// whose fat or water is not known it says nothing.
func FatCaution(f *ledger.Food, s ledger.Show) string {
	if !f.RichInFat() {
		return ""
	}
	part := ""
	if percent, ok := f.FatOfDry(); ok {
		part = fmt.Sprintf(" (%s of its dry matter)", s.Locale.Percent(percent.Round(0, exact.Up).String()))
	}
	if saysFatTurns(f) {
		return "Rich in fat" + part + ": do not store on absorbers alone."
	}
	return "Rich in fat" + part + ": turns rancid, often before its best-by. Eat soon, do not store on absorbers alone."
}

// saysFatTurns reports whether a food's own caution says already what fat does, and by
// when to eat.
func saysFatTurns(f *ledger.Food) bool {
	own := strings.ToLower(f.Caution)
	return (strings.Contains(own, "rancid") || strings.Contains(own, "fat turns")) && strings.Contains(own, "eat ")
}

// isDried reports whether a food was ever loaded or packed, so that its
// cautions for the store concern the household.
func isDried(g *ledger.Ledger, food int) bool {
	if slices.ContainsFunc(g.Packs, func(p ledger.PackCost) bool { return p.Food == food }) {
		return true
	}
	for i := range g.Records.Loads.Len() {
		if g.Records.Loads.At(i).Item == g.Foods[food].ID {
			return true
		}
	}
	return false
}

// TableCaution is the caution that is proposed for a food of the open table;
// empty where its kind asks for none. They are the usual ones: drying does not
// kill pathogens (Purdue Extension); food that needs cooking is cooked before
// drying or before eating (University of Idaho and Iowa State Extension); what
// is low in acid must stay dry while it is sealed (21 CFR 114.3).
func TableCaution(f nutrients.Food) string { return tableCautions[f.Group()] }

var tableCautions = [...]string{
	nutrients.Meat:    "Meat: drying kills no germs. Cook it through before drying or before eating; never taste it raw.",
	nutrients.Poultry: "Poultry: drying does not kill salmonella. Cook it through before drying or before eating; never taste it raw.",
	nutrients.Fish:    "Fish: drying kills no germs. Cook it through before drying or before eating; never taste it raw.",
	nutrients.Egg:     "Egg: drying does not kill salmonella. Cook until set; never taste it raw.",
	nutrients.Dairy:   "Milk: dry only what is pasteurised. Once wetted, keep it cold and treat it as fresh.",
	nutrients.LowAcid: "Low in acid: keep it bone dry and sealed. Once wetted, treat it as fresh.",
	nutrients.Soup:    "Low in acid: keep it bone dry and sealed. Bring it to a rolling boil before eating.",
}
