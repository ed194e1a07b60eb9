package entry

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"putby/ledger"
	"putby/ledger/advice"
	"putby/ledger/report"
	"putby/pricing/exact"
)

// A StartIn is a run that begins, as a person types it.
type StartIn struct {
	Loads   []string // "6.2 L chicken-broth", as [ParseLoad] reads them
	At      string   // "": now
	Machine string   // "": the only one
	Tariff  string   // "": the settings'
	Run     string   // "": the next
	Note    string
}

// Start records that a run begins. It refuses one on a machine that is on, and
// more food than is in hand.
func Start(b *Base, in StartIn) (*Draft, error) {
	g, err := b.Hand()
	if err != nil {
		return nil, err
	}
	s := starting{b: b, g: g, in: in}
	if err := s.read(); err != nil {
		return nil, err
	}
	run := Row{ledger.MustKind("run"), map[string]string{
		"run": s.run, "machine": s.machine, "start": b.cell(s.at), "tariff": s.tariff, "outcome": "running", "note": in.Note,
	}}
	return &Draft{
		Rows:  append([]Row{run}, s.loads...),
		Notes: s.turned(),
		Advise: func(g *ledger.Ledger) []report.Remark {
			i, _ := g.FindRun(s.run)
			return report.Remarks(append(report.UsualEnd(g, i), report.LoadAdvice(g, i)...)...)
		},
		After: append(report.Opened(g, thingsIn(s.loads)...), report.MachineCaution()),
		Next:  []advice.Doing{advice.Do(advice.Finish)},
	}, nil
}

// A starting is a run that begins in the making.
type starting struct {
	b                    *Base
	g                    *ledger.Ledger
	in                   StartIn
	at                   time.Time // when it began; not still to come, unless that is meant
	run, machine, tariff string
	loads                []Row
}

func (s *starting) read() error {
	var bad Wrongs
	var noMachine, noTime, err error
	s.machine, noMachine = s.b.machineOf(s.in.Machine)
	bad.add("machine", 0, noMachine)
	s.at, noTime = s.b.instant(s.in.At)
	bad.add("at", 0, noTime)
	if noMachine == nil && noTime == nil {
		bad.add("", 0, s.b.idle(s.machine, s.at))
	}
	s.tariff, err = s.b.tariffOf(s.in.Tariff)
	bad.add("tariff", 0, err)
	s.run = cmp.Or(strings.TrimSpace(s.in.Run), NextRun(s.b.Records, exact.DateIn(s.at)))
	if len(s.in.Loads) == 0 && noMachine == nil {
		usual := cmp.Or(UsualLoad(s.g, s.machine, s.at), "5.5 kg apples")
		bad.add("loads", 0, noWords("say what goes in, and how much: %s", s.b.say(advice.Start, usual)))
	}
	for i, text := range s.in.Loads {
		row, err := s.b.loadOf(s.g, s.run, text)
		bad.add("loads", i+1, err)
		s.loads = append(s.loads, row)
	}
	s.enough(&bad)
	return bad.Err()
}

// machineOf finds the machine that a person names, or the only one.
func (b *Base) machineOf(text string) (string, error) {
	machines := b.Records.NamedMachines()
	switch {
	case strings.TrimSpace(text) != "":
		return one("machine", text, machines)
	case len(machines) == 0:
		return "", typed("", "no machine is recorded yet: "+b.Records.Settings.Say(advice.Do(advice.AddMachine).With("machine", "dryer").With("cycles", "1000")))
	case len(machines) > 1:
		return "", typed("", "there are several machines: say which with "+b.part("machine")+", "+OrList(ledger.Machines.In(b.Records)))
	}
	return machines[0].ID, nil
}

func (b *Base) tariffOf(text string) (string, error) {
	if strings.TrimSpace(text) == "" {
		return "", nil
	}
	return one("tariff", text, byID(ledger.Tariffs.In(b.Records)))
}

// byID are things that have no name but their identifier.
func byID(ids []string) []ledger.Named {
	list := make([]ledger.Named, len(ids))
	for i, id := range ids {
		list[i].ID = id
	}
	return list
}

// one finds the identifier of what a person calls text. The error is a
// fault of the kind [ErrTyped] where it may be several, else [ErrNone].
func one(what, text string, among []ledger.Named) (string, error) {
	text = strings.TrimSpace(text)
	switch ids := ledger.Called(text, among); len(ids) {
	case 1:
		return ids[0], nil
	case 0:
		return "", notListed("no "+what+" is called "+quote(text), nearID(text, among), advice.List(what))
	default:
		return "", typed(text, "it may be any of several: write "+OrList(ids))
	}
}

// nearID is the identifier of the thing whose identifier or name is nearly text, or "".
func nearID(text string, among []ledger.Named) string {
	var names []string
	ids := map[string]string{"": ""}
	for _, n := range among {
		for _, name := range []string{n.ID, cmp.Or(n.Name, n.ID)} {
			names, ids[name] = append(names, name), cmp.Or(ids[name], n.ID)
		}
	}
	return ids[ledger.Nearest(text, names)]
}

// OrList writes a list as a choice: a, b or c.
func OrList(list []string) string {
	if n := len(list) - 1; n > 0 {
		return strings.Join(list[:n], ", ") + " or " + list[n]
	}
	return strings.Join(list, "")
}

// idle refuses a run at a time when the machine is on, or that others came after.
func (b *Base) idle(machine string, at time.Time) error {
	title, last := titleAmong(b.Records.NamedMachines(), machine), b.lastBegun(machine, at)
	for i := range b.Records.Runs {
		run := &b.Records.Runs[i]
		if run.Machine != machine {
			continue
		}
		if run.Running {
			return typed("", fmt.Sprintf("%s is on with run %s since %s: finish that first, with %s", title, run.ID, b.moment(run.Start), b.say(advice.Finish)))
		}
		end, known := run.Start, false
		if i == last { // runs of one machine do not overlap
			end, known = ledger.EndOf(b.Records, run)
		}
		switch {
		case run.Start.Equal(at):
			return wrong("at", 0, typed("", fmt.Sprintf("run %s began on %s on %s too: give a later %s", run.ID, title, b.moment(run.Start), b.part("at"))))
		case at.Before(run.Start):
			return typed("", fmt.Sprintf("run %s began on %s later, on %s, so this one is over: record it whole, with %s", run.ID, title, b.moment(run.Start), b.say(advice.AddRun)))
		case known && at.Before(end):
			return wrong("at", 0, typed("", fmt.Sprintf("%s is on with run %s until %s: give a later %s, or correct that run", title, run.ID, b.moment(end.In(b.Records.Settings.Zone)), b.part("at"))))
		}
	}
	return nil
}

// lastBegun is the run of a machine that was begun last by a moment, or -1.
func (b *Base) lastBegun(machine string, at time.Time) int {
	last := -1
	for i := range b.Records.Runs {
		run := &b.Records.Runs[i]
		if run.Machine == machine && !run.Start.After(at) && (last < 0 || run.Start.After(b.Records.Runs[last].Start)) {
			last = i
		}
	}
	return last
}

// loadOf reads what goes in, of a food that the ledger has.
func (b *Base) loadOf(g *ledger.Ledger, run, text string) (Row, error) {
	text = Native(b.Records.Settings.Locale, text)
	row, err := ParseLoad(b.Records, run, text)
	name, amount := takeAmount(strings.Fields(text))
	if n := slices.IndexFunc(name, func(w string) bool { return slices.Contains(loadWords, w) }); n > 0 {
		name = name[:n]
	}
	if len(name) == 0 {
		return row, err
	}
	foods := b.Records.NamedFoods()
	id, unknown := one("food", strings.Join(name, " "), foods)
	switch _, first := ledger.Meant(name[0], foods); {
	case unknown == nil && amount == "":
		i, _ := g.FindFood(id)
		return row, typed(text, fmt.Sprintf("it says no amount, as \"5.5 kg %s\" does; %s is in hand", id, g.Settings.Show().Amount(g.FoodStock(i).Left, g.Foods[i].Basis)))
	case unknown != nil && amount != "" && !first:
		return row, unknown
	}
	return row, err
}

// enough refuses to load more of a food than is in hand at the end of the
// records.
func (s *starting) enough(bad *Wrongs) {
	need := map[int]exact.Number{}
	for n, row := range s.loads {
		i, ok := s.g.FindFood(row.Cells["item"])
		q, err := exact.ParseQuantity(row.Cells["quantity"])
		if !ok || err != nil {
			continue // the saving says why
		}
		amount, err := s.g.Foods[i].InBasis(q)
		left := s.g.FoodStock(i).Left
		switch need[i] = need[i].Add(amount); {
		case err != nil:
			bad.add("loads", n+1, typed(row.Cells["quantity"]+" "+row.Cells["item"], err.Error()))
		case amount.Sign() <= 0:
			bad.add("loads", n+1, typed(row.Cells["quantity"]+" "+row.Cells["item"], "the amount is not above 0"))
		case left.Less(need[i]):
			bad.add("loads", n+1, s.tooMuch(i, need[i], left))
		}
	}
}

func (s *starting) tooMuch(food int, need, left exact.Number) error {
	f := &s.g.Foods[food]
	if left.Sign() <= 0 {
		return typed("", fmt.Sprintf("no %s in hand: record its receipt first (what grew or was given at a price of 0), or the batch that made it", f.Title()))
	}
	amounts := s.g.Settings.Show().Amounts(f.Basis, need, left)
	return typed("", fmt.Sprintf("%s of %s goes in, and only %s is in hand%s: is a receipt or a batch missing?", amounts[0], f.Title(), amounts[1], lessRefuse(f)))
}

// lessRefuse says of a food of which part is thrown away that amounts are without it.
func lessRefuse(f *ledger.Food) string {
	if f.Refuse.Sign() == 0 {
		return ""
	}
	return fmt.Sprintf(" (without the %v %% of what was bought that is thrown away: weigh what is left to eat)", f.Refuse)
}

// turned says of food that was to be used by a day before the start that drying makes
// it no better: of the lots alone that the loads draw on, the oldest first, or of the
// receipt that a load names.
func (s *starting) turned() (notes []string) {
	day := exact.DateIn(s.at)
	taken := map[[2]int]exact.Number{} // of a food's part, by the loads so far
	for n, row := range s.loads {
		i, _ := s.g.FindFood(row.Cells["item"])
		want, _ := exact.ParseQuantity(row.Cells["quantity"])
		left, _ := s.g.Foods[i].InBasis(want) // which were read already
		told, instead := false, s.without(n, i, day, taken)
		for part, p := range s.g.FreshParts(i) {
			if from := row.Cells["receipt"]; from != "" && s.g.Lots[p.Lot].Receipt() != from {
				continue
			}
			takes := left.Min(p.Quantity.Sub(taken[[2]int{i, part}]))
			if takes.Sign() > 0 && p.Turned(day) && !told {
				told = true
				notes = append(notes, fmt.Sprintf("Some of the %s was to be used by %s: drying makes it no fresher. If in doubt, throw it out.", s.g.Foods[i].Title(), s.g.Settings.Show().Date(p.UseBy)))
				notes = append(notes, instead...)
			}
			taken[[2]int{i, part}], left = taken[[2]int{i, part}].Add(takes), left.Sub(takes)
		}
	}
	return notes
}

// without names the start that leaves out what is past its day: by the one receipt or
// batch whose food is all good, where the loads before leave enough of it; else it says
// nothing.
func (s *starting) without(n, food int, day exact.Date, taken map[[2]int]exact.Number) []string {
	row := s.loads[n].Cells
	want, _ := exact.ParseQuantity(row["quantity"])
	need, err := s.g.Foods[food].InBasis(want)
	if err != nil || row["receipt"] != "" {
		return nil
	}
	good, past := map[string]exact.Number{}, map[string]bool{}
	var order []string
	for part, p := range s.g.FreshParts(food) {
		id := s.g.Lots[p.Lot].Receipt()
		past[id] = past[id] || p.Turned(day)
		good[id] = good[id].Add(p.Quantity.Sub(taken[[2]int{food, part}]))
		order = append(order, id)
	}
	// The first receipt that is enough by itself, so that the command names one lot that has not turned.
	i := slices.IndexFunc(order, func(id string) bool { return !past[id] && !good[id].Less(need) })
	if i < 0 {
		return nil
	}
	start := advice.Do(advice.Start)
	for at, text := range s.in.Loads {
		if at == n {
			text = s.g.Settings.Show().Typed(want) + " " + row["item"] + " from " + order[i]
		}
		start.Of = append(start.Of, text)
	}
	for _, part := range [][2]string{{"at", s.in.At}, {"machine", s.in.Machine}, {"tariff", s.in.Tariff}, {"run", s.in.Run}, {"note", s.in.Note}} {
		if part[1] != "" {
			start = start.With(part[0], part[1])
		}
	}
	return []string{"To leave it out: " + s.g.Settings.Say(start)}
}

// Loads joins the words of a command line that were typed without quotes: in 6.2 L
// chicken-broth 0.4 kg chives there are two loads.
func Loads(words []string) []string {
	return joinWords(words, func(last, i int) bool {
		return i > last+1 && strings.ContainsAny(words[i][:min(1, len(words[i]))], "0123456789") && !slices.Contains(loadWords, words[i-1]) && !unitAfter(words[last:i])
	})
}

// joinWords joins words into things, of which a new one begins where begins, told where
// the last one does, says so. Where any word holds a blank they are whole already.
func joinWords(words []string, begins func(last, i int) bool) (list []string) {
	if slices.ContainsFunc(words, func(w string) bool { return strings.Contains(w, " ") }) {
		return words
	}
	last := 0
	for i := range words {
		if i > 0 && begins(last, i) {
			list, last = append(list, strings.Join(words[last:i], " ")), i
		}
	}
	if len(words) > 0 {
		list = append(list, strings.Join(words[last:], " "))
	}
	return list
}

// unitAfter reports whether words are no more than an amount.
func unitAfter(words []string) bool {
	rest, amount := takeAmount(words)
	return amount != "" && len(rest) == 0
}
