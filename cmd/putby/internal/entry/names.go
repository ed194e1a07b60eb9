package entry

import (
	"slices"

	"putby/ledger"
)

// Names returns what the cells of a column may hold: a closed list of words,
// or names of the ledger. Closed says that nothing else is right; a shop, say,
// may be a new one. There is nothing for a column of free text or amounts, nor
// for a record's own identifier.
func Names(rec *ledger.Records, c *ledger.Column) (names []string, closed bool) {
	switch {
	case c.Words != nil:
		return c.Words, true
	case c.Own || c.Cell != ledger.NameCell && c.Cell != ledger.TextCell:
		return nil, false
	}
	return c.Known(rec), c.Names != nil && !c.Open
}

// Meant returns the identifier that a cell should hold where a person wrote
// what they call the thing: its name, or its identifier in another case. What
// names nothing, or more than one thing, is returned as it is; so is a pack of an
// excerpt, since packs that are not there may be called so too.
func Meant(rec *ledger.Records, c *ledger.Column, text string) string {
	if text == "" {
		return ""
	}
	names, _ := Names(rec, c)
	if len(names) == 0 || slices.Contains(names, text) || rec.Excerpt != nil && slices.Contains(c.Names, ledger.Packs) {
		return text
	}
	id, _ := ledger.Meant(text, titled(rec, names))
	return id
}

// titled gives identifiers the names that foods, supplies and machines have.
func titled(rec *ledger.Records, ids []string) []ledger.Named {
	titles := map[string]string{}
	for _, list := range [][]ledger.Named{rec.NamedFoods(), rec.NamedSupplies(), rec.NamedMachines()} {
		for _, n := range list {
			titles[n.ID] = n.Name
		}
	}
	named := make([]ledger.Named, len(ids))
	for i, id := range ids {
		named[i] = ledger.Named{ID: id, Name: titles[id]}
	}
	return named
}

// Unknown says that a cell should name something that the ledger has, and does
// not; near is what was probably meant, or "". A blank cell names nothing.
func Unknown(rec *ledger.Records, c *ledger.Column, text string) (near string, unknown bool) {
	names, closed := Names(rec, c)
	if text == "" || !closed || slices.Contains(names, text) {
		return "", false
	}
	return ledger.Nearest(text, names), true
}

// Own returns the identifiers of all records of a kind, by which they can be
// shown or edited.
func Own(rec *ledger.Records, kind string) []string {
	k, _ := ledger.KindOf(kind)
	for i := range k.Columns {
		if c := &k.Columns[i]; c.Own {
			return append(c.Known(rec), c.Words...)
		}
	}
	return nil
}
