package report

import (
	"fmt"
	"slices"
	"strings"

	"putby/ledger"
	"putby/ledger/nutrients"
	"putby/pricing/exact"
)

// A Remark is a sentence that goes with figures or with what is recorded. A caution is
// one that a person must not pass over.
type Remark struct {
	Words   string
	Caution bool
	Food    string // whose caution it is, by its title; "": of no one food
}

// String is the remark as a line.
func (r Remark) String() string {
	switch {
	case !r.Caution:
		return r.Words
	case r.Food == "":
		return "Caution: " + r.Words
	}
	return "Caution, " + r.Food + ": " + r.Words
}

// Remarks are sentences that are no cautions.
func Remarks(sentences ...string) []Remark {
	list := make([]Remark, len(sentences))
	for i, words := range sentences {
		list[i].Words = words
	}
	return list
}

// Lines are remarks as lines.
func Lines(list []Remark) []string {
	lines := make([]string, len(list))
	for i, r := range list {
		lines[i] = r.String()
	}
	return lines
}

// Safety is SafetyLine among cautions.
var Safety = Remark{Words: SafetyLine}

// SafetyLine stands wherever somebody might take a figure for a promise.
const SafetyLine = "Putby counts money; it does not say that food is safe: follow the makers' manuals and your food-safety authority."

// MachineCare is what to heed with a freeze-dryer, in lines of a terminal: where
// one is added, where a run is taught and where one begins.
const MachineCare = "Caution: " + machineCare

const machineCare = `a freeze-dryer is a mains appliance with a vacuum pump. Give it an
earthed socket of its own that bears its current; never open it under vacuum;
let hot pump oil cool before you drain it; unplug it before service. Its maker's
manual and local rules come first.`

// MachineCaution is [MachineCare] as one paragraph, which the caller breaks at a
// screen's width.
func MachineCaution() Remark {
	return Remark{Words: strings.ReplaceAll(machineCare, "\n", " "), Caution: true}
}

// cautions returns the cautions of foods, each food's together, in file order.
func cautions(g *ledger.Ledger, reported func(food int) bool) []Remark {
	return cautionsOfAll(g, reported, func(int) bool { return false })
}

// cautionsOfAll are those of foods, some of which are about to be dried.
func cautionsOfAll(g *ledger.Ledger, reported, toDry func(food int) bool) (notes []Remark) {
	for food := range g.Foods {
		if reported(food) {
			notes = append(notes, cautionsOf(g, food, toDry(food))...)
		}
	}
	return notes
}

// cautionsOf are a food's cautions: its own, and that of fat where it is dried
// or is about to be.
func cautionsOf(g *ledger.Ledger, food int, toDry bool) []Remark {
	f := &g.Foods[food]
	var notes []Remark
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
func careOf(g *ledger.Ledger, bought, dried int) []Remark {
	notes := cautionsOf(g, dried, true)
	if bought != dried {
		notes = append(notes, cautionsOf(g, bought, false)...)
	}
	return append(notes, Safety)
}

// careOfAll is for foods of several decisions, some of which are dried: their cautions, and
// that the decisions say nothing of safety.
func careOfAll(g *ledger.Ledger, reported, dried func(food int) bool) []Remark {
	return append(cautionsOfAll(g, reported, dried), Safety)
}

// caution is a caution about a food.
func caution(f *ledger.Food, words string) Remark { return Remark{words, true, f.Title()} }

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
