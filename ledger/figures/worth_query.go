package figures

import (
	"time"

	"putby/ledger"
	"putby/pricing"
	"putby/pricing/exact"
)

// A WorthQuery is the question whether a sale is worth buying in bulk. What is
// not given comes from the ledger. Money is in major units of the ledger's
// currency; a quantity without a unit was not given.
type WorthQuery struct {
	Item string
	AsOf exact.Date // the day of purchase; NoDate: the ledger's
	Now  time.Time  // on that day: no run begins before. Zero, or of another day: they begin with it

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
	As        string                  // the food it is dried as, through a kitchen batch; empty: itself
	Ratio     exact.Quantity          // what one unit bought makes of As; not given: the latest batch's
	Yield     exact.Opt[exact.Number] // reconstituted over loaded, above 0
	FreshDays exact.Opt[int]          // after the purchase, to [MostDays]
	UseBy     exact.Opt[exact.Date]   // the day that it turns on, instead of FreshDays
	Frozen    bool                    // kept frozen until its turn
	Fresh     exact.Quantity          // eaten fresh

	// The machine and its cycles.
	Machine    string
	Load       exact.Quantity           // most per cycle
	CycleTime  exact.Opt[time.Duration] // above 0
	Turnaround time.Duration            // from the end of a cycle to the start of the next; 0: at once
	Start      exact.Opt[time.Time]     // of the first cycle
	Cycles     exact.Opt[int]           // most before it turns
	KWh        exact.Opt[exact.Number]  // of each cycle, full or not
	Tariff     string
	Rate       exact.Opt[exact.Number]  // per kWh, taxes in
	Wear       exact.Opt[exact.Money]   // per cycle
	Hands      exact.Opt[time.Duration] // hands-on time of a cycle

	// The packing.
	Each     exact.Quantity         // per container
	With     []ledger.Use           // per container
	PackCost exact.Opt[exact.Money] // per container

	// What will be used.
	Use        exact.Quantity // per month
	KeepMonths exact.Opt[int] // once packed
	Stock      exact.Quantity // in store already, reconstituted

	Without []ledger.Element
}

// begins is when the food of a question is bought, and the machine can take it at the
// earliest: now, where that is of the day of purchase, else when the day begins.
func (q *WorthQuery) begins(day exact.Date, zone *time.Location) time.Time {
	if now := q.Now.In(zone); exact.DateIn(now) == day {
		return now
	}
	return day.Midnight(zone)
}
