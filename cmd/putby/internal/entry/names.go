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
// shown or amended.
func Own(rec *ledger.Records, kind string) []string {
	k, _ := ledger.KindOf(kind)
	for i := range k.Columns {
		if c := &k.Columns[i]; c.Own {
			return append(c.Known(rec), c.Words...)
		}
	}
	return nil
}
