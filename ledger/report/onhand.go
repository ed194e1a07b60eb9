package report

import (
	"cmp"
	"fmt"
	"slices"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/pricing/exact"
)

// An OnHandQuery is what the report of what is in the house is asked. Its From
// and To mean nothing.
type OnHandQuery struct {
	figures.Query
	Due exact.Opt[int] // only what is due within so many days, soonest first
}

// OnHand reports the packs in store, the fresh food in hand, what awaits
// packing, the supplies left and the cycles left on the machines. The ledger must be joined through the query's AsOf.
func OnHand(g *ledger.Ledger, q OnHandQuery) (Doc, error) {
	scope, err := q.In(g)
	if err != nil {
		return Doc{}, asked(g, err)
	}
	if days, ok := q.Due.Get(); ok && days < 0 {
		return Doc{}, &QueryError{"due", fmt.Sprintf("%d days are below 0", days), ""}
	}
	h := holdings{g: g, q: q, scope: scope, day: g.AsOf}
	if q.AsOf != exact.NoDate {
		h.day = q.AsOf // what is due is counted from there, even beyond the last record
	}
	h.store = h.inStore()
	d := newDoc(g, h.title())
	d.Fields = append([]Field{{Key: "as_of", Node: DateOf(h.day)}, h.packs()}, h.fresh()...)
	if !q.Due.Given() {
		d.Fields = append(d.Fields, h.byFood(), h.running(), h.awaiting())
		if scope.Food < 0 {
			d.Fields = append(d.Fields, supplyField(g), machineField(g))
		}
	}
	if q.From != exact.NoDate || q.To != exact.NoDate {
		h.notes.add("--from and --to change nothing: what is on hand is of one day, which --as-of says")
	}
	d.Notes = append(h.notes, cautions(g, func(f int) bool { return slices.Contains(h.foods, f) })...)
	return d, nil
}

// holdings is what is in the house on a day.
type holdings struct {
	g     *ledger.Ledger
	q     OnHandQuery
	scope figures.Scope
	day   exact.Date
	store []int // packs in store that are shown
	notes doubts
	foods []int // that are reported
}

func (h *holdings) title() string {
	title := "On hand" + dated(" on ", h.day, "", "")
	if days, ok := h.q.Due.Get(); ok {
		title = fmt.Sprintf("Due within %d days of %v", days, h.day)
	}
	return title + ofFood(h.g, h.scope.Food)
}

// due reports whether something with a last day is to be shown.
func (h *holdings) due(last exact.Date) bool {
	days, ok := h.q.Due.Get()
	return !ok || last != exact.NoDate && last <= h.day.AddDays(days)
}

// daysTo is how many days are left, below 0 when the day is past.
func (h *holdings) daysTo(last exact.Date) Value {
	if last == exact.NoDate {
		return None
	}
	return CountOf(int(last) - int(h.day))
}

// inStore lists the packs with containers left, oldest first; of what is due,
// the soonest first.
func (h *holdings) inStore() []int {
	var list []int
	for i := range h.g.Packs {
		p := &h.g.Packs[i]
		if p.Done && p.Left() > 0 && h.scope.Wants(p.Food) && h.due(p.BestBy) {
			list = append(list, i)
		}
	}
	slices.SortStableFunc(list, func(a, b int) int {
		packed := cmp.Compare(h.g.Records.Packs[a].Date, h.g.Records.Packs[b].Date)
		if !h.q.Due.Given() {
			return packed
		}
		return cmp.Or(cmp.Compare(h.g.Packs[a].BestBy, h.g.Packs[b].BestBy), packed)
	})
	return list
}

func (h *holdings) packs() Field {
	t := &Table{Columns: []Column{
		{Key: "pack", Title: "pack"}, {Key: "item", Title: "item"}, {Key: "count", Title: "packed", Rank: 6}, {Key: "left", Title: "left"},
		{Key: "each", Title: "each", Rank: 1}, {Key: "unit", Title: "unit", Rank: 1}, {Key: "cost", Title: "cost"}, {Key: "best_by", Title: "best by", Rank: 1},
		{Key: "days_left", Title: "days left"}, {Key: "shelf_value", Title: "the shelf asks", Rank: 2}, {Key: "date", Title: "packed on", Rank: 4}, {Key: "place", Title: "place", Rank: 3},
		{Key: NotesKey, Title: "notes"},
	}, Empty: "No pack is in store."}
	if h.q.Due.Given() {
		t.Empty = "No pack is due."
	}
	var cost exact.Money
	var asked exact.Ratio
	for _, i := range h.store {
		row, value := h.packRow(i)
		t.Rows = append(t.Rows, row)
		cost, asked = cost.Add(h.g.Packs[i].LeftCost()), asked.Add(value)
	}
	if len(t.Rows) > 0 {
		t.Totals = []Row{{Cells: []Value{TextOf("in all"), None, None, None, None, None, MoneyOf(cost), None, None, MoneyQuotient(asked), None, None}}}
	}
	return field("packs", "Packs in store", t)
}

func (h *holdings) packRow(i int) (Row, exact.Ratio) {
	pack, p := &h.g.Records.Packs[i], &h.g.Packs[i]
	food := &h.g.Foods[p.Food]
	h.foods = append(h.foods, p.Food)
	asks, place := None, None
	value, ok := h.shelfAsks(p.Food, p.Each.Mul(exact.Int(int64(p.Left()))))
	if ok {
		asks = MoneyQuotient(value)
	}
	if pack.Place != "" {
		place = TextOf(pack.Place)
	}
	notes := slices.Clone(p.Notes)
	if p.BestBy != exact.NoDate && p.BestBy < h.day {
		notes = append(notes, "past its best-by date")
	}
	return Row{Notes: notes, Cells: []Value{
		TextOf(pack.ID), foodValue(food), CountOf(pack.Count), CountOf(p.Left()), AmountOf(p.Each, food.Basis), UnitOf(food.Basis),
		MoneyOf(p.LeftCost()), DateOf(p.BestBy), h.daysTo(p.BestBy), asks, DateOf(pack.Date), place,
	}}, value
}

// byFood sums the packs in store.
func (h *holdings) byFood() Field {
	t := &Table{Columns: []Column{
		{Key: "item", Title: "item"}, {Key: "unit", Title: "unit"}, {Key: "left", Title: "containers", Rank: 1}, {Key: "quantity", Title: "makes"},
		{Key: "cost", Title: "cost", Bar: true}, {Key: "shelf_value", Title: "the shelf asks", Rank: 1}, {Key: "best_by", Title: "first best-by", Rank: 2},
	}}
	for f := range h.g.Foods {
		if row, ok := h.foodRow(f); ok {
			t.Rows = append(t.Rows, row)
		}
	}
	return field("foods", "By food", t)
}

func (h *holdings) foodRow(f int) (Row, bool) {
	left, soonest := 0, exact.LastDate
	var amount exact.Number
	var cost exact.Money
	for _, i := range h.store {
		p := &h.g.Packs[i]
		if p.Food != f {
			continue
		}
		left += p.Left()
		amount, cost = amount.Add(p.Each.Mul(exact.Int(int64(p.Left())))), cost.Add(p.LeftCost())
		if p.BestBy != exact.NoDate {
			soonest = min(soonest, p.BestBy)
		}
	}
	if left == 0 {
		return Row{}, false
	}
	food, asks := &h.g.Foods[f], None
	if value, ok := h.shelfAsks(f, amount); ok {
		asks = MoneyQuotient(value)
	}
	if soonest == exact.LastDate {
		soonest = exact.NoDate
	}
	return Row{Cells: []Value{foodValue(food), UnitOf(food.Basis), CountOf(left), AmountOf(amount, food.Basis), MoneyOf(cost), asks, DateOf(soonest)}}, true
}

// shelfAsks is what the shelf asks on the day for an amount of a food.
func (h *holdings) shelfAsks(food int, amount exact.Number) (exact.Ratio, bool) {
	var notes figures.Notes
	value, ok := figures.ShelfAsks(h.g, food, amount, h.day, &notes)
	h.notes.addFigures(h.g, notes)
	return value, ok
}

// awaiting lists what has been dried and is in no pack yet.
func (h *holdings) awaiting() Field {
	t := &Table{Columns: []Column{
		{Key: "run", Title: "run"}, {Key: "date", Title: "date", Rank: 1}, {Key: "item", Title: "item"}, {Key: "unit", Title: "unit"},
		{Key: "loaded", Title: "loaded"}, {Key: "packed", Title: "packed"}, {Key: "about_left", Title: "to pack"}, {Key: "cost", Title: "cost"}, {Key: NotesKey, Title: "notes"},
	}}
	for i := range h.g.Runs {
		run := &h.g.Runs[i]
		if !run.Done || !h.g.Records.Runs[i].Good() {
			continue
		}
		for j := range run.Items {
			item := &run.Items[j]
			cost, waits := figures.Unpacked(h.g, item)
			if food := &h.g.Foods[item.Food]; waits && h.scope.Wants(item.Food) {
				h.foods = append(h.foods, item.Food)
				packed := packedBy(h.g, item)
				left := item.Usual.Sub(exact.RatioOf(packed)).Round(3, exact.HalfEven).Max(exact.Number{})
				t.Rows = append(t.Rows, Row{Notes: shortNotes(h.g, item), Cells: []Value{
					TextOf(h.g.Records.Runs[i].ID), DateOf(run.Date), foodValue(food), UnitOf(food.Basis), AmountOf(item.Loaded, food.Basis),
					AmountOf(packed, food.Basis), AmountOf(left, food.Basis).Estimated(), MoneyOf(cost),
				}})
			}
		}
	}
	return field("awaiting", "Awaiting packing", t)
}
