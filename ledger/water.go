package ledger

import "putby/pricing/exact"

// WaterRemoved returns the kg of water that a run took out of the loads that
// were weighed wet and dry, and whether all of its loads were.
func (g *Ledger) WaterRemoved(run int) (kg exact.Number, all bool) {
	rows := g.x.loadsOf.of(run)
	all = len(rows) > 0
	for _, row := range rows {
		l := &g.Records.Loads[row]
		if !l.Wet.Given() || !l.Dry.Given() {
			all = false
			continue
		}
		kg = kg.Add(l.Wet.Base().Number()).Sub(l.Dry.Base().Number())
	}
	return kg, all
}
