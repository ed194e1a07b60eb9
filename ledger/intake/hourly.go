package intake

import (
	"cmp"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"time"

	"putby/ledger"
	"putby/pricing/exact"
)

// A Per is the amount of energy that prices are for.
type Per uint8

// The amounts. Markets ask prices per MWh, suppliers per kWh.
const (
	AnyPer Per = iota // as the file says
	PerKWh
	PerMWh
)

var perWords = [...]string{"", "kWh", "MWh"}

// PerWords are the units of the amounts.
func PerWords() []string { return perWords[1:] }

// String returns the amount's unit, or nothing for [AnyPer].
func (p Per) String() string { return perWords[p] }

// ParsePer reads kWh or MWh. Nothing is [AnyPer].
func ParsePer(word string) (Per, error) {
	return parseWord[Per](perWords[:], word, "no amount of energy that prices are for; write kWh or MWh")
}

// LikelyPer is what prices are likely to be for that [ReadHourly] found to be hardly those
// of what it took them for, and why; [AnyPer] of any other error.
func LikelyPer(err error) (Per, *ledger.Fault) {
	var f *ledger.Fault
	switch {
	case !errors.Is(err, ErrUnlikely) || !errors.As(err, &f):
		return AnyPer, nil
	case f.Choice == ledger.PerMWh:
		return PerMWh, f
	}
	return PerKWh, f
}

// HourlyOptions say how to read a file of prices by the hour.
type HourlyOptions struct {
	Options
	Zone     *time.Location // of times without an offset
	Currency exact.Currency // that prices must be in
	Per      Per            // what prices are for, whatever they look like
	Column   string         // header of the prices; blank: found
	Decimal  Decimal        // of the prices
	Order    Order          // of dates
}

// An HourlyPrice is a price per kWh of a time.
type HourlyPrice struct {
	From, Until time.Time    // half-open
	Rate        exact.Number // money per kWh before grid fee and tax; may be below 0
	Line        int          // of the file
}

// HourlyPrices is what a file of prices by the hour holds, in order of time.
type HourlyPrices struct {
	List    []HourlyPrice
	Column  string // header of the prices
	Per     Per
	Named   bool // the file names the currency
	Blank   int  // rows without a price
	Rounded int  // prices finer than a record has them
}

// ReadHourly reads prices by the hour, or by any part of it, as suppliers and
// market operators give them: CSV, .xlsx, or JSON with a list somewhere in it.
//
// A row says when in one of several ways: a time as text, with an offset or
// local; seconds or milliseconds since 1970; from one time to another; a date
// beside a clock time, or beside the number of an hour (1 to 24, or of a quarter,
// 1 to 96); or a date whose hours are columns. Where the clocks are set back the
// day has its doubled hour in one of three ways: numbered on to 25, as 3a and
// 3b, or by the same clock time twice; where they are set forward the skipped
// hour is left out, or has no price.
//
// Errors are an [*ledger.Fault] for the file, or [ledger.Faults] for its rows, in the file's order.
func ReadHourly(r io.Reader, o HourlyOptions) (*HourlyPrices, error) {
	data, err := ReadAll(r)
	if err != nil {
		return nil, err
	}
	h := &hourly{o: o}
	if isJSON([]byte(data)) {
		h.all, h.about, err = jsonRows([]byte(data))
	} else {
		err = h.readTable(data)
	}
	if err != nil {
		return nil, err
	}
	// Each step needs what the one before found of every row, so the first with faults is the last.
	for _, step := range []func() error{h.findColumns, h.readTimes, h.readPrices, h.order} {
		if err := step(); err != nil {
			return nil, err
		}
		if len(h.faults) > 0 {
			return nil, h.faults
		}
	}
	return &h.p, nil
}

// mostHours is how many rows a file of prices may have: the quarter-hours of 25
// years and more.
const mostHours = 1_000_000

// readTable reads a text file or a workbook.
func (h *hourly) readTable(data string) error {
	t, err := Read(strings.NewReader(data), h.o.Options)
	if err != nil {
		return err
	}
	if t.Len() > mostHours {
		return &ledger.Fault{Kind: ErrTooLarge, What: "the file has more than a million rows", Hint: "import it in parts"}
	}
	h.form, h.bad = t.Form, t.Bad
	for row := range t.From(0) {
		row.Cells = slices.Clone(row.Cells) // which are good only until the next row
		h.all = append(h.all, row)
	}
	return nil
}

// hourly is a file being read.
type hourly struct {
	o       HourlyOptions
	all     []Row // the header and what stands above it too
	form    Form
	bad     ledger.Faults
	about   []string // what JSON says beside its list
	columns hourColumns
	rows    []hourRow
	p       HourlyPrices
	faults  ledger.Faults
}

// An hourRow is a row, or of a table whose columns are hours a cell.
type hourRow struct {
	line  int // of the file, from 1
	cells []string
	label string // of the hour, where a column says it
	price string

	from, until time.Time    // until is zero where the row does not say
	rate        exact.Number // money per kWh, before grid fee and tax; may be below 0
}

// fail notes a fault of a row.
func (h *hourly) fail(line int, column, hint, format string, args ...any) {
	h.add(ledger.Fault{Line: line, Field: column, What: fmt.Sprintf(format, args...), Hint: hint})
}

func (h *hourly) add(f ledger.Fault) {
	if len(h.faults) < maxFaults {
		h.faults = append(h.faults, f)
	}
}

// noPrice are texts that stand for no price, as dashes alone and nothing do.
var noPrice = []string{"n/a", "n.a.", "na", "n/e", "null", "none", "nan"}

func isNoPrice(text string) bool {
	return strings.Trim(text, "-") == "" || slices.Contains(noPrice, strings.ToLower(text))
}

// readPrices reads the prices into money per kWh.
func (h *hourly) readPrices() error {
	unit, err := h.findUnit()
	if err != nil {
		return err
	}
	decimal := h.o.Decimal
	if decimal == AnyDecimal && !h.form.Workbook {
		var x evidence
		for _, r := range h.rows {
			x.seeNumber(r.line, r.price)
		}
		var bad *ledger.Fault
		switch decimal, bad = x.sign(); {
		case bad == nil:
		case bad.Kind == ErrAmbiguous: // all have three digits behind their one sign, which are no thousands then
			decimal = Point
			if strings.Contains(x.differ.text, ",") {
				decimal = Comma
			}
		default:
			return bad
		}
	}
	for i := range h.rows {
		r := &h.rows[i]
		n, ok := stored(r.price)
		// With decimal commas 1.234 is 1234, and [stored] would read it by its point.
		if !ok || decimal == Comma {
			plain, err := readNumber(r.price, decimal)
			if err != nil {
				h.fail(r.line, h.columns.priceName, "write digits with a point or a comma, such as 0.0854", "%v", err)
				continue
			}
			n, _ = exact.ParseNumber(plain)
		}
		r.rate = n.Mul(unit.scale())
		if r.rate.Places() > exact.MaxFraction {
			r.rate = r.rate.Round(exact.MaxFraction, exact.HalfEven)
			h.p.Rounded++
		}
	}
	h.p.Per, h.p.Named, h.p.Column = unit.per, unit.named, h.columns.priceName
	return h.plausible(unit)
}

// order puts the prices in order of time, and says until when each holds.
func (h *hourly) order() error {
	slices.SortStableFunc(h.rows, func(a, b hourRow) int { return a.from.Compare(b.from) })
	var usual time.Duration // how long the price before holds; 0: there is none
	for i := range h.rows {
		r := &h.rows[i]
		next := time.Time{}
		if i+1 < len(h.rows) {
			next = h.rows[i+1].from
		}
		if r.until.IsZero() {
			length := next.Sub(r.from)
			// Not up to the next one: of the last, of a pair at one time, and before a gap.
			if next.IsZero() || length <= 0 || length > time.Hour || usual > 0 && usual < length && length%usual == 0 && h.ended(i, usual) {
				length = cmp.Or(usual, h.firstStep())
			}
			r.until = r.from.Add(length)
		}
		usual = r.until.Sub(r.from)
		if !next.IsZero() && next.Before(r.until) {
			other := h.rows[i+1]
			what := "overlaps that of line %d, from %s until %s"
			if next.Equal(r.from) {
				what = "is that of line %d too, from %s until %s"
			}
			h.add(ledger.Fault{
				Line: max(r.line, other.line), Field: h.columns.timeName, Choice: ledger.OtherZoneOrOne,
				What: fmt.Sprintf("its time "+what, min(r.line, other.line), h.local(r.from), h.local(r.until)),
			})
		}
		h.p.List = append(h.p.List, HourlyPrice{r.from, r.until, r.rate, r.line})
	}
	return nil
}

// ended reports whether the prices after a row go on in the same steps as those
// before it: then what lies between is a gap, and no longer step.
func (h *hourly) ended(i int, usual time.Duration) bool {
	return i+2 >= len(h.rows) || h.rows[i+2].from.Sub(h.rows[i+1].from) <= usual
}

// firstStep is the step of the first two prices; an hour where there is one
// alone.
func (h *hourly) firstStep() time.Duration {
	if len(h.rows) < 2 {
		return time.Hour
	}
	if step := h.rows[1].from.Sub(h.rows[0].from); step > 0 {
		return min(step, time.Hour)
	}
	return time.Hour
}

func (h *hourly) local(t time.Time) string { return t.In(h.o.Zone).Format("2006-01-02 15:04 MST") }
