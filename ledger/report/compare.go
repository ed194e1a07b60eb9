package report

import (
	"slices"
	"strings"

	"putby/ledger"
	"putby/pricing"
	"putby/pricing/exact"
)

// A CompareQuery is what the comparison of foods is asked.
type CompareQuery struct {
	Query
	Without []ledger.Element // counted nowhere, for the marginal view
	Against pricing.Form     // of the shelf price
	Rank    string           // key of the column to rank by; empty is per_unit
	Worst   bool             // the worst first
}

// A compared food is the sum of its runs, and what each of them cost per unit.
type compared struct {
	costRow
	of      *ledger.Food
	perRuns []exact.Ratio // money per unit, in order of size
	earned  earningSum
}

// Compare sets foods side by side: per litre, kilogram or piece, per serving,
// per 1000 kcal and per 100 g of protein, taken apart, beside the shelf, with the
// spread over their runs; what has no pack yet is left out. The ledger must
// be joined through its last record, whatever the query's AsOf.
func Compare(g *ledger.Ledger, q CompareQuery) (Doc, error) {
	if err := q.Check(g.Records); err != nil {
		return Doc{}, err
	}
	rank, err := rankBy(q.Rank)
	if err != nil {
		return Doc{}, err
	}
	costs := CostQuery{Query: q.Query, Without: q.Without, Against: q.Against}
	runs := costRows(g, costs)
	foods := comparedFoods(g, runs)
	earnings := runEarnings(g, costs, new(doubts)) // what has no shelf price is noted already
	for i := range foods {
		foods[i].earned = earningOf(earnings, foods[i].food)
	}
	rankFoods(foods, rank, q.Worst)
	d := newDoc(g, compareTitle(q, rank))
	for _, part := range compareParts {
		d.Fields = append(d.Fields, field(part.key, part.title, part.table(foods)))
	}
	reported := func(f int) bool {
		return slices.ContainsFunc(foods, func(c compared) bool { return c.food == f })
	}
	d.Notes = slices.Concat(compareNotes(g, runs, foods, rank), refuses(g, reported), cautions(g, reported))
	return d, nil
}

func compareTitle(q CompareQuery, rank *comparedFigure) string {
	title := "Foods side by side"
	if q.Item != "" {
		title = q.title + " by itself"
	}
	first := "best"
	if q.Worst {
		first = "worst"
	}
	return title + withoutWords(q.Without) + ", " + first + " " + strings.ReplaceAll(rank.Key, "_", " ") + " first"
}

// comparedFoods sums the runs of each food that has packs, in file order.
func comparedFoods(g *ledger.Ledger, runs []costRow) []compared {
	var list []compared
	for _, sum := range sumRows(g, runs, ByItem) {
		if !sum.packed() {
			continue
		}
		c := compared{costRow: sum, of: &g.Foods[sum.food]}
		for i := range runs {
			if r := &runs[i]; r.food == sum.food && r.packed() {
				c.perRuns = append(c.perRuns, r.good.Total().Per(r.made))
			}
		}
		slices.SortFunc(c.perRuns, exact.Ratio.Cmp)
		c.notes = append(c.notes, lacks(c.of)...)
		list = append(list, c)
	}
	slices.SortStableFunc(list, func(a, b compared) int { return a.food - b.food })
	return list
}

// compareNotes says what the rows leave out and what does not compare.
func compareNotes(g *ledger.Ledger, runs []costRow, foods []compared, rank *comparedFigure) []string {
	var notes doubts
	for i := range runs {
		r := &runs[i]
		if !r.packed() && !g.Records.Runs[r.run].Spoiled {
			notes.addf("%s of run %s awaits packing and is left out", r.title(), r.key)
		}
	}
	for i := range runs {
		r := &runs[i]
		if !r.packed() && r.lost.Sign() > 0 && !slices.ContainsFunc(foods, func(c compared) bool { return c.food == r.food }) {
			notes.addf("%s has no pack, only losses, and is left out", r.title())
		}
	}
	if units := unitsOf(foods); len(units) > 1 {
		notes.addf("%s are not alike: foods of different units compare per serving, per 1000 kcal or per 100 g of protein",
			listed(units))
		if rank.perBasis {
			notes.addf("%s ranks each unit by itself", rank.Key)
		}
	}
	return notes
}

// unitsOf names the units that foods are counted in, in order of rank.
func unitsOf(foods []compared) (names []string) {
	for _, u := range []exact.Unit{exact.L, exact.Kg, exact.Ea} {
		if slices.ContainsFunc(foods, func(c compared) bool { return c.unit == u }) {
			names = append(names, u.String())
		}
	}
	return names
}
