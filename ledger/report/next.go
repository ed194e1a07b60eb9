package report

import (
	"fmt"
	"strings"

	"putby/ledger"
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
	d.Notes = n.notes()
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
	words := n.untimed()
	if len(n.list) == 0 {
		if words == nil && n.rest.Turned > 0 {
			return []string{"All fresh food in hand that is dried is past its day: putby onhand."}
		}
		if words == nil {
			words = []string{"No fresh food in hand is waiting for the machine."}
		}
		return words
	}
	var starts []string
	for i := range n.list {
		if w := &n.list[i]; w.Runs > 0 {
			starts = append(starts, fmt.Sprintf("Start %s of %s on %s: its electricity costs %s and is done on %s.", n.amount(w.Amount, n.g.Foods[w.Food].Basis),
				n.g.Foods[w.Food].Title(), n.moment(w.Best.At), about+n.phrasing.money(w.Best.Cost.Ratio()), n.moment(w.Best.Finish)))
			break
		}
	}
	words = append(starts, words...)
	var instead []string
	for i := range n.list {
		if w := &n.list[i]; w.Runs == 0 {
			instead = append(instead, n.instead(w)+" "+n.amount(w.Quantity, n.g.Foods[w.Food].Basis)+" of "+n.g.Foods[w.Food].Title())
		}
	}
	if instead != nil {
		words = append(words, "The machine cannot take all of it in time: "+Listed(instead)+".")
	}
	return words
}

// untimed says what is to be dried of which no run tells how long it takes, or of
// which nothing tells how much a run holds, and what to type to be told when.
func (n *nextFoods) untimed() (words []string) {
	for _, w := range n.rest.Foods {
		food := &n.g.Foods[w.Food]
		by := ""
		if w.UseBy != exact.NoDate {
			by = ", by " + n.day(w.UseBy)
		}
		words = append(words, fmt.Sprintf("%s%s: nothing tells how long a run of it takes, or how much it holds. Say it: putby when %s --hours 30h", n.inHand(w), by, food.ID))
	}
	return words
}

// instead is what to do with food that no run is in time for.
func (n *nextFoods) instead(w *figures.NextFood) string {
	if w.Freezable {
		return "freeze or eat"
	}
	return "eat"
}

func (n *nextFoods) table() *Table {
	t := &Table{Columns: []Column{
		{Key: "item", Title: "food", Wrap: true}, {Key: "unit"}, {Key: "quantity"}, {Title: "in hand"}, {Key: "use_by", Title: "use by"}, {Key: "value", Title: "worth", Rank: 2},
		{Key: "runs", Title: "runs"}, {Key: "start", Title: "start"}, {Key: "end", Title: "first run ends", Rank: 1}, {Key: "cost", Title: "its cost", Rank: 1}, {Key: "latest", Title: "latest start", Rank: 3},
		{Key: "instead", Title: "instead"},
	}}
	for i := range n.list {
		w := &n.list[i]
		food := &n.g.Foods[w.Food]
		cells := []Value{foodValue(food), UnitOf(food.Basis), AmountOf(w.Quantity, food.Basis), TextOf(n.amount(w.Quantity, food.Basis)), DateOf(w.UseBy), optMoney(w.Value)}
		if w.Runs > 0 {
			cells = append(cells, CountOf(w.Runs).Estimated(), MomentOf(w.Best.At), MomentOf(w.Best.Finish).Estimated(), MoneyOf(w.Best.Cost).Estimated(), MomentOf(w.Latest).Estimated(), None)
		} else {
			cells = append(cells, None, None, None, None, None, TextOf(n.instead(w)))
		}
		t.add(cells...)
	}
	return t
}

func (n *nextFoods) notes() []string {
	var notes []string
	if window, ok := n.q.Start.Get(); ok {
		notes = append(notes, fmt.Sprintf("Starts are within %v, when somebody is there to load.", window))
	} else if len(n.list) > 0 {
		notes = append(notes, "Starts are at any hour; "+n.names.of("start-between")+" 07:00-22:00 keeps them to when somebody is there to load.")
	}
	if tariff := n.g.Tariff(n.q.Tariff); tariff != nil && tariff.IsHourly() {
		notes = append(notes, hourlyRemark(n.g, tariff.Name(), n.q.From))
	}
	for i := range n.list {
		if words := cautionsOf(n.g, n.list[i].Food, true); !strings.Contains(strings.Join(notes, "\n"), strings.Join(words, "\n")) || len(words) == 0 {
			notes = append(notes, words...)
		}
	}
	return append(notes, SafetyLine)
}
