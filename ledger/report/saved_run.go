package report

import (
	"fmt"
	"time"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/pricing/exact"
)

// run says what a run dried, how long it took, what it used and what that cost:
// "Run c48: 6.2 L Chicken broth, 37 h, 17.4 kWh, 2.05 EUR of electricity; 31.20 in
// all with food, wear and labour."
func (s *savedWords) run(i int) {
	run, cost := &s.g.Records.Runs[i], &s.g.Runs[i]
	var foods, elements []string
	all, lost := figures.RunCosts(cost)
	for j := range cost.Items {
		item := &cost.Items[j]
		food := &s.g.Foods[item.Food]
		foods = append(foods, s.amount(item.Loaded, food.Basis)+" "+food.Title())
	}
	for _, e := range ledger.Elements() {
		// The sentence of a run that is over says electricity by itself.
		if (e != ledger.ElectricityCost || run.Running) && !all[e].IsZero() {
			elements = append(elements, e.String())
		}
	}
	if run.Running {
		s.running(run, foods, all, elements)
		return
	}
	electricity, energy := MoneyOf(cost.Electricity), QuotientOf(cost.Energy, 2)
	if !s.measured(i) {
		electricity, energy = electricity.Estimated(), energy.Estimated()
	}
	words := s.machineOf(run) + ": " + commas(Listed(foods), hoursOf(cost), s.trimmed(energy)+" kWh", s.sum(electricity)+" of electricity")
	if len(elements) > 0 {
		words += fmt.Sprintf("; %s in all with %s", s.posted(all.Total(), electricity.IsEstimate()), Listed(elements))
	}
	switch gone := lost.Total(); {
	case run.Spoiled:
		words += ", and all of it is lost"
	case !gone.IsZero():
		words += fmt.Sprintf(", of which %s is lost", s.posted(gone, electricity.IsEstimate()))
	}
	s.say("%s.", words)
}

// running says what is in the machine, and what that cost so far.
func (s *savedWords) running(run *ledger.Run, foods []string, all ledger.Costs, elements []string) {
	words := fmt.Sprintf("%s is running since %s: %s", s.machineOf(run), s.moment(run.Start), Listed(foods))
	if len(elements) > 0 {
		words += fmt.Sprintf("; %s so far with %s", s.money(all.Total().Ratio()), Listed(elements))
	}
	s.say("%s.", words)
}

// machineOf names a run, and its machine where there are several.
func (s *savedWords) machineOf(run *ledger.Run) string {
	words := "Run " + run.ID
	if len(s.g.Machines) > 1 {
		words += " in " + ItemTitle(s.g, run.Machine)
	}
	if run.Spoiled {
		words += " spoiled"
	}
	return words
}

// hoursOf is how long a run took, to the minute; empty where nobody
// knows.
func hoursOf(cost *ledger.RunCost) string {
	return exact.Map(cost.Length, func(d time.Duration) string { return exact.FormatDuration(d.Round(time.Minute)) }).Or("")
}

// measured reports whether a run's energy is its own: read off a meter, or the
// watts that somebody noted. The typical draw of its machine is an estimate.
func (s *savedWords) measured(run int) bool {
	r := &s.g.Records.Runs[run]
	if r.KWh.Given() || s.g.Meters[r.ID] != nil {
		return true
	}
	for _, row := range s.g.PhasesOf(run) {
		if p := s.g.Records.Phases.At(int(row)); !p.KWh.Given() && !p.Watts.Given() {
			return false
		}
	}
	return true
}

// trimmed is a figure without the zeros at its end.
func (s *savedWords) trimmed(v Value) string {
	text := s.number(v.Ratio().Round(v.Decimals(), exact.HalfAway))
	if v.IsEstimate() {
		return about + text
	}
	return text
}

// posted is an amount of money where its currency has been said.
func (s *savedWords) posted(m exact.Money, estimated bool) string {
	return MoneyOf(m).estimatedIf(estimated).Shown(s.currency, s.show)
}
