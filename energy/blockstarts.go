package energy

import (
	"time"

	"putby/pricing/exact"
)

// This file finds the starts at which the cost under a tariff with blocks can
// bend beyond those where legs meet edges. A block of a month is reached when
// the profile has drawn so many kWh in that month. In the month that the cycle
// starts in, that is a fixed time after the start, as a leg's edge is. In a
// month that begins during the cycle, it moves with the start.

// blockStarts returns those starts, each as the whole nanoseconds around it.
func (s Search) blockStarts(p profile, edges []edge) []time.Time {
	var starts []time.Time
	add := func(edge time.Time, offsets []time.Duration) {
		for _, o := range offsets {
			starts = append(starts, edge.Add(-o), edge.Add(-o-1))
		}
	}
	first := newWalker(s.Tariff)
	_, month, _ := first.at(s.From.Unix())
	for _, need := range s.needs(month) {
		offsets := p.reaches(need)
		for _, e := range edges {
			add(e.at, offsets)
		}
	}
	for i, begin := range edges {
		if !begin.month {
			continue
		}
		_, month, _ := first.at(begin.at.Unix())
		for _, need := range s.needs(month) {
			fixed := p.reaches(need)
			for _, e := range edges[i:] {
				add(e.at, fixed)
				add(begin.at, p.spansDrawing(e.at.Sub(begin.at), need))
			}
			for _, drawn := range p.before {
				add(begin.at, p.reaches(drawn.Sub(need)))
			}
		}
	}
	return starts
}

// needs returns how much more a month has to use to reach each block.
func (s Search) needs(month monthKey) []exact.Ratio {
	var use exact.Ratio
	if s.Meter != nil {
		use = s.Meter.usedIn(month).Add(exact.RatioOf(s.Meter.household[month%12]))
	}
	var needs []exact.Ratio
	for _, b := range s.Tariff.bands {
		if need := exact.RatioOf(b.Above).Sub(use); need.Sign() > 0 {
			needs = append(needs, need)
		}
	}
	return needs
}

// reaches returns when the profile has drawn so many kWh, rounded down to a
// nanosecond: nothing where it never does, or does at the edge of a leg.
func (p profile) reaches(kwh exact.Ratio) []time.Duration {
	for i, leg := range p.legs {
		if p.before[i].Cmp(kwh) < 0 && kwh.Cmp(p.before[i+1]) < 0 && leg.Length > 0 {
			part := kwh.Sub(p.before[i]).Quo(leg.Energy)
			return []time.Duration{p.offsets[i] + floorTimes(part, leg.Length)}
		}
	}
	return nil
}

// floorTimes returns r*d, rounded down.
func floorTimes(r exact.Ratio, d time.Duration) time.Duration {
	n, _ := r.Times(exact.Int(int64(d))).Floor().Int64()
	return time.Duration(n)
}

// drawn returns the kWh up to an instant of the profile; at an instant leg it
// counts.
func (p profile) drawn(at time.Duration) exact.Ratio {
	for i, leg := range p.legs {
		if at < p.offsets[i+1] {
			part := exact.Int(int64(max(at-p.offsets[i], 0))).Over(exact.Int(int64(leg.Length)))
			return p.before[i].Add(leg.Energy.Mul(part))
		}
	}
	return p.before[len(p.before)-1]
}

// spansDrawing returns the instants from which the profile draws exactly so
// many kWh within a length of time, rounded down to a nanosecond. What it draws
// is linear in the instant between those at which one end of the length is at
// the edge of a leg.
func (p profile) spansDrawing(length time.Duration, kwh exact.Ratio) []time.Duration {
	var bends, found []time.Duration
	for _, o := range p.offsets {
		bends = append(bends, o, o-length)
	}
	for _, piece := range between(bends, 0, p.length()) {
		// Two instants inside the piece, where no leg without length jumps.
		third := (piece[1] - piece[0]) / 3
		if third == 0 {
			continue
		}
		a, b := piece[0]+third, piece[1]-third
		atA := p.drawn(a + length).Sub(p.drawn(a))
		rise := p.drawn(b + length).Sub(p.drawn(b)).Sub(atA)
		if rise.IsZero() {
			continue
		}
		at := a + floorTimes(kwh.Sub(atA).Quo(rise), b-a)
		if piece[0] <= at && at <= piece[1] {
			found = append(found, at)
		}
	}
	return found
}
