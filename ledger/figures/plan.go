package figures

import (
	"fmt"
	"slices"
	"time"

	"putby/energy"
	"putby/ledger"
	"putby/pricing"
	"putby/pricing/exact"
)

// A PlanResult is which of several offers to buy, how many packages of each, and
// in what order to dry them in one machine.
type PlanResult struct {
	Offers []*Facts // as they were asked about
	Free   time.Time
	Busy   time.Duration // from then on, until the last cycle ends
	Rows   []PlanRow     // what is chosen, in its order
	Left   []PlanLeft    // what is not
	Saving exact.Ratio   // of all, as the plan is laid out
	Moved  bool          // that is not what the offers were weighed by: each as if its cycles began when the machine is free
	Needs  []SupplyNeed
}

// A PlanRow is a choice as the plan lays it out.
type PlanRow struct {
	*Facts
	Row    pricing.Row
	Start  time.Time // of its first cycle; what is eaten fresh alone has none
	End    time.Time // of its last one
	Cost   exact.Money
	Saving exact.Ratio
}

// A PlanLeft is an offer that the plan does not take.
type PlanLeft struct {
	*Facts
	Alone pricing.Row // what would be best if it had the machine to itself
}

// OfferErrors are what is wrong with the offers of a plan, by their positions.
type OfferErrors map[int]error

// Error says with how many something is.
func (e OfferErrors) Error() string { return fmt.Sprintf("%d offers cannot be decided", len(e)) }

// Plan finds the greatest saving that one machine allows. It is exact but for the
// time at which a cycle's electricity is priced (see [pricing.MakePlan]): that is
// then priced again as the plan lays it out. All offers are to be for the same
// machine, with the same turnaround. The error is an [OfferErrors], or a
// [*FactError].
func Plan(g *ledger.Ledger, offers []WorthQuery) (*PlanResult, error) {
	p, err := gatherPlan(g, offers)
	if err != nil {
		return nil, err
	}
	candidates := make([]pricing.Candidate, len(p.Offers))
	for i, f := range p.Offers {
		candidates[i] = pricing.Candidate{Sale: f.Sale, Cycle: f.Length.Time, Due: f.due(p.Free)}
	}
	var between time.Duration
	if len(offers) > 0 {
		between = offers[0].Turnaround
	}
	plan, err := pricing.MakePlan(candidates, between)
	if err != nil {
		return nil, &FactError{Fact: PlanFact, Fault: NotPossible, Err: factOf(err)}
	}
	p.Busy = plan.Busy
	meter := g.Meter()
	for _, c := range plan.Choices {
		if err := p.add(meter, c); err != nil {
			return nil, err
		}
	}
	p.Moved = p.Saving.Cmp(plan.Saving) != 0
	p.Left = slices.DeleteFunc(p.Left, func(l PlanLeft) bool {
		return slices.ContainsFunc(p.Rows, func(r PlanRow) bool { return r.Facts == l.Facts })
	})
	return p, nil
}

// gatherPlan finds the facts of every offer, and all that is wrong or missing.
func gatherPlan(g *ledger.Ledger, offers []WorthQuery) (*PlanResult, error) {
	p, wrong := &PlanResult{}, OfferErrors{}
	if len(g.Machines) > 1 && slices.ContainsFunc(offers, func(q WorthQuery) bool { return q.Machine == "" }) {
		return nil, &FactError{Fact: MachineFact, Fault: SeveralNamed, Count: len(g.Machines)}
	}
	for i, q := range offers {
		if q.Machine == "" && len(g.Machines) == 1 {
			q.Machine = g.Machines[0].ID
		}
		f, alone, err := Answer(g, q)
		if f != nil && f.Length.Time == 0 {
			err = f.Length.needed(f.Dried)
		}
		if err != nil {
			wrong[i] = err
			continue
		}
		p.Offers, p.Left = append(p.Offers, f), append(p.Left, PlanLeft{f, alone.Best})
		if f.Queue.Free.After(p.Free) {
			p.Free = f.Queue.Free
		}
	}
	if len(wrong) > 0 {
		return nil, wrong
	}
	return p, nil
}

// farAway stands for a food that never turns.
const farAway = 10 * 366 * 24 * time.Hour

// due is how long after the machine is free the food turns.
func (f *Facts) due(free time.Time) time.Duration {
	if turns, ok := f.Freshness.Turns.Get(); ok && !f.Query.Cycles.Given() {
		return min(turns.Sub(free), farAway)
	}
	return farAway
}

// add lays a choice out, and prices its electricity when its cycles run, on a
// meter that has seen the cycles before.
func (p *PlanResult) add(meter *energy.Meter, c pricing.Choice) error {
	r := PlanRow{Facts: p.Offers[c.Candidate], Row: c.Row}
	if c.Row.Cycles > 0 {
		r.Start, r.End = p.Free.Add(c.Start), p.Free.Add(c.End)
	}
	electricity, err := r.electricityAt(meter)
	if err != nil {
		return err
	}
	r.Cost = c.Row.Cost.Total().Sub(c.Row.Cost.Electricity).Add(electricity)
	r.Saving = c.Row.Value.Sub(r.Cost.Ratio())
	p.Rows = append(p.Rows, r)
	p.Saving = p.Saving.Add(r.Saving)
	for _, n := range r.Packing.needs(r.g, c.Row.Containers) {
		p.Needs = addNeed(p.Needs, n)
	}
	return nil
}

// electricityAt prices the cycles of a row when they run.
func (r *PlanRow) electricityAt(meter *energy.Meter) (sum exact.Money, err error) {
	if r.Price.Tariff == nil || r.Sale.Electricity == nil {
		return r.Row.Cost.Electricity, nil
	}
	price := r.Price
	price.free = r.Start
	for k := range r.Row.Cycles {
		load := r.Sale.Load
		if k == r.Row.Cycles-1 {
			load = r.Row.Dried.Sub(load.Mul(exact.Int(int64(k))))
		}
		cost, err := price.at(meter, price.begins(k), r.Energy.KWh(load))
		if err != nil {
			return sum, &FactError{Fact: TariffFact, Fault: Unpriced, Name: r.g.Foods[r.Bought].ID, Err: err}
		}
		sum = sum.Add(post(r.g, cost))
	}
	return sum, nil
}
