package report

import (
	"cmp"
	"errors"
	"fmt"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/pricing/exact"
)

// A QueryError says which option of a report cannot be met, and why.
type QueryError struct {
	Option string // without dashes: "item", "from" ...
	Why    string
	Hint   string
}

// Error names the option.
func (e *QueryError) Error() string { return fmt.Sprintf("--%s: %s", e.Option, e.Why) }

// A Told is what was worked out, and how that is laid out. Charts and lists read
// the figures, whoever shows tables and sentences the rest.
type Told[R any] struct {
	Doc
	Figures R
}

// Tell works out what is asked and lays it out. The error is a [*QueryError], or
// one that no option causes.
func Tell[Q, R any](g *ledger.Ledger, q Q, work func(*ledger.Ledger, Q) (R, error), lay func(*ledger.Ledger, Q, R) Doc) (Told[R], error) {
	r, err := work(g, q)
	if err != nil {
		return Told[R]{}, asked(g, err)
	}
	return Told[R]{lay(g, q, r), r}, nil
}

// asked turns what figures cannot answer into what is wrong with an option: a
// food or shop that is not recorded, dates the wrong way round or beyond all
// records.
func asked(g *ledger.Ledger, err error) error {
	var unknown *figures.UnknownError
	var period *figures.PeriodError
	var beyond *figures.BeyondError
	var due *figures.DueError
	var shop *figures.ShopError
	switch {
	case errors.As(err, &due):
		return &QueryError{"soon", due.Error(), ""}
	case errors.As(err, &shop):
		return &QueryError{"shop", fmt.Sprintf("no price of %s at %s is recorded", shop.Item, exact.Quote(shop.Shop)), "its shops are: " + listed(shop.Among)}
	case errors.As(err, &unknown) && unknown.What == "food":
		return &QueryError{"item", "no food is called " + exact.Quote(unknown.Name), nearFood(g.Records, unknown.Name)}
	case errors.As(err, &period):
		return &QueryError{"to", fmt.Sprintf("%v is before --from %v", period.To, period.From), "give the earlier date to --from"}
	case errors.As(err, &beyond) && beyond.Asked > beyond.Record:
		return &QueryError{"from", beyond.Error(), "give --to as well to see months without records"}
	case errors.As(err, &beyond):
		return &QueryError{"to", beyond.Error(), "give --from as well to see months without records"}
	}
	return err
}

// nearFood says which food was probably meant, or where they are.
func nearFood(rec *ledger.Records, id string) string {
	var names []string
	for i := range rec.Foods {
		names = append(names, rec.Foods[i].ID)
	}
	return cmp.Or(ledger.Nearest(id, names), "foods are listed in "+ledger.FoodsFile)
}

// newDoc begins a report on a ledger.
func newDoc(g *ledger.Ledger, title string) Doc {
	s := &g.Settings
	return Doc{Title: title, Currency: s.Currency, Show: s.Show()}
}

// ofFood ends the title of a report on one food; nothing where it is -1.
func ofFood(g *ledger.Ledger, food int) string {
	if food < 0 {
		return ""
	}
	return ": " + g.Foods[food].Title()
}

// refuses says, of the foods reported that have refuse, that prices and amounts
// are of what is left of them: 3.20 on the shelf is more per kg eaten.
func refuses(g *ledger.Ledger, reported func(food int) bool) []string {
	var list []string
	for i := range g.Foods {
		if f := &g.Foods[i]; reported(i) && f.HasRefuse() {
			list = append(list, f.Title()+" "+phrasingOf(&g.Settings).percents(f.Refuse))
		}
	}
	if list == nil {
		return nil
	}
	return []string{"Prices and amounts are of what is left to eat. Of what is bought this is thrown away: " + listed(list) + "."}
}

// field is a table as a report's part.
func field(key, title string, t *Table) Field { return Field{Key: key, Title: title, Node: t} }
