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
func PackAdvice(g *ledger.Ledger, pack int) []string {
	p := &g.Records.Packs[pack]
	var words []string
	containers := figures.ContainersOf(g, p)
	_, used := figures.AbsorbersIn(g, p)
	if dryness := drynessAdvice(g, pack, used || len(containers) > 0); dryness != "" {
		words = append(words, dryness)
	}
	if !g.Moist(pack) {
		for _, c := range containers {
			words = append(words, absorberAdvice(g, figures.AbsorbersFor(g, pack, c)))
		}
	}
	if note := packedAgainstLoaded(g, p); note != "" {
		words = append(words, note)
	}
	if p.Run == "" && p.Cost.IsZero() {
		words = append(words, "Without a run it is opening stock, and without a cost it counts as free: give its run, or what it cost.")
	}
	words = append(words, cautionsOf(g, g.Packs[pack].Food, true)...)
	return append(words, SafetyLine)
}

// absorberAdvice compares the absorbers used with those that a container
// needs.
func absorberAdvice(g *ledger.Ledger, n figures.AbsorberNeed) string {
	head := fmt.Sprintf("%s, %s: %s of gas, 20.9 %% of it oxygen, %s.", n.Container.Title(), dryText(n.Dry, n.Shared), inSmall(n.Gas, "mL"), inSmall(n.Oxygen, "cc"))
	if n.Kind == nil {
		return head + " No absorber with a capacity is among the supplies."
	}
	head += fmt.Sprintf(" It needs %v of %s (%v);", n.Need, n.Kind.Title(), n.Kind.Capacity)
	switch off := n.Used.Sub(n.Need); {
	case n.Used.IsZero():
		return head + " none is used."
	case off.Sign() < 0:
		return head + fmt.Sprintf(" %v used, %v too few: %s of oxygen stay in each.", n.Used, off.Neg(), inSmall(n.Stays, "cc"))
	case off.Sign() > 0:
		return head + fmt.Sprintf(" %v used, %v more than needed, which costs %s.", n.Used, off, phrasingOf(&g.Settings).money(n.Extra))
	}
	return head + fmt.Sprintf(" %v used, which is right.", n.Used)
}

// inSmall writes litres as mL or cc, which are the same.
func inSmall(litres exact.Ratio, unit string) string {
	return litres.Times(exact.Int(1000)).Round(2, exact.HalfAway).String() + " " + unit
}

func dryText(dry exact.Quantity, shared bool) string {
	switch {
	case shared:
		return about + dry.String() + " of dry food, by the run's weights"
	case dry.Given():
		return dry.String() + " of dry food"
	}
	return "dry weight not known"
}

// packedAgainstLoaded notes when a run's packs of a food are together far off what
// was loaded less what was lost.
func packedAgainstLoaded(g *ledger.Ledger, p *ledger.Pack) string {
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
