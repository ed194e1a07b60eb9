package report

import (
	"putby/ledger/figures"
	"putby/pricing/exact"
)

// This file gives machines the figures of [Today], all of them however many
// lines people are shown.

func (t *today) figures() []Field {
	return []Field{
		{Key: "running", Node: t.runningTable()},
		{Key: "awaiting", Node: t.awaitingTable()},
		{Key: "fresh", Node: t.freshTable()},
		{Key: "next", Node: t.nextTable()},
		{Key: "eat_first", Node: t.storeTable()},
		{Key: "loads", Node: t.loadsTable()},
		{Key: "month", Node: t.monthObject()},
		{Key: "machine", Node: t.machineObject()},
		{Key: "amiss", Node: t.wrongTable()},
	}
}

func (t *today) runningTable() *Table {
	table := &Table{Columns: []Column{{Key: "run"}, {Key: "machine"}, {Key: "item"}, {Key: "since"}, {Key: "hours"}, {Key: "usual_end"}}}
	for _, r := range t.r.Running {
		run, end := &t.g.Records.Runs[r.Run], guessed(r.End, MomentOf)
		for _, food := range r.Foods {
			table.add(TextOf(run.ID), itemValue(t.g, run.Machine), foodValue(&t.g.Foods[food]), MomentOf(run.Start), SpanOf(r.For), end)
		}
	}
	return table
}

func (t *today) awaitingTable() *Table {
	table := &Table{Columns: []Column{{Key: "run"}, {Key: "date"}, {Key: "item"}, {Key: "unit"}, {Key: "packed"}, {Key: "about_left"}}}
	for _, a := range t.r.Awaiting {
		food := &t.g.Foods[a.Food]
		table.add(TextOf(t.g.Records.Runs[a.Run].ID), DateOf(t.g.Runs[a.Run].Date), foodValue(food), UnitOf(food.Basis), AmountOf(a.Packed, food.Basis),
			AmountOf(a.ToPack.Round(exact.QuantityPlaces, exact.HalfEven), food.Basis).Estimated())
	}
	return table
}

func (t *today) freshTable() *Table {
	table := &Table{Columns: []Column{
		{Key: "item"}, {Key: "unit"}, {Key: "quantity"}, {Key: "frozen"}, {Key: "use_by"}, {Key: "days_left"}, {Key: "machine"}, {Key: "cycles"},
		{Key: "first_start"}, {Key: "last_start"}, {Key: "in_time"},
	}}
	for i := range t.r.Fresh {
		w := &t.r.Fresh[i]
		food, cells := &t.g.Foods[w.Food], []Value{None, None, None, None, None}
		if s, ok := w.Slot.Get(); ok {
			m := &t.g.Machines[s.Machine]
			cells = []Value{nameValue(m.ID, m.Name), CountOf(s.Cycles).Estimated(), MomentOf(s.First).Estimated(), MomentOf(s.Last).Estimated(), YesNoOf(s.InTime)}
		}
		table.Rows = append(table.Rows, Row{Cells: append([]Value{
			foodValue(food), UnitOf(food.Basis), AmountOf(w.Quantity, food.Basis), YesNoOf(w.Frozen), DateOf(w.UseBy), t.daysTo(w.UseBy),
		}, cells...)})
	}
	return table
}

// nextTable is what the machine should take next, as [Next] lays it out.
func (t *today) nextTable() *Table {
	n := &nextFoods{reporting: t.reporting, list: t.r.Next}
	return n.table()
}

func (t *today) daysTo(last exact.Date) Value {
	return optional(figures.DaysLeft(t.r.Day, last), CountOf)
}

func (t *today) storeTable() *Table {
	table := &Table{Columns: []Column{{Key: "pack"}, {Key: "item"}, {Key: "left"}, {Key: "each"}, {Key: "unit"}, {Key: "place"}, {Key: "best_by"}, {Key: "days_left"}}}
	for _, p := range t.r.Store {
		pack, food := t.g.Records.Packs.At(p.Pack), &t.g.Foods[p.Food]
		table.add(TextOf(pack.ID), foodValue(food), CountOf(p.Left), AmountOf(t.g.Packs[p.Pack].Each, food.Basis), UnitOf(food.Basis),
			textOrNone(pack.Place), DateOf(p.BestBy), t.daysTo(p.BestBy))
	}
	return table
}

func (t *today) loadsTable() *Table {
	table := &Table{Columns: []Column{{Key: "item"}, {Key: "containers"}, {Key: "loads"}, {Key: "short"}}}
	for _, l := range t.r.Loads {
		table.add(foodValue(&t.g.Foods[l.Food]), CountOf(l.Containers).Estimated(), CountOf(l.Loads).Estimated(), itemValue(t.g, t.g.Supplies[l.Short].ID))
	}
	return table
}

// monthObject is the month so far and the one before; null where nothing is
// recorded, or the records have faults.
func (t *today) monthObject() Node {
	m, ok := t.r.Month.Get()
	if !ok {
		return None
	}
	last := Node(None)
	if m.HasLast {
		last = stretchObject(&m.Last)
	}
	return Object{{Key: "this", Node: stretchObject(&m.This)}, {Key: "last", Node: last}}
}

func stretchObject(s *figures.Stretch) Object {
	return Object{
		{Key: "month", Node: periodOf(s.Key)}, {Key: "spent", Node: MoneyOf(s.Spent.Total())}, {Key: "saved", Node: MoneyQuotient(s.Saved)},
		{Key: "net", Node: MoneyQuotient(s.Net())},
	}
}

func (t *today) machineObject() Node {
	p, ok := t.r.Payback.Get()
	if !ok {
		return None
	}
	return Object{
		{Key: "target", Node: MoneyOf(p.Target)}, {Key: "earned", Node: MoneyQuotient(p.Earned)}, {Key: "percent", Node: optPercent(p.Part)},
		{Key: "paid", Node: YesNoOf(p.Paid)}, {Key: "paid_in", Node: periodOf(p.By.Key).Estimated()},
	}
}

// wrongTable lists what is a danger or wrong as people are told it.
func (t *today) wrongTable() *Table {
	table := &Table{Columns: []Column{{Key: "what"}, {Key: "command"}}}
	for n, l := range t.lines {
		if kind := t.kind(n); kind == "danger" || kind == "wrong" {
			table.add(TextOf(l.state), TextOf(l.command))
		}
	}
	return table
}
