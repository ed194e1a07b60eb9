package report

import (
	"fmt"
	"slices"
	"time"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/pricing/exact"
)

// This file words the lines of [Today].

// danger says which packs in store were packed moist: before all else, since
// somebody may eat of one today, and what not to do first, as a narrow screen cuts
// the end.
func (t *today) danger() {
	var more []string
	for _, p := range t.r.Store {
		if !t.g.Moist(p.Pack) {
			continue
		}
		pack := t.g.Records.Packs.At(p.Pack)
		if len(t.lines) == t.most {
			more = append(more, pack.ID)
			continue
		}
		t.foods = append(t.foods, p.Food)
		w, _ := t.g.WeighingOf(p.Pack)
		t.add("danger", fmt.Sprintf("putby take %q --spoiled", ThrownOut(t.g, p.Pack)),
			"Do not taste pack %s: packed with %s, which sealed can grow botulism; %s; if in doubt, throw it out", pack.ID, waterIn(t.show, w, " water"), openIt(t.g, &pack))
	}
	if more != nil {
		t.add("danger", "putby onhand", "Nor %s: moist too", Listed(more))
	}
}

// running says what is in the machines, and for how long.
func (t *today) running() {
	for i, r := range t.r.Running {
		if i == t.most {
			t.add("running", "putby onhand", "and %d more", len(t.r.Running)-i)
			return
		}
		id := t.g.Records.Runs[r.Run].ID
		words := fmt.Sprintf("%s, %s: %s", id, Listed(t.titles(r.Foods)), roughly(r.For))
		if end, ok := r.End.Get(); ok {
			words += ", usually until " + end.Format("Mon 15:04")
		}
		t.add("running", "putby finish "+id, "%s", words)
	}
}

// roughly is a length of time in whole hours, or minutes where it is short.
func roughly(d time.Duration) string {
	if d < time.Hour {
		return exact.FormatDuration(d.Truncate(time.Minute))
	}
	return exact.FormatDuration(d.Truncate(time.Hour))
}

func (t *today) titles(foods []int) (list []string) {
	for _, f := range foods {
		list = append(list, t.g.Foods[f].Title())
	}
	return list
}

// toPack says of each run what of it awaits packing.
func (t *today) toPack() {
	var runs []int
	words := map[int][]string{}
	for _, a := range t.r.Awaiting {
		if words[a.Run] == nil {
			runs = append(runs, a.Run)
		}
		food := &t.g.Foods[a.Food]
		t.foods = append(t.foods, a.Food)
		words[a.Run] = append(words[a.Run], about+t.amount(a.ToPack.Round(ledger.ShownPlaces, exact.HalfAway), food.Basis)+" "+food.Title())
	}
	next := -1 // the run that is packed where none is named: the last
	for _, run := range runs {
		if rec := t.g.Records.Runs; next < 0 || !rec[run].Start.Before(rec[next].Start) {
			next = run
		}
	}
	for i, run := range runs {
		if i == t.most {
			t.add("to pack", "putby onhand", "and %s more", counted(len(runs)-i, "run"))
			return
		}
		id := t.g.Records.Runs[run].ID
		if w, moist := t.g.Wettest(run); moist {
			t.add("to pack", "putby finish "+id, "run %s: not dry (%s): dry it on before packing", id, WaterLeft(t.show, w))
			continue
		}
		what := PackWords(t.g, run, true)
		command := "putby pack add " + what
		if run != next {
			command = fmt.Sprintf("putby pack add %s --run %s", what, id)
		}
		t.add("to pack", command, "run %s: %s", id, Listed(words[run]))
	}
}

// fresh says of the food in hand by when it turns, and whether the machine can
// take it. It waits for nobody, so it has a line more than other kinds where
// there is room.
func (t *today) fresh() {
	most := t.most
	if t.room >= WholeRoom {
		most++
	}
	for i := range t.r.Fresh {
		w := &t.r.Fresh[i]
		if i == most {
			t.add("fresh", "putby onhand", "and %d more%s", len(t.r.Fresh)-i, t.dated(", the next by ", w.UseBy, "", ""))
			return
		}
		t.foods = append(t.foods, w.Food)
		words, command := t.freshWords(w)
		t.add("fresh", command, "%s", words)
	}
}

func (t *today) freshWords(w *figures.Waiting) (words, command string) {
	food := &t.g.Foods[w.Food]
	amount := t.amount(w.Quantity, food.Basis)
	thing := fmt.Sprintf("%q", t.show.Typeable(w.Quantity, food.Basis)+" "+food.ID)
	words = amount + " " + food.Title()
	if w.Frozen {
		words += ", frozen"
	}
	words += t.dated(": by ", w.UseBy, "", ": nobody knows until when")
	if w.Turned(t.r.Day) {
		return words + ", past; thrown away?", fmt.Sprintf("putby take %s --spoiled", thing)
	}
	if w.UseBy != exact.NoDate {
		words += ", " + inDays(int(w.UseBy-t.r.Day))
	}
	late, command := "; it turns before the machine can take it", "putby take "+thing
	if w.Freezable {
		late, command = late+": freeze or eat it", "putby freeze "+thing
	}
	slot, dried := w.Slot.Get()
	next := t.r.NextOf(w)
	switch {
	case next != nil && next.Runs == 0:
		return words + late, command
	case next != nil:
		return t.startWords(words, next)
	case dried && slot.InTime && slot.First.Equal(t.r.Now):
		return words + "; the machine can take it now", "putby start " + thing
	case dried && slot.InTime:
		return words + "; the machine can take it " + about + slot.First.Format("Mon 15:04"), "putby when " + food.ID
	case dried:
		return words + late, command
	}
	return words, "putby take " + thing
}

// startWords says when food is cheapest to start, and how much of it goes in.
func (t *today) startWords(words string, n *figures.NextFood) (string, string) {
	t.starts = true
	food := &t.g.Foods[n.Food]
	cost := "electricity " + t.sum(MoneyOf(n.Best.Cost).Estimated())
	if n.Runs > 1 {
		words += ", " + counted(n.Runs, "run")
	}
	if at := n.Best.At; at.After(t.r.Now) {
		start := at.Format("Mon 15:04")
		if exact.DateIn(at) > t.r.Day.AddDays(6) { // the weekday alone would be taken for today's
			start = t.moment(at)
		}
		return words + "; start " + start + ", " + cost, "putby when"
	}
	from, ok := t.pastTurned(n)
	if !ok {
		return words + "; start now, " + cost, "putby when " + food.ID
	}
	return words + "; start now, " + cost, fmt.Sprintf("putby start %q", t.show.Typeable(n.Amount, food.Basis)+" "+food.ID+from)
}

// pastTurned names the receipt that a start has to draw on where older food of the
// kind is past its day, since the oldest would go in first. It is not ok where no
// one receipt has enough.
func (t *today) pastTurned(n *figures.NextFood) (from string, ok bool) {
	parts := t.g.FreshParts(n.Food)
	if !slices.ContainsFunc(parts, func(p ledger.FreshPart) bool { return p.Turned(t.r.Day) }) {
		return "", true
	}
	for i := range parts {
		if p := &parts[i]; !p.Turned(t.r.Day) && !p.Frozen && !p.Quantity.Less(n.Amount) {
			return " from " + t.g.Lots[p.Lot].Receipt(), true
		}
	}
	return "", false
}

// inDays says how far off a day to come is.
func inDays(n int) string {
	switch n {
	case 0:
		return "today"
	case 1:
		return "tomorrow"
	}
	return fmt.Sprintf("in %d days", n)
}

// soonDue is how many days before their best-by packs are worth a line of their
// own.
const soonDue = 180

// eatFirst says of the foods in store which packs are due first. One that was
// packed moist is nothing to eat, and where a food has one the pack that is meant
// is named, since its name alone takes out what is due first.
func (t *today) eatFirst() {
	seen, moist := map[int]bool{}, map[int]bool{}
	for _, pack := range t.r.Moist {
		moist[t.g.Packs[pack].Food] = true
	}
	for _, p := range t.r.Store {
		if seen[p.Food] || t.g.Moist(p.Pack) {
			continue
		}
		if len(seen) == t.most || len(seen) > 0 && (p.BestBy == exact.NoDate || p.BestBy > t.r.Day.AddDays(soonDue)) {
			return
		}
		seen[p.Food] = true
		t.foods = append(t.foods, p.Food)
		what := t.g.Foods[p.Food].ID
		if moist[p.Food] {
			what = fmt.Sprintf("%q", "pack "+t.g.Records.Packs.At(p.Pack).ID)
		}
		t.add("eat first", "putby take "+what, "%s", t.due(p))
	}
}

func (t *today) due(p figures.PackInStore) string {
	pack := t.g.Records.Packs.At(p.Pack)
	words := fmt.Sprintf("%s, %d of %s", t.g.Foods[p.Food].Title(), p.Left, pack.ID)
	if pack.Place != "" {
		words += " (" + pack.Place + ")"
	}
	switch {
	case p.BestBy == exact.NoDate:
		return words + ": no best-by date"
	case p.Past:
		return words + ": best by " + t.day(p.BestBy) + ", past"
	}
	return words + ": best by " + t.day(p.BestBy)
}

// packing says for how many loads there are containers and absorbers, of the
// foods with the fewest.
func (t *today) packing() {
	if len(t.r.Loads) == 0 {
		return
	}
	var none, some []string
	for _, l := range t.r.Loads[:min(t.most, len(t.r.Loads))] {
		title := t.g.Foods[l.Food].Title()
		switch {
		case l.Loads == 0:
			none = append(none, title)
		case some == nil:
			some = append(some, about+counted(l.Loads, "load")+" of "+title)
		default:
			some = append(some, fmt.Sprintf("%s%d of %s", about, l.Loads, title))
		}
	}
	words := ""
	if none != nil {
		words = "not enough to pack a load of " + Listed(none) + "; "
	}
	if some != nil {
		words += Listed(some) + "; "
	}
	t.add("packing", "putby onhand", "%s%s runs out first", words, t.g.Supplies[t.r.Loads[0].Short].Title())
}

// month sets the month so far beside the one before.
func (t *today) month() {
	m, ok := t.r.Month.Get()
	if !ok {
		return
	}
	words := t.period(m.This.Key) + " so far: " + t.spentSaved(t.money, &m.This)
	if m.HasLast {
		words += "; " + t.period(m.Last.Key) + ": " + t.spentSaved(t.figure, &m.Last)
	}
	t.add("month", "putby month", "%s", words)
}

// spentSaved says what a stretch came to, the first sum as spent writes it.
func (t *today) spentSaved(spent func(exact.Ratio) string, s *figures.Stretch) string {
	words := spent(s.Spent.Total().Ratio()) + " spent, " + t.figure(s.Saved) + " saved"
	if lost := s.Saved.Sub(s.Net()); lost.Sign() != 0 {
		words += ", " + t.figure(lost) + " lost"
	}
	return words
}

// machine says what the machine has paid of its price.
func (t *today) machine() {
	p, ok := t.r.Payback.Get()
	if !ok {
		return
	}
	words := t.money(p.Earned) + " of " + t.figure(p.Target.Ratio())
	if part, ok := p.Part.Get(); ok {
		words = t.percent(part) + " earned back, " + words
	}
	switch {
	case p.Paid:
		words += "; it is paid for"
	case p.By.Key != "":
		words += "; all of it in " + about + t.period(p.By.Key)
	}
	t.add("machine", "putby payback", "%s", words)
}

// amiss says what is wrong with the records and the store.
func (t *today) amiss() {
	if later := t.r.Later; len(later) > 0 {
		first := later[0]
		words := "1 record is of a later day:"
		if len(later) > 1 {
			words = fmt.Sprintf("%d records are of later days, the first is", len(later))
		}
		t.add("amiss", fmt.Sprintf("putby %s show @%d", first.Kind, first.Line), "%s %s, %s", words, datedName(first), t.day(first.Date))
	}
	for i, words := range t.state.Copies {
		if i == t.most {
			t.add("amiss", "putby prove", "and %d more such files", len(t.state.Copies)-i)
			break
		}
		t.add("amiss", "putby prove", "%s", sentenceCase(words))
	}
	if n := len(t.state.Faults); n > 0 {
		first := t.state.Faults[0]
		where := first.File
		if first.Line > 0 {
			where += fmt.Sprintf(", line %d", first.Line)
		}
		t.add("amiss", "putby prove", "%s, so no money is worked out; the first in %s", counted(n, "fault"), where)
	}
}
