package figures

import (
	"time"

	"putby/ledger"
	"putby/pricing"
	"putby/pricing/exact"
)

// All in this file is an estimate: it takes what was for what will be.

const (
	paceMost  = 12  // whole months that a pace looks back on
	PaceLeast = 3   // below which there is none
	MostYears = 100 // beyond which a day is not worth naming
)

// A Pace is what is earned a month, and when that pays. All but Months is empty
// where those are fewer than [PaceLeast].
type Pace struct {
	Months    int         // whole ones since the first machine came, of which it is the mean
	Mean      exact.Ratio // a month
	Low, High exact.Ratio // of the mean, in 95 cases of 100
	Cycles    exact.Ratio // a month

	Paid, Earliest, Latest Period // no key: not within [MostYears]
}

// Known reports whether there are months enough for a pace.
func (p *Pace) Known() bool { return p.Months >= PaceLeast }

// A Step is something to do, and when the machine is paid for then.
type Step struct {
	What     StepKind
	N        int         // more cycles a month, or years
	Once     exact.Ratio // earned at once
	PerMonth exact.Ratio // money earned a month from then on
	Cycles   exact.Ratio // a month
	Paid     Period      // no key: not within [MostYears]
	TooMany  bool        // more cycles than fit a month, back to back
}

// A StepKind says what is done.
type StepKind uint8

// What may be done.
const (
	AsNow      StepKind = iota
	UseStore            // as now, and use up what is in store
	MoreCycles          // N more a month, each as good as the average one
	PayIn               // as many as it takes to pay in N years
)

// findPace takes the mean of the last whole months since the machine came.
func (r *PaybackResult) findPace() {
	var earned []exact.Ratio
	runs, p := 0, &r.Pace
	for i := len(r.Months) - 1; i >= 0 && len(earned) < paceMost; i-- {
		m := &r.Months[i]
		if m.To > r.AsOf {
			continue // not over yet
		}
		if m.From < r.Outlay.Bought {
			break
		}
		earned, runs = append(earned, m.Earned), runs+m.Runs
	}
	p.Months = len(earned)
	if !p.Known() {
		return
	}
	p.Mean, p.Cycles = meanOf(earned), wholeRatio(runs).Quo(wholeRatio(len(earned)))
	off, _ := errorOf(earned)
	p.Low, p.High = p.Mean.Sub(off), p.Mean.Add(off)
	left := r.Left()
	p.Paid, p.Earliest, p.Latest = r.paidAt(left, p.Mean), r.paidAt(left, p.High), r.paidAt(left, p.Low)
}

// paidAt is the month in which an amount is earned at so much a month from the
// ledger's date on; it has no key when that is never, or not within [MostYears].
func (r *PaybackResult) paidAt(left, perMonth exact.Ratio) Period {
	months, err := pricing.Payback(left, perMonth)
	if err != nil {
		return Period{}
	}
	n, fits := months.Ceil().Int64()
	if !fits || n > 12*MostYears {
		return Period{}
	}
	return monthOf(r.AsOf.AddMonths(int(n)))
}

// addSteps works out when it is paid if more is done, and what it takes to be
// paid by a day.
func (r *PaybackResult) addSteps(g *ledger.Ledger, scope Scope) {
	left, pace := r.Left(), r.Pace
	if left.Sign() <= 0 || !pace.Known() {
		return
	}
	most, limited := r.cyclesInMonth(g, scope).Get()
	add := func(what StepKind, n int, once, perMonth, cycles exact.Ratio) {
		r.Sooner = append(r.Sooner, Step{what, n, once, perMonth, cycles,
			r.paidAt(left.Sub(once), perMonth), limited && cycles.Cmp(most) > 0})
	}
	add(AsNow, 0, exact.Ratio{}, pace.Mean, pace.Cycles)
	store := toCome(g, scope, r.AsOf, &r.Notes)
	add(UseStore, 0, store.Saving.Add(store.Wear.Ratio()), pace.Mean, pace.Cycles)
	earns, ok := r.PerRun.Get()
	switch {
	case !ok:
		return
	case earns.Sign() <= 0:
		r.Notes.Add(Note{Kind: RunsEarnNothing})
		return
	}
	// What a household may think of; both lists are this project's own.
	for _, n := range []int{1, 2, 4} {
		add(MoreCycles, n, exact.Ratio{}, pace.Mean.Add(earns.Mul(wholeRatio(n))), pace.Cycles.Add(wholeRatio(n)))
	}
	for _, years := range []int{1, 2, 5} {
		needed := left.Quo(wholeRatio(12 * years))
		if needed.Cmp(pace.Mean) > 0 { // else it is sooner than that already
			add(PayIn, years, exact.Ratio{}, needed, pace.Cycles.Add(needed.Sub(pace.Mean).Quo(earns)))
		}
	}
}

// cyclesInMonth is how many cycles of the usual length fit a month on the machines
// together; not given where no length is known.
func (r *PaybackResult) cyclesInMonth(g *ledger.Ledger, scope Scope) (most exact.Opt[exact.Ratio]) {
	var lengths []exact.Ratio // in seconds
	for i := range g.Runs {
		if length, ok := g.Runs[i].Length.Get(); ok && g.Runs[i].Done && length > 0 && !g.Records.Runs[i].Running && scope.On(g.Records.Runs[i].Machine) {
			lengths = append(lengths, wholeRatio(int(length/time.Second)))
		}
	}
	if len(lengths) == 0 {
		return most
	}
	const month = 365 * 24 / 12 * 3600 // seconds of a twelfth of a year
	return exact.Some(wholeRatio(month * r.Outlay.Machines).Quo(meanOf(lengths)))
}
