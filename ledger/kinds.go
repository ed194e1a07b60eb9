package ledger

import (
	"putby/energy"
	"putby/pricing"
	"putby/pricing/exact"
)

// kinds are the kinds of records, column by column.
var kinds = []Kind{
	foodKind, supplyKind, machineKind, wattageKind, tariffKind, holidayKind,
	receiptKind, shelfKind, batchKind, runKind, phaseKind, loadKind, packKind,
	drawKind, frozenKind, countKind,
}

// number1 reads a number that may be left out.
func number1(c *cell) exact.Opt[exact.Number] { return exact.Some(c.number()) }

// days reads a number of days or months.
func days(c *cell) exact.Opt[int] { return exact.Some(c.whole(0, 10000)) }

var foodKind = kind("food", FoodsFile, []string{"food"},
	func(r *Records) *[]Food { return &r.Foods },
	func(line int) Food { return Food{Line: line} },
	nil,
	need("food", func(c *cell, r *Food) { r.ID = c.id() }, "identifier"),
	may("name", func(c *cell, r *Food) { r.Name = c.text }, "name for people"),
	need("basis", func(c *cell, r *Food) {
		r.Basis = [...]exact.Unit{exact.L, exact.Kg, exact.Ea}[c.word(words{"volume", "mass", "count"})]
	}, "what amounts are counted in: volume (L), mass (kg) or count (ea)"),
	may("density", func(c *cell, r *Food) { r.Density = exact.Some(c.positive()) }, "kg per litre"),
	may("piece_kg", func(c *cell, r *Food) { r.PieceKg = exact.Some(c.positive()) }, "edible kg of one piece"),
	may("water", func(c *cell, r *Food) { r.Water = exact.Some(c.percent(false)) }, "% of the fresh food"),
	may("refuse", func(c *cell, r *Food) { r.Refuse = c.percent(true) }, "% of what is bought that is thrown away"),
	may("serving", func(c *cell, r *Food) { r.Serving = c.above(c.quantity(foodDims...)) }, "one serving, such as 250 mL"),
	may("kcal", func(c *cell, r *Food) { r.Kcal = number1(c) }, "per 100 g as eaten"),
	may("protein", func(c *cell, r *Food) { r.Protein = number1(c) }, "g per 100 g as eaten"),
	may("fat", func(c *cell, r *Food) { r.Fat = exact.Some(c.percent(false)) }, "g per 100 g as eaten"),
	may("fresh_days", func(c *cell, r *Food) { r.FreshDays = days(c) }, "days after purchase in which it must be dried, kept cold"),
	may("frozen_days", func(c *cell, r *Food) { r.FrozenDays = days(c) }, "the same, kept frozen"),
	may("keep_months", func(c *cell, r *Food) { r.KeepMonths = days(c) }, "storage life once packed"),
	may("caution", func(c *cell, r *Food) { r.Caution = c.text }, "printed wherever the food is packed, opened or reported"),
)

var supplyKind = kind("supply", SuppliesFile, []string{"supply"},
	func(r *Records) *[]Supply { return &r.Supplies },
	func(line int) Supply { return Supply{Line: line, Uses: 1} },
	nil,
	need("supply", func(c *cell, r *Supply) { r.ID = c.id() }, "identifier"),
	may("name", func(c *cell, r *Supply) { r.Name = c.text }, "name for people"),
	need("kind", func(c *cell, r *Supply) { r.Kind = SupplyKind(c.word(supplyKinds)) }, "jar, bag, lid, absorber, label, oil, filter or other"),
	may("uses", func(c *cell, r *Supply) { r.Uses = c.whole(1, 1000000) }, "how often one serves (1)"),
	may("capacity", func(c *cell, r *Supply) { r.Capacity = c.above(c.quantity(exact.Volume, exact.Mass)) }, "1 L for a jar, 300 cc of oxygen for an absorber"),
	may("price", func(c *cell, r *Supply) { r.Price = exact.Some(c.money()) }, "each; used only where no receipt covers it"),
)

var machineKind = kind("machine", MachinesFile, []string{"machine"},
	func(r *Records) *[]Machine { return &r.Machines },
	func(line int) Machine { return Machine{Line: line} },
	nil,
	need("machine", func(c *cell, r *Machine) { r.ID = c.id() }, "identifier"),
	may("name", func(c *cell, r *Machine) { r.Name = c.text }, "name for people"),
	may("trays", func(c *cell, r *Machine) { r.Trays = exact.Some(c.whole(1, 1000)) }, "how many trays it takes"),
	may("load_volume", func(c *cell, r *Machine) { r.LoadVolume = c.above(c.quantity(exact.Volume)) }, "most per cycle"),
	may("load_mass", func(c *cell, r *Machine) { r.LoadMass = c.above(c.quantity(exact.Mass)) }, "most per cycle"),
	need("cycles", func(c *cell, r *Machine) { r.Cycles = c.whole(1, 1000000) }, "expected life"),
	may("residual", func(c *cell, r *Machine) { r.Residual = c.money() }, "money back at its end (0)"),
	may("with", func(c *cell, r *Machine) { r.With = c.uses() }, "supplies drawn by every cycle, such as 1 oil-change, 2 filter"),
)

var wattageKind = kind("wattage", WattageFile, []string{"machine", "phase"},
	func(r *Records) *[]Wattage { return &r.Wattage },
	func(line int) Wattage { return Wattage{Line: line} },
	nil,
	need("machine", func(c *cell, r *Wattage) { r.Machine = c.id() }, "identifier"),
	need("phase", func(c *cell, r *Wattage) { r.Phase = PhaseName(c.word(phaseNames)) }, "freezing, evacuation, primary, secondary, hold or defrost"),
	need("watts", func(c *cell, r *Wattage) { r.Watts = c.number() }, "typical average draw, W"),
)

var tariffKind = kind("tariff", TariffsFile, nil,
	func(r *Records) *[]Band { return &r.Tariffs },
	func(line int) Band {
		return Band{Band: energy.Band{Line: line, From: exact.NoDate, End: energy.DayEnd}}
	},
	nil,
	need("tariff", func(c *cell, r *Band) { r.Tariff = c.id() }, "identifier"),
	may("from", func(c *cell, r *Band) { r.From = c.date() }, "first date it holds"),
	may("months", func(c *cell, r *Band) { r.Months = parsed(c, "blank is all year", energy.ParseMonths) }, "5-10, 11-4 or 1,7 (all)"),
	may("days", func(c *cell, r *Band) { r.Days = parsed(c, "blank is every day", energy.ParseDays) }, "mon-fri, sat, hol (all)"),
	may("start", func(c *cell, r *Band) {
		r.Start = parsed(c, "a local clock is 07:00 or 22:30; blank is midnight", energy.ParseClock)
	}, "local clock (0:00)"),
	may("end", func(c *cell, r *Band) {
		r.End = parsed(c, "a local clock is 07:00 or 22:30; blank is midnight", energy.ParseClock)
	}, "local clock (24:00); may wrap past midnight"),
	may("above_kwh", func(c *cell, r *Band) { r.Above = c.number() }, "household use of the month above which it starts (0)"),
	need("rate", func(c *cell, r *Band) { r.Rate = c.signed() }, "money per kWh"),
	may("tax", func(c *cell, r *Band) { r.Tax = c.number() }, "% on top (0)"),
)

// parsed reads a cell by a parser of another package, whose error says how it
// is written.
func parsed[T any](c *cell, hint string, parse func(string) (T, error)) T {
	v, err := parse(c.text)
	if err != nil {
		c.fail(hint, "%v", err)
	}
	return v
}

var holidayKind = kind("holiday", HolidaysFile, []string{"tariff", "date"},
	func(r *Records) *[]Holiday { return &r.Holidays },
	func(line int) Holiday { return Holiday{Line: line} },
	nil,
	need("tariff", func(c *cell, r *Holiday) { r.Tariff = c.id() }, "identifier"),
	need("date", func(c *cell, r *Holiday) { r.Date = c.date() }, "a day that is a holiday too"),
)

var shelfKind = kind("price", ShelfFile, nil,
	func(r *Records) *[]ShelfRow { return &r.Shelf },
	func(line int) ShelfRow { return ShelfRow{Line: line} },
	checkShelfRow,
	need("date", func(c *cell, r *ShelfRow) { r.Date = c.date() }, "day it was seen"),
	need("shop", func(c *cell, r *ShelfRow) { r.Shop = c.text }, "who asks it"),
	need("item", func(c *cell, r *ShelfRow) { r.Item = c.id() }, "a food"),
	need("size", func(c *cell, r *ShelfRow) { r.Size = c.above(c.amount(foodDims...)) }, "of a package, as bought"),
	need("price", func(c *cell, r *ShelfRow) { r.Price = c.money() }, "of a package"),
	may("terms", func(c *cell, r *ShelfRow) { r.Terms = pricing.Terms(c.word(words{"regular", "offer"})) }, "regular or offer (regular)"),
	may("form", func(c *cell, r *ShelfRow) { r.Form = pricing.Form(c.word(words{"fresh", "preserved"})) }, "fresh or preserved (fresh)"),
	may("makes", func(c *cell, r *ShelfRow) { r.Makes = c.above(c.amount(foodDims...)) }, "what a preserved package reconstitutes to"),
	may("note", func(c *cell, r *ShelfRow) { r.Note = c.text }, ""),
)

func checkShelfRow(row *rowReader, r *ShelfRow) {
	if r.Form == pricing.Preserved && r.Makes.Sign() == 0 {
		row.fail("makes", "write how much one package makes once water is added, such as 1.2 L", "a preserved package needs what it makes")
	}
}

var batchKind = kind("batch", BatchesFile, []string{"batch"},
	func(r *Records) *[]Batch { return &r.Batches },
	func(line int) Batch { return Batch{Line: line} },
	nil,
	need("batch", func(c *cell, r *Batch) { r.ID = c.id() }, "identifier"),
	need("date", func(c *cell, r *Batch) { r.Date = c.date() }, "day of the kitchen work"),
	need("item", func(c *cell, r *Batch) { r.Item = c.id() }, "the food made"),
	need("quantity", func(c *cell, r *Batch) { r.Quantity = c.above(c.amount(foodDims...)) }, "how much was made"),
	need("from", func(c *cell, r *Batch) { r.From = c.parts() }, "foods it took, such as 2 kg leeks, 0.5 L cream"),
	may("cost", func(c *cell, r *Batch) { r.Cost = c.money() }, "fuel and the like (0)"),
	may("note", func(c *cell, r *Batch) { r.Note = c.text }, ""),
)
