package report

import (
	"fmt"

	"putby/ledger"
	"putby/pricing/exact"
)

// answer says what has to be done, the most pressing first: behind the day, so
// that the screen grows by no line.
func (t *today) answer() string {
	a := t.r.Answer(t.g)
	var parts []string
	if n := len(t.state.Faults); n > 0 {
		parts = append(parts, "mend "+counted(n, "fault")+" of the records")
	}
	for _, p := range a.Moist {
		parts = append(parts, "open pack "+t.g.Records.Packs.At(p).ID+" (not dry)")
	}
	parts = append(parts, t.some("dry on run ", a.DryOn)...)
	parts = append(parts, t.some("finish run ", a.Ended)...)
	for _, at := range a.Fresh {
		w := &t.r.Fresh[at]
		what := "dry or eat "
		if w.Turned(t.r.Day) {
			what = "look over "
		}
		parts = append(parts, what+t.g.Foods[w.Food].Title())
	}
	parts = append(parts, t.some("pack run ", a.Pack)...)
	if a.Past > 0 {
		parts = append(parts, "look over "+counted(a.Past, "pack")+" past best-by")
	}
	if parts == nil {
		if t.nothing() {
			return "nothing is recorded yet"
		}
		return "nothing has to be done"
	}
	parts = ledger.Distinct(parts, func(p *string) string { return *p })
	if most := 2; len(parts) > most {
		parts = append(parts[:most], fmt.Sprintf("%d more", len(parts)-most))
	}
	return Listed(parts)
}

// some names runs to do the same with.
func (t *today) some(what string, runs []int) []string {
	if len(runs) == 0 {
		return nil
	}
	var names []string
	for _, run := range runs {
		names = append(names, t.g.Records.Runs[run].ID)
	}
	return []string{what + Listed(names)}
}

// nothing reports whether the records have nothing that a day could be about.
func (t *today) nothing() bool {
	_, any := t.r.Month.Get()
	return !any && len(t.r.Store)+len(t.r.Fresh)+len(t.r.Running) == 0 && t.g.AsOf == exact.NoDate
}
