package pricing

import "putby/pricing/exact"

// A Flip is where the answer to a sale changes as one figure moves.
type Flip struct {
	At       exact.Ratio // beyond this value, counted away from the present one
	Packages int         // the answer there
}

// Flips are the nearest flips on both sides of the present value; one is not
// given where the answer stays the same however far the figure moves (down to
// 0). At the value itself both answers save the same, and the smaller holds;
// but see [Decision.LimitFlips].
type Flips struct {
	Below, Above exact.Opt[Flip]
}

// ShelfFlips returns between which shelf prices (money per unit) the answer
// holds. The saving of each number is linear in it, so the values are exact.
func (d Decision) ShelfFlips() Flips {
	return d.flips(d.count.s.Shelf, Row.Amount)
}

// PriceFlips returns between which prices of a package the answer holds. Where
// the sale has Paid, read them as Price and what all packages would have to
// cost more or less.
func (d Decision) PriceFlips() Flips {
	return d.flips(exact.RatioOf(d.count.s.Price), func(r Row) exact.Ratio {
		return whole(r.Packages).Neg()
	})
}

// ElectricityFlips returns between which multiples of the present cost of
// electricity the answer holds: 1.5 for half as dear again. Under a tariff of
// one rate they are multiples of the rate, and of the energy of a cycle.
func (d Decision) ElectricityFlips() Flips {
	return d.flips(exact.RatioOf(exact.Int(1)), func(r Row) exact.Ratio {
		return exact.RatioOf(r.Cost.Electricity.Number()).Neg()
	})
}

// flips finds where another row overtakes the answer when the figure, now at
// x, moves and the saving of each row moves by its slope for each 1 of it.
func (d Decision) flips(x exact.Ratio, slope func(Row) exact.Ratio) Flips {
	var below, above overtaker
	own := slope(d.Best)
	for r := range d.Rows() {
		steeper := slope(r).Sub(own)
		if steeper.IsZero() {
			continue
		}
		// The answer saves lead more now; each 1 of the figure closes it by
		// steeper.
		lead := d.Best.Saving.Sub(r.Saving)
		at := x.Add(lead.Quo(steeper))
		if steeper.Sign() > 0 {
			above.offer(at, steeper, r.Packages)
		} else if at.Sign() >= 0 {
			below.offer(at.Neg(), steeper.Neg(), r.Packages)
		}
	}
	flips := Flips{Above: above.first}
	if f, ok := below.first.Get(); ok {
		flips.Below = exact.Some(Flip{f.At.Neg(), f.Packages})
	}
	return flips
}

// An overtaker keeps the lowest flip; of equal ones the steepest, which leads
// just beyond, and of these the fewest packages, which come first.
type overtaker struct {
	first exact.Opt[Flip]
	slope exact.Ratio // money that first gains on the answer for each 1 that the figure moves; 0: no first yet
}

func (o *overtaker) offer(at, slope exact.Ratio, packages int) {
	if f, given := o.first.Get(); given {
		if c := f.At.Cmp(at); c < 0 || c == 0 && o.slope.Cmp(slope) >= 0 {
			return
		}
	}
	o.first, o.slope = exact.Some(Flip{at, packages}), slope
}
