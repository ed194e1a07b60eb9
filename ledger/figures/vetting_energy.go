package figures

import (
	"slices"
	"time"

	"putby/ledger"
	"putby/pricing/exact"
)

// This file is [Vetting] of a run's kWh.

// energy tells of a run that used ten times what the machine's runs usually do or a
// tenth of it, or half as much again as the machine can draw in that time, or where that is not
// known more than a socket gives. One that spoiled may have been broken off.
func (v *Vetting) energy(r *ledger.Run, more *ledger.Records) {
	kwh, given := r.KWh.Get()
	if !given || kwh.Sign() <= 0 {
		return
	}
	o := Odd{Name: r.ID, Machine: r.Machine, Number: kwh}
	own := v.usedBy(r.Machine)
	if usual, ok := exact.Quantile(own, half); ok && far(exact.RatioOf(kwh), usual) && (!r.Spoiled || usual.Cmp(exact.RatioOf(kwh)) < 0) {
		o.What, o.Usual, o.Of = FarEnergy, usual, len(own)
		v.tell(o)
		return
	}
	most, length := exact.RatioOf(v.mostWatts(r.Machine)), v.lengthOf(r, more)
	if length <= 0 {
		return
	}
	o.What, o.Usual, o.Length = HighPower, most, length
	// W = kWh x 1000 / h, with the length in nanoseconds.
	o.Have = exact.RatioOf(kwh).Times(exact.Int(int64(1000 * time.Hour))).Quo(exact.RatioOf(exact.Int(int64(length))))
	limit := most.Mul(exact.Int(3).Over(exact.Int(2)))
	if most.Sign() <= 0 {
		limit = exact.RatioOf(exact.Int(SocketWatts))
	}
	if o.Have.Cmp(limit) > 0 {
		v.tell(o)
	}
}

// SocketWatts is what a household socket gives at most: 16 A at 230 V (IEC 60884-1 and
// IEC 60038, from memory). A socket of 20 A at 120 V gives less, 2400 W.
const SocketWatts = 230 * 16

// usedBy are the metered kWh of a machine's good runs, sorted.
func (v *Vetting) usedBy(machine string) []exact.Ratio {
	if v.used == nil {
		v.used = map[string][]exact.Ratio{}
		for i := range v.rec.Runs {
			r := &v.rec.Runs[i]
			if n, ok := r.KWh.Get(); ok && n.Sign() > 0 && r.Good() && !v.changed[place{ledger.RunsFile, r.Line}] {
				v.used[r.Machine] = append(v.used[r.Machine], exact.RatioOf(n))
			}
		}
		for _, list := range v.used {
			slices.SortFunc(list, exact.Ratio.Cmp)
		}
	}
	return v.used[machine]
}

// mostWatts is what a machine draws in the phase in which it draws most; 0: not
// known, as where its longest phase is not recorded.
func (v *Vetting) mostWatts(machine string) (most exact.Number) {
	primary := false
	for i := range v.rec.Wattage {
		if w := &v.rec.Wattage[i]; w.Machine == machine {
			most = most.Max(w.Watts)
			primary = primary || w.Phase == ledger.Primary
		}
	}
	if !primary {
		return exact.Number{}
	}
	return most
}

// lengthOf is how long a run took, by its phases or else its end; 0: not known.
func (v *Vetting) lengthOf(r *ledger.Run, more *ledger.Records) (length time.Duration) {
	if end, ok := r.End.Get(); ok {
		return end.Sub(r.Start)
	}
	for p := range phasesOf(v.rec, r.ID) {
		if !v.changed[place{ledger.PhasesFile, int(p.Line)}] {
			length += p.Length
		}
	}
	for p := range phasesOf(more, r.ID) {
		length += p.Length
	}
	return length
}

// phasesOf goes through the phases of a run.
func phasesOf(rec *ledger.Records, run string) func(func(*ledger.Phase) bool) {
	return func(yield func(*ledger.Phase) bool) {
		for _, p := range rec.Phases.All() {
			if p.Run == run && !yield(&p) {
				return
			}
		}
	}
}
