package entry

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"

	"putby/ledger"
	"putby/ledger/advice"
	"putby/ledger/figures"
	"putby/pricing/exact"
)

// A StocktakeIn is what was counted at the end of a day.
type StocktakeIn struct {
	Date    string // "": today
	Note    string
	Counted []Counted
}

// A Counted is what was found of a pack, or of an item: a food or a supply.
type Counted struct {
	Pack, Item string // identifiers, one of them
	Found      string // as it was typed; "": as the books have it
	Gone       string // what became of the rest: eaten, given or spoiled; "": nobody knows
}

// ToCount lists what a stocktake of a day goes through; "" is today.
func ToCount(b *Base, date string, q figures.CountQuery) ([]figures.Countable, *ledger.Ledger, error) {
	day, err := b.day(date)
	if err != nil {
		return nil, nil, err
	}
	g, err := b.through(day)
	if err != nil {
		return nil, nil, err
	}
	list := figures.ToCount(g, q)
	if place, ok := q.Place.Get(); ok && !slices.ContainsFunc(list, func(c figures.Countable) bool { return c.Pack >= 0 }) {
		return nil, nil, noPlace(b.Records, place)
	}
	return list, g, nil
}

// noPlace says that nothing stands in a place.
func noPlace(rec *ledger.Records, place string) error {
	places := rec.Packs.Distinct(func(p *ledger.Pack) string { return p.Place })
	hint := "places are: " + strings.Join(places, ", ")
	if near := ledger.Nearest(place, places); near != "" {
		hint = quote(near)
	}
	return notThere("no pack stands in "+quote(place), hint)
}

// through is the ledger as it was at the end of a day.
func (b *Base) through(day exact.Date) (*ledger.Ledger, error) {
	g, err := b.Ledger()
	if err != nil || ledger.LastDate(b.Records) <= day {
		return g, err
	}
	g, faults := ledger.Join(b.Records, ledger.Options{Through: day, PricesThrough: day})
	return g, faults.Err()
}

// ReadCount reads what was found of something as a person types it: "" is what
// the books have, a number alone is in the unit that the household is shown. It
// refuses more than the books have. Agrees says that it is what they have.
func ReadCount(g *ledger.Ledger, c figures.Countable, text string) (found exact.Number, agrees bool, err error) {
	text = strings.TrimSpace(text)
	if text == "" || text == BooksText(g, c) || text == strings.Fields(BooksText(g, c))[0] {
		return found, true, nil
	}
	if two := TwoWays(g.Settings.Locale, text); two != nil {
		return found, false, typed("", two.Error())
	}
	found, err = countIn(g, c, text)
	switch over := exact.RatioOf(found).Cmp(c.Books); {
	case err != nil:
		return found, false, err
	case found.Sign() < 0:
		return found, false, typed(text, "it is below 0")
	case c.Whole(g) && !found.IsInt():
		return found, false, typed(text, "it is not a whole number")
	case over > 0:
		return found, false, typed(text, "the books have "+BooksText(g, c)+". A record may be lacking: "+lacking(g, c))
	default:
		return found, over == 0, nil
	}
}

// countIn reads a number, or of fresh food an amount, in what it is counted in.
func countIn(g *ledger.Ledger, c figures.Countable, text string) (exact.Number, error) {
	text = nativeCell(g.Settings.Locale, text)
	n, err := exact.ParseNumber(Number(text))
	unit := c.Unit(g)
	if unit == exact.NoUnit {
		if err != nil {
			return n, typed(text, "it is not a number, such as 3")
		}
		return n, nil
	}
	q := g.Settings.Show().In(unit).Of(n)
	if err != nil {
		if q, err = exact.ParseQuantity(Amount(text)); err != nil {
			return n, typed(text, "it is not an amount, such as 0.5 "+g.Settings.Show().In(unit).String())
		}
	}
	if n, err = g.Foods[c.Food].InBasis(q); err != nil {
		return n, typed(text, err.Error())
	}
	return n.Round(exact.MaxFraction, exact.HalfEven), nil
}

// lacking says which record may be lacking where more is counted than the books
// have.
func lacking(g *ledger.Ledger, c figures.Countable) string {
	switch {
	case c.Pack >= 0:
		return "a pack, or a draw too many"
	case c.Whole(g):
		return "a receipt, or a draw of what stood full (the empty ones are counted)"
	}
	return "a receipt, or a draw too many"
}

// BooksText is what the books have of something, as people are shown it.
func BooksText(g *ledger.Ledger, c figures.Countable) string {
	if unit := c.Unit(g); unit != exact.NoUnit {
		n, _ := c.Books.Number() // of what is in hand
		return g.Settings.Show().Amount(n, unit)
	}
	return g.Settings.Show().Number(c.Books.Round(ledger.ShownPlaces, exact.HalfAway))
}

// Stocktake records what was counted: what the books have beyond it is missing,
// or drawn as what became of it.
func Stocktake(b *Base, in StocktakeIn) (*Draft, error) {
	list, g, err := ToCount(b, in.Date, figures.CountQuery{Supplies: true, Fresh: true})
	if err != nil {
		return nil, err
	}
	day, _ := b.day(in.Date) // which was read already
	// Counts of a day are held against the books in their order, and what is missing
	// of a pack leaves empty jars.
	packs := slices.DeleteFunc(slices.Clone(in.Counted), func(c Counted) bool { return c.Pack == "" })
	items := slices.DeleteFunc(slices.Clone(in.Counted), func(c Counted) bool { return c.Pack != "" })
	var draws, counts []Row
	for _, c := range append(packs, items...) {
		of, ok := c.in(g, list)
		if !ok {
			return nil, notThere(quote(c.Pack+c.Item)+" is not there to be counted on "+day.String(), "see what is", advice.Do(advice.Stocktake).With("sheet"))
		}
		of = WithReturned(g, of, in.Counted)
		found, agrees, err := ReadCount(g, of, c.Found)
		if err != nil {
			return nil, err
		}
		if agrees {
			books, ok := of.Recordable().Get()
			if !ok {
				continue // the very fraction that the books have cannot be written down
			}
			found = books
		}
		cells := map[string]string{"date": day.String(), "pack": c.Pack, "item": c.Item, "note": in.Note, "quantity": recorded(g, of, found)}
		counts = append(counts, Row{ledger.MustKind("count"), cells})
		if c.Gone == "" || agrees {
			continue
		}
		if !slices.Contains(Became, c.Gone) {
			return nil, typed(c.Gone, "what became of it is one of: "+strings.Join(Became, ", "))
		}
		gone := of.Books.Sub(exact.RatioOf(found)).Round(exact.MaxFraction, exact.Down)
		draws = append(draws, GoneRow(cells, c.Gone, recorded(g, of, gone)))
	}
	if counts == nil {
		return nil, typed("", "nothing was counted")
	}
	return &Draft{Rows: append(draws, counts...)}, nil
}

// in finds what was counted among what is there.
func (c *Counted) in(g *ledger.Ledger, list []figures.Countable) (figures.Countable, bool) {
	i := slices.IndexFunc(list, func(of figures.Countable) bool { return of.ID(g) == c.Pack+c.Item && (of.Pack >= 0) == (c.Pack != "") })
	if i < 0 {
		return figures.Countable{}, false
	}
	return list[i], true
}

// WithReturned is what there is to count with what else was counted: the jars of
// packs that are missing count as empty ones.
func WithReturned(g *ledger.Ledger, of figures.Countable, counted []Counted) figures.Countable {
	if of.Supply < 0 || !of.Whole(g) {
		return of
	}
	for _, c := range counted {
		i, ok := g.FindPack(c.Pack)
		if !ok {
			continue
		}
		left := exact.Int(int64(g.Packs[i].Left()))
		found, agrees, err := ReadCount(g, figures.Countable{Pack: i, Supply: -1, Books: exact.RatioOf(left)}, c.Found)
		if agrees || err != nil {
			continue
		}
		for _, u := range g.Records.Packs.At(i).With {
			if u.Supply == of.ID(g) {
				of.Books = of.Books.Add(exact.RatioOf(left.Sub(found).Mul(u.Number)))
			}
		}
	}
	return of
}

// CountedOf is what was found of something, as it was typed.
func CountedOf(g *ledger.Ledger, of figures.Countable, found, gone string) Counted {
	c := Counted{Item: of.ID(g), Found: found, Gone: gone}
	if of.Pack >= 0 {
		c.Pack, c.Item = c.Item, ""
	}
	return c
}

// recorded writes a number of what is counted as a record has it.
func recorded(g *ledger.Ledger, of figures.Countable, n exact.Number) string {
	if unit := of.Unit(g); unit != exact.NoUnit {
		return unit.Of(n).String()
	}
	return n.String()
}

// Became are the words for what became of what is gone.
var Became = []string{"eaten", "given", "spoiled"}

// GoneRow draws what a count has less than the books as what became of it, one of
// [Became].
func GoneRow(count map[string]string, became, quantity string) Row {
	cells := maps.Clone(count)
	cells["quantity"], cells["reason"] = quantity, cmp.Or(map[string]string{"eaten": "used"}[became], became)
	return Row{ledger.MustKind("draw"), cells}
}

// Counting says what a thing to count is: "Chicken broth, pack c22-a, 1 L each,
// best by 2027-03-02".
func Counting(g *ledger.Ledger, c figures.Countable) string {
	switch {
	case c.Supply >= 0:
		s := &g.Supplies[c.Supply]
		if s.ServesAgain() {
			return s.Title() + ", empty ones"
		}
		return s.Title()
	case c.Pack < 0:
		return g.Foods[c.Food].Title()
	}
	food := &g.Foods[c.Food]
	words := fmt.Sprintf("%s, pack %s, %s each", food.Title(), c.ID(g), g.Settings.Show().Amount(g.Packs[c.Pack].Each, food.Basis))
	if c.BestBy != exact.NoDate {
		words += ", best by " + g.Settings.Show().Date(c.BestBy)
	}
	return words
}
