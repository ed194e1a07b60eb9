package energy

import "time"

// A LogBuilder makes a [Log] sample by sample, in memory that depends on the
// samples kept: those on a straight line between their neighbours are left
// out, which changes no energy.
type LogBuilder struct {
	log   Log
	solar []int64 // nanowatts of each sample
}

// MaxNanowatts is the largest power of a sample, a gigawatt.
const MaxNanowatts = int64(1e18)

// Add adds a sample: an instant in Unix nanoseconds, within the years 1910 to
// 2199, and a power from 0 to [MaxNanowatts], of which some, from 0 to all of it,
// came from the household's own roof. What is wrong with it is one of this
// package's errors for samples.
func (b *LogBuilder) Add(at, nanowatts, solar int64) error {
	switch {
	case nanowatts < 0 || nanowatts > MaxNanowatts || solar < 0:
		return ErrPower
	case solar > nanowatts:
		return ErrSolar
	}
	if second := time.Unix(0, at).Unix(); second < FirstSecond || second > LastSecond {
		return ErrYear
	}
	// The last sample is dropped where the power and the roof's part both run straight through it. One
	// that is out of order is not looked at here: append says what is wrong with it.
	l := &b.log
	if n := len(l.at); n >= 2 && at > l.at[n-1] &&
		collinear(l.at[n-2], l.power[n-2], l.at[n-1], l.power[n-1], at, nanowatts) &&
		collinear(l.at[n-2], b.solar[n-2], l.at[n-1], b.solar[n-1], at, solar) {
		l.at[n-1], l.power[n-1], b.solar[n-1] = at, nanowatts, solar
		return nil
	}
	if err := l.append(at, nanowatts); err != nil {
		return err
	}
	b.solar = append(b.solar, solar)
	return nil
}

// Len returns how many samples are kept so far.
func (b *LogBuilder) Len() int { return len(b.log.at) }

// Log returns the log, or [ErrNoSamples]. The builder may not be used any more.
func (b *LogBuilder) Log() (*Log, error) {
	if len(b.log.at) == 0 {
		return nil, ErrNoSamples
	}
	b.log.divide(b.solar)
	return &b.log, nil
}
