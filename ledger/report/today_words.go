package report

import (
	"strings"

	"putby/pricing/exact"
)

// answer says what has to be done, the most pressing first.
func (t *today) answer() string {
	a := t.r.Answer()
	var parts []string
	if n := len(t.state.Faults); n > 0 {
		parts = append(parts, "mend "+counted(n, "fault")+" of the records")
	}
	for _, p := range a.Moist {
		parts = append(parts, "open pack "+t.g.Records.Packs[p].ID+", which was not dry")
	}
	parts = append(parts, t.some("finish run ", a.Ended)...)
	for i, at := range a.Fresh {
		w := &t.r.Fresh[at]
		if i == t.most+1 && i < len(a.Fresh)-1 {
			parts = append(parts, "look after "+counted(len(a.Fresh)-i, "more fresh food"))
			break
		}
		name := t.g.Foods[w.Food].Title()
		if w.Turned(t.r.Day) {
			parts = append(parts, "look over "+name+", to be used by "+w.UseBy.String())
		} else {
			parts = append(parts, "dry or eat "+name+" by "+w.UseBy.String())
		}
	}
	parts = append(parts, t.some("pack run ", a.Pack)...)
	if a.Past > 0 {
		parts = append(parts, "look over "+counted(a.Past, "pack")+" past best-by")
	}
	if parts == nil {
		if t.nothing() {
			return "Nothing is recorded yet."
		}
		return "Nothing has to be done today."
	}
	return "To do: " + strings.Join(parts, "; ") + "."
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
	return []string{what + listed(names)}
}

// nothing reports whether the records have nothing that a day could be about.
func (t *today) nothing() bool {
	_, any := t.r.Month.Get()
	return !any && len(t.r.Store)+len(t.r.Fresh)+len(t.r.Running) == 0 && t.g.AsOf == exact.NoDate
}
