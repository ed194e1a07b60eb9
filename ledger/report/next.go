package report

import (
	"fmt"
	"slices"

	"putby/ledger"
	"putby/ledger/advice"
	"putby/ledger/figures"
	"putby/pricing/exact"
)

// Next lays out what fresh food in hand the machine should take next, and when;
// see [figures.Next], whose errors it returns.
func Next(g *ledger.Ledger, q figures.WhenQuery, names Names) (Doc, error) {
	list, err := figures.Next(g, q)
	if err != nil {
		return Doc{}, err
	}
	n := &nextFoods{reportingOn(g), q, list, names, figures.UntimedFood(g, q)}
	d := newDoc(g, "What to dry next")
	d.Words = n.words()
	d.Fields = []Field{
		field("rows", titleOf(len(list), "In this order"), n.table()),
		{NotesKey, "", List{}},
	}
	d.Notes, d.Cautions = n.notes(), n.cautions()
	return d, nil
}

// nextFoods is such a list being laid out.
type nextFoods struct {
	reporting
	q     figures.WhenQuery
	list  []figures.NextFood
	names Names
	rest  figures.Untimed
}

func (n *nextFoods) words() []string {
	var start, losses, instead []string
	started := map[int]bool{} // machines
	for i := range n.list {
		w := &n.list[i]
		slot, _ := w.Slot.Get()
		thing := n.amount(w.Quantity, n.g.Foods[w.Food].Basis) + " of " + n.title(w.Food)
		switch {
		case w.Runs == 0:
			instead = append(instead, freezeOrEat(w.Freezable)+" "+thing)
		case w.Loses():
			losses = append(losses, n.losing(w))
		case !started[slot.Machine]: // one run a machine: what is to go in after it waits
			started[slot.Machine] = true
			start = append(start, fmt.Sprintf("Start %s of %s%s on %s: its electricity costs %s, and the run is done on %s.", n.amount(w.Amount, n.g.Foods[w.Food].Basis),
				n.title(w.Food), n.where("in", slot.Machine), n.moment(w.Best.At), about+n.phrasing.money(w.Best.Cost.Ratio()), n.moment(w.Best.Finish))+n.unpriced(w))
		}
	}
	words := slices.Concat(start, losses, n.untimed())
	if instead != nil {
		words = append(words, "The machine cannot take all of it in time: "+Listed(instead)+".")
	}
	switch {
	case words != nil:
		return words
	case n.rest.Turned > 0:
		return []string{"The fresh food in hand that you dry is all past its day: " + n.say(advice.OnHand) + "."}
	}
	return []string{"No fresh food in hand is waiting for the machine."}
}

// unpriced says of food that has no shelf price that nothing tells whether its run
// pays, and how to say more.
func (n *nextFoods) unpriced(w *figures.NextFood) string {
	if w.Value.Given() {
		return ""
	}
	food := &n.g.Foods[w.Food]
	return fmt.Sprintf(" Whether that pays is not said: the run costs %s in all, and no shelf price of %s is known (%s).",
		n.sum(MoneyOf(w.Cost).Estimated()), food.Title(), n.show.Say(advice.Do(advice.AddPrice).With("item", food.ID)))
}

// losing says of food that a run of it alone does not pay, and what to do instead.
func (r reporting) losing(w *figures.NextFood) string {
	basis := r.g.Foods[w.Food].Basis
	words := fmt.Sprintf("%s of %s alone does not pay for a run (%s): %s it", r.amount(w.Amount, basis), r.title(w.Food),
		r.lossOfRun(w), freezeOrEat(w.Freezable))
	switch {
	case w.With >= 0:
		words += ", or add it to the run of " + r.title(w.With) + ", which has room for it"
	case w.Room.Sign() > 0:
		words += ", or fill the run, which has room for " + r.amount(w.Room, basis) + " more"
	}
	return words + "."
}

// lossOfRun is what a run costs beside what the food in it is worth.
func (p phrasing) lossOfRun(w *figures.NextFood) string {
	return p.sum(MoneyOf(w.Cost).Estimated()) + " beside " + p.figure(w.Worth().Or(exact.Ratio{})) + " at the shelf"
}

// untimed says what is to be dried of which something does not tell when, and what
// to type to be told.
func (n *nextFoods) untimed() (words []string) {
	for i := range n.rest.Foods {
		w := &n.rest.Foods[i]
		by := n.dated(", by ", w.UseBy, "", "")
		words = append(words, fmt.Sprintf("%s%s: %s. Say it: %s", n.inHand(w.Waiting), by, lacksOfRun(w), n.show.Say(advice.Do(advice.When, n.g.Foods[w.Food].ID).With("hours", "30h"))))
	}
	return words
}

// lacksOfRun says what does not tell when food can be dried.
func lacksOfRun(w *figures.UntimedWait) string {
	switch {
	case w.NoLength && w.NoLoad:
		return "nothing tells how long a run of it takes, or how much it holds"
	case w.NoLoad:
		return "nothing tells how much a run of it holds"
	}
	return "no run tells how long one takes"
}

// freezeOrEat is what to do with food that is not to be dried.
func freezeOrEat(freeze bool) string {
	if freeze {
		return "freeze or eat"
	}
	return "eat"
}

func (n *nextFoods) table() *Table {
	t := &Table{Columns: []Column{
		{Key: "item", Title: "food", Wrap: true}, {Key: "unit"}, {Key: "quantity"}, {Title: "in hand"}, {Key: "use_by", Title: "use by"}, {Key: "value", Title: "worth", Rank: 1},
		{Key: "runs", Title: "runs"}, {Key: "start", Title: "start"}, {Key: "end", Title: "first run ends", Rank: 2},
		{Key: "cost", Title: "electricity", Rank: 2}, {Title: "first run costs", Rank: 1}, {Key: "latest", Title: "latest start", Rank: 3},
		{Key: "instead", Title: "instead"},
	}}
	for i := range n.list {
		w := &n.list[i]
		food := &n.g.Foods[w.Food]
		cells := []Value{foodValue(food), UnitOf(food.Basis), AmountOf(w.Quantity, food.Basis), TextOf(n.amount(w.Quantity, food.Basis)), DateOf(w.UseBy), optMoney(w.Value)}
		switch {
		case w.Loses(): // it keeps no place, and so has no start
			cells = append(cells, None, None, None, None, MoneyOf(w.Cost).Estimated(), None, TextOf(freezeOrEat(w.Freezable)))
		case w.Runs > 0:
			cells = append(cells, CountOf(w.Runs).Estimated(), MomentOf(w.Best.At), MomentOf(w.Best.Finish).Estimated(), MoneyOf(w.Best.Cost).Estimated(), MoneyOf(w.Cost).Estimated(), MomentOf(w.Latest).Estimated(), None)
		default:
			cells = append(cells, None, None, None, None, None, None, TextOf(freezeOrEat(w.Freezable)))
		}
		t.add(cells...)
	}
	return t
}

func (n *nextFoods) notes() []string {
	var notes noteList
	if window, ok := n.q.Start.Get(); ok {
		notes.addf("Starts are within %v, when somebody is there to load.", window)
	} else if len(n.list) > 0 {
		notes.addf("Starts are at any hour; %s 07:00-22:00 keeps them to when somebody is there to load.", n.names.of("start-between"))
	}
	if tariff := n.g.Tariff(n.q.Tariff); tariff != nil && tariff.IsHourly() {
		notes.add(hourlyRemark(n.g, tariff.Name(), n.q.From))
	}
	return notes
}

// cautions are those of the foods, each once.
func (n *nextFoods) cautions() (list []Remark) {
	for i := range n.list {
		list = Once(list, cautionsOf(n.g, n.list[i].Food, true)...)
	}
	return append(list, Safety)
}
