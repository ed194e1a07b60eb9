package figures

import (
	"time"

	"putby/energy"
	"putby/ledger"
	"putby/pricing/exact"
)

// A Phase is what a phase of a cycle is like on average.
type Phase struct {
	Name   ledger.PhaseName
	Length time.Duration // to the second; all phases sum to the cycle
	Part   exact.Ratio   // of the cycle's energy
}

// UsualPhases are the phases of a cycle that takes length in all, each as long
// and as thirsty, in proportion, as it was over the runs given. There are none
// where no run has phases.
func UsualPhases(g *ledger.Ledger, runs []int, length time.Duration) []Phase {
	var seconds [ledger.Defrost + 1]exact.Number
	var energies [ledger.Defrost + 1]exact.Ratio
	var total exact.Ratio
	for _, i := range runs {
		rows := g.PhasesOf(i)
		draw, err := g.Draw(i)
		// Only what has a span for each phase tells: a log or an end alone has spans of no phase.
		if err != nil || len(draw.Spans) != len(rows) {
			continue
		}
		for j, row := range rows {
			p := g.Records.Phases.At(int(row))
			seconds[p.Phase] = seconds[p.Phase].Add(exact.Int(int64(p.Length / time.Second)))
			energies[p.Phase] = energies[p.Phase].Add(draw.Spans[j].Energy)
			total = total.Add(draw.Spans[j].Energy)
		}
	}
	// A split: the phases sum to the length to the second, which rounding each would not do.
	parts, err := exact.Split(exact.Int(int64(length/time.Second)), seconds[:], 0)
	if err != nil || total.IsZero() {
		return nil
	}
	var phases []Phase
	for name, part := range parts {
		if seconds[name].IsZero() {
			continue
		}
		n, _ := part.Int64()
		phases = append(phases, Phase{ledger.PhaseName(name), time.Duration(n) * time.Second, energies[name].Quo(total)})
	}
	return phases
}

// usualPhases are those of a cycle: by the runs that tell what is usual, or where
// those have no phases by all the machine's good ones.
func (d Dryer) usualPhases(length time.Duration) []Phase {
	if phases := UsualPhases(d.g, d.Runs, length); len(phases) > 0 {
		return phases
	}
	return UsualPhases(d.g, d.RunsOf(-1), length)
}

// LegsOf is how a cycle's energy lies over its time: a leg for each usual
// phase, or one leg where the phases are not known.
func LegsOf(phases []Phase, length time.Duration, kwh exact.Ratio) []energy.Leg {
	if len(phases) == 0 {
		return []energy.Leg{{Length: length, Energy: kwh}}
	}
	legs := make([]energy.Leg, len(phases))
	for i, p := range phases {
		legs[i] = energy.Leg{Length: p.Length, Energy: p.Part.Mul(kwh)}
	}
	return legs
}
