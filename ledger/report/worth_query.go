package report

import (
	"fmt"
	"strings"
	"time"

	"putby/ledger"
	"putby/pricing"
	"putby/pricing/exact"
)

// A WorthQuery is the question whether a sale is worth buying in bulk (design
// section 6). What is not given comes from the ledger.
type WorthQuery struct {
	Item   string
	As     string                   // the food it is dried as, through a kitchen batch; empty: itself
	Ratio  exact.Quantity           // what one unit bought makes of As; not given: the latest batch's
	Price  exact.Number             // of a package
	Size   exact.Quantity           // of a package, as bought
	Limit  exact.Opt[int]           // packages a visit
	Visits int                      // how often, 1 or more
	Offer  exact.Opt[pricing.Offer] // such as "3 for 5.00", on each visit's packages
	Frozen bool                     // kept frozen until its turn
	AsOf   exact.Date

	Shelf      exact.Opt[exact.Number] // money per L, kg or ea
	Machine    string
	Load       exact.Quantity // most per cycle
	CycleTime  exact.Opt[time.Duration]
	Turnaround time.Duration
	FreshDays  exact.Opt[int]
	Cycles     exact.Opt[int]          // most before it turns
	KWh        exact.Opt[exact.Number] // per cycle
	Tariff     string
	Rate       exact.Opt[exact.Number] // money per kWh, taxes in
	Each       exact.Quantity          // per container
	With       []ledger.Use            // per container
	PackCost   exact.Opt[exact.Money]  // per container
	Yield      exact.Opt[exact.Number] // reconstituted per fresh amount
	Fresh      exact.Quantity          // eaten fresh
	Use        exact.Quantity          // per month
	KeepMonths exact.Opt[int]
	Stock      exact.Quantity
	Wear       exact.Opt[exact.Money] // per cycle
	Start      exact.Opt[time.Time]   // of the first cycle
	Without    []ledger.Element
	FullTable  bool // every number of packages, not only those worth seeing
}

// A MissingError names all the facts that a question lacks, each with what
// would give it.
type MissingError struct{ Facts []MissingFact }

// A MissingFact is one of them.
type MissingFact struct {
	What   string
	Flag   string // with dashes
	Record string // the record that would give it; may be empty
}

// Error lists the facts.
func (e *MissingError) Error() string {
	lines := []string{"some facts are missing:"}
	for _, f := range e.Facts {
		line := fmt.Sprintf("  %s: give %s", f.What, f.Flag)
		if f.Record != "" {
			line += ", or record " + f.Record
		}
		lines = append(lines, line)
	}
	return strings.Join(lines, "\n")
}
