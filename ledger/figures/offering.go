package figures

import (
	"putby/ledger"
	"putby/pricing"
	"putby/pricing/exact"
)

// An Offering is what is on offer: where packages can be bought, and how many.
type Offering struct {
	Price  exact.Number // of a package at the first visit
	Size   exact.Number // edible, and made into the dried food, in that food's basis unit
	Visits []pricing.Visit
	Limit  exact.Opt[int] // of all visits together
}

// The most that is counted in good time, far more than any household buys.
const (
	MostPackages = 20_000
	MostCycles   = 5_000
	mostSpread   = 500 // packages divided among visits, beyond those that are allowed
)

// offeringOf reads the price, the size and the shops' limits. The error is a
// [*FactError] or a [*MissingError].
func offeringOf(g *ledger.Ledger, q *WorthQuery, m Made) (o Offering, err error) {
	var problems problems
	price, priced := q.Price.Get()
	if !priced {
		problems.add(lack(Missing{Fact: PriceFact}))
	}
	o.Price = price
	o.Size, err = sizeOf(g, q.Size, m)
	problems.add(err)
	visit := pricing.Visit{Price: price, Offer: q.Offer, Limit: q.Limit}
	for range max(q.Visits, 1) {
		if o.Visits = append(o.Visits, visit); !visit.Limit.Given() {
			break // one visit buys as many as any number of them
		}
	}
	o.Visits = append(o.Visits, q.Also...)
	// A sum, as long as every visit has a limit: one without sells any number.
	o.Limit = exact.Some(0)
	for _, v := range o.Visits {
		limit, limited := v.Limit.Get()
		if total, all := o.Limit.Get(); limited && all {
			o.Limit = exact.Some(total + limit)
		} else {
			o.Limit = exact.Opt[int]{}
		}
	}
	return o, problems.err()
}

// sizeOf reads what a package holds: edible, and made into the dried food.
func sizeOf(g *ledger.Ledger, size exact.Quantity, m Made) (exact.Number, error) {
	if !size.Given() {
		return exact.Number{}, lack(Missing{Fact: SizeFact})
	}
	n, err := inBasis(g, SizeFact, m.Bought, size)
	if err != nil {
		return n, err
	}
	edible := n.Round(exact.QuantityPlaces, exact.HalfEven).Mul(g.Foods[m.Bought].EdiblePart())
	if n = Ended(m.makes(edible)); n.Sign() <= 0 {
		return n, &FactError{Fact: SizeFact, Fault: TooLittle}
	}
	return n, nil
}

// Even reports whether every package costs the same, whatever their number.
func (o *Offering) Even() bool {
	for _, v := range o.Visits {
		if v.Offer != (pricing.Offer{}) || !v.Price.Equal(o.Price) {
			return false
		}
	}
	return true
}

// A Purchase is what so many packages cost.
type Purchase struct {
	Round *pricing.Round // how to divide packages among several visits, or under an offer; nil where each costs the same
	Reach int            // the most packages of which the cost is known
}

// purchaseOf divides packages among the visits: as many as a sale allows that
// has all other facts, and some more where that can be done in good time, to
// tell what a higher limit would bring. The error is one of package pricing.
func purchaseOf(o *Offering, sale pricing.Sale, minor int) (p Purchase, err error) {
	if p.Reach = MostPackages; o.Even() {
		return p, nil
	}
	// Costs do not bound how many are allowed, and take long to work out.
	sale.Electricity, sale.Containers = nil, nil
	all, err := pricing.Decide(sale)
	if err != nil {
		return p, err
	}
	p.Reach = max(all.Most, min(o.Limit.Or(mostSpread), mostSpread))
	p.Round, err = pricing.Spread(o.Visits, p.Reach, minor)
	return p, err
}

// besides is what else goes into what is dried of n packages.
func besides(g *ledger.Ledger, sale *pricing.Sale, rest exact.Ratio, n int) exact.Money {
	dried := sale.Size.Mul(exact.Int(int64(n))).Sub(sale.FreshUse).Max(exact.Number{})
	return post(g, rest.Times(dried))
}
