package report

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
	run, food int
	share     exact.Ratio // of the run; below 1 where it dried several foods
	earned    exact.Ratio
}

// runEarnings returns what each food of the runs that a query covers earns, in
// order of start. Left out are foods that await packing, and with a note those
// without a shelf price.
func runEarnings(g *ledger.Ledger, q CostQuery, notes *doubts) (list []runEarning) {
	q.Without = append(slices.Clone(q.Without), ledger.WearCost)
	rows := costRows(g, q)
	for i := range rows {
		r := &rows[i]
		if earned, ok := r.earned(g, notes); ok {
			list = append(list, runEarning{r.run, r.food, shareOf(&g.Runs[r.run], r.at), earned})
		}
	}
	return list
}

// earned is what the food of a row without wear earns, if that is known.
func (r *costRow) earned(g *ledger.Ledger, notes *doubts) (exact.Ratio, bool) {
	lost := ratioOf(r.lost)
	if g.Records.Runs[r.run].Spoiled {
		return lost.Neg(), true
	}
	if _, waits := unpacked(g, &g.Runs[r.run].Items[r.at]); waits || !r.packed() {
		return exact.Ratio{}, false
	}
	saving, ok := r.saving.Get()
	if !ok {
		notes.addf("no fresh shelf price of %s is known: what it earns is left out", r.title())
		return exact.Ratio{}, false
	}
	return saving.Sub(lost), true
}

// shareOf is the part of a run's common costs that its food bears, by what its
// loads shared them by.
func shareOf(run *ledger.RunCost, at int) exact.Ratio {
	var own, all exact.Number
	for i := range run.Loads {
		if l := &run.Loads[i]; l.Item == at {
			own = own.Add(l.Weight)
		}
		all = all.Add(run.Loads[i].Weight)
	}
	return own.Over(all)
}

// An earningSum is what several foods or runs earned together.
type earningSum struct {
	runs   int         // that they were part of
	whole  exact.Ratio // as whole runs, each counted by its share
	earned exact.Ratio
	last   int // the run added last
}

// add adds what a food of a run earned; those of one run follow each other.
func (s *earningSum) add(e runEarning) {
	if s.runs == 0 || s.last != e.run {
		s.runs, s.last = s.runs+1, e.run
	}
	s.whole, s.earned = s.whole.Add(e.share), s.earned.Add(e.earned)
}

// perRun is what a whole run earns on average; not given where there is none.
func (s *earningSum) perRun() (mean exact.Opt[exact.Ratio]) {
	if s.whole.Sign() <= 0 {
		return mean
	}
	return exact.Some(s.earned.Quo(s.whole))
}

// earningOf sums the list; of one food where it is not -1.
func earningOf(list []runEarning, food int) (s earningSum) {
	for _, e := range list {
		if food < 0 || e.food == food {
			s.add(e)
		}
	}
	return s
}

// wholeRuns returns what each run earned of which every food tells, the least
// first.
func wholeRuns(list []runEarning) (sums []exact.Ratio) {
	for len(list) > 0 {
		n := 1
		for n < len(list) && list[n].run == list[0].run {
			n++
		}
		if s := earningOf(list[:n], -1); s.whole.Equal(wholeRatio(1)) {
			sums = append(sums, s.earned)
		}
		list = list[n:]
	}
	slices.SortFunc(sums, exact.Ratio.Cmp)
	return sums
}
