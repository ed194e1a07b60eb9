package folder

import (
	"fmt"
	"path"
	"slices"
	"strings"
	"time"

	"putby/ledger"
	"putby/pricing/exact"
)

// A seriesReader reads the times of a file whose rows follow each other in time:
// a meter log, or the prices of hourly bands.
type seriesReader struct {
	zone   *time.Location
	what   string        // the file is, such as a meter log
	row    string        // what a row of it is, such as sample
	hint   string        // what its header is
	time   int           // column
	width  int           // cells of the header, and so of every row
	lines  []int         // of the rows kept
	last   time.Time     // of the row kept last; zero: there is none
	faults ledger.Faults // of the row read last
}

// parseRows reads a file called after what it is of, whose is that's identifier: its
// header by begin, then its rows.
func parseRows(name, data, whose, hint string, begin func([]string) (rowReader, ledger.Faults)) ledger.Faults {
	if ledger.CheckID(runOf(name)) != nil {
		return ledger.Faults{{File: name, What: "the file's name is not " + whose + " identifier", Hint: hint}}
	}
	faults, _ := parseFile(name, data, begin)
	return faults
}

// misfit is the fault of a row, by its place among those kept, that could be read
// and cannot follow the others.
func (r *seriesReader) misfit(name, data string, row int, field, hint string, err error) ledger.Faults {
	f := ledger.Fault{File: name, Line: r.lines[row], Field: field, What: field + ": " + err.Error(), Hint: hint}
	locate(data, map[int][]*ledger.Fault{f.Line: {&f}})
	return ledger.Faults{f}
}

// open reads the header, which needs some columns.
func (r *seriesReader) open(header []string, what, row string, need ...string) ledger.Faults {
	r.what, r.row, r.hint = what, row, "the header of "+what+" is "+strings.Join(need, ",")
	r.time, r.width = slices.Index(header, "time"), len(header)
	return ledger.HeaderFaults(header, need, r.hint)
}

func (r *seriesReader) fail(field, hint, format string, args ...any) {
	r.faults = append(r.faults, ledger.Fault{Field: field, What: field + ": " + fmt.Sprintf(format, args...), Hint: hint})
}

// moment begins a row: it reads its time. A row of another width has none.
func (r *seriesReader) moment(cells []string) (at time.Time, ok bool) {
	r.faults = r.faults[:0]
	if len(cells) != r.width {
		r.faults = append(r.faults, ledger.Fault{What: fmt.Sprintf("the row has %d cells, the header %d", len(cells), r.width), Hint: r.hint})
		return at, false
	}
	return r.at(strings.Trim(cells[r.time], " \t")), true
}

// keep notes a row that has no fault.
func (r *seriesReader) keep(line int, at time.Time) { r.lines, r.last = append(r.lines, line), at }

// at reads a time, which must be after the one before it. Unlike other times of
// a ledger it may have a fraction of a second, as meters do.
func (r *seriesReader) at(text string) time.Time {
	whole, fraction := cutFraction(text)
	t, err := exact.ParseMoment(whole, r.zone)
	if err != nil {
		r.fail("time", "a local date and time is 2025-02-28 17:30; one with an offset is 2025-02-28T17:30+01:00", "%v", err)
		return t
	}
	t = t.Add(fraction)
	if len(r.lines) == 0 {
		return t
	}
	if !t.After(r.last) && isLocal(text) { // the clocks were set back, and show it again
		t = exact.ShownAgain(t)
	}
	if !t.After(r.last) {
		r.fail("time", r.what+" is in order of time, with no time twice", "%s is not after the %s in line %d", text, r.row, r.lines[len(r.lines)-1])
	}
	return t
}

// appendMoment writes an instant as a ledger keeps it, local to zone with its
// offset.
func appendMoment(out []byte, at time.Time, zone *time.Location) []byte {
	local := at.In(zone)
	if _, east := local.Zone(); east%60 != 0 {
		local = at.UTC() // an offset with seconds cannot be written
	}
	return local.AppendFormat(out, "2006-01-02T15:04:05.999999999Z07:00")
}

// isSeries tells such a file by its name: meter/RUN.csv or rates/TARIFF.csv.
func isSeries(name string) bool {
	dir := path.Dir(name)
	return (dir == ledger.MeterFolder || dir == ledger.RatesFolder) && isLog(path.Base(name))
}

// parseSeries reads such a file. What is in it, keep puts among the records.
func parseSeries(name, text string, zone *time.Location) (keep func(*ledger.Records), faults ledger.Faults) {
	of := runOf(name)
	if path.Dir(name) == ledger.RatesFolder {
		prices, faults := parseRates(name, text, zone)
		return func(rec *ledger.Records) { keepOf(&rec.Rates, of, prices) }, faults
	}
	log, faults := parseLog(name, text, zone)
	return func(rec *ledger.Records) { keepOf(&rec.Meters, of, log) }, faults
}

// keepOf keeps what is of a name, nil being nothing.
func keepOf[T any](in *map[string]*T, of string, what *T) {
	delete(*in, of)
	if what == nil {
		return
	}
	if *in == nil {
		*in = map[string]*T{}
	}
	(*in)[of] = what
}

// runOf returns the run that a meter log is of, or the tariff that prices are,
// by the file's name.
func runOf(name string) string { return strings.TrimSuffix(path.Base(name), ".csv") }
