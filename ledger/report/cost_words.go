package report

import (
	"fmt"
	"strings"

	"putby/ledger"
	"putby/ledger/advice"
	"putby/ledger/figures"
	"putby/pricing/exact"
)

// noRuns says that there is no run of a kind, or none at all.
func noRuns(g *ledger.Ledger, kind string) string {
	if len(g.Records.Runs) == 0 {
		return "No run is recorded yet (how to record one: " + g.Settings.Say(advice.Do(advice.Help, "recording")) + ")."
	}
	return "No " + kind + " is recorded for that."
}

// answerOfCost says what the runs cost beside the shelf, and how many foods pay.
func (p phrasing) answerOfCost(a *figures.CostAnswer, all bool) string {
	runs := "In " + p.counted(a.Runs, "run")
	switch {
	case 0 < a.Packed && a.Packed < a.Runs:
		runs = fmt.Sprintf("In %s of %s", p.counted(a.Packed, "packed run"), p.count(a.Runs))
	case all && a.Runs > 1:
		runs = "In all " + p.counted(a.Runs, "run")
	}
	if a.Packed == 0 {
		words := runs + " nothing is packed yet"
		if a.Lost.Sign() > 0 {
			words += ", and " + p.money(a.Lost.Ratio()) + " is lost"
		}
		return words + "."
	}
	var units []string
	for i, u := range a.Units {
		on := ""
		if i == 0 {
			on = onShelf
		}
		units = append(units, p.unitAnswer(u, i == 0, on))
	}
	return runs + ": " + Listed(units) + foodsPay(a) + "."
}

// onShelf follows what a shop asks, where that has to be said.
const onShelf = " on the shelf"

// unitAnswer is what a unit costs beside the shelf: "4.12 EUR a litre against
// 6.30 on the shelf", with the currency where it is the first sum.
func (p phrasing) unitAnswer(u figures.UnitAnswer, first bool, on string) string {
	shelf, known := u.Shelf.Get()
	plain, asks := p.apart(u.PerUnit, shelf, u.Unit, known)
	cost := p.show.Locale.Amount(plain)
	if first {
		cost = p.show.Locale.Money(plain, p.currency)
	}
	words := cost + " " + p.each(u.Unit)
	if known && u.OfBatch {
		on = madeOf
	}
	if known {
		words += " against " + p.show.Locale.Amount(asks) + on
	}
	return words
}

// madeOf follows a price that is no shop's, but that of what a batch took.
const madeOf = " for what it is made of"

// apart writes in plain digits what a unit costs and what the shelf asks for it in minor digits,
// or in as many more as it takes to tell them apart.
func (p phrasing) apart(cost, shelf exact.Ratio, unit exact.Unit, both bool) (string, string) {
	factor := p.show.In(unit).Factor()
	plain := p.show.Plain()
	a, b := MoneyQuotient(cost.Times(factor)).Shown(p.currency, plain), MoneyQuotient(shelf.Times(factor)).Shown(p.currency, plain)
	if both && a == b && !cost.Equal(shelf) {
		a, b = PriceOf(cost, unit).Shown(p.currency, plain), PriceOf(shelf, unit).Shown(p.currency, plain)
	}
	return a, b
}

// foodsPay says how many foods cost less than the shelf asks, and how many do
// not.
func foodsPay(a *figures.CostAnswer) string {
	var parts []string
	switch known := a.Pays + a.PaysNot; {
	case known == 1 && a.Unpriced == 0 && a.Pays == 1:
		parts = append(parts, "it pays")
	case known == 1 && a.Unpriced == 0:
		parts = append(parts, "it does not pay")
	case known == 0:
	case a.PaysNot == 0:
		parts = append(parts, counted(a.Pays, "food")+verb(a.Pays, " pays", " pay")+", none does not")
	case a.Pays == 0:
		parts = append(parts, "no food pays")
	default:
		parts = append(parts, counted(a.Pays, "food")+verb(a.Pays, " pays", " pay"), fmt.Sprint(a.PaysNot)+verb(a.PaysNot, " does not", " do not"))
	}
	if a.Unpriced > 0 {
		parts = append(parts, counted(a.Unpriced, "food")+verb(a.Unpriced, " has", " have")+" no shelf price")
	}
	if parts == nil {
		return ""
	}
	return "; " + strings.Join(parts, ", ")
}

// verb is the form for so many.
func verb(n int, one, more string) string {
	if n == 1 {
		return one
	}
	return more
}

// eachUnit are units as sentences have them.
var eachUnit = map[string]string{
	"L": "a litre", "kg": "a kilogram", "ea": "apiece", "g": "a gram", "mL": "a millilitre", "lb": "a pound", "oz": "an ounce",
	"qt": "a quart", "pt": "a pint", "gal": "a gallon", "cup": "a cup", "doz": "a dozen",
}

// each is the unit that people are shown, as a sentence has it: "a litre".
func (p phrasing) each(u exact.Unit) string {
	name := p.show.In(u).String()
	if words, ok := eachUnit[name]; ok {
		return words
	}
	return "per " + name
}
