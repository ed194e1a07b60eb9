package figures

import (
	"slices"

	"putby/ledger"
	"putby/pricing/exact"
)

// A PaybackQuery asks what the machines have earned back. From and To say which
// months are shown; what has been earned counts from the first record.
type PaybackQuery struct {
	Query
	Machine string // only what this one dried, by its identifier or name; empty is all
}

// In also finds the machine; its error may be an [*UnknownError] of that.
func (q PaybackQuery) In(g *ledger.Ledger) (Scope, error) {
	s, err := q.Query.In(g)
	if err != nil || q.Machine == "" {
		return s, err
	}
	id, ok := ledger.Meant(q.Machine, g.NamedMachines())
	if !ok {
		return s, unknown(ledger.Machines, q.Machine)
	}
	s.Machine = exact.Some(id)
	return s, nil
}

// A PaybackResult is what the machines have earned back so far. Where no receipt
// has a machine by then, all but Food, Machine and AsOf is empty.
type PaybackResult struct {
	Food    int        // asked about; -1: all
	Machine int        // asked about; -1: all
	AsOf    exact.Date // by which it is earned
	Outlay  Outlay

	ByMachine []MachineEarning // that sum to the whole; none where it is of one machine

	Months      []Earning // all, whatever is shown
	First, Last int       // positions of the months shown
	Since       Period    // the month since which it is paid for; no key: it is not
	Until       Period    // the last month in which it was: what is lost later may undo that; no key: none

	Pace   Pace                   // an estimate
	Sooner []Step                 // estimates; none where it is paid for, or a pace takes more months
	PerRun exact.Opt[exact.Ratio] // what a whole run earns on average
	Foods  []FoodEarning          // the most a run first
	Notes  Notes
}

// An Outlay is what the machines cost by the ledger's date.
type Outlay struct {
	Price    exact.Money // paid for them, as receipts have it
	Repairs  exact.Money // that are in the wear of later cycles
	Residual exact.Money // money back at their end
	Bought   exact.Date  // the first one
	Machines int         // bought by then; 0: none, and Bought means nothing
}

// Target is what there is to earn back.
func (o Outlay) Target() exact.Money { return o.Price.Add(o.Repairs).Sub(o.Residual) }

// An Earning is what a month earned: what it saved net of all that came to
// nothing, with the wear inside that added back, since the wear is the machine's
// own price.
type Earning struct {
	Stretch
	Earned exact.Ratio // money
	SoFar  exact.Ratio // with all months before it
	Left   exact.Ratio // to earn back at its end; 0 or less when it is paid
	Came   bool        // the first machine came within it: part of a month
	Open   bool        // it is not over: part of a month
}

// A FoodEarning is what a food earns towards the machine once it is used.
type FoodEarning struct {
	Food int // position in Foods
	EarningSum
	RunsToPay exact.Opt[exact.Number] // whole runs of it that pay what is left, an estimate; not given: none, or never
}

// Payback works out what the machines have earned back so far, month by month,
// at what pace, when at that pace they are paid for, and what would make it
// sooner. The ledger must be joined through the query's AsOf. The error may be a
// [*FactError] or [ErrUnbalanced].
func Payback(g *ledger.Ledger, q PaybackQuery) (*PaybackResult, error) {
	scope, err := q.In(g)
	if err != nil {
		return nil, err
	}
	outlay, asks := outlayOf(g, scope), q.Query
	if asks.To == exact.NoDate && outlay.Machines > 0 {
		asks.To = max(g.AsOf, q.From) // a month without records earned nothing, and counts
	}
	r := &PaybackResult{Food: scope.Food, Machine: -1, AsOf: g.AsOf}
	if id, asked := scope.Machine.Get(); asked {
		r.Machine, _ = g.FindMachine(id)
	}
	if outlay.Machines == 0 {
		first, last, _ := moneyDays(g)
		return r, within(asks, first, last)
	}
	c, err := newCalendar(g, asks, scope, EachMonth)
	if err != nil {
		return nil, err
	}
	r.Outlay, r.First, r.Last = outlay, c.first, c.last
	months, notes := c.all()
	r.Notes = notes // about all months, since all of them count
	r.addUp(months)
	if err := r.addMachines(g, scope); err != nil {
		return nil, err
	}
	r.findPace()
	r.addFoods(g, scope)
	r.addSteps(g, scope)
	return r, nil
}

// outlayOf is what the machines of a scope cost.
func outlayOf(g *ledger.Ledger, scope Scope) Outlay {
	o := Outlay{Bought: exact.LastDate}
	for i := range g.Machines {
		if !scope.On(g.Machines[i].ID) {
			continue
		}
		for _, at := range g.MachineStock(i).Lots() {
			lot := &g.Lots[at]
			price := g.Spends[lot.Row]
			o.Price, o.Residual = o.Price.Add(price), o.Residual.Add(lot.Residual)
			o.Repairs = o.Repairs.Add(lot.Cost.Sub(price))
			o.Bought = min(o.Bought, lot.Date)
			o.Machines++
		}
	}
	return o
}

// addUp sums the months, and finds those in which it is paid for.
func (r *PaybackResult) addUp(months []Stretch) {
	var sum exact.Ratio
	target := r.Outlay.Target().Ratio()
	for _, m := range months {
		e := Earning{Stretch: m, Earned: m.Net().Add(m.Wear.Ratio())}
		e.Came = m.From < r.Outlay.Bought && r.Outlay.Bought <= m.To
		e.Open = m.From <= r.AsOf && r.AsOf < m.To
		sum = sum.Add(e.Earned)
		e.SoFar, e.Left = sum, target.Sub(sum)
		r.Months = append(r.Months, e)
		switch {
		// A loss after it was paid for makes it owed again: Since then begins anew, and Until says
		// when it last was paid.
		case m.To < r.Outlay.Bought || e.Left.Sign() > 0:
			r.Since = Period{}
		case r.Since.Key == "":
			r.Since, r.Until = m.Period, m.Period
		default:
			r.Until = m.Period
		}
	}
}

// Shown are the months that were asked for.
func (r *PaybackResult) Shown() []Earning {
	if r.Months == nil {
		return nil
	}
	return r.Months[r.First : r.Last+1]
}

// Earned is what has been earned back so far.
func (r *PaybackResult) Earned() (sum exact.Ratio) {
	if n := len(r.Months); n > 0 {
		sum = r.Months[n-1].SoFar
	}
	return sum
}

// Left is what is not earned back yet; 0 or less when it is paid.
func (r *PaybackResult) Left() exact.Ratio { return r.Outlay.Target().Ratio().Sub(r.Earned()) }

// Part is what has been earned of what there is to earn back; not given where
// that is nothing.
func (r *PaybackResult) Part() (part exact.Opt[exact.Ratio]) {
	if target := r.Outlay.Target(); target.Sign() > 0 {
		part = exact.Some(r.Earned().Quo(target.Ratio()))
	}
	return part
}

// addFoods sums what each food's runs earn once they are used, and what a run
// earns on average.
func (r *PaybackResult) addFoods(g *ledger.Ledger, scope Scope) {
	always := Always(scope.Food)
	always.Machine = scope.Machine
	list := runEarnings(g, CostQuery{}, always, &r.Notes)
	all := earningOf(list, -1)
	r.PerRun = all.PerRun()
	left := r.Left()
	for f := range g.Foods {
		s := FoodEarning{Food: f, EarningSum: earningOf(list, f)}
		if s.Runs == 0 {
			continue
		}
		if mean, ok := s.PerRun().Get(); ok && left.Sign() > 0 && mean.Sign() > 0 {
			s.RunsToPay = exact.Some(left.Quo(mean).Ceil())
		}
		r.Foods = append(r.Foods, s)
	}
	slices.SortStableFunc(r.Foods, func(a, b FoodEarning) int {
		return b.PerRun().Or(exact.Ratio{}).Cmp(a.PerRun().Or(exact.Ratio{}))
	})
}
