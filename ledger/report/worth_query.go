package report

import (
	"fmt"
	"strings"
	"time"

	"putby/ledger/figures"
	"putby/pricing/exact"
)

// A WorthQuery is the question whether a sale is worth buying in bulk, and how
// people are shown the answer. [WorthQuery.Set] reads it from words, as flags and
// cells have them.
type WorthQuery struct {
	figures.WorthQuery
	StartText string                 // local time of the first cycle, or with an offset; read where the zone is known
	Budget    exact.Opt[exact.Money] // for the food of all offers of a plan together
	FullTable bool                   // show people every number of packages
	Brief     bool                   // show people the words alone
}

// NewWorthQuery returns a question about a food of which nothing else is given.
func NewWorthQuery(item string) WorthQuery {
	return WorthQuery{WorthQuery: figures.WorthQuery{Item: item, AsOf: exact.NoDate}}
}

// in reads what depends on the zone.
func (q WorthQuery) in(zone *time.Location) (figures.WorthQuery, error) {
	if q.StartText == "" {
		return q.WorthQuery, nil
	}
	t, err := exact.ParseMoment(q.StartText, zone)
	if err != nil {
		return q.WorthQuery, errorf("start", "write it as \"2025-02-28 18:30\", or with an offset", "%v", err)
	}
	q.Start = exact.Some(t)
	return q.WorthQuery, nil
}

// A MissingError names all the facts that a question lacks, each with what
// would give it.
type MissingError struct{ Facts []MissingFact }

// A MissingFact is one of them.
type MissingFact struct {
	What   string
	Flag   string // options that would give it, with dashes
	Record string // the record that would give it; may be empty
}

// Error lists the facts, one a line.
func (e *MissingError) Error() string {
	lines := []string{"some facts are missing:"}
	for _, f := range e.Facts {
		lines = append(lines, "  "+f.String())
	}
	return strings.Join(lines, "\n")
}

// String says what is missing and what would give it.
func (f MissingFact) String() string {
	s := fmt.Sprintf("%s: give %s", f.What, f.Flag)
	if f.Record != "" {
		s += ", or record " + f.Record
	}
	return s
}
