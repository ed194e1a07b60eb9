package report

import (
	"fmt"
	"slices"
	"time"

	"putby/ledger"
	"putby/ledger/advice"
	"putby/ledger/figures"
	"putby/pricing/exact"
)

// This file words the lines of [Today].

// freshTasks are those of fresh food in hand.
var freshTasks = []figures.Task{figures.DryFresh, figures.TellRun, figures.UseFresh, figures.LookOver, figures.KeepFresh}

// of lists what the day asks for of some tasks.
func (t *today) of(tasks ...figures.Task) (list []figures.ToDo) {
	for _, do := range t.todo {
		if slices.Contains(tasks, do.Task) {
			list = append(list, do)
		}
	}
	return list
}

// danger says which packs in store were packed moist: before all else, since
// somebody may eat of one today, and what not to do first, as a narrow screen cuts
// the end.
func (t *today) danger() {
	var more []string
	for i, do := range t.of(figures.OpenPack) {
		pack := t.g.Records.Packs.At(do.Pack.Pack)
		if i >= t.most {
			more = append(more, pack.ID)
			continue
		}
		t.foods = append(t.foods, do.Pack.Food)
		w, _ := t.g.WeighingOf(do.Pack.Pack)
		t.add("danger", advice.Do(advice.Take, thrownOut(t.g, do.Pack.Pack)).With("reason", ledger.Spoiled.String()),
			"Do not taste pack %s: packed with %s, which sealed can grow botulism; %s; if in doubt, throw it out", pack.ID, wetness(t.show, w, " water"), openIt(t.g, &pack))
	}
	if more != nil {
		t.add("danger", advice.Do(advice.OnHand), "Nor %s: moist too", Listed(more))
	}
}

// running says what is in the machines, and for how long.
func (t *today) running() {
	list := t.of(figures.Finish)
	for i, do := range list {
		if i == t.most {
			t.add("running", advice.Do(advice.OnHand), "and %d more", len(list)-i)
			return
		}
		id, r := t.g.Records.Runs[do.Run].ID, do.Running
		words := fmt.Sprintf("%s, %s: %s", id, Listed(worded(r.Foods, t.title)), Roughly(r.For))
		if end, ok := r.End.Get(); ok {
			words += ", usually until " + end.Format("Mon 15:04")
		}
		t.add("running", advice.Do(advice.Finish, id), "%s", words)
	}
}

// Roughly is a length of time in whole hours, or minutes where it is short.
func Roughly(d time.Duration) string {
	if d < time.Hour {
		return exact.FormatDuration(d.Truncate(time.Minute))
	}
	return exact.FormatDuration(d.Truncate(time.Hour))
}

// toPack says of each run what of it awaits packing.
func (t *today) toPack() {
	list := t.of(figures.DryOn, figures.PackRun) // what is not dry is not to be packed, so it is told here too
	next := -1                                   // the run that is packed where none is named: the last
	for _, do := range list {
		for _, a := range do.Awaiting {
			t.foods = append(t.foods, a.Food)
		}
		if rec := t.g.Records.Runs; next < 0 || !rec[do.Run].Start.Before(rec[next].Start) {
			next = do.Run
		}
	}
	for i, do := range list {
		if i == t.most {
			t.add("to pack", advice.Do(advice.OnHand), "and %s more", counted(len(list)-i, "run"))
			return
		}
		id := t.g.Records.Runs[do.Run].ID
		if do.Task == figures.DryOn {
			w, _ := t.g.Wettest(do.Run)
			t.add("to pack", advice.Do(advice.Finish, id), "run %s: not dry (%s): dry it on before packing", id, WaterLeft(t.show, w))
			continue
		}
		words := worded(do.Awaiting, func(a figures.Awaiting) string {
			return about + t.amount(a.ToPack.Round(ledger.ShownPlaces, exact.HalfAway), t.g.Foods[a.Food].Basis) + " " + t.title(a.Food)
		})
		pack := advice.Do(advice.AddPack, PackLines(t.g, do.Run, true)...)
		if do.Run != next {
			pack = pack.With("run", id)
		}
		t.add("to pack", pack, "run %s: %s", id, Listed(words))
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
	list := t.of(freshTasks...)
	for i := range list {
		w := list[i].Fresh
		if i == most {
			t.add("fresh", advice.Do(advice.OnHand), "and %d more%s", len(list)-i, t.rest(list[i:]))
			return
		}
		t.foods = append(t.foods, w.Food)
		words, then := t.freshWords(&list[i])
		t.add("fresh", then, "%s", words)
	}
}

// rest says of the fresh food that has no line of its own how much is past its day,
// and where none is by when the next has to be used.
func (t *today) rest(list []figures.ToDo) string {
	past := 0
	for i := range list {
		if list[i].Task == figures.LookOver {
			past++
		}
	}
	if past > 0 {
		return pastTheirDay(past, len(list))
	}
	return t.dated(", the next by ", list[0].Fresh.UseBy, "", "")
}

func (t *today) freshWords(do *figures.ToDo) (words string, then advice.Doing) {
	w := do.Fresh
	food := &t.g.Foods[w.Food]
	thing := t.show.Typeable(w.Quantity, food.Basis) + " " + food.ID
	words = t.amount(w.Quantity, food.Basis) + " " + food.Title()
	if w.Frozen {
		words += ", frozen"
	}
	words += t.dated(": by ", w.UseBy, "", ": how long it keeps is not known")
	if do.Task == figures.LookOver {
		return words + ", past; thrown away?", advice.Do(advice.Take, thing).With("reason", ledger.Spoiled.String())
	}
	if w.UseBy != exact.NoDate {
		words += ", " + inDays(int(w.UseBy-t.r.Day))
	}
	then = advice.Do(advice.Take, thing)
	if do.Freeze {
		then = advice.Do(advice.Freeze, thing)
	}
	switch {
	case do.Loses():
		t.starts = true // the cheapest of which loses
		return words + "; a run of it alone loses: " + t.lossOfRun(do.Next) + ": " + freezeOrEat(do.Freeze) + " it", then
	case do.Task == figures.UseFresh && do.Freeze:
		return words + "; it turns before the machine can take it: freeze or eat it", then
	case do.Task == figures.UseFresh:
		return words + "; it turns before the machine can take it", then
	case do.Task == figures.TellRun:
		return words + "; " + lacksOfRun(do.Untimed), advice.Do(advice.When, food.ID).With("hours", "30h")
	case do.Task == figures.KeepFresh && w.UseBy == exact.NoDate && !w.Frozen:
		return words, advice.Do(advice.Edit, "food", food.ID).Such("fresh_days", "2")
	case do.Task == figures.KeepFresh:
		return words, then
	case do.Next != nil:
		return t.startWords(words, do.Next)
	case do.Free.Equal(t.r.Now):
		return words + "; the machine can take it now", advice.Do(advice.Start, thing)
	}
	return words + "; the machine can take it " + about + t.soonAt(do.Free), advice.Do(advice.When, food.ID)
}

// soonAt is a moment to come: after six days with its date, since the weekday alone
// would be taken for this week's.
func (t *today) soonAt(at time.Time) string {
	if exact.DateIn(at) > t.r.Day.AddDays(6) {
		return t.moment(at)
	}
	return at.Format("Mon 15:04")
}

// startWords says when food is cheapest to start, and how much of it goes in.
func (t *today) startWords(words string, n *figures.NextFood) (string, advice.Doing) {
	t.starts = true
	food := &t.g.Foods[n.Food]
	cost := "electricity " + t.sum(MoneyOf(n.Best.Cost).Estimated())
	if n.Runs > 1 {
		words += ", " + counted(n.Runs, "run")
	}
	if at := n.Best.At; at.After(t.r.Now) {
		return words + "; start " + t.soonAt(at) + ", " + cost, advice.Do(advice.When)
	}
	from, ok := t.pastTurned(n)
	if !ok {
		return words + "; start now, " + cost, advice.Do(advice.When, food.ID)
	}
	return words + "; start now, " + cost, advice.Do(advice.Start, t.show.Typeable(n.Amount, food.Basis)+" "+food.ID+from)
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

// eatFirst says of the foods in store which packs are due first. Where a food has
// moist packs too the one that is meant is named, since the food's name alone takes
// out what is due first.
func (t *today) eatFirst() {
	for i, do := range t.of(figures.EatPack) {
		p := do.Pack
		if i == t.most || i > 0 && (p.BestBy == exact.NoDate || p.BestBy > t.r.Day.AddDays(soonDue)) {
			return
		}
		t.foods = append(t.foods, p.Food)
		what := t.g.Foods[p.Food].ID
		if do.Named {
			what = "pack " + t.g.Records.Packs.At(p.Pack).ID
		}
		t.add("eat first", advice.Do(advice.Take, what), "%s", t.due(*p))
	}
}

func (t *today) due(p figures.PackInStore) string {
	pack := t.g.Records.Packs.At(p.Pack)
	words := fmt.Sprintf("%s, %d of %s", t.title(p.Food), p.Left, pack.ID)
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
		title := t.title(l.Food)
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
		words += "supplies for " + Listed(some) + "; "
	}
	t.add("packing", advice.Do(advice.OnHand), "%s%s runs out first", words, t.g.Supplies[t.r.Loads[0].Short].Title())
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
	t.add("month", advice.Do(advice.Month), "%s", words)
}

// spentSaved says what a stretch came to, the first sum as spent writes it.
func (t *today) spentSaved(spent func(exact.Ratio) string, s *figures.Stretch) string {
	words := spent(s.Spent.Total().Ratio()) + " spent, " + t.figure(s.Saved) + " saved"
	if s.Saved.Sign() < 0 {
		words = spent(s.Spent.Total().Ratio()) + " spent, what was used cost " + t.figure(s.Saved.Neg()) + " more than the shelf asks"
	}
	if lost := s.Gone(); !lost.IsZero() {
		words += ", " + t.figure(lost.Ratio()) + " lost"
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
	if p.Earned.Sign() <= 0 && p.Target.Sign() > 0 {
		words = "nothing earned back yet of " + t.money(p.Target.Ratio())
	}
	if p.Earned.Sign() < 0 && p.Target.Sign() > 0 {
		words += ", " + t.figure(p.Earned.Neg()) + " lost on top"
	}
	switch {
	case p.Paid:
		words += "; it is paid for"
	case p.By.Key != "":
		words += "; all of it in " + about + t.period(p.By.Key)
	}
	t.add("machine", advice.Do(advice.Payback), "%s", words)
}

// wrong says what is wrong with the records and the store.
func (t *today) wrong() {
	if later := t.r.Later; len(later) > 0 {
		first := later[0]
		words := "1 record is of a later day:"
		if len(later) > 1 {
			words = t.count(len(later)) + " records are of later days, the first is"
		}
		what := "wrong"
		if t.state.DayAsked || t.g.Settings.AsOf.Given() { // who asks for a day knows that there are others
			what = "left out"
		}
		t.add(what, advice.Do(advice.Show(first.Kind), fmt.Sprintf("@%d", first.Line)), "%s %s, %s", words, datedName(first), t.day(first.Date))
	}
	for i, words := range t.state.Copies {
		if i == t.most {
			t.add("wrong", advice.Do(advice.Prove), "and %d more such files", len(t.state.Copies)-i)
			break
		}
		t.add("wrong", advice.Do(advice.Prove), "%s", sentenceCase(words))
	}
	if n := len(t.state.Faults); n > 0 {
		first := t.state.Faults[0]
		where := first.File
		if first.Line > 0 {
			where += fmt.Sprintf(", line %d", first.Line)
		}
		t.add("wrong", advice.Do(advice.Prove), "%s, so no money is worked out; the first in %s", counted(n, "fault"), where)
	}
}
