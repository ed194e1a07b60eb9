package report

import (
	"fmt"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/pricing/exact"
)

// PackAdvice says what a person at the bench should know of a pack, which is
// among the ledger's records: how dry it is, and if it is dry how many
// absorbers its containers need beside those used, whether the run's packs are
// far off what was loaded, whether it counts as free, the food's cautions, and
// that none of this says that food is safe.
func PackAdvice(g *ledger.Ledger, pack int) (words []Remark) {
	p := g.Records.Packs.At(pack)
	containers := figures.ContainersOf(g, &p)
	_, used := figures.AbsorbersIn(g, &p)
	if dryness := drynessAdvice(g, pack, used || len(containers) > 0); dryness != (Remark{}) {
		words = append(words, dryness)
	}
	if !g.Moist(pack) {
		for _, c := range containers {
			words = append(words, Remark{Words: absorberAdvice(g, figures.AbsorbersFor(g, pack, c))})
		}
	}
	words = append(words, Remarks(filled(PackedAgainstLoaded(g, &p))...)...)
	if p.Run == "" && p.Cost.IsZero() {
		words = append(words, Remark{Words: "Without a run it is opening stock, and without a cost it counts as free: give its run, or what it cost."})
	}
	words = append(words, cautionsOf(g, g.Packs[pack].Food, true)...)
	return append(words, Safety)
}

// absorberAdvice compares the absorbers used with those that a container
// needs.
func absorberAdvice(g *ledger.Ledger, n figures.AbsorberNeed) string {
	say := phrasingOf(&g.Settings)
	head := fmt.Sprintf("%s, %s: %s of gas, %s of it oxygen, %s.", n.Container.Title(), say.dryText(n.Dry, n.Shared), say.inSmall(n.Gas, "mL"), say.percents(exact.MustNumber("20.9")), say.inSmall(n.Oxygen, "cc"))
	if n.Kind == nil {
		return head + " No absorber with a capacity is among the supplies."
	}
	head += fmt.Sprintf(" It needs %v of %s (%s);", n.Need, n.Kind.Title(), say.quantity(n.Kind.Capacity))
	switch off := n.Off(); {
	case n.Used.IsZero():
		return head + " none is used."
	case off.Sign() < 0:
		return head + fmt.Sprintf(" %s used, %s too few: %s of oxygen stay in each.", say.number(n.Used), say.number(off.Neg()), say.inSmall(n.Stays, "cc"))
	case off.Sign() > 0:
		return head + fmt.Sprintf(" %s used, %s more than needed, which costs %s.", say.number(n.Used), say.number(off), say.money(n.Extra))
	}
	return head + fmt.Sprintf(" %s used, which takes up that oxygen.", say.number(n.Used))
}

// inSmall writes litres as mL or cc, which are the same.
func (p phrasing) inSmall(litres exact.Ratio, unit string) string {
	return p.number(litres.Times(exact.Int(1000)).Round(2, exact.HalfAway)) + " " + unit
}

func (p phrasing) dryText(dry exact.Quantity, shared bool) string {
	switch {
	case shared:
		return about + p.quantity(dry) + " of dry food, by the run's weights"
	case dry.Given():
		return p.quantity(dry) + " of dry food"
	}
	return "dry weight not known"
}

// PackedAgainstLoaded notes when a run's packs of a food are together far off what
// was loaded less what was lost.
func PackedAgainstLoaded(g *ledger.Ledger, p *ledger.Pack) string {
	run, ok := g.FindRun(p.Run)
	food, known := g.FindFood(p.Item)
	if !ok || !known {
		return ""
	}
	made, want, off := figures.PackedOff(g, run, food)
	if !off {
		return ""
	}
	amounts := g.Settings.Show().Amounts(g.Foods[food].Basis, made, want)
	return fmt.Sprintf("The packs of %s from run %s give %s together; %s was loaded less what was lost.", g.Foods[food].Title(), p.Run, amounts[0], amounts[1])
}
