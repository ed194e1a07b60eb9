package report

import (
	"errors"

	"putby/pricing"
	"putby/pricing/exact"
)

// A purchase is where packages can be bought, and what so many of them cost.
type purchase struct {
	visits []pricing.Visit
	round  *pricing.Round // how to divide packages among several visits; or nil
	reach  int            // the most packages of which the cost is known
}

// findOffer reads the price, the size and the shops' limits.
func (f *facts) findOffer() {
	price, priced := f.q.Price.Get()
	if !priced {
		f.lack("the price of a package", "--price", "")
	}
	f.sale.Price = price
	f.findSize()
	visit := pricing.Visit{Price: price, Offer: f.q.Offer, Limit: f.q.Limit}
	for range max(f.q.Visits, 1) {
		if f.purchase.visits = append(f.purchase.visits, visit); !visit.Limit.Given() {
			break // one visit buys as many as any number of them
		}
	}
	f.purchase.visits = append(f.purchase.visits, f.q.Also...)
	total := 0
	for _, v := range f.purchase.visits {
		limit, limited := v.Limit.Get()
		if !limited {
			return
		}
		total += limit
	}
	f.sale.Limit = exact.Some(total)
}

// findSize reads what a package holds: edible, and made into the dried food.
func (f *facts) findSize() {
	if !f.q.Size.Given() {
		f.lack("the size of a package", "--size", "")
		return
	}
	bought := &f.g.Foods[f.bought]
	edible := f.amount("size", bought, f.q.Size).Round(exact.QuantityPlaces, exact.HalfEven).Mul(bought.EdiblePart())
	f.sale.Size = ended(f.recipe.makes(edible))
	if f.err == nil && f.sale.Size.Sign() <= 0 {
		f.wrong("size", "write it as 500g", "%v is too little to count", f.q.Size)
	}
}

// even reports whether every package costs the same, whatever their number.
func (f *facts) even() bool {
	for _, v := range f.purchase.visits {
		if v.Offer != (pricing.Offer{}) || !v.Price.Equal(f.sale.Price) {
			return false
		}
	}
	return true
}

// pay sets what so many packages cost, with what else goes into what is dried
// of them. It needs every other fact, since the most packages that are allowed
// bound the work of dividing them among visits.
func (f *facts) pay() error {
	if err := f.tooMany(); err != nil {
		return err
	}
	even := f.even()
	f.purchase.reach = mostPackages
	if even && f.recipe.rest.IsZero() {
		return nil
	}
	packages := func(n int) exact.Money { return exact.MoneyOf(f.sale.Price.Mul(whole(n))) }
	if !even {
		bare := f.sale
		bare.Electricity, bare.Containers = nil, nil
		all, err := pricing.Decide(bare)
		if err != nil {
			return f.explain(err)
		}
		round, err := f.spread(all.Most)
		if err != nil {
			return f.explain(err)
		}
		f.purchase.round, packages = round, round.Paid
	}
	f.sale.Paid = func(n int) exact.Money { return packages(n).Add(f.besides(n)) }
	return nil
}

// spread divides packages among the visits, some more of them than are allowed
// where that can be done in good time, to tell what a higher limit would bring.
func (f *facts) spread(most int) (*pricing.Round, error) {
	f.purchase.reach = max(most, min(f.sale.Limit.Or(mostSpread), mostSpread))
	round, err := pricing.Spread(f.purchase.visits, f.purchase.reach, f.g.Settings.Currency.Minor())
	if err != nil {
		f.purchase.reach = most
		round, err = pricing.Spread(f.purchase.visits, most, f.g.Settings.Currency.Minor())
	}
	return round, err
}

// besides is what else goes into what is dried of n packages.
func (f *facts) besides(n int) exact.Money {
	dried := f.sale.Size.Mul(whole(n)).Sub(f.sale.FreshUse).Max(exact.Number{})
	return f.post(f.recipe.rest.Times(dried))
}

// decide answers the question.
func (f *facts) decide() (pricing.Decision, error) {
	d, err := pricing.Decide(f.sale)
	if err == nil {
		err = f.power.err
	}
	return d, f.explain(err)
}

// saleOptions are the options that give the fields of a sale.
var saleOptions = map[string]string{
	"Price": "price", "Size": "size", "Limit": "limit", "Shelf": "shelf", "FreshUse": "fresh", "Load": "load",
	"MaxCycles": "cycles", "MaxMade": "use", "Yield": "yield", "Each": "each", "cycle": "cycle-hours", "turnaround": "turnaround",
}

// explain turns an error of package pricing into one about an option.
func (f *facts) explain(err error) error {
	var sale *pricing.SaleError
	var query *QueryError
	switch {
	case err == nil, errors.As(err, &query):
		return err
	case errors.Is(err, pricing.ErrUnbounded):
		return errorf("limit", "give --limit, or how long it waits (--fresh-days or --cycles), or what is used in time (--use and --keep-months)",
			"nothing says how many packages could be bought or dried")
	case errors.Is(err, pricing.ErrTooMany):
		return errorf("limit", "give a lower --limit, a larger --size or fewer --cycles",
			"there are too many packages, or ways to divide them among visits, to try them all")
	case errors.As(err, &sale):
		return errorf(saleOptions[sale.Field], "", "%s", sale.Reason)
	}
	return err
}
