package pricing

import "putby/pricing/exact"

// A Sale is the question whether food on offer is worth buying in bulk to dry.
// Amounts are in the food's base unit (L, kg or ea), edible; money in major
// units. A function that is nil costs nothing.
type Sale struct {
	Price exact.Number   // money per package
	Size  exact.Number   // edible amount in a package; above 0
	Limit exact.Opt[int] // most packages, over all visits

	// Paid is what so many packages cost, where that is not packages times
	// Price: an offer such as "3 for 5.00", or several shops.
	Paid func(packages int) exact.Money

	Shelf    exact.Ratio  // what the shelf asks, money per unit
	FreshUse exact.Number // most that will be eaten fresh

	Load      exact.Number            // most fresh amount in a cycle
	MaxCycles exact.Opt[int]          // cycles that fit before the food turns
	MaxMade   exact.Opt[exact.Number] // most reconstituted amount that will be used before best-by
	Yield     exact.Ratio             // reconstituted amount per fresh amount
	Each      exact.Number            // reconstituted amount in a container

	// Electricity is the posted cost of the cycle-th cycle, from 0, with a
	// load above 0.
	Electricity func(cycle int, load exact.Number) exact.Money

	Supplies exact.Money // machine supplies of a cycle, such as pump oil
	Wear     exact.Money // wear of a cycle
	Labour   exact.Money // hands-on work of a cycle

	// Containers is the posted cost of so many containers with all that
	// goes into them.
	Containers func(containers int) exact.Money
}

// A Decision is the answer to a [Sale].
type Decision struct {
}

// Decide counts every number of packages and returns the one that saves most.
func Decide(s Sale) (Decision, error) { return Decision{}, nil }
