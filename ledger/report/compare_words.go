package report

import (
	"fmt"
	"strings"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/pricing/exact"
)

// answerOfCompare says which foods to stop drying, and which pays most.
func (p phrasing) answerOfCompare(g *ledger.Ledger, c *figures.CompareResult) string {
	a := c.Answer()
	switch {
	case len(c.Foods) == 0:
		return "Nothing is packed yet."
	case a.Priced == 0:
		return "No shelf price is known, so nothing tells which food pays."
	}
	name := func(i int) string { return g.Foods[c.Foods[i].Food].Title() }
	loss := func(i int) string {
		saving, _ := c.Foods[i].SavingPerUnit().Get()
		unit := c.Foods[i].Unit
		lost := saving.Neg().Times(p.show.In(unit).Factor())
		words := p.money(lost)
		if p.figure(lost) == p.figure(lost.Sub(lost)) { // less than it takes to show any
			words = "a little"
		}
		return words + " " + p.each(unit)
	}
	var parts []string
	if len(a.Stop) > 0 {
		first := "Stop drying " + name(a.Stop[0]) + ": " + loss(a.Stop[0]) + " is lost"
		for _, i := range a.Stop[1:] {
			first += "; and " + name(i) + ": " + loss(i)
		}
		parts = append(parts, first)
	}
	if len(a.Dear) > 0 {
		var list []string
		for _, i := range a.Dear {
			list = append(list, name(i)+" by "+loss(i))
		}
		parts = append(parts, Listed(list)+verb(len(a.Dear), " costs", " cost")+" more than on the shelf, for wear and labour alone")
	}
	if len(a.Above) > 0 {
		var list []string
		for _, i := range a.Above {
			list = append(list, name(i)+" costs "+loss(i)+" more than what it is made of")
		}
		parts = append(parts, Listed(list)+" (a shop's price tells whether that pays: putby price add)")
	}
	if parts == nil {
		parts = append(parts, "No food costs more than on the shelf")
	}
	switch {
	case a.Best >= 0:
		earns := name(a.Best) + " earns most, " + p.money(a.PerRun) + " a run"
		if one := exact.RatioOf(exact.Int(1)); a.Of.Cmp(one) < 0 {
			earns += " (from " + p.number(a.Of.Round(2, exact.HalfAway)) + " of a run)"
		}
		parts = append(parts, earns)
	case a.Lossy >= 0:
		f := &c.Foods[a.Lossy]
		saving, _ := f.SavingPerUnit().Get()
		earned, _ := f.Measure(figures.EarnedPerRun).Get()
		parts = append(parts, fmt.Sprintf("%s %s of %s is saved, but with all that was lost of it a run loses %s",
			p.money(saving.Times(p.show.In(f.Unit).Factor())), p.each(f.Unit), name(a.Lossy), p.money(earned.Neg())))
	default:
		parts = append(parts, "no food earns anything")
	}
	return sentenceCase(strings.Join(parts, "; ")) + "."
}
