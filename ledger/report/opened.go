package report

import (
	"fmt"

	"putby/ledger"
	"putby/pricing/exact"
)

// PastDue says of each pack that is opened on a day after its best-by date that
// it is, and by how much.
func PastDue(g *ledger.Ledger, day exact.Date, packs ...string) (words []Remark) {
	for _, i := range packsNamed(g, packs) {
		if by := g.Packs[i].BestBy; by != exact.NoDate && by < day {
			words = append(words, caution(&g.Foods[g.Packs[i].Food], fmt.Sprintf("Pack %s was best by %s, %s before. Look it over, its seal too; if in doubt, throw it out.",
				g.Records.Packs.At(i).ID, phrasingOf(&g.Settings).day(by), counted(int(day-by), "day"))))
		}
	}
	return words
}

// OpenedMoist are the cautions of those packs that were not dry, each once, for
// whoever opens one.
func OpenedMoist(g *ledger.Ledger, packs ...string) (words []Remark) {
	for _, i := range moistOf(g, packs) {
		w, _ := g.WeighingOf(i)
		words = Once(words, caution(&g.Foods[g.Packs[i].Food], fmt.Sprintf(
			"Pack %s was not dry when it was packed: by its weights %s was water. Moist food that is sealed can grow botulism, which has no smell or taste: do not taste it; if in doubt, throw it out.",
			g.Records.Packs.At(i).ID, phrasingOf(&g.Settings).waterIn(w, "it"))))
	}
	return words
}

// Opened returns the cautions of what is opened: of the food of each pack, and of
// each food by its own name. Of packs that were not dry see [OpenedMoist].
func Opened(g *ledger.Ledger, names ...string) []Remark {
	opened := map[string]bool{}
	for _, name := range names {
		if i, ok := g.FindPack(name); ok {
			name = g.Records.Packs.At(i).Item
		}
		opened[name] = true
	}
	return cautions(g, func(f int) bool { return opened[g.Foods[f].ID] })
}
