package figures

import (
	"iter"
	"slices"
	"time"

	"putby/ledger"
	"putby/pricing"
	"putby/pricing/exact"
)

// A CostQuery asks what runs cost.
type CostQuery struct {
	Query
	By      By
	Without []ledger.Element // counted nowhere, for the marginal view
	Against pricing.Form     // of the shelf price
}

// By says what the rows of a cost are.
type By uint8

// The rows of a cost.
const (
	ByRun By = iota // one for each food of each run
	ByItem
	ByMonth
	ByMachine
)

// A CostResult is what was put by cost.
type CostResult struct {
	Food   int // asked about; -1: all
	Rows   []CostRow
	Totals []CostTotal // of all rows, one for each unit
	Foods  []int       // that are in the rows, in file order
	Answer CostAnswer
}

// A CostRow is what a food of a run cost, or a sum of such rows. A sum leaves
// out what has no pack yet, but for its losses.
type CostRow struct {
	Run, At int        // positions in Runs and, of the food, in its Items; -1 in a sum
	Date    exact.Date // of the run; of a sum by month, its first day, else NoDate
	Food    int        // position in Foods; -1 in a sum over foods
	Machine string     // of the run; of a sum by machine, else empty

	Unit   exact.Unit               // L, kg or ea: what Loaded and Made are in
	Runs   int                      // 1; of a sum how many rows have packs
	Loaded exact.Number             // of the food, as it went in
	Made   exact.Number             // of it once reconstituted; 0: no pack yet
	Good   ledger.Costs             // of what was made, with the packs' own supplies
	Lost   exact.Money              // what went into food that was lost or spoiled
	Energy exact.Ratio              // kWh
	Length exact.Opt[time.Duration] // of the whole run; not given: unknown, or a sum

	Shelf   exact.Opt[exact.Ratio] // money per unit that the shelf asks; of a sum the mean, by what was made
	OfBatch bool                   // no shop's price is in Shelf, only what batches took
	Saving  exact.Opt[exact.Ratio] // value of what was made at that price, less what it cost
	Notes   Notes
}

// Cost works out what each run's food cost in all, beside the shelf price of
// the same amount; in order of start, or summed. The ledger must be joined
// through its last record, whatever the query's AsOf.
func Cost(g *ledger.Ledger, q CostQuery) (CostResult, error) {
	scope, err := q.In(g)
	if err != nil {
		return CostResult{}, err
	}
	r, sums, there := CostResult{Food: scope.Food}, costSums{by: q.By}, make([]bool, len(g.Foods))
	answer := newCostAnswering(g)
	var totals costTotals
	// One pass: all rows are in one memory, so what sums them up looks at each as it goes by.
	for row := range costRows(g, q, scope) {
		there[row.Food] = true
		totals.add(row)
		answer.add(row)
		if q.By == ByRun {
			r.Rows = append(r.Rows, row.kept())
		} else {
			sums.add(row)
		}
	}
	if q.By != ByRun {
		r.Rows = sums.rows()
	}
	for f, is := range there {
		if is {
			r.Foods = append(r.Foods, f)
		}
	}
	r.Totals, r.Answer = totals, answer.answer()
	return r, nil
}

// LastRuns works out what the last runs cost that have packs, the newest first: of
// each its foods, until there are so many rows. The ledger must be joined as for
// [Cost].
func LastRuns(g *ledger.Ledger, rows int) (list []CostRow) {
	var order []int
	for i := range g.Runs {
		if g.Runs[i].Done {
			order = append(order, i)
		}
	}
	slices.SortStableFunc(order, func(a, b int) int { return g.Records.Runs[b].Start.Compare(g.Records.Runs[a].Start) })
	for _, i := range order {
		for j := range g.Runs[i].Items {
			if len(list) == rows {
				return list
			}
			if row := CostOf(g, CostQuery{}, i, j); row.Made.Sign() > 0 {
				list = append(list, row)
			}
		}
	}
	return list
}

// costRows gives a row for each food of each run in the scope, in order of
// start, all in the same memory: [CostRow.kept] outlives the next.
func costRows(g *ledger.Ledger, q CostQuery, scope Scope) iter.Seq[*CostRow] {
	return func(yield func(*CostRow) bool) {
		var row CostRow
		for _, run := range g.ByStart() {
			i := int(run)
			if !g.Runs[i].Done || !scope.Covers(g.Runs[i].Date) || !scope.On(g.Records.Runs[i].Machine) {
				continue
			}
			for j := range g.Runs[i].Items {
				if !scope.Wants(g.Runs[i].Items[j].Food) {
					continue
				}
				if row.workOut(g, q, i, j); !yield(&row) {
					return
				}
			}
		}
	}
}

// CostOf works out the row of one food of a run: positions in Runs and in its
// Items. Of the query only Without and Against count.
func CostOf(g *ledger.Ledger, q CostQuery, run, at int) CostRow {
	var r CostRow
	r.workOut(g, q, run, at)
	return r
}

// workOut makes a row that of one food of a run, in the memory of its notes.
func (r *CostRow) workOut(g *ledger.Ledger, q CostQuery, run, at int) {
	cost, item := &g.Runs[run], &g.Runs[run].Items[at]
	*r = CostRow{
		Notes: r.Notes[:0],
		Run:   run, At: at, Date: cost.Date, Food: item.Food, Machine: g.Records.Runs[run].Machine,
		Unit: g.Foods[item.Food].Basis, Runs: 1, Loaded: item.Loaded, Made: item.Made,
		Good: item.Good, Lost: item.Lost.Without(q.Without...).Total(), Energy: item.Energy, Length: cost.Length,
	}
	if g.Records.Runs[run].Running {
		r.Notes.Add(Note{Kind: StillRunning, Run: run})
	}
	r.Notes.addStated(cost.Notes)
	for _, p := range item.Packs {
		pack := &g.Packs[p]
		r.Good[ledger.SuppliesCost] = r.Good[ledger.SuppliesCost].Add(pack.Own)
		r.Notes.addStated(pack.Notes())
	}
	if item.Short {
		r.Notes.Add(Note{Kind: PackedInPart, Food: item.Food, Run: run})
	}
	r.Good = r.Good.Without(q.Without...)
	r.compareShelf(g, q.Against)
}

// kept is a copy of a row that shares no memory with it.
func (r *CostRow) kept() CostRow {
	own := *r
	own.Notes = slices.Clone(r.Notes)
	return own
}

// compareShelf sets the row beside the shelf price of its run's date.
func (r *CostRow) compareShelf(g *ledger.Ledger, form pricing.Form) {
	price, ok := g.ShelfPrice(r.Food, r.Date, form)
	if !ok {
		r.Notes.Add(Note{Kind: NoShelfPrice, Food: r.Food, Form: form})
		return
	}
	r.Notes.addPrice(r.Food, price, r.Date)
	r.Shelf, r.OfBatch = exact.Some(price.PerUnit), price.Batch != ""
	if r.Packed() {
		r.Saving = exact.Some(price.PerUnit.Times(r.Made).Sub(r.Good.Total().Ratio()))
	}
}

// Packed reports whether the row has packs; one that has none yet has no cost
// per unit, and counts in no sum but that of losses.
func (r *CostRow) Packed() bool { return r.Made.Sign() > 0 }

// PerUnit is what a unit cost.
func (r *CostRow) PerUnit() exact.Opt[exact.Ratio] { return r.perUnit(r.Good.Total().Ratio()) }

// PerUnitWithLoss is what a unit cost with the losses spread in.
func (r *CostRow) PerUnitWithLoss() exact.Opt[exact.Ratio] {
	return r.perUnit(r.Good.Total().Add(r.Lost).Ratio())
}

// SavingPerUnit is the shelf price less the cost of a unit. In a sum some rows
// may have no shelf price: then it is not its saving, which only the others
// have, over all that was made.
func (r *CostRow) SavingPerUnit() exact.Opt[exact.Ratio] {
	price, ok := r.Shelf.Get()
	if !ok {
		return exact.Opt[exact.Ratio]{}
	}
	return r.perUnit(price.Times(r.Made).Sub(r.Good.Total().Ratio()))
}

// perUnit divides by what was made.
func (r *CostRow) perUnit(sum exact.Ratio) exact.Opt[exact.Ratio] {
	if !r.Packed() {
		return exact.Opt[exact.Ratio]{}
	}
	return exact.Some(sum.Quo(exact.RatioOf(r.Made)))
}

// unpacked is the good cost of a run's food that is in no pack yet, and whether
// any of it is not.
func unpacked(g *ledger.Ledger, item *ledger.ItemCost) (exact.Money, bool) {
	cost, waits := item.Good.Total(), item.ToPack()
	for _, p := range item.Packs {
		if !g.Packs[p].Done {
			waits = true
			continue
		}
		cost = cost.Sub(g.Packs[p].Share.Total())
	}
	return cost, waits
}
