package figures

import (
	"slices"

	"putby/ledger"
	"putby/pricing"
	"putby/pricing/exact"
)

// A CompareQuery asks how foods compare.
type CompareQuery struct {
	Query
	Without []ledger.Element // counted nowhere, for the marginal view
	Against pricing.Form     // of the shelf price
	Rank    Measure          // by which foods come in order
	Worst   bool             // the worst first
}

// A CompareResult is foods side by side, in order of rank.
type CompareResult struct {
	Food  int // asked about; -1: all
	Foods []ComparedFood
	Notes Notes
}

// A ComparedFood is the sum of a food's runs, and what each of them cost per
// unit.
type ComparedFood struct {
	CostRow
	PerRuns []exact.Ratio // money per unit, the least first
	Earned  EarningSum    // by its runs, before wear and net of losses
	of      *ledger.Food
}

// Compare sets foods side by side; what has no pack yet is left out. The ledger
// must be joined through its last record, whatever the query's AsOf.
func Compare(g *ledger.Ledger, q CompareQuery) (CompareResult, error) {
	scope, err := q.In(g)
	if err != nil {
		return CompareResult{}, err
	}
	costs := CostQuery{Without: q.Without, Against: q.Against}
	var runs []CostRow
	for r := range costRows(g, costs, scope) {
		runs = append(runs, r.kept())
	}
	foods := comparedFoods(g, runs)
	earnings := runEarnings(g, costs, scope, new(Notes)) // what has no shelf price is noted already
	for i := range foods {
		foods[i].Earned = earningOf(earnings, foods[i].Food)
	}
	rankFoods(foods, q.Rank, q.Worst)
	return CompareResult{scope.Food, foods, leftOut(g, runs, foods)}, nil
}

// comparedFoods sums the runs of each food that has packs, in file order.
func comparedFoods(g *ledger.Ledger, runs []CostRow) []ComparedFood {
	sums := costSums{by: ByItem}
	for i := range runs {
		sums.add(&runs[i])
	}
	var list []ComparedFood
	for _, sum := range sums.rows() {
		if !sum.Packed() {
			continue
		}
		c := ComparedFood{CostRow: sum, of: &g.Foods[sum.Food]}
		for i := range runs {
			if r := &runs[i]; r.Food == sum.Food && r.Packed() {
				c.PerRuns = append(c.PerRuns, r.Good.Total().Per(r.Made))
			}
		}
		slices.SortFunc(c.PerRuns, exact.Ratio.Cmp)
		list = append(list, c)
	}
	slices.SortStableFunc(list, func(a, b ComparedFood) int { return a.Food - b.Food })
	return list
}

// leftOut notes what is not among the foods that are compared.
func leftOut(g *ledger.Ledger, runs []CostRow, foods []ComparedFood) (notes Notes) {
	for i := range runs {
		r := &runs[i]
		if !r.Packed() && g.Records.Runs[r.Run].Good() {
			notes.Add(Note{Kind: AwaitsPacking, Food: r.Food, Run: r.Run})
		}
	}
	for i := range runs {
		r := &runs[i]
		if !r.Packed() && r.Lost.Sign() > 0 && !slices.ContainsFunc(foods, func(c ComparedFood) bool { return c.Food == r.Food }) {
			notes.Add(Note{Kind: OnlyLosses, Food: r.Food})
		}
	}
	return notes
}

// rankFoods puts the best first, or the worst, and what has no figure last.
// Figures of a unit are ranked unit by unit: litres, kilograms, pieces.
func rankFoods(foods []ComparedFood, by Measure, worst bool) {
	sign := 1
	if by.Highest() != worst {
		sign = -1
	}
	slices.SortStableFunc(foods, func(a, b ComparedFood) int {
		if by.OfUnit() && a.Unit != b.Unit {
			return int(a.Unit) - int(b.Unit)
		}
		x, known := a.Measure(by).Get()
		y, too := b.Measure(by).Get()
		switch {
		case known && !too:
			return -1
		case too && !known:
			return 1
		}
		return sign * x.Cmp(y) // of two that have none, both are 0
	})
}
