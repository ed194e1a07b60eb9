package report

import (
	"fmt"

	"putby/pricing"
	"putby/pricing/exact"
)

// words are the answer in sentences.
func (a *answer) words() []string {
	words := []string{a.buyNone()}
	if a.Best.Packages > 0 {
		words = []string{a.buy(), a.held()}
	}
	if w := a.roomWords(); w != "" {
		words = append(words, w)
	}
	return append(words, a.standingWords()...)
}

// buyNone says why nothing is worth buying, and what would be.
func (a *answer) buyNone() string {
	if a.Most == 0 {
		return "Buy none: " + a.noRoom() + "."
	}
	words := fmt.Sprintf("Buy none: no number of packages saves anything. %s would come closest, and lose %s.",
		sentenceCase(counted(a.shown.Packages, "package")), a.sum(a.shown.Saving.Neg(), a.shown))
	if a.shown.Saving.IsZero() {
		words = fmt.Sprintf("Buy none: no number of packages saves anything, and %s would lose nothing.", counted(a.shown.Packages, "package"))
	}
	price, n, ok := a.answerBreakEven()
	switch {
	case !ok:
	case price.Sign() > 0:
		words += fmt.Sprintf(" It begins to pay below %s a package, for %d of them.", a.sum(price, a.Row(n)), n)
	default:
		words += " It would not pay as a gift."
	}
	return words
}

// noRoom says which limits allow no package at all.
func (a *answer) noRoom() string {
	why := map[pricing.Limit]string{
		pricing.ShopLimit:    "the shop's limit allows none",
		pricing.MachineLimit: "the machine cannot dry a package before the food turns" + a.queue(),
		pricing.UseLimit:     "what is in store already covers what will be used before best-by",
	}
	var words []string
	for _, l := range a.Limits {
		words = append(words, why[l])
	}
	return listed(words)
}

// queue says what food in hand goes first.
func (a *answer) queue() string {
	if a.q.Start != "" || a.q.Cycles.Given() || len(a.waits) == 0 {
		return ""
	}
	var names []string
	for _, w := range a.waits {
		names = append(names, a.g.Foods[w.food].Title())
	}
	return " (with " + listed(names) + " in hand first; --start says otherwise)"
}

// buy says how many, what to do with them, what that saves and up to which
// price.
func (a *answer) buy() string {
	s, best := a.say(), a.Best
	var does []string
	if best.Dried.Sign() > 0 {
		does = append(does, fmt.Sprintf("dry %s in %s", s.amount(best.Dried, a.unit()), counted(best.Cycles, "cycle")))
	}
	if best.Fresh.Sign() > 0 {
		does = append(does, fmt.Sprintf("eat %s fresh", s.amount(best.Fresh, a.unit())))
	}
	words := fmt.Sprintf("Buy %d: %s. That saves %s against the shelf", best.Packages, listed(does), a.sum(best.Saving, best))
	if best.Dried.Sign() > 0 && a.sale.FreshUse.Sign() > 0 {
		words += fmt.Sprintf("; without drying it would be %s", s.money(a.WithoutDrying.Saving))
	}
	words += "."
	if price, _, ok := a.answerBreakEven(); ok {
		each := "a package"
		if a.purchase.round != nil {
			each += " on average"
		}
		words += fmt.Sprintf(" It is worth it below %s %s", a.sum(price, best), each)
		if p, ok := a.dryingBreakEven(best); ok && best.Fresh.Sign() > 0 {
			words += fmt.Sprintf(", and drying is below %s", a.sum(p, best))
		}
		words += "."
	}
	return words + a.takings() + shortWords(a.g, a.needs(best.Containers))
}

// takings says where to buy how many, when there are several visits.
func (a *answer) takings() string {
	if a.purchase.round == nil || len(a.purchase.visits) < 2 {
		return ""
	}
	var words []string
	for i, n := range a.purchase.round.Take(a.Best.Packages) {
		if n > 0 {
			price := a.purchase.visits[i].Price.Over(exact.Int(1))
			words = append(words, fmt.Sprintf("%d at %s", n, a.say().money(price)))
		}
	}
	return fmt.Sprintf(" Take %s.", listed(words))
}

// held says what keeps the answer from being more.
func (a *answer) held() string {
	if limits := a.Binding(); len(limits) > 0 {
		var words []string
		for _, l := range limits {
			words = append(words, l.String())
		}
		return fmt.Sprintf("Why not more than %d: %s.", a.Best.Packages, listed(words))
	}
	var words []string
	for _, l := range a.Limits {
		words = append(words, l.String())
	}
	next := a.Row(a.Best.Packages + 1)
	adds := "add nothing"
	if next.Marginal.Sign() < 0 {
		adds = "lose " + a.say().sum(a.marginal(next, next.Marginal.Neg()))
	}
	return fmt.Sprintf("Why not more than %d: one more would %s. %s would allow %d.",
		a.Best.Packages, adds, sentenceCase(listed(words)), a.Most)
}
