package report

import (
	"fmt"
	"strings"

	"putby/ledger/advice"
	"putby/ledger/figures"
	"putby/pricing/exact"
)

// answerOfCompare says which foods to stop drying, and which pays most.
func answerOfCompare(r reporting, c *figures.CompareResult) string {
	a := c.Answer()
	switch {
	case len(c.Foods) == 0:
		return "Nothing is packed yet."
	case a.Priced == 0:
		return "No shelf price is known, so nothing tells which food pays."
	}
	w := compareWords{r, c}
	parts := w.dear(&a)
	if parts == nil {
		parts = []string{"No food costs more than on the shelf"}
	}
	return sentenceCase(strings.Join(append(parts, w.best(&a)), "; ")) + "."
}

// compareWords put a comparison in words. Its foods are positions in Foods of the
// result.
type compareWords struct {
	reporting
	c *figures.CompareResult
}

func (w compareWords) name(i int) string { return w.title(w.c.Foods[i].Food) }

// loss is what a unit of a food loses.
func (w compareWords) loss(i int) string {
	saving, _ := w.c.Foods[i].SavingPerUnit().Get()
	unit := w.c.Foods[i].Unit
	lost := saving.Neg().Times(w.show.In(unit).Factor())
	words := w.money(lost)
	if w.figure(lost) == w.figure(exact.Ratio{}) { // less than it takes to show any
		words = "a little"
	}
	return words + " " + w.each(unit)
}

// list lists foods with what a unit of each loses.
func (w compareWords) list(foods []int, between, behind string) string {
	return Listed(worded(foods, func(i int) string { return w.name(i) + between + w.loss(i) + behind }))
}

// dear says which foods cost more than they need.
func (w compareWords) dear(a *figures.CompareAnswer) (parts []string) {
	if len(a.Stop) > 0 {
		first := "Stop drying " + w.name(a.Stop[0]) + ": " + w.loss(a.Stop[0]) + " is lost"
		for _, i := range a.Stop[1:] {
			first += "; and " + w.name(i) + ": " + w.loss(i)
		}
		parts = append(parts, first)
	}
	if len(a.Dear) > 0 {
		parts = append(parts, w.list(a.Dear, " by ", "")+verb(len(a.Dear), " costs", " cost")+" more than on the shelf, for wear and labour alone")
	}
	if len(a.Above) > 0 {
		parts = append(parts, w.list(a.Above, " costs ", " more than what it is made of")+" (a shop's price tells whether that pays: "+w.say(advice.AddPrice)+")")
	}
	return parts
}

// ofRun is a part of a run.
func (w compareWords) ofRun(part exact.Ratio) string {
	return w.number(part.Round(2, exact.HalfAway)) + " of a run"
}

// best says which food earns most, or why none earns anything.
func (w compareWords) best(a *figures.CompareAnswer) string {
	switch {
	case a.Best >= 0:
		earns := w.name(a.Best) + " earns most, " + w.money(a.PerRun) + " a run"
		if one := exact.RatioOf(exact.Int(1)); a.Of.Cmp(one) < 0 {
			return earns + " (from " + w.ofRun(a.Of) + ")"
		}
		if a.Part >= 0 {
			part := &w.c.Foods[a.Part]
			earned, _ := part.Measure(figures.EarnedPerRun).Get()
			return "of the foods that filled a run, " + earns + " (" + w.name(a.Part) + ", in " + w.ofRun(part.Earned.Whole) + ", comes to " + w.figure(earned) + " for a whole one)"
		}
		return earns
	case a.Lossy >= 0:
		f := &w.c.Foods[a.Lossy]
		saving, _ := f.SavingPerUnit().Get()
		earned, _ := f.Measure(figures.EarnedPerRun).Get()
		return fmt.Sprintf("%s %s of %s is saved, but with all that was lost of it a run loses %s",
			w.money(saving.Times(w.show.In(f.Unit).Factor())), w.each(f.Unit), w.name(a.Lossy), w.money(earned.Neg()))
	}
	return "no food earns anything"
}
