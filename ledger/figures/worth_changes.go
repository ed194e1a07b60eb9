package figures

import (
	"putby/pricing"
	"putby/pricing/exact"
)

// A Case is one way in which things can turn out otherwise, and what is best
// then.
type Case struct {
	Of         CaseOf
	At         exact.Ratio // kWh of a full cycle, the shelf price, or what is used a month; of AsExpected nothing
	Decision   pricing.Decision
	AsAnswered exact.Opt[exact.Ratio] // what the answer saves then
}

// CaseOf says what is otherwise.
type CaseOf uint8

// The cases.
const (
	AsExpected        CaseOf = iota
	LittleElectricity        // the low end of its spread
	MuchElectricity          // the high end
	LowerShelf               // the shelf price 10 % lower
	HalfUse                  // half as much used a month
)

// cases decides each case again. The error is a [*FactError].
func (f *Facts) cases(answer pricing.Decision) (list []Case, err error) {
	add := func(of CaseOf, at exact.Ratio, change func(*pricing.Sale)) {
		sale := f.Sale
		change(&sale)
		d, failed := f.decide(sale)
		if err == nil {
			err = failed
		}
		list = append(list, Case{of, at, d, asAnswered(answer.Best, sale, d)})
	}
	add(AsExpected, exact.Ratio{}, func(*pricing.Sale) {})
	if f.Energy.Spread() && f.Sale.Load.Sign() > 0 {
		add(LittleElectricity, exact.RatioOf(f.Energy.Low(f.Sale.Load)), func(s *pricing.Sale) {
			s.Electricity, s.LeastFull = f.Price.charge(f.Energy.Low), f.Price.least(f.Energy.Low)
		})
		add(MuchElectricity, exact.RatioOf(f.Energy.High(f.Sale.Load)), func(s *pricing.Sale) {
			s.Electricity, s.LeastFull = f.Price.charge(f.Energy.High), f.Price.least(f.Energy.High)
		})
	}
	// A tenth and a half are this project's own: enough to see whether the answer is a close one.
	lower := f.Sale.Shelf.Times(exact.New(9, 1))
	add(LowerShelf, lower, func(s *pricing.Sale) { s.Shelf = lower })
	if month, ok := f.Use.Month.Get(); ok && f.Use.Known() {
		half := month.Times(exact.New(5, 1))
		add(HalfUse, half, func(s *pricing.Sale) { s.MaxMade = exact.Some(f.Use.Room(half)) })
	}
	return list, err
}

// asAnswered is what the answer saves when things turn out otherwise. What is
// made beyond the use then saves nothing.
func asAnswered(answer pricing.Row, sale pricing.Sale, d pricing.Decision) (saving exact.Opt[exact.Ratio]) {
	if answer.Packages <= d.Most {
		return exact.Some(d.Row(answer.Packages).Saving)
	}
	made, ok := sale.MaxMade.Get()
	if !ok {
		return saving
	}
	waste := answer.Made.Sub(exact.RatioOf(made)).Mul(sale.Shelf)
	return exact.Some(answer.Saving.Sub(waste))
}

// A Change is a figure of the decision, and the values of it between which the
// answer holds: below the one and from the other on, another number is best.
type Change struct {
	Of           ChangeOf
	Now          exact.Ratio             // what it is; in the unit of the figure
	Below, Above exact.Opt[pricing.Flip] // At is a value of the figure
}

// ChangeOf says of what figure a change is.
type ChangeOf uint8

// The figures.
const (
	ShelfPrice   ChangeOf = iota // per unit
	PackagePrice                 // where each package costs the same
	EveryPrice                   // what every package costs more, where they do not
	TimesKWh                     // electricity, times what is expected
	UsedMonth                    // amount
	ShopPackages                 // that it sells
	CyclesInTime                 // before the food turns
)

// Guessed reports whether the values rest on the electricity of cycles.
func (c ChangeOf) Guessed() bool { return c < UsedMonth }

// changes finds where the answer changes; notSought is the number of packages
// beyond which a higher limit was not looked for, since they are too many or their
// cycles have no price, 0 where all were.
func (f *Facts) changes(d pricing.Decision) (list []Change, notSought int) {
	if d.Most > 0 {
		list = f.priceChanges(d)
	}
	countable := f.countable()
	limit := func(of ChangeOf, l pricing.Limit, now exact.Ratio, value func(exact.Ratio) exact.Ratio) {
		flips, sought := d.LimitFlips(l, countable)
		if sought > 0 && (notSought == 0 || sought < notSought) {
			notSought = sought
		}
		list = append(list, changeOf(of, now, flips, value))
	}
	if month, ok := f.Use.Month.Get(); ok && f.Use.Months.Or(0) > 0 {
		// The monthly use at which so much is made in time; its last digit is
		// rounded up, so that it still is.
		up := func(r exact.Ratio) exact.Number { return r.Round(exact.QuantityPlaces, exact.Up) }
		limit(UsedMonth, pricing.UseLimit, month, func(made exact.Ratio) exact.Ratio {
			most := up(made.Add(exact.RatioOf(f.Use.Held())))
			return exact.RatioOf(up(most.Over(exact.Int(int64(f.Use.Months.Or(1))))))
		})
	}
	whole := func(r exact.Ratio) exact.Ratio { return exact.RatioOf(r.Ceil()) }
	if n, ok := f.Sale.Limit.Get(); ok && f.Offering.Even() {
		limit(ShopPackages, pricing.ShopLimit, wholeRatio(n), whole)
	}
	if k, ok := f.Sale.MaxCycles.Get(); ok {
		limit(CyclesInTime, pricing.MachineLimit, wholeRatio(k), whole)
	}
	return list, notSought
}

// priceChanges are those of the prices, which every cycle's electricity moves.
func (f *Facts) priceChanges(d pricing.Decision) []Change {
	same := func(r exact.Ratio) exact.Ratio { return r }
	list := []Change{changeOf(ShelfPrice, f.Sale.Shelf, d.ShelfFlips(), same)}
	price := exact.RatioOf(f.Sale.Price)
	if f.Offering.Even() {
		list = append(list, changeOf(PackagePrice, price, d.PriceFlips(), same))
	} else {
		list = append(list, changeOf(EveryPrice, exact.Ratio{}, d.PriceFlips(), func(r exact.Ratio) exact.Ratio { return r.Sub(price) }))
	}
	if f.Sale.Electricity != nil {
		list = append(list, changeOf(TimesKWh, wholeRatio(1), d.ElectricityFlips(), same))
	}
	return list
}

func changeOf(of ChangeOf, now exact.Ratio, flips pricing.Flips, value func(exact.Ratio) exact.Ratio) Change {
	at := func(flip exact.Opt[pricing.Flip]) exact.Opt[pricing.Flip] {
		f, ok := flip.Get()
		if !ok {
			return flip
		}
		return exact.Some(pricing.Flip{At: value(f.At), Packages: f.Packages})
	}
	return Change{of, now, at(flips.Below), at(flips.Above)}
}

// countable is how many packages are counted where a limit is lifted.
func (f *Facts) countable() int {
	most := MostPackages
	if f.Sale.Load.Sign() > 0 {
		most = min(most, f.Sale.PackagesIn(exact.RatioOf(f.Sale.Load.Mul(exact.Int(MostCycles)))))
	}
	return min(most, f.Purchase.Reach)
}
