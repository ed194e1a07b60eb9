package figures

import (
	"errors"
	"slices"

	"putby/ledger"
	"putby/pricing"
	"putby/pricing/exact"
)

// Facts are all that a decision rests on, step by step, each with where it comes
// from. Amounts are in the basis unit of the food that is dried.
type Facts struct {
	Query WorthQuery
	Day   exact.Date // of purchase
	Made
	Offering  Offering
	Regular   Regular
	Dryer     Dryer
	Load      Load
	Length    Length
	Yield     Yield
	Packing   Packing
	Queue     Queue
	Freshness Freshness
	Use       Use
	CycleCost CycleCost
	Energy    CycleEnergy // not counted where electricity is left out
	Price     CyclePrice  // of that
	Purchase  Purchase
	Sale      pricing.Sale // all of them together

	g *ledger.Ledger
}

// factsOf gathers what a question rests on: from the query where it gives it,
// else from the ledger. Steps use what those before found: machine the food as it is
// dried, limits the yield, load and length, electricity the load and the queue, pay
// all of them. A step that lacks something goes on, so that what is missing is told
// at once. The error is an [*UnknownError] for a food that is not
// recorded, a [*FactError] for a fact that cannot be used, or a [*MissingError]
// that names everything that is missing.
func factsOf(g *ledger.Ledger, q WorthQuery) (*Facts, error) {
	f := &Facts{g: g, Query: q, Day: q.AsOf}
	if f.Day == exact.NoDate {
		f.Day = g.AsOf
	}
	var err error
	if f.Made, err = madeOf(g, &q, f.Day); err != nil {
		return nil, err
	}
	if f.Day == exact.NoDate {
		return nil, &FactError{Fact: DayFact, Fault: NoDay}
	}
	var p problems
	f.Offering, err = offeringOf(g, &q, f.Made)
	p.add(err)
	f.Regular, err = regularOf(g, &q, f.Made, f.Day)
	p.add(err)
	p.add(f.machine())
	if f.Yield = YieldOf(g, f.Dried); q.Yield.Given() {
		f.Yield = Yield{Ratio: exact.RatioOf(q.Yield.Or(exact.Number{}))}
	}
	f.Packing, err = packingOf(g, &q, f.Made)
	p.add(err)
	p.add(f.limits())
	f.CycleCost = f.Dryer.CycleCost(&q)
	p.add(f.electricity())
	if err := p.err(); err != nil {
		return nil, err
	}
	return f, f.pay()
}

// machine finds the machine, its load and how long a cycle takes.
func (f *Facts) machine() (err error) {
	var p problems
	f.Dryer, err = DryerOf(f.g, f.Query.Machine, f.Dried)
	p.add(err)
	if f.Query.Load.Given() {
		f.Load.Most, err = f.eaten(f.g, LoadFact, f.Query.Load)
	} else {
		f.Load, err = f.Dryer.Load()
	}
	p.add(err)
	f.Length = f.Dryer.Length(f.Query.CycleTime)
	return p.err()
}

// limits finds what keeps the number of packages down: what is eaten fresh, the
// cycles that fit before the food turns, behind what turns sooner, and what will
// be used in time.
func (f *Facts) limits() (err error) {
	var p problems
	q, s := &f.Query, &f.Sale
	s.FreshUse, err = f.eaten(f.g, FreshFact, q.Fresh)
	p.add(err)
	if f.Freshness, err = freshnessOf(f.g, q, f.Made, f.Day); !q.Cycles.Given() {
		p.add(err)
	}
	f.Queue = f.queue(f.Freshness.Turns)
	if err == nil || q.Cycles.Given() {
		s.MaxCycles, err = f.Freshness.cyclesIn(q, f.Dried, f.Queue.Free, f.Length)
		p.add(err)
	}
	f.Use, err = useOf(f.g, q, f.Made, f.Day, f.Yield.Ratio, f.Queue.First)
	p.add(err)
	if month, ok := f.Use.Month.Get(); ok && f.Use.Known() {
		s.MaxMade = exact.Some(f.Use.Room(month))
	}
	return p.err()
}

// electricity finds what a cycle uses and what that costs.
func (f *Facts) electricity() (err error) {
	if slices.Contains(f.Query.Without, ledger.ElectricityCost) {
		return nil
	}
	var p problems
	f.Energy, err = f.Dryer.Energy(f.Query.KWh, f.Load.Most, f.Length.Time)
	p.add(err)
	f.Price, err = cyclePriceOf(f.Dryer, &f.Query, f.Queue.Free, f.Length, f.Load.Most)
	p.add(err)
	return p.err()
}

// pay puts the sale together. What so many packages cost comes last: the most
// packages that are allowed bound the work of dividing them among visits. The
// error is a [*FactError].
func (f *Facts) pay() error {
	s := &f.Sale
	s.Price, s.Size, s.Limit = f.Offering.Price, f.Offering.Size, f.Offering.Limit
	s.Shelf, s.Load, s.Yield = f.Regular.PerUnit, f.Load.Most, f.Yield.Ratio
	s.Each, s.Containers = f.Packing.Each, f.Packing.cost
	s.Supplies, s.Wear, s.Labour = f.CycleCost.Supplies, f.CycleCost.Wear, f.CycleCost.Labour
	if f.Energy.Basis != NotCounted {
		s.Electricity = f.Price.charge(f.Energy.KWh)
		s.Earns = f.Price.Tariff != nil && f.Price.Tariff.Earns()
	}
	if err := tooMany(s); err != nil {
		return err
	}
	var err error
	if f.Purchase, err = purchaseOf(&f.Offering, *s, f.g.Settings.Currency.Minor()); err != nil {
		return factOf(err)
	}
	if f.Purchase.Round == nil && f.Regular.Rest.IsZero() {
		return nil
	}
	packages := func(n int) exact.Money { return exact.MoneyOf(f.Offering.Price.Mul(exact.Int(int64(n)))) }
	if f.Purchase.Round != nil {
		packages = f.Purchase.Round.Paid
	}
	s.Paid = func(n int) exact.Money { return packages(n).Add(f.besides(n)) }
	return nil
}

// besides is what else goes into what is dried of n packages.
func (f *Facts) besides(n int) exact.Money { return besides(f.g, &f.Sale, f.Regular.Rest, n) }

// decide answers for a sale with these facts, or with some of them changed. The
// error is a [*FactError].
func (f *Facts) decide(s pricing.Sale) (pricing.Decision, error) {
	d, err := pricing.Decide(s)
	return d, factOf(err)
}

// saleFacts are the facts that fill the fields of a sale.
var saleFacts = map[string]Fact{
	"Price": PriceFact, "Size": SizeFact, "Limit": LimitFact, "Shelf": ShelfFact, "FreshUse": FreshFact, "Load": LoadFact,
	"MaxCycles": CyclesFact, "MaxMade": UseFact, "Yield": YieldFact, "Each": EachFact, "run": LengthFact, "turnaround": TurnaroundFact,
}

// factOf turns an error of package pricing into one about a fact.
func factOf(err error) error {
	var sale *pricing.SaleError
	var known *FactError
	switch {
	case err == nil:
		return nil
	case errors.As(err, &known):
		return known
	case errors.Is(err, pricing.ErrUnbounded):
		return &FactError{Fact: LimitFact, Fault: Unbounded, Err: err}
	case errors.Is(err, pricing.ErrTooMany):
		return &FactError{Fact: LimitFact, Fault: Uncountable, Err: err}
	case errors.As(err, &sale):
		return &FactError{Fact: saleFacts[sale.Field], Fault: NotPossible, Err: errors.New(sale.Reason)}
	}
	return err
}

// Guessed reports whether what any of some rows comes to rests on an estimate:
// on the electricity of its cycles, or on the price of an hour that they run in.
func (f *Facts) Guessed(rows ...pricing.Row) bool {
	return f.Energy.Estimated() && slices.ContainsFunc(rows, func(r pricing.Row) bool { return r.Cycles > 0 }) || f.HoursGuessed(rows...)
}

// Asked is the price per edible unit of the food bought, of so many packages:
// with what comes off for them.
func (f *Facts) Asked(packages int) exact.Ratio { return f.PricePerUnit(packages).Mul(f.Ratio) }

// PricePerUnit is the price per unit that so many packages give, with what comes off
// for them.
func (f *Facts) PricePerUnit(packages int) exact.Ratio {
	if f.Purchase.Round != nil && packages > 0 {
		return f.Purchase.Round.Paid(packages).Per(f.Sale.Size.Mul(exact.Int(int64(packages))))
	}
	return f.Sale.Price.Over(f.Sale.Size)
}
