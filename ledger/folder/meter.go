package folder

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"putby/energy"
	"putby/ledger"
	"putby/pricing/exact"
)

// logReader reads the rows of a meter log.
type logReader struct {
	zone        *time.Location
	time, watts int // columns
	width       int
	samples     []energy.Sample
	lines       []int         // of the samples
	faults      ledger.Faults // of the row read last
}

// parseLog reads a meter log. Without a fault it returns the log, or nil when
// there is nothing in it.
func parseLog(name, data string, zone *time.Location) (*energy.Log, ledger.Faults) {
	if ledger.CheckID(runOf(name)) != nil {
		return nil, ledger.Faults{{File: name, What: "the file's name is not a run's identifier", Hint: "a log is called RUN.csv"}}
	}
	r := &logReader{zone: zone}
	faults, _ := parseFile(name, data, r.begin)
	if len(faults) > 0 || len(r.samples) == 0 {
		return nil, faults
	}
	log, err := energy.NewLog(r.samples)
	if err == nil {
		return log, nil
	}
	f := ledger.Fault{File: name, What: err.Error()}
	if bad := new(energy.SampleError); errors.As(err, &bad) {
		f.Line, f.Field, f.What = r.lines[bad.Index], "watts", "watts: "+bad.Err.Error()
		locate(data, map[int][]*ledger.Fault{f.Line: {&f}})
	}
	return nil, ledger.Faults{f}
}

// PrintLog writes a meter log as a ledger keeps it, its times local to zone with
// their offset. Reading it gives the same samples.
func PrintLog(l *energy.Log, zone *time.Location) []byte {
	out := []byte("time,watts\n")
	for s := range l.All() {
		at := s.At.In(zone)
		if _, east := at.Zone(); east%60 != 0 {
			at = s.At // an offset with seconds cannot be written
		}
		out = at.AppendFormat(out, "2006-01-02T15:04:05.999999999Z07:00")
		out = s.Watts.AppendTo(append(out, ','))
		out = append(out, '\n')
	}
	return out
}

func (r *logReader) begin(header []string) (rowReader, ledger.Faults) {
	var faults ledger.Faults
	for i, name := range header {
		if name != "" && slices.Index(header, name) < i {
			faults = append(faults, ledger.Fault{Field: name, What: "the column " + exact.Quote(name) + " is there twice", Hint: "rename one, or take it out"})
		}
	}
	for _, name := range []string{"time", "watts"} {
		if !slices.Contains(header, name) {
			faults = append(faults, ledger.Fault{What: fmt.Sprintf("the column %q is missing", name), Hint: "the header of a meter log is time,watts"})
		}
	}
	if faults != nil {
		return nil, faults
	}
	r.time, r.watts, r.width = slices.Index(header, "time"), slices.Index(header, "watts"), len(header)
	return r.row, nil
}

func (r *logReader) fail(field, hint, format string, args ...any) {
	r.faults = append(r.faults, ledger.Fault{Field: field, What: field + ": " + fmt.Sprintf(format, args...), Hint: hint})
}

func (r *logReader) row(line int, cells []string) ledger.Faults {
	r.faults = r.faults[:0]
	if len(cells) != r.width {
		return append(r.faults, ledger.Fault{What: fmt.Sprintf("the row has %d cells, the header %d", len(cells), r.width), Hint: "the header of a meter log is time,watts"})
	}
	at := r.at(strings.Trim(cells[r.time], " \t"))
	watts, err := exact.ParseNumber(strings.Trim(cells[r.watts], " \t"))
	switch {
	case err != nil:
		r.fail("watts", "write digits with a point, such as 812.5", "%v", err)
	case watts.Sign() < 0:
		r.fail("watts", "a draw is 0 or more", "%v is below 0", watts)
	}
	if len(r.faults) == 0 {
		r.samples = append(r.samples, energy.Sample{At: at, Watts: watts})
		r.lines = append(r.lines, line)
	}
	return r.faults
}

// at reads the time of a sample, which must be after the one before it. Unlike
// other times of a ledger it may have a fraction of a second, as meters do.
func (r *logReader) at(text string) time.Time {
	whole, fraction := cutFraction(text)
	t, err := exact.ParseMoment(whole, r.zone)
	if err != nil {
		r.fail("time", "a local date and time is 2025-02-28 17:30; one with an offset is 2025-02-28T17:30+01:00", "%v", err)
		return t
	}
	t = t.Add(fraction)
	if len(r.samples) == 0 {
		return t
	}
	last := r.samples[len(r.samples)-1].At
	if !t.After(last) && isLocal(text) {
		t = secondOf(t)
	}
	if !t.After(last) {
		r.fail("time", "a log is in order of time, with no time twice", "%s is not after the sample in line %d", text, r.lines[len(r.lines)-1])
	}
	return t
}

// cutFraction takes the fraction of a second out of a moment, up to nine digits
// behind its seconds: 2025-02-28T18:30:05.25+01:00. What it cannot read it
// leaves, for the moment's own fault.
func cutFraction(text string) (whole string, fraction time.Duration) {
	const point = len("2025-02-28T18:30:05")
	if len(text) <= point || text[point] != '.' {
		return text, 0
	}
	end, unit := point+1, time.Second
	for ; end < len(text) && '0' <= text[end] && text[end] <= '9' && unit > 1; end++ {
		unit /= 10
		fraction += time.Duration(text[end]-'0') * unit
	}
	if end == point+1 {
		return text, 0
	}
	return text[:point] + text[end:], fraction
}

// isLocal reports whether a moment that could be read has no offset.
func isLocal(text string) bool { return strings.LastIndexAny(text, "Z+-") <= len("2025-02-28") }

// secondOf returns the later instant at which the clocks show what they show
// at t, or t when they show it once. (In a log, a time that steps back at the
// change of the clocks is the second one.)
func secondOf(t time.Time) time.Time {
	change, changes := exact.NextChange(t)
	if !changes {
		return t
	}
	_, now := t.Zone()
	_, then := change.Zone()
	twin := t.Add(time.Duration(now-then) * time.Second)
	if now > then && !twin.Before(change) {
		return twin
	}
	return t
}
