package report

import (
	"fmt"
	"time"

	"putby/energy"
	"putby/pricing/exact"
)

// powerWords says a note on the electricity of a run.
func powerWords(n energy.Note) string {
	switch n.Kind {
	case energy.AtStart:
		return "no end is given: all of its electricity is priced at the hour of its start"
	case energy.SpreadPhases:
		return "its phases sum to no energy: the metered kWh is spread by duration"
	case energy.PhasesUntold:
		return "nothing tells its phases apart: the metered kWh is spread by duration"
	case energy.LogOutside:
		return "the meter log has no samples during the run: nothing is drawn"
	case energy.LogShowsNone:
		return "the meter log shows no energy during the run: the metered kWh is spread evenly"
	case energy.LogLate:
		return fmt.Sprintf("the meter log begins %s after the run's start: nothing is drawn before", wholeSeconds(n.Length))
	case energy.LogEarly:
		return fmt.Sprintf("the meter log ends %s before the run's end: nothing is drawn after", wholeSeconds(n.Length))
	case energy.NothingYet:
		return "nothing is recorded yet of its electricity: none is counted"
	case energy.PhasesYet:
		return "nothing is recorded yet of the electricity of some of its phases: none is counted for them"
	case energy.PhaseAtRest:
		return fmt.Sprintf("phase %d (%s) draws nothing in %s: a machine that runs draws something", n.Phase, n.Name, exact.FormatDuration(n.Length))
	case energy.TooLittle:
		have, least := apart(n.KWh, n.Least)
		return fmt.Sprintf("the metered %v kWh are less than the %v kWh that it takes to turn the %v kg of water removed from ice to vapour: does the meter see the whole machine, and are the weights right?",
			have, least, n.Water)
	}
	return fmt.Sprintf("%v kWh are %v times the usual %v kWh: is it one run, and is the decimal point in place?", // [energy.FarAbove]
		n.KWh.Round(kwhPlaces, exact.HalfAway), n.Times().Round(1, exact.HalfAway), n.Usual.Round(kwhPlaces, exact.HalfAway))
}

// wholeSeconds writes a length of time in whole seconds, rounded up.
func wholeSeconds(d time.Duration) string {
	return exact.FormatDuration((d + time.Second - 1).Truncate(time.Second))
}

// kwhPlaces is how many decimals of a kWh a note shows.
const kwhPlaces = 3

// apart rounds two unequal energies, with as many decimals as it takes to tell
// them apart.
func apart(a, b exact.Ratio) (exact.Number, exact.Number) {
	for places := kwhPlaces; ; places++ {
		x, y := a.Round(places, exact.HalfAway), b.Round(places, exact.HalfAway)
		if !x.Equal(y) || places == exact.QuantityPlaces {
			return x, y
		}
	}
}
