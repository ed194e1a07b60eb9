package energy

import (
	"time"

	"putby/pricing/exact"
)

// A NoteKind says what a [Note] is about.
type NoteKind uint8

// The kinds of notes. Beside each stands what else its notes hold.
const (
	AtStart      NoteKind = iota // no end is known, so that all of it is priced as at its start
	SpreadPhases                 // its phases sum to no energy: the metered total is spread by duration
	PhasesUntold                 // nothing tells its phases apart: the metered total is spread by duration
	LogOutside                   // the log has no samples during the run, and gives nothing
	LogShowsNone                 // the log shows no energy during the run: the metered total is spread evenly
	LogLate                      // Length: how long after the start of the run its log begins
	LogEarly                     // Length: how long before the end of the run its log ends
	NothingYet                   // nothing is known yet of a run that goes on: none is counted
	PhasesYet                    // nothing is known yet of some of its phases: none is counted for them
	PhaseAtRest                  // Phase, Name, Length: draws nothing, for that long
	TooLittle                    // KWh, Least, Water: the metered energy cannot have dried that much
	FarAbove                     // KWh, Usual: many times what is usual
)

// A Note is something to know about the electricity of a cycle: an assumption that
// it rests on, or what looks like a slip. Whoever shows it words it.
type Note struct {
	Kind         NoteKind
	Phase        int // its place, from 1
	Name         string
	Length       time.Duration // elapsed; 0 in the kinds that say nothing of it
	KWh          exact.Ratio   // as metered
	Least, Usual exact.Ratio   // kWh
	Water        exact.Number  // removed, kg
}

// Times is how many times the usual energy was metered.
func (n *Note) Times() exact.Ratio { return n.KWh.Quo(n.Usual) }
