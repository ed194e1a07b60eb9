package pricing

import "putby/pricing/exact"

// A Row is what one number of packages comes to. Amounts are in the food's
// base unit, money in major units; all are exact.
type Row struct {
	Packages   int          // 0: nothing is bought, and all else is 0
	Fresh      exact.Number // amount eaten fresh
	Dried      exact.Number // fresh amount that is dried
	Made       exact.Ratio  // what the dried amount reconstitutes to
	Cycles     int          // 0: nothing is dried
	Containers int          // that hold Made, the last part-filled
	Cost       Cost
	Value      exact.Ratio // what Fresh and Made would cost at the shelf
	Saving     exact.Ratio // Value less the total cost
	Marginal   exact.Ratio // Saving less that of one package fewer; 0 for no package
}

// A Cost is money by what it is spent on.
type Cost struct {
	Food        exact.Money // what the packages cost; 0: none, or a gift
	Electricity exact.Money // of the cycles; 0: none, or the sale does not say
	Supplies    exact.Money // of the machine's cycles
	Wear        exact.Money // of the machine, by the cycle
	Labour      exact.Money // hands-on time, by the cycle
	Packing     exact.Money // the containers and what goes into them
}

// Cycles returns the part of the cost that the machine's cycles cause.
func (c Cost) Cycles() exact.Money {
	return c.Electricity.Add(c.Supplies).Add(c.Wear).Add(c.Labour)
}

// Total returns the whole cost.
func (c Cost) Total() exact.Money { return c.Food.Add(c.Cycles()).Add(c.Packing) }

// Amount returns what the packages give to eat: Fresh and Made together.
func (r Row) Amount() exact.Ratio { return exact.RatioOf(r.Fresh).Add(r.Made) }

// BreakEven returns the price of a package at which this number of them saves
// exactly nothing, all else being equal; below 0 it would not pay as a gift.
// Where packages differ in price it is their mean. It reports false for no
// package.
func (r Row) BreakEven() (exact.Ratio, bool) {
	if r.Packages == 0 {
		return exact.Ratio{}, false
	}
	return r.SavingAt(exact.Ratio{}).Quo(whole(r.Packages)), true
}

// SavingAt returns what this number of packages would save at another price of
// a package.
func (r Row) SavingAt(price exact.Ratio) exact.Ratio {
	rest := r.Cost.Cycles().Add(r.Cost.Packing)
	return r.Value.Sub(exact.RatioOf(rest.Number())).Sub(price.Mul(whole(r.Packages)))
}

// whole returns n as a ratio.
func whole(n int) exact.Ratio { return exact.RatioOf(exact.Int(int64(n))) }

// A UnitCost is a [Cost] for each unit (L, kg or ea) as it is eaten.
type UnitCost struct {
	Food, Electricity, Supplies, Wear, Labour, Packing, Total exact.Ratio // unrounded; 0 as in [Cost]
}

// AllSupplies is what is used up or worn of supplies, of the machine and for packing.
func (u UnitCost) AllSupplies() exact.Ratio { return u.Supplies.Add(u.Packing) }

// PerUnit returns the cost of a unit over all that the packages give, eaten
// fresh or dried. It reports false where they give nothing.
func (r Row) PerUnit() (UnitCost, bool) {
	amount := r.Amount()
	if amount.IsZero() {
		return UnitCost{}, false
	}
	each := func(m exact.Money) exact.Ratio { return exact.RatioOf(m.Number()).Quo(amount) }
	return UnitCost{
		Food:        each(r.Cost.Food),
		Electricity: each(r.Cost.Electricity),
		Supplies:    each(r.Cost.Supplies),
		Wear:        each(r.Cost.Wear),
		Labour:      each(r.Cost.Labour),
		Packing:     each(r.Cost.Packing),
		Total:       each(r.Cost.Total()),
	}, true
}
