package entry

import (
	"slices"
	"time"

	"putby/pricing/exact"
)

// A phaseFit lays the usual phases of a food round those that a run has so far.
type phaseFit struct {
	sofar, usual []span
	same         int           // how many so far are those with which the usual ones begin
	known        bool          // how long the run took in all
	total        time.Duration // from the run's start to its end; counts only where known
	changed      string        // what was done to the longest of the usual ones, for the run's note
}

// fit returns all phases in order. Those so far that begin as the usual ones do
// take their place; others are time on top, and come behind the usual one of
// their name. The longest of the usual ones is stretched or shortened until all
// end with the run; it reports false where that cannot be.
func (f *phaseFit) fit() (list []span, ok bool) {
	rest, extra := slices.Clone(f.usual[f.same:]), f.sofar[f.same:]
	if f.known {
		if rest, ok = f.stretch(rest, extra, f.total-sumOf(f.sofar)); !ok {
			return nil, false
		}
	}
	list = append(slices.Clone(f.sofar[:f.same]), rest...)
	for _, s := range extra {
		list = slices.Insert(list, f.place(list, s), s)
	}
	return list, true
}

// place is where a phase on top belongs: behind the last that usually comes no
// later than it; one that is not usual at the end.
func (f *phaseFit) place(list []span, s span) int {
	rank := func(s span) int {
		return slices.IndexFunc(f.usual, func(u span) bool { return u.name == s.name })
	}
	at := len(list)
	for at > 0 && rank(s) >= 0 && rank(list[at-1]) > rank(s) {
		at--
	}
	return at
}

// stretch makes phases last so long together, by the longest of them. One that
// would last no time is left out where time so far stands for it.
func (f *phaseFit) stretch(rest, extra []span, together time.Duration) ([]span, bool) {
	for len(rest) > 0 {
		longest := 0
		for i := range rest {
			if rest[i].length > rest[longest].length {
				longest = i
			}
		}
		off := together - sumOf(rest)
		s := &rest[longest]
		if s.length+off > 0 {
			if off != 0 {
				f.changed = ", " + s.name.String() + " " + exact.FormatDuration(s.length) + " made " + exact.FormatDuration(s.length+off)
			}
			s.length += off
			return rest, true
		}
		if !slices.ContainsFunc(extra, func(e span) bool { return e.name == s.name }) {
			return nil, false
		}
		rest = slices.Delete(rest, longest, longest+1)
	}
	return nil, together.Abs() <= slack
}
