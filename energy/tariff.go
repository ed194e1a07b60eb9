package energy

import (
	"errors"
	"fmt"
	"maps"
	"slices"
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
	Rate   exact.Number // money per kWh, before tax; may be negative
	Tax    exact.Number // percent, on top of Rate
	Hourly bool         // Rate is on top of the tariff's price at the instant
}

// Price returns what one kWh costs with tax: Rate x (1 + Tax/100), exactly. Of
// an hourly band it is what comes on top of the hour's own price.
func (b Band) Price() exact.Number { return b.PriceAt(exact.Number{}) }

// PriceAt is Price of an hourly band where a kWh has a price of its own: that
// and Rate, with tax.
func (b Band) PriceAt(hour exact.Number) exact.Number {
	return hour.Add(b.Rate).Mul(exact.Int(100).Add(b.Tax)).Mul(exact.New(1, 2))
}

// covers reports whether the band holds at a reading of the local clock, in
// seconds after midnight, on a day that its dates let it hold on.
func (b *Band) covers(second int64) bool {
	start, end := b.Start%DayEnd, b.End
	switch {
	case start == end || start == 0 && end == DayEnd:
		return true
	case start < end:
		return start.seconds() <= second && second < end.seconds()
	}
	return start.seconds() <= second || second < end.seconds()
}

// A Tariff is a named list of bands and holidays, read in one time zone. It is
// immutable and safe for concurrent reading.
type Tariff struct {
	name     string
	zone     *time.Location
	bands    []Band
	prices   []exact.Number       // of bands, with tax
	ratios   []exact.Ratio        // the same as ratios
	froms    []exact.Date         // the dates on which prices change, in order
	from     map[exact.Date][]int // places of the bands of each of them, in file order
	holidays map[exact.Date]bool  // local dates of zone
	blocks   bool
	hourly   *Prices // of hourly bands
	export   *Tariff // what a kWh from the household's own roof would have earned
}

// The errors of [NewTariff], beside those of a band.
var (
	ErrNoBands = errors.New("a tariff needs at least one band")
	ErrNoZone  = errors.New("a tariff needs a time zone")
)

// What is wrong with a band that a [*RowError] reports.
var (
	ErrClockRange = errors.New("start and end must lie between 0:00 and 24:00")
	ErrMonthRange = errors.New("months go from 1 to 12")
	ErrAbove      = errors.New("the use that a block starts above must not be negative")
)

// NewTariff returns a tariff of bands in file order, whose clock, dates and
// holidays are those of zone. It copies what it is given.
func NewTariff(name string, zone *time.Location, bands []Band, holidays []exact.Date) (*Tariff, error) {
	if zone == nil {
		return nil, ErrNoZone
	}
	if len(bands) == 0 {
		return nil, ErrNoBands
	}
	t := &Tariff{name: name, zone: zone, bands: slices.Clone(bands), from: map[exact.Date][]int{}, holidays: map[exact.Date]bool{}}
	for i, b := range t.bands {
		if err := b.check(); err != nil {
			return nil, &RowError{Row: "band", Index: i, Line: b.Line, Err: err}
		}
		t.blocks = t.blocks || b.Above.Sign() > 0
		t.prices = append(t.prices, b.Price())
		t.ratios = append(t.ratios, exact.RatioOf(b.Price()))
		t.from[b.From] = append(t.from[b.From], i)
	}
	t.froms = slices.Sorted(maps.Keys(t.from))
	for _, d := range holidays {
		t.holidays[d] = true
	}
	return t, nil
}

func (b Band) check() error {
	switch {
	case b.Start < 0 || b.Start > DayEnd || b.End < 0 || b.End > DayEnd:
		return ErrClockRange
	case b.Months>>13 != 0 || b.Months&1 != 0:
		return ErrMonthRange
	case b.Above.Sign() < 0:
		return ErrAbove
	}
	return nil
}

// WithPrices returns the tariff with other prices for its hourly bands.
func (t *Tariff) WithPrices(p *Prices) *Tariff {
	with := *t
	with.hourly = p
	return &with
}

// Prices returns the prices of the tariff's hourly bands; nil is none.
func (t *Tariff) Prices() *Prices { return t.hourly }

// IsHourly reports whether any band is hourly.
func (t *Tariff) IsHourly() bool {
	return slices.ContainsFunc(t.bands, func(b Band) bool { return b.Hourly })
}

// WithExport returns the tariff with another one that says what power from the
// household's own roof costs: what it would have earned if sold.
func (t *Tariff) WithExport(export *Tariff) *Tariff {
	with := *t
	with.export = export
	return &with
}

// Name returns the tariff's name.
func (t *Tariff) Name() string { return t.name }

// Bands returns a copy of the tariff's bands in file order.
func (t *Tariff) Bands() []Band { return slices.Clone(t.bands) }

// HasBlocks reports whether any price depends on the use of the month.
func (t *Tariff) HasBlocks() bool { return t.blocks }

// A GapError says that no band of a tariff holds at an instant, or that of an hourly
// one no price is known.
type GapError struct {
	Tariff string
	At     time.Time // in the tariff's zone
	Hourly bool      // it is the price that is not known
	// Above is given where there are bands for the instant, but only for a use
	// of the month above this, in kWh.
	Above exact.Opt[exact.Number]
}

// Error names the tariff and the local time.
func (e *GapError) Error() string {
	if e.Hourly {
		return fmt.Sprintf("tariff %s has no hourly price for %s", exact.Quote(e.Tariff), e.At.Format("Mon 2006-01-02 15:04 MST"))
	}
	s := fmt.Sprintf("tariff %s has no band for %s", exact.Quote(e.Tariff), e.At.Format("Mon 2006-01-02 15:04"))
	if above, ok := e.Above.Get(); ok {
		return fmt.Sprintf("%s up to %v kWh of the month", s, above)
	}
	return s
}

// Least is what a kWh costs at the least, with tax, by any band that has a price. It
// is below 0 where a kWh may earn something.
func (t *Tariff) Least() (least exact.Number) {
	any := false
	for i := range t.bands {
		b, price := &t.bands[i], t.prices[i]
		if b.Hourly {
			if t.hourly == nil || len(t.hourly.hours) == 0 {
				continue
			}
			price = b.PriceAt(t.hourly.least)
		}
		if !any || price.Less(least) {
			least, any = price, true
		}
	}
	return least
}
