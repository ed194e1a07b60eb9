package figures

import (
	"cmp"
	"errors"
	"slices"

	"putby/ledger"
	"putby/pricing"
	"putby/pricing/exact"
)

// A MachineQuery is the question whether a machine is worth buying. What is
// not given comes from the ledger's runs.
type MachineQuery struct {
	Price    exact.Money             // to be paid for it
	Residual exact.Money             // money back at its end
	Cycles   int                     // expected life, at least 1
	Saving   exact.Opt[exact.Number] // what a cycle saves against the shelf, wear left out
	PerYear  exact.Opt[exact.Number] // cycles a year
	AsOf     exact.Date              // later runs are left out; NoDate: none are
}

// A MachineResult is when a machine has paid.
type MachineResult struct {
	Saved   EarningSum    // by the household's runs, before the machine's wear and less what was lost
	Runs    int           // all of them, whether or not they tell what they earned
	PerYear exact.Ratio   // cycles
	Cases   []MachineCase // the first is the answer
}

// A Standpoint says which saving per cycle a [MachineCase] takes.
type Standpoint uint8

// The standpoints: the saving as it was given, the mean of the runs, or of the
// runs of which every food tells the least, the quartiles and the most.
const (
	AsGiven Standpoint = iota
	AtMean
	AtLeast
	AtLowerQuartile
	AtMedian
	AtUpperQuartile
	AtMost
)

// A MachineCase is the machine at one saving per cycle.
type MachineCase struct {
	At     Standpoint
	Saving exact.Ratio // money per cycle, before wear
	Answer pricing.MachineAnswer
	Never  bool                   // it never pays
	Years  exact.Opt[exact.Ratio] // until it has paid; not given: nothing tells
}

// ErrNoSaving says that no run tells what a cycle saves.
var ErrNoSaving = errors.New("no run tells what a run saves")

// Machine answers how many cycles it takes until a machine has paid, at what a
// cycle of this household saves. The ledger must be joined through its last
// record, whatever the query's AsOf. The error is [ErrNoSaving], or what package
// pricing says of the machine's life.
func Machine(g *ledger.Ledger, q MachineQuery) (*MachineResult, error) {
	m := &MachineResult{}
	each := m.lookBack(g, q)
	if n, ok := q.PerYear.Get(); ok {
		m.PerYear = exact.RatioOf(n)
	}
	if given, ok := q.Saving.Get(); ok {
		return m, m.add(q, AsGiven, exact.RatioOf(given))
	}
	mean, ok := m.Saved.PerRun().Get()
	if !ok {
		return nil, ErrNoSaving
	}
	if err := m.add(q, AtMean, mean); err != nil {
		return nil, err
	}
	// Least, quartiles and most are five in a row, 0 to 4 quarters of the way.
	for at := AtLeast; at <= AtMost; at++ {
		quarter := exact.Int(int64(at - AtLeast))
		saving, ok := exact.Quantile(each, quarter.Over(exact.Int(4)))
		if !ok {
			break
		}
		if err := m.add(q, at, saving); err != nil {
			return nil, err
		}
	}
	return m, nil
}

// lookBack sums what the runs saved, and returns what each did of which every
// food tells, sorted.
func (m *MachineResult) lookBack(g *ledger.Ledger, q MachineQuery) []exact.Ratio {
	scope := Scope{Last: orLast(q.AsOf), Food: -1}
	list := runEarnings(g, CostQuery{}, scope, new(Notes))
	m.Saved = earningOf(list, -1)
	var dates []exact.Date
	for i := range g.Runs {
		if g.Runs[i].Done && scope.Covers(g.Runs[i].Date) {
			dates = append(dates, g.Runs[i].Date)
		}
	}
	slices.Sort(dates)
	m.Runs = len(dates)
	if len(dates) > 0 {
		m.PerYear = perYear(dates, cmp.Or(q.AsOf, dates[len(dates)-1]))
	}
	return wholeRuns(list)
}

// perYear counts the runs of the 12 months up to a day; where the first run is
// younger, what a year would have at the pace since then.
func perYear(dates []exact.Date, day exact.Date) exact.Ratio {
	n := 0
	for _, d := range dates {
		if d > day.AddMonths(-12) {
			n++
		}
	}
	return exact.Int(int64(12 * n)).Over(exact.Int(int64(monthsSince(dates[0], day))))
}

// add decides a case.
func (m *MachineResult) add(q MachineQuery, at Standpoint, saving exact.Ratio) error {
	c := MachineCase{At: at, Saving: saving}
	machine := pricing.Machine{Price: q.Price, Residual: q.Residual, Cycles: q.Cycles, Saving: saving}
	var err error
	if c.Answer, err = machine.Decide(); errors.Is(err, pricing.ErrNeverPays) {
		c.Never, err = true, nil
	}
	if err != nil {
		return err
	}
	years, err := pricing.Payback(q.Price.Sub(q.Residual).Ratio(), saving.Mul(m.PerYear))
	if err == nil && m.PerYear.Sign() > 0 && c.Answer.Pays { // beyond its life there is no such year
		c.Years = exact.Some(years)
	}
	m.Cases = append(m.Cases, c)
	return nil
}
