package report

import (
	"fmt"
	"strings"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/pricing/exact"
)

// answer says what has to be done, the most pressing first: behind the day, so
// that the screen grows by no line.
func (t *today) answer() string {
	var parts []string
	if n := len(t.state.Faults); n > 0 {
		parts = append(parts, "mend "+counted(n, "fault")+" of the records")
	}
	parts = append(parts, worded(t.of(figures.OpenPack), func(do figures.ToDo) string {
		return "open pack " + t.g.Records.Packs.At(do.Pack.Pack).ID + " (not dry)"
	})...)
	parts = append(parts, t.some("dry on run ", figures.DryOn)...)
	parts = append(parts, t.some("finish run ", figures.Finish)...)
	for _, do := range t.of(freshTasks...) {
		if what := "dry or eat"; do.Urgent && do.Task != figures.LookOver {
			if do.Freeze || do.Task == figures.UseFresh {
				what = freezeOrEat(do.Freeze)
			}
			parts = append(parts, what+" "+t.title(do.Fresh.Food))
		}
	}
	parts = append(parts, t.some("pack run ", figures.PackRun)...)
	parts = append(parts, t.lookOver()...)
	past := 0
	for _, p := range t.r.Store {
		if p.Past {
			past++
		}
	}
	if past > 0 {
		parts = append(parts, "look over "+counted(past, "pack")+" past best-by")
	}
	if parts == nil {
		if t.nothing() {
			return "nothing is recorded yet"
		}
		return "nothing has to be done"
	}
	parts = ledger.Distinct(parts, func(p *string) string { return *p })
	if most := 2; len(parts) > most { // one line, whatever there is to do
		parts = append(parts[:most], fmt.Sprintf("%d more", len(parts)-most))
	}
	return strings.Join(parts, "; ")
}

// lookOver says that fresh food is past its day, what alone is by its name.
func (t *today) lookOver() []string {
	foods := map[int]bool{}
	for _, do := range t.of(figures.LookOver) {
		foods[do.Fresh.Food] = true
	}
	if len(foods) > 1 {
		return []string{fmt.Sprintf("look over %d foods past their day", len(foods))}
	}
	for f := range foods {
		return []string{"look over " + t.title(f)}
	}
	return nil
}

// some names the runs with which the same is to be done.
func (t *today) some(what string, task figures.Task) []string {
	var names []string
	for _, do := range t.of(task) {
		if do.Urgent {
			names = append(names, t.g.Records.Runs[do.Run].ID)
		}
	}
	if names == nil {
		return nil
	}
	return []string{what + Listed(names)}
}

// nothing reports whether the records have nothing that a day could be about.
func (t *today) nothing() bool {
	_, any := t.r.Month.Get()
	return !any && len(t.r.Store)+len(t.r.Fresh)+len(t.r.Running) == 0 && t.g.AsOf == exact.NoDate
}
