package report

import (
	"cmp"
	"fmt"
	"slices"

	"putby/ledger"
	"putby/pricing/exact"
)

// A Taking is a number of containers of a pack.
type Taking struct {
	Pack   string
	Count  int
	BestBy exact.Date
}

// SoonestDue chooses containers of a food from its packs in store, those
// soonest due first; packs that nobody knows the date of come last. Quantity is
// a whole number. An error is a [*QueryError].
func SoonestDue(g *ledger.Ledger, food, quantity string) ([]Taking, error) {
	f, ok := g.FindFood(food)
	if !ok {
		return nil, &QueryError{"food", "no food is called " + exact.Quote(food), "foods are listed in " + ledger.FoodsFile}
	}
	n, err := exact.ParseNumber(quantity)
	want, whole := n.Int64()
	if err != nil || !whole || want < 1 {
		return nil, &QueryError{"quantity", exact.Quote(quantity) + " is not a whole number of containers", "write it as 2"}
	}
	var takings []Taking
	for _, i := range byDue(g, f) {
		if want == 0 {
			break
		}
		count := min(int64(g.Packs[i].Left()), want)
		takings = append(takings, Taking{g.Records.Packs[i].ID, int(count), g.Packs[i].BestBy})
		want -= count
	}
	if want > 0 {
		return nil, &QueryError{"quantity", fmt.Sprintf("the packs of %s in store lack %d containers", food, want), "putby onhand shows what is in store"}
	}
	return takings, nil
}

// byDue are the packs of a food that have containers left, soonest due first.
func byDue(g *ledger.Ledger, food int) []int {
	var list []int
	for i := range g.Packs {
		if p := &g.Packs[i]; p.Done && p.Food == food && p.Left() > 0 {
			list = append(list, i)
		}
	}
	due := func(i int) exact.Date {
		if d := g.Packs[i].BestBy; d != exact.NoDate {
			return d
		}
		return exact.LastDate
	}
	slices.SortStableFunc(list, func(a, b int) int {
		return cmp.Or(cmp.Compare(due(a), due(b)), cmp.Compare(g.Records.Packs[a].Date, g.Records.Packs[b].Date))
	})
	return list
}
