package intake

import (
	"math"
	"time"

	"putby/energy"
	"putby/pricing/exact"
)

// A logWindow keeps the samples of a log that lie in the time that is wanted,
// and one on either side.
type logWindow struct {
	log      energy.LogBuilder
	from, to int64 // Unix nanoseconds
	most     int   // samples that are kept; one more makes it full

	before  sampleAt // the last sample before from
	waiting bool     // before is set, and may still be needed
	ended   bool     // a sample after to is kept
	full    bool
	last    int64 // time of the sample taken last, in Unix nanoseconds; MinInt64: there was none
}

// A sampleAt is a sample: Unix nanoseconds, nanowatts, and of these nanowatts what came from
// the roof (0: none).
type sampleAt struct{ at, power, solar int64 }

func newLogWindow(o LogOptions) *logWindow {
	return &logWindow{
		from: nanosecond(o.From, math.MinInt64), to: nanosecond(o.To, math.MaxInt64),
		most: o.MaxSamples, last: math.MinInt64,
	}
}

// nanosecond returns an instant in Unix nanoseconds, or what stands for none
// and for one that is beyond all logs.
func nanosecond(at exact.Opt[time.Time], none int64) int64 {
	t, ok := at.Get()
	if !ok || t.Unix() < energy.FirstSecond || t.Unix() > energy.LastSecond {
		return none
	}
	return t.UnixNano()
}

// sample is parted of power that is all the grid's.
func (w *logWindow) sample(at, power int64) string { return w.parted(at, power, 0) }

// parted takes the next sample, a part of whose power came from the roof, or
// says what is wrong with it.
func (w *logWindow) parted(at, power, solar int64) string {
	if power > energy.MaxNanowatts {
		return energy.ErrPower.Error()
	}
	if at <= w.last { // ramps of a nanosecond
		return ""
	}
	w.last = at
	switch {
	case at < w.from:
		w.before, w.waiting = sampleAt{at, power, solar}, true
		return ""
	case w.ended:
		return ""
	case w.waiting:
		w.waiting = false
		w.keep(w.before)
	}
	w.ended = at > w.to
	return w.keep(sampleAt{at, power, solar})
}

// keep hands a sample on, until there are too many.
func (w *logWindow) keep(p sampleAt) string {
	if w.full {
		return ""
	}
	if err := w.log.Add(p.at, p.power, p.solar); err != nil {
		return err.Error()
	}
	w.full = w.log.Len() > w.most
	return ""
}
