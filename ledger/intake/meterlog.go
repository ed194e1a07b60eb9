package intake

import (
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"time"

	"putby/energy"
	"putby/ledger"
	"putby/pricing/exact"
)

// defaultMaxGap is how far apart two rows of a log may be before the time
// between them counts as a gap.
const defaultMaxGap = 10 * time.Minute

// defaultMaxSamples is how many samples are kept of a log: 31 days of one a
// second, with some to spare.
const defaultMaxSamples = 3_000_000

// LogOptions say how to read a meter log. The zero value reads one with times
// that carry their offset.
type LogOptions struct {
	Zone        *time.Location          // of times without an offset; nil: such a time is a fault
	From, To    exact.Opt[time.Time]    // keep only the samples of this time (and one on either side)
	MaxGap      time.Duration           // longer without a row is a gap; 0: defaultMaxGap; 4 s at least
	Bridge      bool                    // draw a straight line across gaps
	Modulus     exact.Opt[exact.Number] // where a running total starts again at 0, in the column's unit
	TimeColumn  string                  // header of the time; blank: found
	ValueColumn string                  // header of the power or running total; blank: found
	SolarColumn string                  // header of what of it came from the roof; blank: found; NoSolar: not read
	Unit        exact.Unit              // of the values: W, KW, Wh or KWh; NoUnit: as the header says
	MaxSamples  int                     // 0: defaultMaxSamples
	Progress    func(rows, bytes int64) // called now and then, and at the end
}

// A LogReport tells what a log had.
type LogReport struct {
	Rows        int64     // beneath the header, blank lines apart
	Samples     int       // kept
	First, Last time.Time // of all rows with a value, in UTC, whether kept or not; zero: there were none
	TimeColumn  string
	ValueColumn string
	Unit        exact.Unit
	Solar       string        // the column of what came from the roof and what it counts in; blank: none
	Gaps        []LogGap      // the first ones
	GapCount    int           // all of them, those not listed too
	RollOvers   int           // of a running total
	MaxGap      time.Duration // beyond which a time without rows is a gap
	Blank       int64         // rows without a value, passed over
	Rounded     int64         // values with digits finer than the ninth place, rounded half to even
	Unread      []string      // headers of running totals, passed over for the power beside them
}

// A LogGap is a time without rows that is longer than [LogOptions.MaxGap].
type LogGap struct {
	From, To time.Time // the rows on either side of it, in UTC
	Line     int       // of the row that ends it
}

// maxGaps is how many gaps of a log are listed.
const maxGaps = 1000

// ReadLog reads a plug meter's log from CSV, in memory that depends on the
// samples kept and not on the rows read.
//
// The first row names the columns. The separator (comma, semicolon or tab) is
// taken from it. Times are ISO 8601 with or without an offset, day.month.year
// with a clock time, or seconds or milliseconds since 1970; a date and a time
// of day may stand in two columns. A local time that occurs twice is the first
// one, unless that would step back: then it is the second. Values are W or kW,
// or a running total in Wh or kWh; with a semicolon or tab between columns a
// decimal comma is read too. Beside power a column may say what of it came from
// the roof: W, kW, percent, or a share from 0 to 1; blank is none. Digits finer than a nanowatt (or 0.000000001 kWh)
// are rounded half to even, and noted.
//
// Samples on a straight line between their neighbours are left out, which
// changes no energy. In a gap that is not bridged nothing is drawn: a second
// after its first row and a second before its last the power is 0. Between two
// readings of a running total the power is even; it changes within a second
// after a reading, and the sum of all is the difference of the readings, to
// within a nanowatt. A gap in a running total is named, but keeps its energy,
// which the meter has counted.
//
// Faults are [ledger.Faults]; then there is no log.
func ReadLog(r io.Reader, o LogOptions) (*energy.Log, LogReport, error) {
	l := &logReader{o: o.withDefaults(), text: openStream(r), last: math.MinInt64}
	if fault := l.begin(); fault != nil {
		return nil, LogReport{}, ledger.Faults{*fault}
	}
	l.rows()
	l.finish()
	if len(l.faults) > 0 {
		return nil, LogReport{}, l.faults
	}
	log, err := l.window.log.Log()
	if err != nil {
		return nil, LogReport{}, ledger.Faults{{Line: 1, Column: 1, What: l.nothing()}}
	}
	l.report.Samples = log.Len()
	return log, l.report, nil
}

func (o LogOptions) withDefaults() LogOptions {
	if o.MaxGap <= 0 {
		o.MaxGap = defaultMaxGap
	}
	o.MaxGap = max(o.MaxGap, time.Duration(shortest)) // room for the ramps
	if o.MaxSamples <= 0 {
		o.MaxSamples = defaultMaxSamples
	}
	return o
}

// A logReader reads the rows of one log.
type logReader struct {
	o       LogOptions
	text    *scanner
	columns logColumns
	clock   logClock
	values  valueParser
	window  *logWindow
	counter *counter // nil: the values are power
	last    int64    // time of the last row, in Unix nanoseconds
	report  LogReport
	faults  ledger.Faults
}

// begin reads the header.
func (l *logReader) begin() (fault *ledger.Fault) {
	some := l.text.next()
	switch {
	case errors.As(l.text.err, &fault):
		return fault
	case !some:
		return &ledger.Fault{Line: 1, Column: 1, What: "the file is empty"}
	case l.text.why != "":
		return l.unsplit()
	case len(l.text.cells) == 1:
		return l.fault(0, "the first row has no comma, semicolon or tab: a log has a column of times and one of values",
			"begin the file with a header such as time,power (W)")
	}
	if l.columns, fault = findColumns(l.text.cells, l.o); fault != nil {
		return fault
	}
	l.clock = logClock{zone: l.o.Zone}
	l.values = valueParser{unit: l.columns.unit, comma: l.text.sep != ','}
	l.window = newLogWindow(l.o)
	if l.columns.cumulative() {
		if l.counter, fault = newCounter(l.window, l.o, l.columns.unit); fault != nil {
			return fault
		}
	}
	l.report.TimeColumn, l.report.ValueColumn, l.report.Unit = l.columns.timeName, l.columns.valueName, l.columns.unit
	if solar := &l.columns.solar; solar.column >= 0 {
		solar.setUnit(l.columns.unit, l.values.comma)
		l.report.Solar = solar.says()
	}
	l.report.MaxGap, l.report.Unread = l.o.MaxGap, l.columns.unread
	return nil
}

// rows reads all rows, until there are too many faults.
func (l *logReader) rows() {
	for len(l.faults) < maxFaults && l.text.next() {
		if !slices.ContainsFunc(l.text.cells, func(cell string) bool { return cell != "" }) && l.text.why == "" {
			continue
		}
		l.report.Rows++
		if l.o.Progress != nil && l.report.Rows&0xffff == 0 {
			l.o.Progress(l.report.Rows, l.text.read())
		}
		if fault := l.row(l.text.cells); fault != nil {
			l.faults = append(l.faults, *fault)
		}
	}
	if fault := new(ledger.Fault); errors.As(l.text.err, &fault) {
		l.faults = append(l.faults, *fault)
	}
}

// row reads one row.
func (l *logReader) row(row []string) *ledger.Fault {
	switch {
	case l.text.why != "":
		return l.unsplit()
	case len(row) < l.columns.width():
		return l.fault(0, fmt.Sprintf("the row has %d cells, and the columns needed go up to %d", len(row), l.columns.width()), "")
	}
	value, column := row[l.columns.value], l.columns.value
	if value == "" {
		l.report.Blank++
		return nil
	}
	at, problem := l.clock.read(l.columns.moment(row), l.last)
	if problem != "" {
		return l.fault(l.columns.time, problem, hintTime)
	}
	if l.report.First.IsZero() {
		l.report.First = time.Unix(0, at).UTC()
		l.last = at - 1 // so that the first row is in order, and ends no gap
	}
	if at <= l.last {
		return l.fault(l.columns.time, l.disorder(at), "a log is in order of time, with no time twice")
	}
	n, problem := l.values.parse(value)
	if problem != "" {
		return l.fault(column, problem, hintValue)
	}
	solar, problem := l.columns.solar.read(row, n)
	if problem != "" {
		return l.fault(l.columns.solar.column, problem, hintSolar)
	}
	problem = l.take(at, n, solar)
	l.last = at
	l.report.Last = time.Unix(0, at).UTC()
	if problem != "" {
		return l.fault(column, problem, "")
	}
	return nil
}

// take hands a value on.
func (l *logReader) take(at, n, solar int64) string {
	if at-l.last > int64(l.o.MaxGap) {
		l.gap(at)
	}
	if l.counter != nil {
		return l.counter.reading(at, n)
	}
	return l.window.parted(at, n, solar)
}

// gap notes a gap that ends at an instant, and lets nothing be drawn in it.
func (l *logReader) gap(at int64) {
	if l.report.GapCount++; len(l.report.Gaps) < maxGaps {
		l.report.Gaps = append(l.report.Gaps, LogGap{time.Unix(0, l.last).UTC(), time.Unix(0, at).UTC(), l.text.first})
	}
	if l.counter == nil && !l.o.Bridge {
		edge := rampLength(at - l.last)
		l.window.sample(l.last+edge, 0)
		l.window.sample(at-edge, 0)
	}
}

// disorder says how a time is out of order.
func (l *logReader) disorder(at int64) string {
	when := time.Unix(0, l.last).UTC().Format("2006-01-02T15:04:05.999Z")
	if at == l.last {
		return "the time " + when + " is there twice"
	}
	return "the time is before that of the row above, " + when
}

func (l *logReader) fault(column int, problem, hint string) *ledger.Fault {
	line, col := l.text.place(column)
	return &ledger.Fault{Line: line, Column: col, What: problem, Hint: hint}
}

// unsplit is the fault of a row that cannot be split into cells.
func (l *logReader) unsplit() *ledger.Fault {
	line, col := l.text.placeAt(l.text.wrong)
	return &ledger.Fault{Line: line, Column: col, What: l.text.why, Hint: l.text.hint}
}

// finish hands on what is held back.
func (l *logReader) finish() {
	if l.counter != nil {
		if problem := l.counter.flush(); problem != "" {
			l.faults = append(l.faults, ledger.Fault{Line: 1, Column: 1, What: problem})
		}
		l.report.RollOvers = l.counter.rolls
	}
	if l.window.full {
		l.faults = append(l.faults, ledger.Fault{Line: 1, Column: 1,
			What: fmt.Sprintf("the log has more than %d samples in the time that is kept", l.o.MaxSamples),
			Hint: "keep only the time of the run, or thin the log out"})
	}
	l.report.Rounded = l.values.rounded + l.columns.solar.values.rounded
	if l.o.Progress != nil {
		l.o.Progress(l.report.Rows, l.text.read())
	}
}

// nothing says why no sample was kept.
func (l *logReader) nothing() string {
	if l.report.First.IsZero() {
		return "the log has no rows with values"
	}
	return "the log has no rows in the time that is kept"
}

// What to try where a time or a value of a log cannot be read.
const (
	hintTime  = "write times as 2025-02-28T18:30:05+01:00, or as seconds since 1970"
	hintValue = "write digits with a point, such as 812.5"
)
