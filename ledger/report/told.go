package report

import "putby/ledger"

// A Told is what was worked out, and how that is laid out. Charts and lists read
// the figures, whoever shows tables and sentences the rest.
type Told[R any] struct {
	Doc
	Figures R
}

// Tell works out what is asked and lays it out. The error is that of work.
func Tell[Q, R any](g *ledger.Ledger, q Q, work func(*ledger.Ledger, Q) (R, error), lay func(*ledger.Ledger, Q, R) Doc) (Told[R], error) {
	r, err := work(g, q)
	if err != nil {
		return Told[R]{}, err
	}
	return Told[R]{lay(g, q, r), r}, nil
}

// laid is [Tell] where the layout alone is read.
func laid[Q, R any](g *ledger.Ledger, q Q, work func(*ledger.Ledger, Q) (R, error), lay func(*ledger.Ledger, Q, R) Doc) (Doc, error) {
	t, err := Tell(g, q, work, lay)
	return t.Doc, err
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
	return []string{"Prices and amounts are of what is left to eat. Of what is bought this is thrown away: " + Listed(list) + "."}
}

// field is a table as a report's part.
func field(key, title string, t *Table) Field { return Field{Key: key, Title: title, Node: t} }
