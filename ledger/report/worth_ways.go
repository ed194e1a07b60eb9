package report

import (
	"fmt"
	"slices"

	"putby/ledger/figures"
	"putby/pricing"
	"putby/pricing/exact"
)

// wayNames are the ways as a table has them.
var wayNames = map[pricing.WayKind]string{
	pricing.BuyFresh: "fresh from the shelf", pricing.BuyPreserved: "the shop's preserved",
	pricing.BuyForFresh: "on offer for fresh use only", pricing.BuyAndDry: "on offer, dried", pricing.BuyAndFreeze: "on offer, frozen",
}

// wayWord is how a sentence has a way: "it costs least bought on offer and dried".
var wayWord = map[pricing.WayKind]string{
	pricing.BuyFresh: "fresh from the shelf", pricing.BuyPreserved: "preserved by the shop",
	pricing.BuyForFresh: "with the offer for what is eaten fresh alone", pricing.BuyAndDry: "bought on offer and dried",
	pricing.BuyAndFreeze: "bought on offer and frozen",
}

// waysTable sets other ways to the amount of the row shown side by side.
func (a *answer) waysTable() *Table {
	t := &Table{Columns: []Column{
		{Key: "way"}, {Title: "way"}, {Key: "cost", Title: "cost"}, {Key: "per_unit", Title: "per unit"},
	}}
	for _, w := range a.Ways.List {
		cost, perUnit := a.wayValue(w, MoneyQuotient(w.Cost)), a.wayValue(w, PriceOf(w.PerUnit, a.unit()))
		t.add(TextOf(w.Kind.String()), TextOf(wayNames[w.Kind]), cost, perUnit)
	}
	return t
}

// wayValue marks a figure of a way that rests on an estimate: of drying, and of
// months of electricity to come.
func (a *answer) wayValue(w pricing.Way, v Value) Value {
	switch w.Kind {
	case pricing.BuyAndDry:
		return a.guess(v, a.Shown)
	case pricing.BuyAndFreeze:
		return v.estimatedIf(a.Energy.Basis != figures.NotCounted)
	}
	return v
}

// cheapest names the way that costs least.
func (a *answer) cheapest() Value {
	if len(a.Ways.List) == 0 {
		return None
	}
	return TextOf(a.Ways.List[a.Ways.Cheapest].Kind.String())
}

// wayWords name the cheapest way, and what each costs per unit.
func (a *answer) wayWords() string {
	list := a.Ways.List
	if len(list) == 0 {
		return ""
	}
	price := func(w pricing.Way) string {
		said := a.price(w.PerUnit, a.unit())
		if a.wayValue(w, CountOf(0)).IsEstimate() {
			said = about + said
		}
		return said
	}
	var others []string
	for i, w := range list {
		// With nothing eaten fresh the offer changes nothing of the shelf's price.
		if i != a.Ways.Cheapest && !(w.Kind == pricing.BuyForFresh && a.costsAsFresh(w)) {
			others = append(others, wayWord[w.Kind]+" "+price(w))
		}
	}
	best := list[a.Ways.Cheapest]
	amount := a.amount(a.Shown.Amount().Round(exact.QuantityPlaces, exact.HalfEven), a.unit())
	said := fmt.Sprintf("To have %s of it costs least %s, %s.", amount, wayWord[best.Kind], price(best))
	if others != nil {
		said += " Otherwise: " + Listed(others) + "."
	}
	if z, ok := a.Ways.Freezing.Get(); ok && !z.Roomy {
		said += fmt.Sprintf(" Frozen it would take %s, and the freezer has less room free.", a.amount(z.Litres, exact.L))
	}
	return said
}

// costsAsFresh reports whether a way costs what the shelf asks.
func (a *answer) costsAsFresh(w pricing.Way) bool {
	return slices.ContainsFunc(a.Ways.List, func(v pricing.Way) bool { return v.Kind == pricing.BuyFresh && v.Cost.Cmp(w.Cost) == 0 })
}

// lackWords say what a way is left out for.
var lackWords = map[figures.WayLack]string{
	figures.NoFrozenDays: "its frozen_days", figures.NoLitres: "its density",
	figures.NoFreezerVolume: "the setting freezer_volume", figures.NoFreezerKWh: "the setting freezer_kwh_month", figures.NoFreezerPrice: "what a kWh costs in those months",
}

// leftOutWays say which ways the records do not tell of.
func (a *answer) leftOutWays() (notes []string) {
	var freezing []string
	for _, l := range a.Ways.Lacks {
		if l == figures.NoPreservedPrice {
			notes = append(notes, "no shop's preserved form of "+a.title(a.Dried)+" has a price: that way is left out")
			continue
		}
		freezing = append(freezing, lackWords[l])
	}
	if freezing != nil {
		notes = append(notes, "what it would cost frozen cannot be said without "+Listed(freezing))
	}
	return notes
}
