package intake

import (
	"math/big"
	"time"

	"putby/energy"
	"putby/ledger"
	"putby/pricing/exact"
)

// A counter turns the readings of a running total into samples of power. The
// power is even over each stretch from reading to reading, and changes within
// a ramp of a second after a reading; where the next stretch has too little
// energy even for that, within a second before. The level of a stretch makes
// up for its ramps, so that the energy of all samples is the difference of the
// readings, to within a nanowatt over the last stretch.
type counter struct {
	window  *logWindow
	modulus int64 // in 0.000000001 kWh, as all readings; 0: it never starts again
	rolls   int   // how often the total started again at 0

	started bool
	value   int64 // of the last reading
	at      int64 // of the last reading; Unix nanoseconds, as from
	from    int64 // where the next stretch begins, and the one before ended
	energy  int64 // since then

	stretches   int     // placed so far; 0: level and ramp are not set yet
	level, ramp int64   // of the stretch before; nanowatts, nanoseconds
	carry       big.Int // area still to be placed, in half nanowatt nanoseconds
}

// shortest is the shortest stretch: readings closer than that are joined.
const shortest = 4 * int64(time.Second)

// perReading is how many half nanowatt nanoseconds make 0.000000001 kWh:
// 2 x 3600 x 1000 x 1e-9 x 1e18.
var perReading = big.NewInt(7_200_000_000_000_000)

func newCounter(window *logWindow, o LogOptions, unit exact.Unit) (*counter, *ledger.Fault) {
	c := &counter{window: window}
	modulus, ok := o.Modulus.Get()
	if !ok {
		return c, nil
	}
	scaled := modulus.Mul(exact.New(1, -valueScales[unit]))
	if c.modulus, ok = scaled.Int64(); !ok || c.modulus < 1 || c.modulus > largestValue {
		return nil, &ledger.Fault{Line: 1, Column: 1, What: "a running total cannot start again at " + modulus.String()}
	}
	return c, nil
}

// rampLength is how long the power takes to change, next to a stretch.
func rampLength(stretch int64) int64 { return min(int64(time.Second), stretch/4) }

// reading takes the next reading, or says what is wrong with it.
func (c *counter) reading(at, value int64) string {
	step := value - c.value
	first := !c.started
	c.started, c.value, c.at = true, value, at
	switch {
	case c.modulus > 0 && value >= c.modulus:
		return "the running total is beyond where it starts again"
	case first:
		c.from = at
		return ""
	case step < 0 && c.modulus == 0:
		return "the running total goes back: say at which value the meter starts again, if that is why"
	case step < 0:
		step += c.modulus
		c.rolls++
	}
	if c.energy += step; c.energy > largestValue {
		return "the running total rises too much"
	}
	if at-c.from < shortest {
		return ""
	}
	return c.stretch(at)
}

// stretch places the energy since the last stretch.
func (c *counter) stretch(to int64) string {
	// All areas are doubled, since a ramp covers half of its rectangle. With a ramp r after the
	// reading: 2 energy = level r + new (2 length - r). With one before it, which takes from the
	// stretch before: 2 energy + level r = new (2 length + r).
	length := to - c.from
	area := new(big.Int).Mul(big.NewInt(c.energy), perReading)
	area.Add(area, &c.carry)
	ramp := rampLength(length)
	change := new(big.Int).Mul(big.NewInt(c.level), big.NewInt(ramp))
	divisor := new(big.Int).Lsh(big.NewInt(length), 1) // two centuries of nanoseconds, doubled, are beyond an int64
	switch {
	case c.stretches == 0:
		ramp = 0
	case area.Cmp(change) >= 0: // a ramp after the reading
		area.Sub(area, change)
		divisor.Sub(divisor, big.NewInt(ramp))
		c.window.sample(c.from, c.level)
	default: // a ramp before it, out of the stretch before
		before := c.ramp
		area.Add(area, change.Mul(big.NewInt(c.level), big.NewInt(before)))
		divisor.Add(divisor, big.NewInt(before))
		c.window.sample(c.from-before, c.level)
		ramp = 0
	}
	// What does not divide goes into the next stretch (TestLogRunningTotal).
	level, _ := area.QuoRem(area, divisor, &c.carry)
	if !level.IsInt64() {
		return energy.ErrPower.Error()
	}
	c.level, c.ramp = level.Int64(), rampLength(length)
	problem := c.window.sample(c.from+ramp, c.level)
	c.from, c.energy = to, 0
	c.stretches++
	return problem
}

// flush places what is left after the last reading.
func (c *counter) flush() string {
	if c.at > c.from {
		if problem := c.stretch(c.at); problem != "" {
			return problem
		}
	}
	switch {
	case c.stretches > 0:
		return c.window.sample(c.from, c.level)
	case c.started:
		return "a running total needs two readings"
	}
	return ""
}
