package energy

import "math"

// A logSink gathers the samples of a log that is read: those of the time that
// is kept and one on either side, without those that lie on a straight line
// between their neighbours.
type logSink struct {
	log      *Log
	from, to int64
	most     int

	before  sampleAt // the last sample before from
	waiting bool     // before is set, and may still be needed
	ended   bool     // a sample after to is kept
	full    bool
	last    int64
}

type sampleAt struct{ at, power int64 }

func newLogSink(o LogOptions) *logSink {
	s := &logSink{log: &Log{}, from: math.MinInt64, to: math.MaxInt64, most: o.MaxSamples, last: math.MinInt64}
	if t, ok := o.From.Get(); ok {
		s.from = limitTo(t)
	}
	if t, ok := o.To.Get(); ok {
		s.to = limitTo(t)
	}
	return s
}

// sample takes the next sample, or says what is wrong with it.
func (s *logSink) sample(at, power int64) string {
	if power > maxNanowatts {
		return ErrPower.Error()
	}
	if at <= s.last { // ramps of a nanosecond
		return ""
	}
	s.last = at
	switch {
	case at < s.from:
		s.before, s.waiting = sampleAt{at, power}, true
		return ""
	case s.ended:
		return ""
	case s.waiting:
		s.waiting = false
		s.keep(s.before)
	}
	s.keep(sampleAt{at, power})
	s.ended = at > s.to
	return ""
}

// maxNanowatts is the largest power of a log, a gigawatt.
const maxNanowatts = int64(1e18)

// keep adds a sample, in place of the last one where that was on the way.
func (s *logSink) keep(p sampleAt) {
	n := len(s.log.at)
	if n >= 2 && collinear(s.log.at[n-2], s.log.power[n-2], s.log.at[n-1], s.log.power[n-1], p.at, p.power) {
		s.log.at[n-1], s.log.power[n-1] = p.at, p.power
		return
	}
	if n >= s.most {
		s.full = true
		return
	}
	s.log.at = append(s.log.at, p.at)
	s.log.power = append(s.log.power, p.power)
}
