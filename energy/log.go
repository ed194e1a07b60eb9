package energy

import (
	"cmp"
	"errors"
	"fmt"
	"iter"
	"slices"
	"time"

	"putby/pricing/exact"
)

// A Sample is one reading of a plug meter.
type Sample struct {
	At    time.Time    // an instant, in any zone
	Watts exact.Number // from 0 up to 1,000,000,000, at most 9 digits after the point
	Solar exact.Number // of Watts, what the household's own roof gave; from 0 up to Watts, as many digits
}

// A Log is a plug meter's log: between two samples the power follows a
// straight line, and outside them nothing is drawn. It is immutable.
type Log struct {
	// Columns, since a log can have millions of samples: when, in Unix
	// nanoseconds, and how much, in nanowatts.
	at    []int64 // rising, each once
	power []int64 // at the same places; at least 0

	solar, grid *Log // the two parts of the power, at the same times; nil where all is the grid's
}

// What is wrong with a sample that a [*RowError] reports.
var (
	ErrUnordered  = errors.New("its time is before that of the sample before it")
	ErrTwice      = errors.New("its time is that of the sample before it")
	ErrYear       = errors.New("its time is outside the years 1910 to 2199")
	ErrPower      = errors.New("power must be from 0 to 1000000000 W")
	ErrPowerDigit = errors.New("power has more than 9 digits after the point")
	ErrSolar      = errors.New("more power came from the roof than was drawn")
)

// ErrNoSamples is the error of a log without any.
var ErrNoSamples = errors.New("the log has no samples")

// A RowError says which sample of a log, price of a list, band of a tariff or phase of
// a cycle cannot be.
type RowError struct {
	Row   string // sample, price, band or phase
	Index int    // from 0
	Err   error
	Line  int    // of a band, its Line
	Name  string // of a phase
}

// Error names the row by its line, or where that is unknown by its place, from 1.
func (e *RowError) Error() string {
	place := fmt.Sprintf("%s %d", e.Row, e.Index+1)
	if e.Line > 0 {
		place = fmt.Sprintf("%s in row %d", e.Row, e.Line)
	}
	if e.Name != "" {
		place += " (" + e.Name + ")"
	}
	return place + ": " + e.Err.Error()
}

// Unwrap returns the cause.
func (e *RowError) Unwrap() error { return e.Err }

// NewLog returns a log of samples, which must be in order of time, no two at
// one time. What is wrong is a [*RowError], or [ErrNoSamples].
func NewLog(samples []Sample) (*Log, error) {
	if len(samples) == 0 {
		return nil, ErrNoSamples
	}
	l := &Log{at: make([]int64, 0, len(samples)), power: make([]int64, 0, len(samples))}
	solar := make([]int64, len(samples))
	for i, s := range samples {
		at, err := nanoseconds(s.At)
		power, bad := nanowatts(s.Watts)
		given, wrong := nanowatts(s.Solar)
		if err = cmp.Or(err, bad, wrong); err == nil {
			err = l.append(at, power)
		}
		if err == nil && given > power {
			err = ErrSolar
		}
		if err != nil {
			return nil, &RowError{Row: "sample", Index: i, Err: err}
		}
		solar[i] = given
	}
	l.divide(solar)
	return l, nil
}

// divide parts the power into what the roof gave and what the grid did.
func (l *Log) divide(solar []int64) {
	if !slices.ContainsFunc(solar, func(n int64) bool { return n != 0 }) {
		return
	}
	grid := make([]int64, len(solar))
	for i := range grid {
		grid[i] = l.power[i] - solar[i]
	}
	l.solar, l.grid = &Log{at: l.at, power: solar}, &Log{at: l.at, power: grid}
}

// HasSolar reports whether some of the power came from the household's own
// roof.
func (l *Log) HasSolar() bool { return l.solar != nil }

// SolarEnergy returns what of [Log.Energy] the household's own roof gave.
func (l *Log) SolarEnergy(from, to time.Time) exact.Ratio {
	if l.solar == nil {
		return exact.Ratio{}
	}
	return l.solar.Energy(from, to)
}

// append adds a sample to a log that is being made.
func (l *Log) append(at, power int64) error {
	if last := len(l.at) - 1; last >= 0 {
		switch {
		case at == l.at[last]:
			return ErrTwice
		case at < l.at[last]:
			return ErrUnordered
		}
	}
	l.at = append(l.at, at)
	l.power = append(l.power, power)
	return nil
}

// The times that a sample may have, in Unix seconds: they fit an int64 of
// nanoseconds, with room for a run around them.
var (
	FirstSecond = time.Date(1910, 1, 1, 0, 0, 0, 0, time.UTC).Unix()
	LastSecond  = time.Date(2199, 12, 31, 0, 0, 0, 0, time.UTC).Unix()
)

func nanoseconds(t time.Time) (int64, error) {
	if s := t.Unix(); s < FirstSecond || s > LastSecond {
		return 0, ErrYear
	}
	return t.UnixNano(), nil
}

// maxWatts keeps nanowatts within an int64.
var maxWatts = exact.Int(1e9)

func nanowatts(w exact.Number) (int64, error) {
	if w.Sign() < 0 || maxWatts.Less(w) {
		return 0, ErrPower
	}
	n, whole := w.Mul(exact.Int(1e9)).Int64()
	if !whole {
		return 0, ErrPowerDigit
	}
	return n, nil
}

// Len returns how many samples the log has.
func (l *Log) Len() int { return len(l.at) }

// First returns the time of the first sample, in UTC.
func (l *Log) First() time.Time { return time.Unix(0, l.at[0]).UTC() }

// Last returns the time of the last sample, in UTC.
func (l *Log) Last() time.Time { return time.Unix(0, l.at[len(l.at)-1]).UTC() }

// All returns the samples in order, their times in UTC.
func (l *Log) All() iter.Seq[Sample] {
	return func(yield func(Sample) bool) {
		for i, at := range l.at {
			s := Sample{At: time.Unix(0, at).UTC(), Watts: exact.New(l.power[i], 9)}
			if l.solar != nil {
				s.Solar = exact.New(l.solar.power[i], 9)
			}
			if !yield(s) {
				return
			}
		}
	}
}

// Energy returns the kWh drawn between two instants: the trapezoids between
// the samples, cut along their straight lines, exactly.
func (l *Log) Energy(from, to time.Time) exact.Ratio {
	return l.between(l.clamp(from), l.clamp(to))
}

// clamp returns an instant in Unix nanoseconds, moved into the log's span.
// Those of far centuries are beyond an int64, and are told by their seconds.
func (l *Log) clamp(t time.Time) int64 {
	first, last := l.at[0], l.at[len(l.at)-1]
	switch second := t.Unix(); {
	case second < FirstSecond:
		return first
	case second > LastSecond:
		return last
	}
	return min(max(t.UnixNano(), first), last)
}

// perKWh is how many of the units that areas are counted in, half nanowatt
// nanoseconds, make one kWh: 2 x 1e9 x 1e9 x 3,600,000.
var perKWh = exact.New(72, -23)

// between returns the kWh between two instants inside the log's span.
func (l *Log) between(from, to int64) exact.Ratio {
	if from >= to {
		return exact.Ratio{}
	}
	i, j := l.after(from), l.after(to)
	if i == j {
		return l.part(i, from, to).Quo(exact.RatioOf(perKWh))
	}
	var whole area
	for k := i; k < j-1; k++ {
		whole.add(uint64(l.power[k])+uint64(l.power[k+1]), uint64(l.at[k+1]-l.at[k]))
	}
	sum := exact.RatioOf(whole.number())
	sum = sum.Add(l.part(i, from, l.at[i])).Add(l.part(j, l.at[j-1], to))
	return sum.Quo(exact.RatioOf(perKWh))
}

// after returns the first sample that is after an instant or at it, and not
// the first of all.
func (l *Log) after(ns int64) int {
	i, _ := slices.BinarySearch(l.at, ns)
	return max(i, 1)
}

// part returns the area between two instants that lie between the samples
// k-1 and k, in half nanowatt nanoseconds: with u and v the instants counted
// from the first sample, and the power rising by d over the length n between
// the samples from p, it is (v-u) (2p + d (u+v)/n).
func (l *Log) part(k int, from, to int64) exact.Ratio {
	if from >= to {
		return exact.Ratio{}
	}
	p, d := exact.Int(l.power[k-1]), exact.Int(l.power[k]-l.power[k-1])
	n := exact.Int(l.at[k] - l.at[k-1])
	u, v := exact.Int(from-l.at[k-1]), exact.Int(to-l.at[k-1])
	inner := p.Add(p).Mul(n).Add(d.Mul(u.Add(v)))
	return v.Sub(u).Mul(inner).Over(n)
}
