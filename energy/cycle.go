package energy

import (
	"errors"
	"fmt"
	"time"

	"putby/pricing/exact"
)

// A Phase is what is known of one phase of a cycle.
type Phase struct {
	Name   string
	Length time.Duration           // elapsed time
	KWh    exact.Opt[exact.Number] // metered energy of this phase
	Watts  exact.Opt[exact.Number] // average draw: its own, or the machine's usual one
}

// A Cycle is what is known of the electricity of one machine cycle.
type Cycle struct {
	Start  time.Time
	End    exact.Opt[time.Time] // only where there are no phases
	Phases []Phase
	KWh    exact.Opt[exact.Number] // metered total of the run
	Log    *Log                    // a plug meter's log, or nil
}

// A Draw is the energy of a cycle, placed on the clock.
type Draw struct {
	Spans  []Span                   // one for each phase, in order, or one for the whole run
	Energy exact.Ratio              // kWh
	Length exact.Opt[time.Duration] // of the whole run; not given if unknown
	Notes  []string
}

// ErrNoEnergy is the error of a cycle of whose energy nothing is known.
var ErrNoEnergy = errors.New("nothing says how much electricity it used")

// A PhaseError says that nothing is known of the energy of one phase.
type PhaseError struct{ Index int }

// Error names the phase by its place, from 1.
func (e *PhaseError) Error() string {
	return fmt.Sprintf("phase %d has neither kWh nor watts, and there is no meter log", e.Index+1)
}

// Resolve places a cycle's energy on the clock.
func (c Cycle) Resolve() (Draw, error) {
	return Draw{}, errNotYet
}
