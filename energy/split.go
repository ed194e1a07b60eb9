package energy

import (
	"cmp"
	"errors"
	"math"
	"slices"
	"time"
)

// A SuggestedPhase is a phase as a log's shape suggests it. It is an estimate,
// for a person to look at and to take over or not.
type SuggestedPhase struct {
	Name       string    // freezing, primary or secondary
	Start, End time.Time // in UTC; End is not in it, and the next begins there
	Watts      Estimate  // mean power
	// Confidence, from 0 to 1, tells how plainly the log shows the start of
	// the phase: how far the power moves there against how much it moves
	// otherwise. It is a rule of thumb and no probability.
	Confidence Estimate
}

// The errors of [SuggestPhases].
var (
	ErrShortLog = errors.New("the log is too short to tell phases apart: it takes an hour at least")
	ErrNoStep   = errors.New("the log shows no lasting rise at which a vacuum pump could join")
)

// SuggestPhases looks in a log for where the machine begins to draw, where the
// vacuum pump joins (the power rises, and stays up), where the draw settles
// (from then on it stays near its level at the end) and where it stops. Before
// the pump it suggests freezing, then primary drying, and secondary drying from
// where it settles; without that, only the first two.
//
// The log is read as means over equal stretches of whole minutes, at most about
// a thousand. The pump joins where one step, fitted by least squares, explains
// most of what the power does, among steps up.
func SuggestPhases(l *Log) ([]SuggestedPhase, error) {
	s := newShape(l)
	if len(s.watts) < minBuckets {
		return nil, ErrShortLog
	}
	s.trim()
	if len(s.watts) < minBuckets {
		return nil, ErrShortLog
	}
	pump, sure := s.pumpJoins()
	if pump == 0 {
		return nil, ErrNoStep
	}
	settled, settles := s.settles(pump)
	phases := []SuggestedPhase{
		s.phase("freezing", 0, pump, 1),
		s.phase("primary", pump, cmp.Or(settled, len(s.watts)), sure),
	}
	if settled > 0 {
		phases = append(phases, s.phase("secondary", settled, len(s.watts), settles))
	}
	return phases, nil
}

const (
	minBuckets  = 12   // stretches that a shape needs
	mostBuckets = 1000 // stretches that a log is read as
	minPart     = 3    // stretches that a level has to last
)

// A shape is a log as mean watts over equal stretches.
type shape struct {
	start time.Time     // of the first stretch, in UTC
	width time.Duration // of each, whole minutes
	watts []float64     // means, at least 0
}

func newShape(l *Log) *shape {
	length := l.Last().Sub(l.First())
	width := 5 * time.Minute
	if n := length / mostBuckets; n > width {
		width = (n + time.Minute - 1).Truncate(time.Minute)
	}
	s := &shape{start: l.First(), width: width}
	for at := l.First(); !at.Add(width).After(l.Last()); at = at.Add(width) {
		kwh := float64(estimate(rational(l.Energy(at, at.Add(width)))))
		s.watts = append(s.watts, kwh*1000/width.Hours())
	}
	return s
}

func (s *shape) time(i int) time.Time { return s.start.Add(time.Duration(i) * s.width) }

func (s *shape) phase(name string, from, to int, sure float64) SuggestedPhase {
	return SuggestedPhase{name, s.time(from), s.time(to), Estimate(mean(s.watts[from:to])), Estimate(sure)}
}

// trim leaves out the time before and after the machine draws: under a tenth
// of what it mostly draws.
func (s *shape) trim() {
	least := quantileOf(s.watts, 0.75) / 10
	first := slices.IndexFunc(s.watts, func(w float64) bool { return w > least })
	last := len(s.watts) - 1
	for last > first && s.watts[last] <= least {
		last--
	}
	if first < 0 {
		s.watts = nil
		return
	}
	s.start, s.watts = s.time(first), s.watts[first:last+1]
}

// pumpJoins returns the stretch at which the pump joins, or 0. For every cut it
// compares the squares that are left about two means, one for each side, with
// those about one; the side after the cut ends a quarter of the way on, so that
// a draw that falls afterwards does not hide the step.
func (s *shape) pumpJoins() (at int, sure float64) {
	sums, level := newRunningSums(s.watts), mean(s.watts)
	reach := max(len(s.watts)/4, minPart)
	best := 0.0
	for cut := minPart; cut+minPart <= len(s.watts); cut++ {
		from, to := max(cut-reach, 0), min(cut+reach, len(s.watts))
		before := sums.mean(from, cut) // from the level of the whole
		rise := sums.mean(cut, to) - before
		gain := sums.squares(from, to) - sums.squares(from, cut) - sums.squares(cut, to)
		if rise > (before+level)*leastRise && gain > best {
			best, at = gain, cut
			left := sums.squares(from, cut) + sums.squares(cut, to)
			sure = certainty(rise, math.Sqrt(left/float64(to-from)))
		}
	}
	if at > 0 && sure < leastSure {
		return 0, sure
	}
	return at, sure
}

// leastRise is the part of the draw before that a pump adds at least (common
// practice: pumps draw as much as the cooling does).
const leastRise = 0.1

// leastSure is the confidence below which nothing is suggested.
const leastSure = 0.3

// certainty weighs how far the power moves against its spread: 0.5 where they
// are equal, near 1 where it moves far.
func certainty(move, spread float64) float64 {
	if move <= 0 {
		return 0
	}
	return move * move / (move*move + spread*spread)
}

// settles returns the stretch after the pump has joined from which on the
// power, smoothed over an hour, stays near its level at the end: within a
// twentieth of it or within its own spread there. It returns 0 where the power
// has been there all along, or gets there only at the end.
func (s *shape) settles(pump int) (at int, sure float64) {
	tail := smoothed(s.watts[pump:], max(int(30*time.Minute/s.width), 1))
	end := tail[len(tail)-max(len(tail)/8, minPart):]
	level, spread := quantileOf(end, 0.5), deviation(end)
	near := max(level/20, spread)
	last := -1 // the last stretch outside
	for i, w := range tail {
		if math.Abs(w-level) > near {
			last = i
		}
	}
	settled := last + 1
	if settled < minPart || settled+minPart > len(tail) {
		return 0, 0
	}
	before := mean(tail[:settled])
	sure = certainty(math.Abs(before-mean(tail[settled:])), deviation(tail[settled:]))
	if sure < leastSure {
		return 0, sure
	}
	return pump + settled, sure
}
