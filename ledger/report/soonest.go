package report

import (
	"fmt"
	"slices"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/pricing/exact"
)

// A Taking is a number of containers of a pack.
type Taking struct {
	Pack   string
	Count  int
	BestBy exact.Date
}

// SoonestDue chooses containers of a food from its packs in store on a day,
// those soonest due first; packs that nobody knows the date of come last.
// Quantity is a whole number. An error is a [*QueryError].
func SoonestDue(g *ledger.Ledger, food, quantity string, day exact.Date) ([]Taking, error) {
	food, _ = ledger.Meant(food, g.Records.NamedFoods())
	f, ok := g.FindFood(food)
	if !ok {
		return nil, &QueryError{"food", "no food is called " + exact.Quote(food), nearFood(g.Records, food)}
	}
	n, err := exact.ParseNumber(quantity)
	want, whole := n.Int64()
	if err != nil || !whole || want < 1 {
		return nil, &QueryError{"quantity", exact.Quote(quantity) + " is not a whole number of containers", "write how many containers, such as 2; for fresh food in hand name it under --item: " + g.Foods[f].ID}
	}
	var takings []Taking
	there := int64(0)
	for _, i := range figures.PacksDue(g, f, day) {
		left := int64(g.Packs[i].Left())
		there += left
		if want > 0 {
			count := min(left, want)
			takings = append(takings, Taking{g.Records.Packs.At(i).ID, int(count), g.Packs[i].BestBy})
			want -= count
		}
	}
	if want > 0 {
		return nil, tooFew(&g.Foods[f], there, there+want)
	}
	return takings, nil
}

// tooFew says that fewer containers of a food are in store than are wanted.
func tooFew(f *ledger.Food, there, want int64) error {
	if there == 0 {
		return &QueryError{"food", "there are no packs of " + f.Title() + " in store",
			"putby onhand shows what there is; what was never packed is --item " + f.ID}
	}
	return &QueryError{"quantity", fmt.Sprintf("only %s of %s in store, not %d", counted(int(there), "container"), f.Title(), want),
		fmt.Sprintf("%d takes all of them; putby onhand shows what else there is", there)}
}

// PastDue says of each pack that is opened on a day after its best-by date that
// it is, and by how much.
func PastDue(g *ledger.Ledger, day exact.Date, packs ...string) []string {
	var words []string
	for _, pack := range packs {
		i, ok := g.FindPack(pack)
		if !ok {
			continue
		}
		by := g.Packs[i].BestBy
		if by == exact.NoDate || day <= by {
			continue
		}
		words = append(words, caution(&g.Foods[g.Packs[i].Food], fmt.Sprintf(
			"Pack %s was best by %s, %s before. Look it over, its seal too; if in doubt, throw it out.", pack, phrasingOf(&g.Settings).day(by), counted(int(day-by), "day"))))
	}
	return words
}

// OpenedMoist are the cautions of those packs that were not dry, each once.
func OpenedMoist(g *ledger.Ledger, packs ...string) (words []string) {
	for _, id := range packs {
		if i, ok := g.FindPack(id); ok && g.Moist(i) {
			if line := openedMoist(g, i); !slices.Contains(words, line) {
				words = append(words, line)
			}
		}
	}
	return words
}

// Opened returns the cautions of what is opened: of the food of each pack, and of
// each food by its own name. Of packs that were not dry see [OpenedMoist].
func Opened(g *ledger.Ledger, names ...string) (words []string) {
	opened := map[string]bool{}
	for _, name := range names {
		if i, ok := g.FindPack(name); ok {
			name = g.Records.Packs.At(i).Item
		}
		opened[name] = true
	}
	return append(words, cautions(g, func(f int) bool { return opened[g.Foods[f].ID] })...)
}

// openedMoist is for who opens a pack that was not dry.
func openedMoist(g *ledger.Ledger, pack int) string {
	w, _ := g.WeighingOf(pack)
	return caution(&g.Foods[g.Packs[pack].Food], fmt.Sprintf(
		"Pack %s was not dry when it was packed: by its weights %s of it was water. Moist food that is sealed can grow botulism, which has no smell or taste: do not taste it; if in doubt, throw it out.",
		g.Records.Packs.At(pack).ID, phrasingOf(&g.Settings).percents(w.Percent())))
}
