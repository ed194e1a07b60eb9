package figures

import (
	"cmp"
	"slices"

	"putby/ledger"
	"putby/pricing/exact"
)

// A MonthQuery asks what was spent, put by, used, lost and saved. From and To
// stand for the whole months (with weeks: weeks) that they fall in.
type MonthQuery struct {
	Query
	Each    Each
	Budgets Budgets // beside those of the settings
}

// Budgets are the most to spend in a month by kind of spending.
type Budgets [spendings]exact.Opt[exact.Money]

// Left is the most to spend on a kind in the months of a stretch, and what of it is
// left: below 0 where more was spent. Neither is given for a kind without a budget.
func (b *Budgets) Left(kind Spending, s *Stretch) (most, left exact.Opt[exact.Money]) {
	month, ok := b[kind].Get()
	if !ok {
		return most, left
	}
	sum := month.Times(exact.Int(int64(s.Months)))
	return exact.Some(sum), exact.Some(sum.Sub(s.Spent[kind]))
}

// A MonthResult is what moved, period by period.
type MonthResult struct {
	Food     int       // asked about; -1: all
	Rows     []Stretch // by time; none where nothing is recorded and no dates are asked for
	Whole    Stretch   // all rows together
	Last     Beside    // what to set the last row beside
	From, To string    // the periods that the whole begins and ends in
	Shops    []ShopSpent
	AllShops ShopSpent // all of them together, with no name
	Budgets  Budgets   // asked for, else the settings'
	Ahead    Ahead     // what the packs in store would still save
	Notes    Notes
}

// Beside is what moved in the period before another, and a year before it.
type Beside struct {
	Before, Year       Stretch
	BeforeKey, YearKey string // YearKey is empty where a year has none
	HasBefore, HasYear bool   // something was recorded by then
}

// Month works out what moved, period by period, and proves that the packs in
// store come out: opening and what was put by, less all that left, is what is
// in store. The ledger must be joined through the query's AsOf. The error may
// also be a [*FactError] or [ErrUnbalanced].
func Month(g *ledger.Ledger, q MonthQuery) (MonthResult, error) {
	scope, err := q.In(g)
	if err != nil {
		return MonthResult{}, err
	}
	r := MonthResult{Food: scope.Food, Budgets: q.budgets(g)}
	c, err := newCalendar(g, q.Query, scope, q.Each)
	if err != nil || c == nil {
		return r, err
	}
	r.Rows, r.Whole = c.stretches(), c.whole()
	r.From, r.To = q.Each.of(r.Whole.From).Key, q.Each.of(r.Whole.To).Key
	if q.Each >= EachShop {
		r.Shops, r.Notes = c.shops(), c.spendingNotes()
		for i := range r.Shops {
			r.AllShops.Spent, r.AllShops.Receipts = r.AllShops.Spent.Plus(&r.Shops[i].Spent), r.AllShops.Receipts+r.Shops[i].Receipts
		}
		return r, nil
	}
	r.Last, r.Notes = c.beside(r.Rows[len(r.Rows)-1]), c.shownNotes()
	r.Ahead = toCome(g, scope, g.AsOf, &r.Notes)
	return r, nil
}

// budgets are the query's, else the settings'.
func (q MonthQuery) budgets(g *ledger.Ledger) (list Budgets) {
	for kind := range list {
		list[kind] = q.Budgets[kind]
		if m, ok := g.Settings.Budgets[Spending(kind).String()]; ok && !list[kind].Given() {
			list[kind] = exact.Some(m)
		}
	}
	return list
}

// beside finds what a stretch is set beside.
func (c *calendar) beside(s Stretch) (b Beside) {
	b.Before, b.BeforeKey, b.HasBefore = c.before(s)
	b.Year, b.YearKey, b.HasYear = c.yearBefore(s)
	return b
}

// A ShopSpent is what was spent by receipts in one shop.
type ShopSpent struct {
	Shop     string
	Receipts int // with a line that counts, each once
	Spent    Outgoings
}

// shops sums what was spent in each shop, the largest sum first.
func (c *calendar) shops() []ShopSpent {
	first, last := c.periods[c.first].From, c.periods[c.last].To
	var list []ShopSpent
	at := map[string]int{}
	counted := map[string]bool{}
	for i, r := range c.g.Receipts.All() {
		if r.Date < first || r.Date > min(last, c.g.AsOf) || !c.buys(&r) {
			continue
		}
		n, ok := at[r.Shop]
		if !ok {
			n = len(list)
			at[r.Shop], list = n, append(list, ShopSpent{Shop: r.Shop})
		}
		if !counted[r.Receipt] {
			counted[r.Receipt] = true
			list[n].Receipts++
		}
		list[n].Spent[r.Kind] = list[n].Spent[r.Kind].Add(c.g.Spends[i])
	}
	slices.SortStableFunc(list, func(a, b ShopSpent) int {
		return cmp.Or(b.Spent.Total().Cmp(a.Spent.Total()), cmp.Compare(a.Shop, b.Shop))
	})
	return list
}
