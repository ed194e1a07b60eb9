package report

import (
	"fmt"
	"slices"

	"putby/ledger/figures"
	"putby/pricing"
	"putby/pricing/exact"
)

// words are the answer in sentences.
func (a *answer) words() []string {
	words := []string{"Buy none" + a.where("for", a.Dryer.Machine) + ": " + a.whyNone()}
	if a.Best.Packages > 0 {
		words = []string{a.buy() + a.crowding() + a.otherMachine(), a.held()}
	}
	return slices.Concat(words, filled(a.fillingWords(), a.wayWords()), a.standingWords())
}

// whyNone says why nothing is worth buying, and what would be.
func (a *answer) whyNone() string {
	if a.Most == 0 {
		return noRoom(a.Limits, a.queue()) + "." + a.ifFrozen() + a.otherMachine()
	}
	words := fmt.Sprintf("no number of packages saves anything. %s would come closest, and lose %s.",
		sentenceCase(counted(a.Shown.Packages, "package")), a.sumOf(a.Shown.Saving.Neg(), a.Shown))
	if a.Shown.Saving.IsZero() {
		words = fmt.Sprintf("no number of packages saves anything, and %s would lose nothing.", counted(a.Shown.Packages, "package"))
	}
	even, ok := a.BreakEven.Get()
	switch {
	case !ok:
	case even.Price.Sign() > 0:
		words += fmt.Sprintf(" It begins to pay below %s a package, for %d of them.", a.sumOf(even.Price, a.Row(even.Packages)), even.Packages)
	case a.LittleUse:
		words += a.littleUse()
	default:
		words += " Drying does not pay even if the packages were free."
	}
	return words + a.otherMachine()
}

// otherMachine says which machine would save more, and how to ask about it.
func (a *answer) otherMachine() string {
	other, ok := a.Other.Get()
	if !ok {
		return ""
	}
	saves := a.sum(MoneyQuotient(other.Saving).estimatedIf(other.Guessed))
	if a.Best.Packages > 0 && saves == a.sumOf(a.Best.Saving, a.Best) {
		return "" // by less than is shown
	}
	return " " + a.g.Machines[other.Machine].Title() + " would save " + saves + ": " + a.names.of("machine") + " " + a.g.Machines[other.Machine].ID + "."
}

// ifFrozen says how many to buy if they waited in the freezer.
func (a *answer) ifFrozen() string {
	f, ok := a.IfFrozen.Get()
	if !ok {
		return ""
	}
	return fmt.Sprintf(" Kept frozen until its turn it would pay to buy %d, which saves %s: %s.",
		f.Best.Packages, a.sum(MoneyQuotient(f.Best.Saving).estimatedIf(f.Guessed)), a.names.of("frozen"))
}

// crowding says that the freezer has no room for what is bought, and what it has room for.
func (a *answer) crowding() string {
	c, ok := a.Crowding.Get()
	if !ok {
		return ""
	}
	return fmt.Sprintf(" But frozen it takes %s, and the freezer has %s free: it has room for %s (%s).",
		a.amount(c.Litres, exact.L), a.amount(c.Free, exact.L), counted(c.Packages, "package"), a.names.of("limit"))
}

// littleUse says that so little will be used in time that no run of it pays, and
// with how much used a month one would.
func (a *answer) littleUse() string {
	month, _ := a.Use.Month.Get()
	amounts := a.show.Amounts(a.unit(), a.Use.Held(), month.Round(exact.QuantityPlaces, exact.HalfEven))
	words := " "
	switch {
	case a.Use.Held().IsZero():
	case len(a.Use.NotYetPacked) > 0:
		words += amounts[0] + " is in store or will be packed first, and "
	default:
		words += amounts[0] + " is in store, and "
	}
	if !a.Query.Use.Given() {
		words += about
	}
	words += fmt.Sprintf("%s a month is used: no more than %s would be used before best-by, and a run of so little costs more than the shelf asks.",
		amounts[1], counted(a.Most, "package"))
	for _, c := range a.Changes {
		if flip, ok := c.Above.Get(); ok && c.Of == figures.UsedMonth {
			words += fmt.Sprintf(" With %s used a month (%s) it would pay to buy %d.", a.atLeast(flip.At, a.unit()), a.names.of("use"), flip.Packages)
		}
	}
	return words
}

// noRoom says which limits allow no package at all; queue is what stands behind
// the machine's.
func noRoom(limits []pricing.Limit, queue string) string {
	why := map[pricing.Limit]string{
		pricing.ShopLimit:    "the shop's limit allows none",
		pricing.MachineLimit: "the machine cannot dry a package before the food turns" + queue,
		pricing.UseLimit:     "what is in store already covers what will be used before best-by",
	}
	return Listed(worded(limits, func(l pricing.Limit) string { return why[l] }))
}

// queue says what food in hand goes first.
func (a *answer) queue() string {
	if a.Queue.Asked || a.Query.Cycles.Given() || len(a.Queue.First) == 0 {
		return ""
	}
	names := worded(a.Queue.First, func(w figures.Waiting) string { return a.title(w.Food) })
	return " (with " + Listed(names) + " in hand first; " + a.names.given(figures.StartFact) + " says otherwise)"
}

// buy says how many, what to do with them, what that saves and up to which
// price.
func (a *answer) buy() string {
	best := a.Best
	var does []string
	if best.Dried.Sign() > 0 {
		does = append(does, fmt.Sprintf("dry %s in %s%s", a.amount(best.Dried, a.unit()), counted(best.Cycles, "run"), a.where("of", a.Dryer.Machine)))
	}
	if best.Fresh.Sign() > 0 {
		does = append(does, fmt.Sprintf("eat %s fresh", a.amount(best.Fresh, a.unit())))
	}
	words := fmt.Sprintf("Buy %d: %s. That saves %s against the shelf", best.Packages, Listed(does), a.sumOf(best.Saving, best))
	if best.Dried.Sign() > 0 && a.Sale.FreshUse.Sign() > 0 {
		words += fmt.Sprintf("; without drying it would be %s", a.money(a.WithoutDrying.Saving))
	}
	words += "."
	if even, ok := a.BreakEven.Get(); ok {
		each := "a package"
		if a.Purchase.Round != nil {
			each += " on average"
		}
		words += a.paysBelow(even.Price, each)
	}
	return words + a.takings() + a.shortWords(a.Needs)
}

// paysBelow says up to which price of a package the answer pays, and where another
// number of them pays at a higher one, up to which.
func (a *answer) paysBelow(even exact.Ratio, each string) string {
	minor, best := a.currency.Minor(), a.Best
	drying, fresh := a.Drying.Get()
	fresh = fresh && best.Fresh.Sign() > 0
	top, _ := a.Highest.Get()
	most := top.Price.Round(minor, exact.Down) // as the card has it
	if even.Round(minor, exact.HalfAway).Less(most) {
		words := fmt.Sprintf(" This number breaks even at %s %s", a.sumOf(even, best), each)
		if fresh {
			words += fmt.Sprintf(", and drying at %s", a.sumOf(drying, best))
		}
		return words + fmt.Sprintf("; above %s no number saves.", a.sumOf(exact.RatioOf(most), a.Row(top.Packages)))
	}
	words := fmt.Sprintf(" It is worth it below %s %s", a.sumOf(even, best), each)
	if fresh {
		words += fmt.Sprintf(", and drying is below %s", a.sumOf(drying, best))
	}
	return words + "."
}

// takings says where to buy how many, when there are several visits.
func (a *answer) takings() string {
	if a.Purchase.Round == nil || len(a.Offering.Visits) < 2 {
		return ""
	}
	var words []string
	for i, n := range a.Purchase.Round.Take(a.Best.Packages) {
		if n > 0 {
			words = append(words, fmt.Sprintf("%d at %s", n, a.money(exact.RatioOf(a.Offering.Visits[i].Price))))
		}
	}
	return fmt.Sprintf(" Take %s.", Listed(words))
}

// held says what keeps the answer from being more.
func (a *answer) held() string {
	if limits := a.Binding(); len(limits) > 0 {
		return fmt.Sprintf("Why not more than %d: %s.", a.Best.Packages, Listed(worded(limits, pricing.Limit.String)))
	}
	next := a.Row(a.Best.Packages + 1)
	adds := "add nothing"
	if next.Marginal.Sign() < 0 {
		adds = "lose " + a.sum(a.gain(next, next.Marginal.Neg()))
	}
	return fmt.Sprintf("Why not more than %d: one more would %s. %s would allow %d.",
		a.Best.Packages, adds, sentenceCase(Listed(worded(a.Limits, pricing.Limit.String))), a.Most)
}

// fillingWords say what would fill the last cycle, where its room is worth a
// second food.
func (a *answer) fillingWords() string {
	f, ok := a.Filling.Get()
	if !ok || a.Best.Packages == 0 || !f.Helps(a.Sale.Load) {
		return ""
	}
	what := "a second food"
	if f.Food >= 0 {
		food := &a.g.Foods[f.Food]
		what = fmt.Sprintf("the %s of %s in hand", a.amount(f.Takes, food.Basis), food.Title())
	}
	if worth, loses := f.Worth.Get(); loses {
		return fmt.Sprintf("The last run has room for %s more: %s, worth %s at the shelf, does not pay for a run of its own and can go along.",
			a.amount(f.Spare, a.unit()), what, a.money(worth))
	}
	return fmt.Sprintf("The last run has room for %s more: filling it with %s, instead of a run of its own, saves %s.",
		a.amount(f.Spare, a.unit()), what, a.sumOf(f.Saves.Ratio(), a.Shown))
}
