package figures

import (
	"slices"
	"time"

	"putby/ledger"
	"putby/pricing/exact"
)

// This file is [Vetting] of how long runs and their phases took.

// A stage is a phase on a machine, or with "" a whole run.
type stage struct{ machine, phase string }

// lengths tells of a run that takes no time, or ten times what the machine's runs usually
// take or a tenth of it, and of phases likewise. What spoiled may have been broken off,
// and a phase that a run has already may be gone on with.
func (v *Vetting) lengths(more *ledger.Records) {
	runs := map[string]*ledger.Run{}
	for i := range more.Runs {
		r := &more.Runs[i]
		runs[r.ID] = r
		if end, ok := r.End.Get(); ok {
			v.length(r.ID, stage{r.Machine, ""}, end.Sub(r.Start), func() bool { return r.Spoiled })
		}
	}
	if more.Phases.Len() == 0 {
		return
	}
	for i := range v.rec.Runs {
		if r := &v.rec.Runs[i]; runs[r.ID] == nil {
			runs[r.ID] = r
		}
	}
	for _, p := range more.Phases.All() {
		r := runs[p.Run]
		if r == nil {
			r = &ledger.Run{}
		}
		v.length(p.Run, stage{r.Machine, p.Phase.String()}, p.Length, func() bool { return r.Spoiled || v.goesOn(&p) })
	}
}

// goesOn reports whether a phase that is added is of a kind that its run has already.
func (v *Vetting) goesOn(p *ledger.Phase) bool {
	for old := range phasesOf(v.rec, p.Run) {
		if p.Line == 0 && old.Phase == p.Phase {
			return true
		}
	}
	return false
}

// length judges one length, which may be a short one where short says so.
func (v *Vetting) length(run string, of stage, length time.Duration, short func() bool) {
	o := Odd{What: FarLength, Name: run, Machine: of.machine, Phase: of.phase, Length: length}
	if v.took == nil {
		v.took = v.ownLengths()
	}
	own, have := v.took[of], exact.RatioOf(exact.Int(int64(length)))
	usual, ok := exact.Quantile(own, half)
	o.Usual, o.Of = usual, len(own)
	if length == 0 || ok && far(have, usual) && (usual.Cmp(have) < 0 || !short()) {
		v.tell(o)
	}
}

// ownLengths are what the good runs of each machine and their phases took, in
// nanoseconds; sorted.
func (v *Vetting) ownLengths() map[stage][]exact.Ratio {
	took := map[stage][]exact.Ratio{}
	add := func(of stage, length time.Duration) {
		if length > 0 {
			took[of] = append(took[of], exact.RatioOf(exact.Int(int64(length))))
		}
	}
	good, whole := map[string]*ledger.Run{}, map[string]time.Duration{}
	for i := range v.rec.Runs {
		if r := &v.rec.Runs[i]; r.Good() && !v.changed[place{ledger.RunsFile, r.Line}] {
			good[r.ID] = r
		}
	}
	for _, p := range v.rec.Phases.All() {
		if r := good[p.Run]; r != nil && !v.changed[place{ledger.PhasesFile, int(p.Line)}] {
			whole[p.Run] += p.Length
			add(stage{r.Machine, p.Phase.String()}, p.Length)
		}
	}
	for id, r := range good {
		if end, ok := r.End.Get(); ok {
			whole[id] = end.Sub(r.Start)
		}
		add(stage{r.Machine, ""}, whole[id])
	}
	for _, list := range took {
		slices.SortFunc(list, exact.Ratio.Cmp)
	}
	return took
}
