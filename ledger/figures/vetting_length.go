package figures

import (
	"slices"
	"time"

	"putby/ledger"
)

// length tells of finished runs that take ten times what the machine's runs
// usually do, or a tenth of it; of a machine's first ones, that they take no time.
func (v *Vetting) length(more *ledger.Records) {
	if len(more.Runs) == 0 {
		return
	}
	if v.lengths == nil {
		v.lengths = ownLengths(v.rec)
	}
	phases := phaseTimes(v.rec, more)
	for i := range more.Runs {
		r := &more.Runs[i]
		takes, known := lengthOf(r, phases)
		if !known || !r.Good() {
			continue
		}
		own := v.lengths[r.Machine]
		usual := middle(own)
		if takes == 0 || own != nil && (takes >= usual*farOff || takes*farOff <= usual) {
			v.tell(Odd{What: FarLength, Name: r.ID, Machine: r.Machine, Takes: takes, Usually: usual, Of: len(own)})
		}
	}
}

// ownLengths are those of the good runs of each machine, sorted.
func ownLengths(rec *ledger.Records) map[string][]time.Duration {
	lengths, phases := map[string][]time.Duration{}, phaseTimes(rec)
	for i := range rec.Runs {
		r := &rec.Runs[i]
		if d, known := lengthOf(r, phases); known && d > 0 && r.Good() {
			lengths[r.Machine] = append(lengths[r.Machine], d)
		}
	}
	for _, list := range lengths {
		slices.Sort(list)
	}
	return lengths
}

// middle is the median of sorted lengths; 0 of none.
func middle(list []time.Duration) time.Duration {
	if len(list) == 0 {
		return 0
	}
	return (list[(len(list)-1)/2] + list[len(list)/2]) / 2
}

// phaseTimes sums the phases of each run.
func phaseTimes(all ...*ledger.Records) map[string]time.Duration {
	sums := map[string]time.Duration{}
	for _, rec := range all {
		for _, p := range rec.Phases.All() {
			sums[p.Run] += p.Length
		}
	}
	return sums
}

// lengthOf is how long a run takes by its phases, or where it has none by its end.
func lengthOf(r *ledger.Run, phases map[string]time.Duration) (time.Duration, bool) {
	if d, ok := phases[r.ID]; ok {
		return d, true
	}
	end, ok := r.End.Get()
	return end.Sub(r.Start), ok
}
