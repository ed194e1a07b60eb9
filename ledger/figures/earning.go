package figures

import (
	"slices"

	"putby/ledger"
	"putby/pricing/exact"
)

// What a run of the machine earns is one figure: payback, worth machine and
// compare all take it from here.

// A runEarning is what a food of a run earns once all of it is used: its value
// on the shelf of the run's day, less all that it cost but the machine's wear,
// and less what was lost. A spoiled run only loses.
type runEarning struct {
	Run, Food int         // positions in Runs and Foods
	Share     exact.Ratio // of the run; below 1 where it dried several foods
	Earned    exact.Ratio // money; below 0 where it lost
}

// runEarnings returns what each food of the runs in a scope earns, in
// order of start. Left out are foods that await packing, and with a note those
// without a shelf price. Of the query only Without and Against count.
func runEarnings(g *ledger.Ledger, q CostQuery, scope Scope, notes *Notes) (list []runEarning) {
	// The wear is the machine's own price: what a run earns goes against that.
	q.Without = append(slices.Clone(q.Without), ledger.WearCost)
	for r := range costRows(g, q, scope) {
		if earned, ok := r.earned(g, notes); ok {
			list = append(list, runEarning{r.Run, r.Food, shareOf(&g.Runs[r.Run], r.At), earned})
		}
	}
	return list
}

// earned is what the food of a row without wear earns, if that is known.
func (r *CostRow) earned(g *ledger.Ledger, notes *Notes) (exact.Ratio, bool) {
	lost := r.Lost.Ratio()
	if g.Records.Runs[r.Run].Spoiled {
		return lost.Neg(), true
	}
	if _, waits := unpacked(g, &g.Runs[r.Run].Items[r.At]); waits || !r.Packed() {
		return exact.Ratio{}, false
	}
	saving, ok := r.Saving.Get()
	if !ok {
		notes.Add(Note{Kind: EarningUnpriced, Food: r.Food})
		return exact.Ratio{}, false
	}
	return saving.Sub(lost), true
}

// shareOf is the part of a run's common costs that its food bears, by what its
// loads shared them by.
func shareOf(run *ledger.RunCost, at int) exact.Ratio {
	var own, all exact.Number
	for i := range run.Loads {
		if l := &run.Loads[i]; int(l.Item) == at {
			own = own.Add(l.Weight)
		}
		all = all.Add(run.Loads[i].Weight)
	}
	return own.Over(all)
}

// An EarningSum is what several foods or runs earned together.
type EarningSum struct {
	Runs   int         // that they were part of
	Whole  exact.Ratio // as whole runs, each counted by its share
	Earned exact.Ratio // money
}

// PerRun is what a whole run earns on average; not given where there is none.
func (s *EarningSum) PerRun() (mean exact.Opt[exact.Ratio]) {
	if s.Whole.Sign() <= 0 {
		return mean
	}
	return exact.Some(s.Earned.Quo(s.Whole))
}

// earningOf sums the list, in which foods of one run follow each other; of one food
// where it is not -1.
func earningOf(list []runEarning, food int) (s EarningSum) {
	last := -1
	var earned, shares []exact.Ratio
	for _, e := range list {
		if food >= 0 && e.Food != food {
			continue
		}
		if e.Run != last {
			s.Runs, last = s.Runs+1, e.Run
		}
		earned, shares = append(earned, e.Earned), append(shares, e.Share)
	}
	s.Whole, s.Earned = sumInto(shares), sumInto(earned)
	return s
}

// wholeRuns returns what each run earned of which every food tells, the least
// first. Runs of which a part is not known are left out: a part says nothing of how
// far runs lie apart.
func wholeRuns(list []runEarning) (sums []exact.Ratio) {
	for len(list) > 0 {
		n := 1
		for n < len(list) && list[n].Run == list[0].Run {
			n++
		}
		if s := earningOf(list[:n], -1); s.Whole.Equal(wholeRatio(1)) {
			sums = append(sums, s.Earned)
		}
		list = list[n:]
	}
	slices.SortFunc(sums, exact.Ratio.Cmp)
	return sums
}
