package tables

import (
	"putby/ledger"
	"putby/ledger/figures"
	"putby/pricing/exact"
)

// A packRow is a pack, with its containers as they stand on the day.
type packRow struct {
	row
	record ledger.Pack
	today  *ledger.PackCost
}

func (p *packRow) cost() *ledger.PackCost { return &p.Packs[p.i] }

func packs() Table {
	columns := []column[packRow]{
		text("pack", func(p *packRow) string { return p.record.ID }, "its identifier").key(),
		text("run", func(p *packRow) string { return p.record.Run }, "the run; blank: stock from before the ledger").refers(runsTable),
		text("item", func(p *packRow) string { return p.record.Item }, "the food").refers(foodsTable),
		date("date", func(p *packRow) exact.Date { return p.record.Date }, "day on which it was packed; may be after the household's as_of"),
		date("best_by", func(p *packRow) exact.Date { return p.cost().BestBy }, "day by which to eat it; blank: nobody knows"),
		whole("count", func(p *packRow) int { return p.record.Count }, "containers"),
		whole("taken", func(p *packRow) int { return int(p.today.Taken) }, "containers taken out by the day"),
		amount("each", func(p *packRow) exact.Number { return p.cost().Each }, "basis units that one makes"),
		text("place", func(p *packRow) string { return p.record.Place }, "where they stand"),
		text("supplies_each", func(p *packRow) string { return usesText(p.record.With) }, "supplies of each, as packs.csv has them"),
	}
	columns = append(columns, elements("", func(p *packRow) ledger.Costs { return p.cost().Costs() }, "money, of all containers")...)
	columns = append(columns,
		money("total", func(p *packRow) exact.Money { return p.cost().Total() }, "money, the five together"),
		money("in_store", func(p *packRow) exact.Money {
			if !p.today.Done {
				return exact.Money{}
			}
			return p.today.LeftCost()
		}, "money, of the containers in store on the day"),
	)
	return newTable(packsTable, "a row of like containers",
		func(h *Household, yield func(*packRow) bool) {
			// What a pack cost is of its whole run, what was taken of the day: see [Household].
			all(h.runs, len(h.runs.Packs), h.counts, func(r *row) bool { return yield(&packRow{*r, h.runs.Records.Packs.At(r.i), &h.day.Packs[r.i]}) })
		}, columns...).byYear("date")
}

// A moveRow is something that left.
type moveRow struct {
	row
	*ledger.Move
}

// record is the place of the record that took it out.
func (m *moveRow) record() (file string, line int) {
	switch {
	case m.Draw >= 0:
		return ledger.DrawsFile, m.Draws.At(m.Draw).Line
	case m.Count >= 0:
		return ledger.CountsFile, m.Counts[m.Count].Line
	}
	return ledger.ReceiptsFile, m.Receipts.At(m.Row).Line
}

func (m *moveRow) kind() string {
	switch {
	case m.Pack >= 0:
		return "pack"
	case m.Food >= 0:
		return "fresh"
	}
	return "supply"
}

func (m *moveRow) item() string {
	if m.Food >= 0 {
		return m.Foods[m.Food].ID
	}
	return m.Supplies[m.Supply].ID
}

func (m *moveRow) pack() string {
	if m.Pack < 0 {
		return ""
	}
	return m.Records.Packs.At(m.Pack).ID
}

// value is what the shelf asked that day for what containers gave.
func (m *moveRow) value() exact.Opt[exact.Ratio] {
	if m.Pack < 0 {
		return exact.Opt[exact.Ratio]{}
	}
	return exact.OptOf(figures.ShelfAsks(m.Ledger, m.Food, m.Amount, m.Date, new(figures.Notes)))
}

func draws() Table {
	return newTable("draws", "something that left: containers of a pack, fresh food or supplies, taken out, found missing by a stocktake or taken back by a shop",
		func(h *Household, yield func(*moveRow) bool) {
			all(h.day, len(h.day.Moves), nil, func(r *row) bool { return yield(&moveRow{*r, &h.day.Moves[r.i]}) })
		},
		whole("draw", func(m *moveRow) int { return m.i + 1 }, "its number, in the order in which they happened").key(),
		date("date", func(m *moveRow) exact.Date { return m.Date }, "day of it"),
		text("reason", func(m *moveRow) string { return m.Reason.String() }, "used, given, spoiled, missing or returned"),
		text("kind", (*moveRow).kind, "pack, fresh or supply"),
		text("pack", (*moveRow).pack, "the pack").refers(packsTable),
		text("item", (*moveRow).item, "the food, of a pack too, or the supply"),
		amount("quantity", func(m *moveRow) exact.Number { return m.Quantity }, "containers of a pack, basis units of fresh food, pieces of a supply"),
		amount("amount", func(m *moveRow) exact.Number { return m.Amount }, "basis units of the food; of a pack, what its containers give"),
		money("cost", func(m *moveRow) exact.Money { return m.Cost }, "money that it had cost"),
		money("wear", func(m *moveRow) exact.Money { return m.Wear }, "of cost, the machine's wear"),
		quotient("shelf_value", (*moveRow).value, "money that the shelf asked that day for it, of packs; blank: no price is known"),
		text("file", func(m *moveRow) string { file, _ := m.record(); return file }, "where its record is"),
		whole("file_line", func(m *moveRow) int { _, line := m.record(); return line }, "line of the record in file"),
	).byYear("date")
}

func months() Table {
	type month = figures.Stretch
	return newTable("months", "a month, from that of the first record that moves money to that of the last",
		func(h *Household, yield func(*month) bool) {
			for i := range h.months {
				if !yield(&h.months[i]) {
					return
				}
			}
		},
		date("month", func(m *month) exact.Date { return m.From }, "its first day").key(),
		date("month_end", func(m *month) exact.Date { return m.To }, "its last day"),
	).byYear("month")
}
