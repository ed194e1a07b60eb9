package tables

import (
	"slices"

	"putby/ledger"
	"putby/pricing"
	"putby/pricing/exact"
)

func purchases() Table {
	of := func(r *row) ledger.ReceiptRow { return r.Receipts.At(r.i) }
	return newTable(purchasesTable, "a thing bought: a line of a receipt, or a deposit that it has. What a receipt takes off or adds for all is in the costs of its lines",
		func(h *Household, yield func(*row) bool) {
			g := h.day
			all(g, g.Receipts.Len(), func(i int) bool {
				r := g.Receipts.At(i)
				// Records are there whole; the join stops at the day.
				return (r.Kind.Bought() || r.Kind == ledger.DepositLine) && r.Date <= g.AsOf
			}, yield)
		},
		whole("purchase", func(r *row) int { return of(r).Line }, "its line in receipts.csv").key(),
		text("receipt", func(r *row) string { return of(r).Receipt }, "the receipt's identifier"),
		text("line", func(r *row) string { return of(r).Number }, "its number on the receipt"),
		date("date", func(r *row) exact.Date { return of(r).Date }, "day of the receipt"),
		text("shop", func(r *row) string { return of(r).Shop }, "where it was bought"),
		text("kind", func(r *row) string { return of(r).Kind.String() }, "food, supply, machine, service, other or deposit"),
		text("item", func(r *row) string { return of(r).Item }, "the food, supply or machine; of other things what they are"),
		number("count", func(r *row) exact.Opt[exact.Number] { return exact.Some(of(r).Count) }, "packages; below 0 where they were taken back"),
		number("size", func(r *row) exact.Opt[exact.Number] { return numberOf(of(r).Size) }, "of a package as bought, in size_unit"),
		text("size_unit", func(r *row) string { return of(r).Size.Unit().String() }, "unit of size"),
		money("price", func(r *row) exact.Money { return of(r).Price }, "money for a package"),
		money("discount", func(r *row) exact.Money { return of(r).Discount() }, "money off the line"),
		money("tax", func(r *row) exact.Money { return of(r).Tax() }, "money on top of the line"),
		money("cost", func(r *row) exact.Money { return r.Spends[r.i] }, "money for the line in all"),
		text("note", func(r *row) string { return of(r).Note() }, "what was noted"),
	).byYear("date")
}

// numberOf is how much a quantity is, in its own unit.
func numberOf(q exact.Quantity) exact.Opt[exact.Number] { return exact.OptOf(q.Number(), q.Given()) }

func batches() Table {
	of := func(r *row) *ledger.Batch { return &r.Batches[r.i] }
	return newTable(batchesTable, "kitchen work that turned foods into another",
		func(h *Household, yield func(*row) bool) {
			g := h.day
			all(g, len(g.Batches), func(i int) bool { return g.Batches[i].Date <= g.AsOf }, yield)
		},
		text("batch", func(r *row) string { return of(r).ID }, "its identifier").key(),
		date("date", func(r *row) exact.Date { return of(r).Date }, "day of it"),
		text("item", func(r *row) string { return of(r).Item }, "food that it made").refers(foodsTable),
		amount("made", func(r *row) exact.Number { return r.Batch[r.i].Made }, "basis units of it"),
		money("food", func(r *row) exact.Money { return r.Batch[r.i].Food }, "money that the foods it took had cost"),
		money("own", func(r *row) exact.Money { return r.Batch[r.i].Own }, "money that it cost itself"),
	).byYear("date")
}

func lots() Table {
	return newTable("lots", "something bought or made in one go: so many uses at a cost",
		func(h *Household, yield func(*row) bool) { all(h.day, len(h.day.Lots), nil, yield) },
		whole("lot", func(r *row) int { return r.i + 1 }, "its number, in the order in which they came").key(),
		text("kind", lotKind, "food, supply or machine"),
		text("item", func(r *row) string { return r.Lots[r.i].Item() }, "the food, supply or machine"),
		date("date", func(r *row) exact.Date { return r.Lots[r.i].Date }, "day on which it came"),
		maybeWhole("purchase", func(r *row) exact.Opt[int] {
			if lot := &r.Lots[r.i]; lot.Batch < 0 {
				return exact.Some(r.Receipts.At(int(lot.Row)).Line)
			}
			return exact.Opt[int]{}
		}, "what it was bought as").refers(purchasesTable),
		text("batch", func(r *row) string {
			if lot := &r.Lots[r.i]; lot.Batch >= 0 {
				return r.Batches[lot.Batch].ID
			}
			return ""
		}, "or made as").refers(batchesTable),
		amount("quantity", func(r *row) exact.Number { return r.Lots[r.i].Quantity }, "edible basis units of a food, uses of a supply, runs of a machine"),
		money("cost", func(r *row) exact.Money { return r.Lots[r.i].Cost }, "money for all of it, with repairs of a machine"),
		amount("quantity_left", func(r *row) exact.Number { return r.Lots[r.i].Left }, "the part that is left on the day"),
		money("cost_left", func(r *row) exact.Money { return r.Lots[r.i].CostLeft }, "money that this part carries; 0 of a food under average costing, where the pool carries it"),
		money("residual", func(r *row) exact.Money { return r.Lots[r.i].Residual }, "of cost_left, what stays in a machine for good"),
	).byYear("date")
}

func lotKind(r *row) string {
	if lot := &r.Lots[r.i]; lot.Batch < 0 {
		return r.Receipts.At(int(lot.Row)).Kind.String()
	}
	return ledger.FoodLine.String()
}

// A priceRow is a price that a shop asked, and its record.
type priceRow struct {
	pricing.Ask
	*ledger.ShelfRow
}

func prices() Table {
	return newTable("prices", "a price that a shop asked",
		func(h *Household, yield func(*priceRow) bool) {
			g := h.day
			for f := range g.Foods {
				for _, ask := range g.ShelfOf(f).Asks() {
					// The price of an edible unit is known by its line alone; records are in order of lines.
					i, _ := slices.BinarySearchFunc(g.Shelf, ask.Line, func(r ledger.ShelfRow, line int) int { return r.Line - line })
					if !yield(&priceRow{ask, &g.Shelf[i]}) {
						return
					}
				}
			}
		},
		whole("price_line", func(r *priceRow) int { return r.ShelfRow.Line }, "its line in shelf.csv").key(),
		date("date", func(r *priceRow) exact.Date { return r.ShelfRow.Date }, "day on which it was seen"),
		text("shop", func(r *priceRow) string { return r.ShelfRow.Shop }, "who asked it"),
		text("item", func(r *priceRow) string { return r.Item }, "the food").refers(foodsTable),
		text("terms", func(r *priceRow) string { return r.ShelfRow.Terms.String() }, oneOf("price", "terms")),
		text("form", func(r *priceRow) string { return r.ShelfRow.Form.String() }, "fresh, or preserved: the shop's own dried equivalent"),
		number("size", func(r *priceRow) exact.Opt[exact.Number] { return numberOf(r.Size) }, "of a package, in size_unit"),
		text("size_unit", func(r *priceRow) string { return r.Size.Unit().String() }, "unit of size"),
		money("price", func(r *priceRow) exact.Money { return r.Price }, "money for a package"),
		quotient("per_unit", func(r *priceRow) exact.Opt[exact.Ratio] { return exact.Some(r.PerUnit) }, "money per edible basis unit; of the preserved form per unit that it makes"),
	).byYear("date")
}
