package report

import (
	"fmt"
	"slices"

	"putby/energy"
	"putby/ledger"
	"putby/ledger/advice"
	"putby/ledger/figures"
)

// A TodayState is what a person should know of the records besides what they
// say.
type TodayState struct {
	Faults ledger.Faults
	// DayAsked says that the day is one that was asked for, not the clock's.
	DayAsked bool
	Copies   []string // sentences on files that count nowhere, such as copies that a sync left
	// Machine says that a program reads it, which is given all figures.
	Machine bool
}

// A Room is how much a screen has room for, from 0 to [MostRoom]: with 0 words
// are cut, though no command is and nothing beside a danger, which what can wait makes
// room for; below 3 cautions are only pointed to, and from 3 on there is room for
// two lines less of each kind.
type Room int

// Rooms of note.
const (
	// WholeRoom is the least in which each kind has the lines that are its due.
	WholeRoom Room = 2
	// MostRoom has four lines of each kind.
	MostRoom Room = 6
)

// TodayStart is when somebody is taken to be there to load.
var TodayStart = energy.Window{From: 7 * 60, To: 22 * 60}

// Today lays out what a household must know now on one screen: for people lines
// of what it is, how it stands and the command that deals with it; for machines
// all figures, however much room there is.
func Today(g *ledger.Ledger, r *figures.TodayResult, s TodayState, room Room) Doc {
	d := newDoc(g, "Today, "+r.Day.Weekday().String()+" "+g.Settings.Show().Date(r.Day)+", "+g.Settings.Currency.Code())
	t := &today{reporting: reportingOn(g), r: r, todo: r.ToDo(g), state: s, most: max(int(room)-2, 1), room: room}
	t.danger()
	t.running()
	t.toPack()
	t.fresh()
	t.eatFirst()
	dangerous := len(t.of(figures.OpenPack)) > 0
	if room > 0 || !dangerous {
		t.packing()
		t.month()
		t.machine()
	}
	t.wrong()
	d.Fields = []Field{{Key: "as_of", Node: DateOf(r.Day)}, {Title: "Today", Node: t.table(room > 0 || dangerous)}}
	if s.Machine {
		d.Fields = append(d.Fields, t.figures()...)
	}
	d.Title += ": " + t.answer()
	d.Notes, d.Cautions = t.notes(room > WholeRoom)
	return d
}

// today is the screen in the making.
type today struct {
	reporting
	r     *figures.TodayResult
	todo  []figures.ToDo
	state TodayState
	most  int // lines of a kind
	room  Room
	lines []todayLine
	foods []int // that a line tells to dry, pack or eat

	starts bool // a line names a start
}

// A todayLine is what something is, how it stands, and the command that deals
// with it.
type todayLine struct{ what, state, command string }

func (t *today) add(what string, do advice.Doing, format string, args ...any) {
	if n := len(t.lines); n > 0 && what == t.kind(n-1) {
		what = ""
	}
	t.lines = append(t.lines, todayLine{what, fmt.Sprintf(format, args...), t.show.Say(do)})
}

// kind is what a line is about, which stands once before several.
func (t *today) kind(n int) string {
	for n > 0 && t.lines[n].what == "" {
		n--
	}
	return t.lines[n].what
}

func (t *today) table(wrap bool) *Table {
	table := &Table{
		Columns: []Column{{Title: "what"}, {Title: "how it stands", Wrap: wrap}, {Title: "command", Wrap: true, Tight: true}},
		Empty: fmt.Sprintf("Nothing is recorded yet. To be asked for all that is needed: %s. Or begin with a food (%s), the machine (%s) and a receipt (%s).",
			t.say(advice.SetUp), t.say(advice.AddFood), t.say(advice.AddMachine), t.say(advice.AddReceipt)),
	}
	for _, l := range t.lines {
		table.add(TextOf(l.what), TextOf(l.state), TextOf(l.command))
	}
	return table
}

// notes are what to know of the lines, with the cautions of the foods that they tell to
// handle, each once, or where these are; and that none of this says that food is safe.
func (t *today) notes(room bool) (notes []string, list []Remark) {
	notes, list = t.hours(room), cautions(t.g, func(f int) bool { return slices.Contains(t.foods, f) })
	if len(t.of(figures.OpenPack)) > 0 { // in full, however narrow the table
		notes = append(notes, "Moist food that is sealed can grow botulism, which has no smell or taste.")
	}
	if !room && list != nil {
		notes, list = append(notes, "What to heed of these foods: "+t.say(advice.OnHand)+"."), nil
	}
	return notes, append(list, Safety)
}

// hours says within which hours starts are looked for, where a line names one.
func (t *today) hours(room bool) []string {
	if !room || !t.starts {
		return nil
	}
	return []string{fmt.Sprintf("Starts are within %v; for any hour: %s.", TodayStart, t.say(advice.When))}
}
