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

// A CardQuery asks what to know in the shop, before a sale is seen.
type CardQuery struct {
	Item string         // only this food; empty: all that the household has dried
	As   string         // what Item is dried as; empty: itself
	Size exact.Quantity // of a package of Item; not given: its usual ones
	AsOf exact.Date     // the day of purchase; NoDate: the ledger's
	Now  time.Time      // as in a [WorthQuery]
}

// A CardResult is below which price of a package buying it in bulk pays, food by
// food in order of their names.
type CardResult struct {
	Day  exact.Date // of purchase
	Rows []CardRow  // foods that are dried as they are bought
	Made []CardRow  // foods that kitchen batches turn into what is dried
	Left []CardLeft
}

// A CardRow is a package of a food, as [Worth] would answer about it with nothing
// eaten fresh and no limit of the shop's.
type CardRow struct {
	*Facts
	Size     exact.Quantity           // as bought
	Below    exact.Opt[exact.Money]   // the highest price at which some number saves, down to minor digits; not given: none does as a gift
	PerUnit  exact.Opt[exact.Ratio]   // that, per unit of the dried food
	Packages int                      // the fewest that have it; 0: none
	Most     int                      // that the limits allow
	Limits   []pricing.Limit          // what allows no more
	Little   bool                     // it would pay if more were used
	Best     pricing.Row              // what so many come to as a gift
	Lowest   exact.Opt[pricing.Price] // paid in the year, per edible unit of the food bought
	AtLowest exact.Opt[pricing.Row]   // the answer at that price
	Offer    exact.Opt[pricing.Price] // the last one seen, of a day's the lowest
}

// A CardLeft is a food that the card leaves out, and why.
type CardLeft struct {
	Food int   // position in Foods
	Err  error // a [*FactError] or a [*MissingError]
}

// Card works out what to know in the shop. The ledger must be joined through the
// query's AsOf. The error is that of [Worth] about the food that the query names;
// of others, what cannot be told is left out.
func Card(g *ledger.Ledger, q CardQuery) (*CardResult, error) {
	c := &CardResult{Day: cmp.Or(q.AsOf, g.AsOf)}
	if q.Item != "" {
		return c, c.named(g, q)
	}
	for food := range g.Foods {
		if !everDried(g, food) {
			continue
		}
		id := g.Foods[food].ID
		if sizes := usualSizes(g, food, c.Day); len(sizes) > 0 {
			c.leave(food, c.add(g, &c.Rows, WorthQuery{Item: id, AsOf: q.AsOf, Now: q.Now}, sizes))
		} else if batch, ok := g.LatestBatch(food, c.Day); ok {
			c.addParts(g, food, batch, q)
		}
	}
	c.sort(g)
	return c, nil
}

// named is the card of one food.
func (c *CardResult) named(g *ledger.Ledger, q CardQuery) error {
	worth := WorthQuery{Item: q.Item, As: q.As, AsOf: q.AsOf, Now: q.Now}
	made, err := madeOf(g, &worth, c.Day)
	if err != nil {
		return err
	}
	sizes := usualSizes(g, made.Bought, c.Day)
	if q.Size.Given() {
		sizes = []exact.Quantity{q.Size}
	}
	if len(sizes) == 0 {
		return lack(Missing{Fact: SizeFact})
	}
	rows := &c.Rows
	if made.Bought != made.Dried {
		rows = &c.Made
	}
	defer c.sort(g)
	return c.add(g, rows, worth, sizes)
}

// addParts adds the foods that a batch took, as what it made of them.
func (c *CardResult) addParts(g *ledger.Ledger, made, batch int, q CardQuery) {
	for _, part := range g.Batches[batch].From {
		food, ok := g.FindFood(part.Item)
		if sizes := usualSizes(g, food, c.Day); ok && len(sizes) > 0 {
			c.leave(food, c.add(g, &c.Made, WorthQuery{Item: part.Item, As: g.Foods[made].ID, AsOf: q.AsOf, Now: q.Now}, sizes))
		}
	}
}

// add adds a row for each size of a package.
func (c *CardResult) add(g *ledger.Ledger, rows *[]CardRow, q WorthQuery, sizes []exact.Quantity) error {
	for _, q.Size = range sizes {
		row, err := cardRow(g, q)
		if err != nil {
			return err
		}
		*rows = append(*rows, row)
	}
	return nil
}

// leave notes why a food is left out; one without a shelf price is not on the
// card at all.
func (c *CardResult) leave(food int, err error) {
	var fact *FactError
	if err == nil || errors.As(err, &fact) && slices.ContainsFunc(fact.Missing, func(m Missing) bool { return m.Fact == ShelfFact }) {
		return
	}
	c.Left = append(c.Left, CardLeft{food, err})
}

// cardRow works one package out.
func cardRow(g *ledger.Ledger, q WorthQuery) (r CardRow, err error) {
	// As a gift: at which price so many packages save nothing does not hang on the price asked.
	q.Price = exact.Some(exact.Number{})
	f, d, err := Answer(g, q)
	if err != nil {
		return r, err
	}
	r = CardRow{Facts: f, Size: q.Size, Most: d.Most, Limits: d.Limits, Little: f.littleUse(d)}
	if even, ok := f.highestBreakEven(d).Get(); ok && even.Price.Sign() >= 0 {
		// Down: at a price rounded up it would lose.
		below := exact.MoneyOf(even.Price.Round(g.Settings.Currency.Minor(), exact.Down))
		r.Below, r.PerUnit = exact.Some(below), exact.Some(below.Per(f.Sale.Size))
		r.Packages, r.Best = even.Packages, d.Row(even.Packages)
	}
	history := PriceHistory(g, f.Bought, pricing.Fresh)
	offered := history.Between(exact.NoDate, f.Day).Offered()
	if last, ok := offered.Latest(); ok {
		r.Offer = exact.OptOf(offered.Between(last.Date, last.Date).Lowest())
	}
	lowest, ok := history.YearTo(f.Day).Of(pricing.Paid).Lowest()
	if !ok {
		return r, nil
	}
	q.Price = exact.Some(r.PackageAt(lowest.PerUnit).Round(mostPlaces, exact.HalfEven))
	_, at, err := Answer(g, q)
	r.Lowest, r.AtLowest = exact.Some(lowest), exact.Some(at.Best)
	return r, err
}

// mostPlaces is how many decimals a price that is typed can have.
const mostPlaces = 9

// PackageAt is what a package costs at a price per edible unit of the food
// bought.
func (r *CardRow) PackageAt(perUnit exact.Ratio) exact.Ratio {
	return perUnit.Mul(exact.RatioOf(r.Sale.Size).Quo(r.Ratio))
}

// highestBreakEven is the highest price of a package at which any number of them
// saves exactly nothing, for the fewest that have it.
func (f *Facts) highestBreakEven(d pricing.Decision) (even exact.Opt[PriceAt]) {
	for r := range d.Rows() {
		p, is := f.breakEvenOf(r)
		if best, have := even.Get(); is && (!have || best.Price.Cmp(p) < 0) {
			even = exact.Some(PriceAt{p, r.Packages})
		}
	}
	return even
}

// everDried reports whether a run has had a food in it.
func everDried(g *ledger.Ledger, food int) bool {
	return slices.ContainsFunc(g.Runs, func(r ledger.RunCost) bool { return r.Done && r.Loaded(food) })
}

// usualSizes are the sizes of the newest package that was bought of a food, and
// of the newest that a shop asked a price for, by a day; the smaller one first.
func usualSizes(g *ledger.Ledger, food int, day exact.Date) (sizes []exact.Quantity) {
	id := g.Foods[food].ID
	type seen struct {
		on   exact.Date // NoDate: none by then
		size exact.Quantity
	}
	var bought, asked seen
	newer := func(newest *seen, item string, on exact.Date, size exact.Quantity) {
		// Of rows of one day the later counts, as with shelf prices.
		if item == id && size.Sign() > 0 && newest.on <= on && on <= day {
			*newest = seen{on, size}
		}
	}
	for _, r := range g.Receipts.All() {
		if r.Kind == ledger.FoodLine {
			newer(&bought, r.Item, r.Date, r.Size)
		}
	}
	for i := range g.Shelf {
		if s := &g.Shelf[i]; s.Form == pricing.Fresh {
			newer(&asked, s.Item, s.Date, s.Size)
		}
	}
	for _, s := range []seen{bought, asked} {
		// 1 kg and 1000 g are one package.
		same := func(other exact.Quantity) bool {
			return other.Base().Number().Equal(s.size.Base().Number()) && other.Base().Unit() == s.size.Base().Unit()
		}
		if s.size.Given() && !slices.ContainsFunc(sizes, same) {
			sizes = append(sizes, s.size)
		}
	}
	slices.SortFunc(sizes, func(a, b exact.Quantity) int { return a.Base().Number().Cmp(b.Base().Number()) })
	return sizes
}

// sort puts rows in order of the names of what is bought, then of what is dried.
func (c *CardResult) sort(g *ledger.Ledger) {
	for _, rows := range [][]CardRow{c.Rows, c.Made} {
		slices.SortStableFunc(rows, func(a, b CardRow) int {
			return cmp.Or(cmp.Compare(ledger.Fold(g.Foods[a.Bought].Title()), ledger.Fold(g.Foods[b.Bought].Title())),
				cmp.Compare(ledger.Fold(g.Foods[a.Dried].Title()), ledger.Fold(g.Foods[b.Dried].Title())))
		})
	}
}
