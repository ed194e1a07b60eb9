package ledger

import (
	"maps"
	"reflect"
)

// Repriced returns the ledger of records that differ from its own in what shops ask
// alone: what [Join] would make of them, without following all events again, since
// nothing that was paid hangs on it. It is told of a ledger that stands at its last
// record. It reports false where they differ in more, or anything is wrong with them.
func (g *Ledger) Repriced(rec *Records) (*Ledger, bool) {
	last := LastDate(rec)
	if g.AsOf != g.last || g.day != g.last || last < g.last || !rec.differsIn(ShelfFile, g.Records) {
		return nil, false
	}
	next, x := *g, newIndex(rec, nil)
	next.Records, next.find = rec, x.finders
	next.AsOf, next.day, next.last, next.ahead = last, last, last, newOutlooks()
	(&joiner{Ledger: &next, x: x}).buildShelves()
	return &next, len(x.summary()) == 0
}

// differsIn reports whether records share all of their lists with others, except, it may
// be, that of a file.
func (rec *Records) differsIn(file string, others *Records) bool {
	if rec.Excerpt != nil || others.Excerpt != nil || !reflect.DeepEqual(rec.Settings, others.Settings) {
		return false
	}
	for _, k := range kinds() {
		if k.File != file && !k.list(rec).is(k.list(others)) {
			return false
		}
	}
	return maps.Equal(rec.Meters, others.Meters) && maps.Equal(rec.Rates, others.Rates)
}

// sameRows reports whether two lists are one.
func sameRows[T any](a, b []T) bool {
	return len(a) == len(b) && (len(a) == 0 || &a[0] == &b[0])
}
