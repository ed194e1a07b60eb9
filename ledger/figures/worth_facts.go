package figures

import (
	"cmp"
	"errors"
	"slices"
	"time"

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
// else from the ledger. Steps take what those before found. A step that lacks something goes on, so that what is missing is told
// at once. The error is an [*UnknownError] for a food that is not
// recorded, a [*FactError] for a fact that cannot be used, or a [*MissingError]
// that names everything that is missing.
func factsOf(g *ledger.Ledger, q WorthQuery) (*Facts, error) {
	f := &Facts{g: g, Query: q, Day: cmp.Or(q.AsOf, g.AsOf)}
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
	f.Dryer, f.Load, f.Length, err = dryingOf(g, &q, f.Made)
	p.add(err)
	if f.Yield = YieldOf(g, f.Dried); q.Yield.Given() {
		f.Yield = Yield{Ratio: exact.RatioOf(q.Yield.Or(exact.Number{}))}
	}
	f.Packing, err = packingOf(g, &q, f.Made)
	p.add(err)
	fresh, err := f.eaten(g, FreshFact, q.Fresh)
	p.add(err)
	var cycles exact.Opt[int]
	f.Freshness, f.Queue, cycles, err = f.waits()
	p.add(err)
	f.Use, err = useOf(g, &q, f.Made, f.Day, f.Yield.Ratio, f.Queue.First)
	p.add(err)
	f.CycleCost = f.Dryer.CycleCost(&q)
	f.Energy, f.Price, err = electricityOf(f.Dryer, &q, f.Queue.Free, f.Length, f.Load.Most)
	p.add(err)
	if err := p.err(); err != nil {
		return nil, err
	}
	f.Sale = f.sale(fresh, cycles)
	return f, f.pay() // last, since it decides about the sale without prices of packages
}

// dryingOf finds the machine for the food as it is dried, its load and how long a
// cycle takes.
func dryingOf(g *ledger.Ledger, q *WorthQuery, m Made) (d Dryer, load Load, length Length, err error) {
	var p problems
	d, err = DryerOf(g, q.Machine, m.Dried)
	p.add(err)
	if q.Load.Given() {
		load.Most, err = m.eaten(g, LoadFact, q.Load)
	} else {
		load, err = d.Load()
	}
	p.add(err)
	return d, load, d.Length(q.CycleTime), p.err()
}

// waits is how long the food does, behind what turns sooner, and the cycles that fit
// before it turns.
func (f *Facts) waits() (keeps Freshness, queue Queue, cycles exact.Opt[int], err error) {
	q := &f.Query
	keeps, err = freshnessOf(f.g, q, f.Made, f.Day)
	queue = f.queue(keeps.Turns)
	if err == nil || q.Cycles.Given() {
		cycles, err = keeps.cyclesIn(q, f.Dried, queue.Free, f.Length)
	}
	return keeps, queue, cycles, err
}

// electricityOf finds what a cycle uses and what that costs, unless it is left out.
func electricityOf(d Dryer, q *WorthQuery, free time.Time, length Length, load exact.Number) (e CycleEnergy, price CyclePrice, err error) {
	if slices.Contains(q.Without, ledger.ElectricityCost) {
		return e, price, nil
	}
	var p problems
	e, err = d.Energy(q.KWh, load, length.Time)
	p.add(err)
	price, err = cyclePriceOf(d, q, free, length, load)
	p.add(err)
	return e, price, p.err()
}

// sale puts the facts together, with what is eaten fresh and the cycles that fit.
func (f *Facts) sale(fresh exact.Number, cycles exact.Opt[int]) pricing.Sale {
	s := pricing.Sale{
		Price: f.Offering.Price, Size: f.Offering.Size, Limit: f.Offering.Limit, Shelf: f.Regular.PerUnit, FreshUse: fresh,
		Load: f.Load.Most, MaxCycles: cycles, Yield: f.Yield.Ratio, Each: f.Packing.Each, Containers: f.Packing.cost,
		Supplies: f.CycleCost.Supplies, Wear: f.CycleCost.Wear, Labour: f.CycleCost.Labour,
	}
	if month, ok := f.Use.Month.Get(); ok && f.Use.Known() {
		s.MaxMade = exact.Some(f.Use.Room(month))
	}
	if f.Energy.Basis != NotCounted {
		s.Electricity, s.LeastFull = f.Price.charge(f.Energy.KWh), f.Price.least(f.Energy.KWh)
	}
	return s
}

// pay adds what so many packages cost, which comes last: the most packages that are
// allowed bound the work of dividing them among visits. The error is a [*FactError].
func (f *Facts) pay() (err error) {
	if err := tooMany(&f.Sale); err != nil {
		return err
	}
	if f.Purchase, err = purchaseOf(&f.Offering, f.Sale, f.g.Settings.Currency.Minor()); err != nil {
		return factOf(err)
	}
	if f.Purchase.Round == nil && f.Regular.Rest.IsZero() {
		return nil
	}
	packages := func(n int) exact.Money { return exact.MoneyOf(f.Offering.Price.Mul(exact.Int(int64(n)))) }
	if f.Purchase.Round != nil {
		packages = f.Purchase.Round.Paid
	}
	f.Sale.Paid = func(n int) exact.Money { return packages(n).Add(f.besides(n)) }
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
var saleFacts = map[pricing.SaleField]Fact{
	pricing.PriceField: PriceFact, pricing.SizeField: SizeFact, pricing.LimitField: LimitFact, pricing.ShelfField: ShelfFact,
	pricing.FreshField: FreshFact, pricing.LoadField: LoadFact, pricing.CyclesField: CyclesFact, pricing.MadeField: UseFact,
	pricing.YieldField: YieldFact, pricing.EachField: EachFact, pricing.LengthField: LengthFact, pricing.TurnaroundField: TurnaroundFact,
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
