package report

import (
	"putby/pricing"
	"putby/pricing/exact"
)

// A bound is how many packages one limit allows.
type bound struct {
	limit    pricing.Limit
	packages int
	what     string // in figures
}

// bounds are the limits that are known, whether or not they bind.
func (f *facts) bounds() []bound {
	var list []bound
	if n, ok := f.sale.Limit.Get(); ok {
		list = append(list, bound{pricing.ShopLimit, n, counted(n, "package")})
	}
	if k, ok := f.sale.MaxCycles.Get(); ok {
		most := f.sale.Load.Mul(whole(k))
		what := counted(k, "cycle") + " of " + f.say().amount(f.sale.Load, f.unit())
		list = append(list, bound{pricing.MachineLimit, f.room(exact.RatioOf(most)), what})
	}
	if made, ok := f.sale.MaxMade.Get(); ok && f.sale.MaxCycles.Or(1) > 0 {
		list = append(list, bound{pricing.UseLimit, f.room(exact.RatioOf(made).Quo(f.sale.Yield)), f.say().amount(made, f.unit()) + " more"})
	}
	return list
}

// room is how many packages can be bought when no more than so much of them
// is dried.
func (f *facts) room(dried exact.Ratio) int {
	n, ok := dried.Add(exact.RatioOf(f.sale.FreshUse)).Quo(exact.RatioOf(f.sale.Size)).Floor().Int64()
	if !ok || n > mostCount {
		return mostCount
	}
	return int(n)
}

// What is reckoned in good time, and far more than any household buys.
const (
	mostPackages = 20_000
	mostCycles   = 5_000
	mostSpread   = 500 // packages divided among visits, beyond those that are allowed
)

// tooMany refuses to count what nobody buys.
func (f *facts) tooMany() error {
	most, known := 0, false
	for _, b := range f.bounds() {
		if !known || b.packages < most {
			most, known = b.packages, true
		}
	}
	if !known {
		return nil // [pricing.Decide] says so
	}
	dried := f.sale.Size.Mul(whole(most))
	if most > mostPackages || f.sale.MaxCycles.Or(1) > 0 && whole(mostCycles).Mul(f.sale.Load).Less(dried) {
		return errorf("limit", "give a lower --limit, a larger --size or a larger --load",
			"it would be %d packages, and more than %d of them or %d cycles are not counted", most, mostPackages, mostCycles)
	}
	return nil
}
