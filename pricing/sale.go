package pricing

import (
	"errors"
	"fmt"
	"time"

	"putby/pricing/exact"
)

// A Sale is the question whether food on offer is worth buying in bulk to dry.
// Amounts are edible and in the food's base unit (L, kg or ea); money is in
// major units. A function that is nil costs nothing; functions are called with
// arguments above 0 only, and must give the same answer each time.
type Sale struct {
	Price exact.Number   // money per package; may be 0
	Size  exact.Number   // amount in a package; above 0
	Limit exact.Opt[int] // most packages, over all visits; not given: no such limit

	// Paid is what so many packages cost, where that is not packages times
	// Price: under an offer such as "3 for 5.00", or at several shops (see
	// [Spread]).
	Paid func(packages int) exact.Money

	Shelf    exact.Ratio  // what the shelf asks, money per unit, of the food as it is eaten
	FreshUse exact.Number // most that will be eaten fresh; may be 0

	Load      exact.Number            // most of the fresh amount in a cycle; above 0 unless MaxCycles is 0
	MaxCycles exact.Opt[int]          // cycles that fit before the food turns; not given: no such limit
	MaxMade   exact.Opt[exact.Number] // most reconstituted amount that will be used before best-by, beyond the stock
	Yield     exact.Ratio             // reconstituted amount per fresh amount; above 0
	Each      exact.Number            // reconstituted amount in a container; above 0 where Containers is given

	// Electricity is the posted cost of one cycle: the cycle-th, from 0, with
	// this load. Cycles are full but the last. Its error ends a decision that needs
	// the cycle, and what is looked for beyond one.
	Electricity func(cycle int, load exact.Number) (exact.Money, error)
	LeastFull   exact.Money // at least what that of a full cycle costs; it may be below 0

	Supplies exact.Money // of a cycle: what the machine draws, such as pump oil
	Wear     exact.Money // of a cycle
	Labour   exact.Money // of a cycle: hands-on work

	// Containers is the posted cost of so many containers with all that goes
	// into them.
	Containers func(containers int) exact.Money
}

// The most that [Decide] counts; a sale beyond it needs a limit.
const (
	MaxPackages = 1_000_000
	MaxCycles   = 1_000_000
	maxPacked   = 1_000_000_000 // containers
)

// The reasons why a sale cannot be decided, beside what [*SaleError] names.
var (
	// ErrUnbounded: nothing says how many packages could be bought.
	ErrUnbounded = errors.New("nothing limits how many packages to buy: give the shop's limit, " +
		"the runs that fit before the food turns, or what will be used before best-by")
	// ErrTooMany: counting all packages or cycles would take too long.
	ErrTooMany = fmt.Errorf("more than %d packages or runs to count: give a lower limit", MaxPackages)
)

// A SaleField is what a [SaleError] may be about: a field of a [Sale], or of what is
// asked of [CyclesBefore] or a [Machine].
type SaleField string

// The fields.
const (
	PriceField      SaleField = "Price"
	SizeField       SaleField = "Size"
	LimitField      SaleField = "Limit"
	ShelfField      SaleField = "Shelf"
	FreshField      SaleField = "FreshUse"
	LoadField       SaleField = "Load"
	CyclesField     SaleField = "MaxCycles"
	MadeField       SaleField = "MaxMade"
	YieldField      SaleField = "Yield"
	EachField       SaleField = "Each"
	LengthField     SaleField = "run"
	TurnaroundField SaleField = "turnaround"
)

// A SaleError says what is wrong with one field.
type SaleError struct {
	Field  SaleField
	Reason string
}

// Error says which field and why.
func (e *SaleError) Error() string { return string(e.Field) + " " + e.Reason }

// check returns every wrong field, joined.
func (s *Sale) check() error {
	const below, above = "must not be negative", "must be above 0"
	dries := s.MaxCycles.Or(1) != 0 // a sale of no cycles need not say what one takes and gives
	var errs []error
	for _, rule := range []struct {
		broken bool
		field  SaleField
		reason string
	}{
		{s.Price.Sign() < 0, PriceField, below},
		{s.Size.Sign() <= 0, SizeField, above},
		{s.Limit.Or(0) < 0, LimitField, below},
		{s.Shelf.Sign() < 0, ShelfField, below},
		{s.FreshUse.Sign() < 0, FreshField, below},
		{dries && s.Load.Sign() <= 0, LoadField, above},
		{s.MaxCycles.Or(0) < 0, CyclesField, below},
		{s.MaxMade.Or(exact.Number{}).Sign() < 0, MadeField, below},
		{dries && s.Yield.Sign() <= 0, YieldField, above},
		{dries && s.Containers != nil && s.Each.Sign() <= 0, EachField, above},
	} {
		if rule.broken {
			errs = append(errs, &SaleError{rule.field, rule.reason})
		}
	}
	return errors.Join(errs...)
}

// CyclesBefore returns how many cycles can end within the time left until the
// food turns, when they run back to back with a turnaround between them:
// floor((left + turnaround) / (cycle + turnaround)), and 0 when there is no
// time left. A cycle without any length never ends the count, so it is an
// error, as is a negative time.
func CyclesBefore(left, cycle, turnaround time.Duration) (int, error) {
	switch {
	case cycle <= 0:
		return 0, &SaleError{LengthField, "must take longer than no time"}
	case turnaround < 0:
		return 0, &SaleError{TurnaroundField, "must not be negative"}
	}
	return int(max(left+turnaround, 0) / (cycle + turnaround)), nil
}
