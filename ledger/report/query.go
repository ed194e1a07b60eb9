package report

import (
	"cmp"
	"fmt"
	"slices"

	"putby/ledger"
	"putby/pricing/exact"
)

// A Query says what part of the ledger a report is about.
type Query struct {
	From, To exact.Date // inclusive; NoDate is open
	AsOf     exact.Date // later records are left out; NoDate is the ledger's
	Item     string     // only this food, by its identifier or name; empty is all

	title string // what people call the food, once it is checked
}

// NewQuery returns a query about everything.
func NewQuery() Query {
	return Query{From: exact.NoDate, To: exact.NoDate, AsOf: exact.NoDate}
}

// A QueryError says which option of a report cannot be met, and why.
type QueryError struct {
	Option string // without dashes: "item", "from" ...
	Why    string
	Hint   string
}

// Error names the option.
func (e *QueryError) Error() string { return fmt.Sprintf("--%s: %s", e.Option, e.Why) }

// Check refuses dates the wrong way round and unknown foods, and writes the
// identifier of the one that is meant.
func (q *Query) Check(rec *ledger.Records) error {
	if q.From != exact.NoDate && q.To != exact.NoDate && q.To < q.From {
		return &QueryError{"to", fmt.Sprintf("%v is before --from %v", q.To, q.From), "give the earlier date to --from"}
	}
	if q.Item == "" {
		return nil
	}
	id, ok := ledger.Meant(q.Item, rec.NamedFoods())
	if !ok {
		return &QueryError{"item", "no food is called " + exact.Quote(q.Item), nearFood(rec, q.Item)}
	}
	q.Item = id
	q.title = rec.Foods[slices.IndexFunc(rec.Foods, func(f ledger.Food) bool { return f.ID == id })].Title()
	return nil
}

// nearFood says which food was probably meant, or where they are.
func nearFood(rec *ledger.Records, id string) string {
	var names []string
	for i := range rec.Foods {
		names = append(names, rec.Foods[i].ID)
	}
	return cmp.Or(ledger.Nearest(id, names), "foods are listed in "+ledger.FoodsFile)
}

// covers reports whether a date is within the query.
func (q Query) covers(d exact.Date) bool {
	return (q.From == exact.NoDate || d >= q.From) && (q.To == exact.NoDate || d <= q.To) &&
		(q.AsOf == exact.NoDate || d <= q.AsOf)
}

// wants reports whether the query is about a food.
func (q Query) wants(f *ledger.Food) bool { return q.Item == "" || q.Item == f.ID }

// newDoc begins a report on a ledger.
func newDoc(g *ledger.Ledger, title string) Doc {
	s := &g.Settings
	return Doc{Title: title, Currency: s.Currency, Show: s.Show()}
}

// refuses says, of the foods reported that have refuse, that prices and amounts
// are of what is left of them: 3.20 on the shelf is more per kg eaten.
func refuses(g *ledger.Ledger, reported func(food int) bool) []string {
	var list []string
	for i := range g.Foods {
		if f := &g.Foods[i]; reported(i) && f.HasRefuse() {
			list = append(list, f.Title()+" "+f.Refuse.String()+" %")
		}
	}
	if list == nil {
		return nil
	}
	return []string{"Prices and amounts are of what is left to eat. Of what is bought this is thrown away: " + listed(list) + "."}
}

// field is a table as a report's part.
func field(key, title string, t *Table) Field { return Field{Key: key, Title: title, Node: t} }
