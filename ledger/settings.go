package ledger

import (
	"time"

	"putby/ledger/advice"
	"putby/pricing/exact"
	"putby/pricing/locale"
)

// Costing says how the lots of a food are drawn.
type Costing uint8

// The ways of costing.
const (
	FIFO    Costing = iota // oldest first
	Average                // one pool a food
)

// Share says by what a run's common costs are shared among its loads.
type Share uint8

// The ways of sharing.
const (
	ByWater Share = iota // water removed
	ByMass
	ByTrays
	ByQuantity // only ever the last resort
)

var shares = words{"water", "mass", "trays", "quantity"}

// String returns the way's word.
func (s Share) String() string { return shares[s] }

// Settings are what applies to a whole ledger.
type Settings struct {
	Currency   exact.Currency
	Zone       *time.Location
	Tariff     string
	TariffLine int // of the row that names it
	Costing    Costing
	Share      Share
	Household  [12]exact.Number        // kWh of other use in each calendar month, January first
	HourValue  exact.Money             // per hour of hands-on work
	Freezer    exact.Quantity          // what the freezer holds, in L
	FreezerKWh exact.Opt[exact.Number] // that the freezer uses in a month
	ShowVolume exact.Unit
	ShowMass   exact.Unit
	Locale     locale.Locale          // how people are shown numbers, money and dates; Plain: as in records
	Wording    advice.Wording         // how people are told what to do, which no record says; nil: by the names of acts
	AsOf       exact.Opt[exact.Date]  // the day at which reports stand, of a ledger kept as an example; else today
	Budgets    map[string]exact.Money // per month, by the kind of spending
}

// Places is the number of digits at which this ledger posts money.
func (s Settings) Places() int { return s.Currency.Places() }
