package report

import (
	"fmt"
	"strings"
	"time"

	"putby/ledger"
	"putby/pricing"
	"putby/pricing/exact"
)

// A WorthQuery is the question whether a sale is worth buying in bulk. What is not given comes from the ledger. [WorthQuery.Set] reads
// it from words, as flags and cells have them. Money is in major units of the
// ledger's currency; a quantity without a unit was not given.
type WorthQuery struct {
	Item string
	AsOf exact.Date // the day of purchase; NoDate: the ledger's

	// The offer.
	Price  exact.Opt[exact.Number] // of a package
	Size   exact.Quantity          // of a package, as bought
	Limit  exact.Opt[int]          // packages a visit
	Visits int                     // how often; 0 is once
	Offer  pricing.Offer           // on each visit's packages, such as "3 for 5.00"
	Also   []pricing.Visit         // the same package at other shops
	Shelf  exact.Opt[exact.Number] // regular price of ShelfSize
	// ShelfSize is what Shelf buys, as bought; not given: one edible unit of
	// Item (L, kg or ea).
	ShelfSize exact.Quantity

	// The food.
	As        string         // the food it is dried as, through a kitchen batch; empty: itself
	Ratio     exact.Quantity // what one unit bought makes of As; not given: the latest batch's
	Yield     exact.Opt[exact.Number]
	FreshDays exact.Opt[int]
	UseBy     exact.Opt[exact.Date] // the day that it turns on, instead of FreshDays
	Frozen    bool                  // kept frozen until its turn
	Fresh     exact.Quantity        // eaten fresh

	// The machine and its cycles.
	Machine    string
	Load       exact.Quantity // most per cycle
	CycleTime  exact.Opt[time.Duration]
	Turnaround time.Duration
	Start      string         // local time of the first cycle, or with an offset
	Cycles     exact.Opt[int] // most before it turns
	KWh        exact.Opt[exact.Number]
	Tariff     string
	Rate       exact.Opt[exact.Number] // per kWh, taxes in
	Wear       exact.Opt[exact.Money]  // per cycle
	Hands      exact.Opt[time.Duration]

	// The packing.
	Each     exact.Quantity         // per container
	With     []ledger.Use           // per container
	PackCost exact.Opt[exact.Money] // per container

	// What will be used.
	Use        exact.Quantity // per month
	KeepMonths exact.Opt[int]
	Stock      exact.Quantity

	Without   []ledger.Element
	FullTable bool // show people every number of packages
	Brief     bool // show people the words alone
}

// NewWorthQuery returns a question about a food of which nothing else is given.
func NewWorthQuery(item string) WorthQuery {
	return WorthQuery{Item: item, AsOf: exact.NoDate}
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
