package tables

import (
	"strings"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/pricing/exact"
)

// The names of tables that others refer to.
const (
	householdsTable = "households"
	foodsTable      = "foods"
	machinesTable   = "machines"
	purchasesTable  = "purchases"
	batchesTable    = "batches"
	runsTable       = "runs"
	packsTable      = "packs"
)

func households() Table {
	t := newTable(householdsTable, "a household: a ledger that was exported",
		func(h *Household, yield func(*Household) bool) { yield(h) },
		text("currency", func(h *Household) string { return h.day.Settings.Currency.Code() }, "of all its money, by ISO 4217"),
		whole("minor_digits", func(h *Household) int { return h.day.Settings.Currency.Minor() }, "decimals of the currency, by ISO 4217; money is posted at four more"),
		text("zone", func(h *Household) string { return h.day.Settings.Zone.String() }, "time zone of its clock, as the IANA database names it"),
		text("costing", func(h *Household) string {
			return map[ledger.Costing]string{ledger.FIFO: "fifo", ledger.Average: "average"}[h.day.Settings.Costing]
		}, "how lots of food are drawn: fifo, the oldest first, or average, a pool"),
		date("as_of", func(h *Household) exact.Date { return h.day.Day() }, "the day at which it stands: later records are left out, but for packs of runs begun by then"),
	)
	t.Columns[0].Refers = "" // it is the household
	return t
}

func foods() Table {
	return newTable(foodsTable, "a food",
		func(h *Household, yield func(*row) bool) { all(h.day, len(h.day.Foods), nil, yield) },
		text("item", func(r *row) string { return r.Foods[r.i].ID }, "its identifier").key(),
		text("name", func(r *row) string { return r.Foods[r.i].Title() }, "what people call it"),
		text("unit", func(r *row) string { return r.Foods[r.i].Basis.String() }, "its basis unit, in which amounts of it are: L, kg or ea"),
		number("density", func(r *row) exact.Opt[exact.Number] { return r.Foods[r.i].Density }, "kg per L"),
		number("piece_kg", func(r *row) exact.Opt[exact.Number] { return r.Foods[r.i].PieceKg }, "edible kg of a piece"),
		number("water", func(r *row) exact.Opt[exact.Number] { return r.Foods[r.i].Water }, "% of the fresh edible food"),
		number("refuse", func(r *row) exact.Opt[exact.Number] { return exact.Some(r.Foods[r.i].Refuse) }, "% of what is bought that is thrown away"),
		decimal("serving", servingDigits, servingPlaces, serving, "basis units; blank where it is not known"),
		number("kcal", func(r *row) exact.Opt[exact.Number] { return r.Foods[r.i].Kcal }, "kcal per 100 g as eaten"),
		number("protein", func(r *row) exact.Opt[exact.Number] { return r.Foods[r.i].Protein }, "g per 100 g as eaten"),
		number("fat", func(r *row) exact.Opt[exact.Number] { return r.Foods[r.i].Fat }, "g per 100 g as eaten"),
		maybeWhole("fresh_days", func(r *row) exact.Opt[int] { return r.Foods[r.i].FreshDays }, "days after purchase in which it must be dried, kept cold"),
		maybeWhole("frozen_days", func(r *row) exact.Opt[int] { return r.Foods[r.i].FrozenDays }, "the same, frozen"),
		maybeWhole("keep_months", func(r *row) exact.Opt[int] { return r.Foods[r.i].KeepMonths }, "months that it keeps once it is packed"),
	)
}

// A serving has few digits, so that money times a serving fits [exactDigits].
const servingDigits, servingPlaces = 18, Exact - Places

func serving(r *row) exact.Opt[exact.Number] {
	food := &r.Foods[r.i]
	return exact.OptOf(figures.InBasis(food, food.Serving))
}

func supplies() Table {
	return newTable("supplies", "a container or a consumable",
		func(h *Household, yield func(*row) bool) { all(h.day, len(h.day.Supplies), nil, yield) },
		text("supply", func(r *row) string { return r.Supplies[r.i].ID }, "its identifier").key(),
		text("name", func(r *row) string { return r.Supplies[r.i].Name }, "what people call it"),
		text("kind", func(r *row) string { return r.Supplies[r.i].Kind.String() }, oneOf("supply", "kind")),
		whole("uses", func(r *row) int { return r.Supplies[r.i].Uses }, "how often a piece serves"),
		number("price", func(r *row) exact.Opt[exact.Number] { return exact.Map(r.Supplies[r.i].Price, exact.Money.Number) },
			"list price of a piece, used where no receipt covers it; money"),
	)
}

func machines() Table {
	return newTable(machinesTable, "a freeze-dryer",
		func(h *Household, yield func(*row) bool) { all(h.day, len(h.day.Machines), nil, yield) },
		text("machine", func(r *row) string { return r.Machines[r.i].ID }, "its identifier").key(),
		text("name", func(r *row) string { return r.Machines[r.i].Name }, "what people call it"),
		whole("cycles", func(r *row) int { return r.Machines[r.i].Cycles }, "runs that it is expected to last"),
		money("residual", func(r *row) exact.Money { return r.Machines[r.i].Residual }, "money back at its end"),
		text("supplies_per_run", func(r *row) string { return usesText(r.Machines[r.i].With) }, "supplies that every run draws, as machines.csv has them"),
	)
}

// oneOf are the words of a column of records.
func oneOf(kind, column string) string {
	return ledger.Either(ledger.MustKind(kind).Column(column).Words)
}

// usesText writes supplies as records do.
func usesText(uses []ledger.Use) string {
	parts := make([]string, len(uses))
	for i, u := range uses {
		parts[i] = u.Number.String() + " " + u.Supply
	}
	return strings.Join(parts, ", ")
}
