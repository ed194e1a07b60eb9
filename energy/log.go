package energy

import (
	"time"

	"putby/pricing/exact"
)

// A Sample is one reading of a plug meter.
type Sample struct {
	At    time.Time
	Watts exact.Number // at least 0
}

// A Log is a plug meter's log: between two samples the power follows a
// straight line, and outside them nothing is drawn. It is immutable.
type Log struct {
	samples []Sample
}

// NewLog returns a log of samples, which must be in order of time, no two at
// one time.
func NewLog(samples []Sample) (*Log, error) {
	return &Log{samples: samples}, nil
}

// Energy returns the kWh drawn between two instants: the trapezoids between
// the samples, cut along their straight lines, exactly.
func (l *Log) Energy(from, to time.Time) exact.Ratio {
	return exact.Ratio{}
}
