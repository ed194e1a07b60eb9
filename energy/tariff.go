package energy

import (
	"fmt"
	"time"

	"putby/pricing/exact"
)

// A Band is one row of a tariff: a price, and when it holds.
type Band struct {
	Line   int          // row in its file, for explanations; 0: unknown
	From   exact.Date   // first local date on which it holds; exact.NoDate: always
	Months MonthSet     // of the instant's local date; 0: all
	Days   DaySet       // of the instant's local date; 0: all
	Start  Clock        // local clock, inclusive
	End    Clock        // local clock, exclusive; before Start: past midnight; equal: all day
	Above  exact.Number // kWh of household use in the calendar month above which it holds; 0: from the first
	Rate   exact.Number // money per kWh, before tax
	Tax    exact.Number // percent, on top of Rate
}

// Price returns what one kWh costs with tax: Rate x (1 + Tax/100), exactly.
func (b Band) Price() exact.Number {
	return b.Rate.Mul(exact.Int(100).Add(b.Tax)).Mul(exact.New(1, 2))
}

// A Tariff is a named list of bands and holidays, read in one time zone. It is
// immutable and safe for concurrent reading.
type Tariff struct {
	name     string
	zone     *time.Location
	bands    []Band
	holidays map[exact.Date]bool
	blocks   bool
}

// NewTariff returns a tariff of bands in file order.
func NewTariff(name string, zone *time.Location, bands []Band, holidays []exact.Date) (*Tariff, error) {
	t := &Tariff{name: name, zone: zone, bands: bands, holidays: map[exact.Date]bool{}}
	for _, d := range holidays {
		t.holidays[d] = true
	}
	for _, b := range bands {
		t.blocks = t.blocks || b.Above.Sign() > 0
	}
	return t, nil
}

// Name returns the tariff's name.
func (t *Tariff) Name() string { return t.name }

// Zone returns the time zone whose clock the tariff follows.
func (t *Tariff) Zone() *time.Location { return t.zone }

// HasBlocks reports whether any price depends on the use of the month.
func (t *Tariff) HasBlocks() bool { return t.blocks }

// A GapError says that no band of a tariff holds at an instant.
type GapError struct {
	Tariff string
	At     time.Time // in the tariff's zone
}

// Error names the tariff and the local time.
func (e *GapError) Error() string {
	return fmt.Sprintf("tariff %s has no band for %s", exact.Quote(e.Tariff), e.At.Format("Mon 2006-01-02 15:04"))
}
