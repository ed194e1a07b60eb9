package report

import (
	"fmt"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/pricing/exact"
)

// PackLines are the lines that pack what is left of a run as [figures.FitPack]
// proposes; brief ones do not say how much is in each container where it is as last
// time.
func PackLines(g *ledger.Ledger, run int, brief bool) (list []string) {
	var rest []string
	items := g.Runs[run].Items
	for i := range items {
		fit := figures.FitPack(g, &items[i], 0)
		if fit.AsLast && len(items) == 1 {
			return []string{fit.Containers.String()} // of the only food, each as last time
		}
		text := fmt.Sprintf("%s %v", g.Foods[items[i].Food].ID, fit.Containers)
		if !fit.AsLast || !brief {
			text += " x " + g.Settings.Show().Typed(fit.Each)
		}
		if fit.Jar != nil {
			text += " with 1 " + fit.Jar.ID
		}
		if list = append(list, text); items[i].ToPack() {
			rest = append(rest, text)
		}
	}
	if len(rest) > 0 {
		return rest
	}
	return list
}

// WithJar is the jar that goes with each container of a food that was never packed; ""
// where none is proposed.
func WithJar(g *ledger.Ledger, item *ledger.ItemCost) string {
	if fit := figures.FitPack(g, item, 0); fit.Jar != nil {
		return "1 " + fit.Jar.ID
	}
	return ""
}

// PackWord is one food of a run, in so many containers or as many as it fills: chives 2 x 90 g.
func PackWord(g *ledger.Ledger, item *ledger.ItemCost, count int) string {
	fit := figures.FitPack(g, item, count)
	return fmt.Sprintf("%s %v x %s", g.Foods[item.Food].ID, fit.Containers, g.Settings.Show().Typed(fit.Each))
}

// Overfull says that a pack holds more than its jars or bags take; "" where it does
// not, or that is not known.
func Overfull(g *ledger.Ledger, p *ledger.Pack) string {
	o, over := figures.Overfilled(g, p)
	if !over {
		return ""
	}
	var jars []string
	for _, u := range o.Into {
		at, _ := g.FindSupply(u.Supply)
		words := g.Supplies[at].Title()
		if !u.Number.Equal(exact.Int(1)) {
			words = u.Number.String() + " x " + words
		}
		jars = append(jars, words)
	}
	food, show := &g.Foods[o.Food], g.Settings.Show()
	words := fmt.Sprintf("%s of %s in %s: dried pieces keep their size, and about %s goes in", show.Amount(o.Each, food.Basis), food.Title(), Listed(jars), show.Amount(o.Takes, food.Basis))
	if o.Taken {
		words += " (at 1 kg a litre, since its density is not known)"
	}
	return words
}
