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
	Offers  []*Facts               // as they were asked about
	Free    time.Time              // when the machine is
	Busy    time.Duration          // from then on, until the last cycle ends
	Rows    []PlanRow              // what is chosen, in its order
	Order   []PlanStretch          // of the machine
	Left    []PlanLeft             // what is not
	Saving  exact.Ratio            // of all, as the plan is laid out
	Paid    exact.Money            // for the food of all
	Budget  exact.Opt[exact.Money] // not given: no limit
	Freezer Freezer
	Frozen  exact.Number // litres of it that the plan takes
	Roomy   []int        // offers that could be frozen but for what tells how much room their food takes
	Moved   bool         // that is not what the offers were weighed by: each as if its cycles began when the machine is free
	from    time.Time    // when the machine is free for what goes before the offers
	// Short is the most that a better plan could save beyond this one, as the
	// offers were weighed: above 0 where there were too many to search.
	Short exact.Ratio
	Needs []SupplyNeed
}

// A PlanRow is a choice as the plan lays it out.
type PlanRow struct {
	*Facts
	Row    pricing.Row
	Frozen exact.Number // of what is dried, the amount that waits in the freezer
	Start  time.Time    // of its first cycle; what is eaten fresh alone has none
	End    time.Time    // of its last one
	Cost   exact.Money  // of all its elements, electricity as laid out
	Saving exact.Ratio  // money
	// Estimated says that cost and saving rest on an estimate.
	Estimated bool
}

// A PlanStretch is cycles of one food that follow each other in the machine.
type PlanStretch struct {
	*Facts
	Cycles     int                  // 1 at least, back to back but for the turnaround
	Amount     exact.Number         // that they dry
	Frozen     bool                 // it comes out of the freezer
	Start, End time.Time            // when its first cycle begins and its last ends
	By         exact.Opt[time.Time] // when it turns
	// PricesGuessed says that it runs in hours whose price is an estimate.
	PricesGuessed bool
}

// A PlanLeft is an offer that the plan does not take.
type PlanLeft struct {
	*Facts
	Alone  pricing.Row     // what would be best if it had the machine and the freezer to itself
	Frozen bool            // some of that would wait in the freezer
	Most   int             // packages that its limits would allow if none did
	Limits []pricing.Limit // what allows no more
}

// OfferErrors are what is wrong with the offers of a plan, by their positions.
type OfferErrors map[int]error

// Error says with how many something is.
func (e OfferErrors) Error() string { return fmt.Sprintf("%d offers cannot be decided", len(e)) }

// Plan finds the greatest saving that one machine, the room in the freezer and a
// budget for the food allow. It is exact but for the time at which a cycle's
// electricity is priced (see [pricing.MakePlan]): that is then priced again as
// the plan lays it out. All offers are to be for the same machine, with the same
// turnaround. The error is an [OfferErrors], or a [*FactError].
func Plan(g *ledger.Ledger, offers []WorthQuery, budget exact.Opt[exact.Money]) (*PlanResult, error) {
	p, err := gatherPlan(g, offers)
	if err != nil {
		return nil, err
	}
	p.Budget, p.Freezer = budget, FreezerOf(g)
	candidates := p.candidates()
	shared := pricing.Shared{Freezer: p.Freezer.Free(), Budget: budget}
	if len(offers) > 0 {
		shared.Turnaround = offers[0].Turnaround
	}
	plan, err := pricing.MakePlan(candidates, shared)
	if err != nil {
		return nil, &FactError{Fact: PlanFact, Fault: NotPossible, Err: factOf(err)}
	}
	p.Short = plan.Short
	if err := p.layOut(plan); err != nil {
		return nil, err
	}
	p.Moved = p.Saving.Cmp(plan.Saving) != 0
	// What each offer left out would be by itself, which is not a matter of money.
	shared.Budget = exact.Opt[exact.Money]{}
	for i := range candidates {
		if candidates[i].Frozen.Given() {
			p.Left[i].freeze(candidates[i:i+1], shared)
		}
	}
	p.Left = slices.DeleteFunc(p.Left, func(l PlanLeft) bool {
		return slices.ContainsFunc(p.Rows, func(r PlanRow) bool { return r.Facts == l.Facts })
	})
	return p, nil
}

// freeze takes into account what would be frozen of an offer if it were the only one.
func (l *PlanLeft) freeze(alone []pricing.Candidate, s pricing.Shared) {
	plan, err := pricing.MakePlan(alone, s)
	if err == nil && len(plan.Choices) > 0 && plan.Saving.Cmp(l.Alone.Saving) > 0 {
		l.Alone, l.Frozen = plan.Choices[0].Row, plan.Choices[0].Frozen.Sign() > 0
	}
}

// candidate is an offer as it competes for the machine and the freezer. That its
// cycles end before it turns is for the plan to see, since some may wait frozen.
func (p *PlanResult) candidate(offer int) pricing.Candidate {
	f := p.Offers[offer]
	c := pricing.Candidate{Sale: f.Sale, Cycle: f.Length.Time, Due: p.left(f, f.Freshness.Turns)}
	if !f.Query.Cycles.Given() {
		c.Sale.MaxCycles = exact.Opt[int]{}
	}
	if f.Purchase.Round != nil {
		c.Sale.Limit = exact.Some(min(f.Purchase.Reach, c.Sale.Limit.Or(f.Purchase.Reach)))
	}
	until, freezable := f.frozenUntil().Get()
	if !freezable || !p.Freezer.Holds.Given() {
		return c
	}
	each, lacks := f.g.Foods[f.Dried].Litres()
	if lacks != "" {
		p.Roomy = append(p.Roomy, offer)
		return c
	}
	c.Frozen, c.Litres = exact.Some(p.left(f, exact.Some(until))), each
	if f.Query.Frozen {
		c.Due = 0 // it is all frozen
	}
	return c
}

// gatherPlan finds the facts of every offer, and all that is wrong or missing.
func gatherPlan(g *ledger.Ledger, offers []WorthQuery) (*PlanResult, error) {
	p, wrong := &PlanResult{}, OfferErrors{}
	if len(g.Machines) > 1 && slices.ContainsFunc(offers, func(q WorthQuery) bool { return q.Machine == "" }) {
		return nil, &FactError{Fact: MachineFact, Fault: SeveralNamed, Among: ledger.Machines.In(g.Records)}
	}
	for i, q := range offers {
		f, alone, err := Answer(g, q)
		if f != nil && f.Length.Time == 0 {
			err = f.Length.needed(f.Dried)
		}
		if err != nil {
			wrong[i] = err
			continue
		}
		p.Offers, p.Left = append(p.Offers, f), append(p.Left, PlanLeft{Facts: f, Alone: alone.Best, Most: alone.Most, Limits: alone.Limits})
		if f.Queue.from.After(p.from) {
			p.from = f.Queue.from
		}
	}
	if len(wrong) > 0 {
		return nil, wrong
	}
	// The machine is one: it is free when the last of them says. How much food in hand goes
	// first differs by offer, and the plan may begin with the one that waits least.
	for i, f := range p.Offers {
		if free := p.from.Add(f.Queue.ahead()); i == 0 || free.Before(p.Free) {
			p.Free = free
		}
	}
	return p, nil
}

// layOut tells what is chosen when its cycles run, and prices their electricity
// then, one after the other on a meter that has seen those before.
func (p *PlanResult) layOut(plan pricing.Plan) error {
	electricity := make([]exact.Money, len(p.Offers))
	meter := p.meter()
	free := p.Free
	for _, s := range plan.Order {
		if at := p.freeFor(p.Offers[s.Candidate], s.Frozen); at.After(free) {
			free = at
		}
		i := slices.IndexFunc(plan.Choices, func(c pricing.Choice) bool { return c.Candidate == s.Candidate })
		stretch, cost, err := p.stretch(meter, plan.Choices[i], s, free)
		if err != nil {
			return err
		}
		p.Order, p.Busy = append(p.Order, stretch), stretch.End.Sub(p.Free)
		electricity[s.Candidate] = electricity[s.Candidate].Add(cost)
	}
	for _, c := range plan.Choices {
		p.add(c, electricity[c.Candidate])
	}
	return nil
}

// meter is the household's, or nil where nothing is asked about.
func (p *PlanResult) meter() *energy.Meter {
	if len(p.Offers) == 0 {
		return nil
	}
	return p.Offers[0].g.Meter()
}

// add is a choice with what its electricity costs when it is dried.
func (p *PlanResult) add(c pricing.Choice, electricity exact.Money) {
	r := PlanRow{Facts: p.Offers[c.Candidate], Row: c.Row, Frozen: c.Frozen}
	for _, s := range p.Order {
		if s.Facts != r.Facts {
			continue
		}
		if r.Start.IsZero() {
			r.Start = s.Start
		}
		r.End = s.End
	}
	r.Cost = c.Row.Cost.Total().Sub(c.Row.Cost.Electricity).Add(electricity)
	r.Saving = c.Row.Value.Sub(r.Cost.Ratio())
	r.Estimated = c.Row.Cycles > 0 && r.Energy.Estimated() ||
		slices.ContainsFunc(p.Order, func(s PlanStretch) bool { return s.Facts == r.Facts && s.PricesGuessed })
	p.Rows = append(p.Rows, r)
	p.Saving, p.Paid = p.Saving.Add(r.Saving), p.Paid.Add(c.Row.Cost.Food)
	if each, lacks := r.g.Foods[r.Dried].Litres(); lacks == "" {
		p.Frozen = p.Frozen.Add(each.Times(r.Frozen).Round(exact.QuantityPlaces, exact.HalfEven))
	}
	for _, n := range r.Packing.needs(r.g, c.Row.Containers) {
		p.Needs = addNeed(p.Needs, n)
	}
}

// stretch lays cycles out, behind those before them on a machine that is free from
// a time on, and prices their electricity when they run.
func (p *PlanResult) stretch(meter *energy.Meter, c pricing.Choice, s pricing.Stretch, free time.Time) (out PlanStretch, sum exact.Money, err error) {
	f := p.Offers[s.Candidate]
	out = PlanStretch{Facts: f, Cycles: s.Cycles, Frozen: s.Frozen, Start: free.Add(s.Start), End: free.Add(s.End), By: f.Freshness.Turns}
	if s.Frozen {
		out.By = f.frozenUntil()
	}
	price := f.Price
	price.free = out.Start
	out.PricesGuessed = f.Sale.Electricity != nil && price.guessed(out.Start, price.begins(s.Cycles-1))
	for k := range s.Cycles {
		load := f.Sale.Load
		// k counts in this stretch, First+k among all of the food's cycles: only the last of those
		// holds less than a load.
		if s.First+k == c.Row.Cycles-1 {
			load = c.Row.Dried.Sub(load.Mul(exact.Int(int64(s.First + k))))
		}
		out.Amount = out.Amount.Add(load)
		switch {
		case f.Sale.Electricity == nil:
		case price.Tariff == nil:
			cost, err := f.Sale.Electricity(s.First+k, load)
			if err != nil {
				return out, sum, err
			}
			sum = sum.Add(cost)
		default:
			cost, err := price.at(meter, price.begins(k), f.Energy.KWh(load))
			if err != nil {
				return out, sum, &FactError{Fact: TariffFact, Fault: Unpriced, Name: f.g.Foods[f.Bought].ID, Err: err}
			}
			sum = sum.Add(post(f.g, cost))
		}
	}
	return out, sum, nil
}
