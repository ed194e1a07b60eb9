package question

import (
	"fmt"

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
// Quantity is a whole number. An error is a [*Error].
func SoonestDue(g *ledger.Ledger, food, quantity string, day exact.Date) ([]Taking, error) {
	food, _ = ledger.Meant(food, g.Records.NamedFoods())
	f, ok := g.FindFood(food)
	if !ok {
		return nil, &Error{"food", "no food is called " + exact.Quote(food), nearFood(g.Records, food)}
	}
	n, err := exact.ParseNumber(quantity)
	want, whole := n.Int64()
	if err != nil || !whole || want < 1 {
		return nil, &Error{"quantity", exact.Quote(quantity) + " is not a whole number of containers", "write how many containers, such as 2; for fresh food in hand name it under --item: " + g.Foods[f].ID}
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
		return &Error{"food", "there are no packs of " + f.Title() + " in store",
			"putby onhand shows what there is; what was never packed is --item " + f.ID}
	}
	inStore := fmt.Sprintf("%d containers", there)
	if there == 1 {
		inStore = "1 container"
	}
	return &Error{"quantity", fmt.Sprintf("only %s of %s in store, not %d", inStore, f.Title(), want),
		fmt.Sprintf("%d takes all of them; putby onhand shows what else there is", there)}
}
