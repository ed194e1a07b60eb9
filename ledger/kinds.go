package ledger

import (
	"sync"

	"putby/energy"
	"putby/pricing"
	"putby/pricing/exact"
)

// kinds are the kinds of records, column by column. They are made when they are
// first asked for, since every start would wait for them.
var kinds = sync.OnceValue(func() []Kind {
	return []Kind{
		foodKind(), supplyKind(), machineKind(), wattageKind(), tariffKind(), holidayKind(),
		receiptKind(), shelfKind(), batchKind(), runKind(), phaseKind(), loadKind(), packKind(),
		drawKind(), frozenKind(), countKind(),
	}
})

func foodKind() Kind {
	return kind(Kind{Name: "food", File: FoodsFile, Key: []string{"food"},
		Short: "foods that are bought, dried or eaten", Long: "a food that is bought, dried or eaten"},
		func(r *Records) *[]Food { return &r.Foods },
		func(line int) Food { return Food{Line: line} },
		nil,
		id(Foods, func(r *Food, s string) { r.ID = s }, "identifier").ask(1),
		text("name", func(r *Food, s string) { r.Name = s }, "name for people").ask(1),
		word("basis", words{"volume", "mass", "count"}, func(r *Food, i uint8) { r.Basis = [...]exact.Unit{exact.L, exact.Kg, exact.Ea}[i] },
			"what amounts are counted in: volume (L), mass (kg) or count (ea)").label("counted in").need().ask(1),
		positive("density", func(r *Food, n exact.Number) { r.Density = exact.Some(n) }, "").in("kg per litre"),
		positive("piece_kg", func(r *Food, n exact.Number) { r.PieceKg = exact.Some(n) }, "edible kg of one piece").in("kg").label("kg of one piece"),
		percent("water", func(r *Food, n exact.Number) { r.Water = exact.Some(n) }, "% of the fresh food"),
		read("refuse", PercentCell, func(c *cell) exact.Number { return c.percent(true) }, func(r *Food, n exact.Number) { r.Refuse = n },
			"% of what is bought that is thrown away").in("%"),
		quantity("serving", foodDims, func(r *Food, q exact.Quantity) { r.Serving = q }, "one serving, such as 250 mL"),
		number("kcal", func(r *Food, n exact.Number) { r.Kcal = exact.Some(n) }, "per 100 g as eaten").in("kcal"),
		number("protein", func(r *Food, n exact.Number) { r.Protein = exact.Some(n) }, "g per 100 g as eaten").in("g"),
		read("fat", NumberCell, func(c *cell) exact.Number { return c.percent(false) }, func(r *Food, n exact.Number) { r.Fat = exact.Some(n) },
			"g per 100 g as eaten").in("g"),
		span("fresh_days", "days", func(r *Food, n exact.Opt[int]) { r.FreshDays = n }, "days after purchase in which it must be dried, kept cold").ask(1),
		span("frozen_days", "days", func(r *Food, n exact.Opt[int]) { r.FrozenDays = n }, "the same, kept frozen"),
		span("keep_months", "months", func(r *Food, n exact.Opt[int]) { r.KeepMonths = n }, "storage life once packed").ask(1),
		text("caution", func(r *Food, s string) { r.Caution = s }, "printed wherever the food is packed, opened or reported").ask(1),
	)
}

func supplyKind() Kind {
	return kind(Kind{Name: "supply", File: SuppliesFile, Key: []string{"supply"},
		Short: "jars, bags, absorbers, oil", Long: "a jar, a bag, an absorber, oil or the like"},
		func(r *Records) *[]Supply { return &r.Supplies },
		func(line int) Supply { return Supply{Line: line, Uses: 1} },
		nil,
		id(Supplies, func(r *Supply, s string) { r.ID = s }, "identifier").ask(1),
		text("name", func(r *Supply, s string) { r.Name = s }, "name for people").ask(1),
		word("kind", supplyKinds, func(r *Supply, k SupplyKind) { r.Kind = k }, "").need().ask(1),
		whole("uses", 1, 1000000, func(r *Supply, n int) { r.Uses = n }, "how often one serves").blank("1").ask(1),
		quantity("capacity", []exact.Dimension{exact.Volume, exact.Mass}, func(r *Supply, q exact.Quantity) { r.Capacity = q },
			"1 L for a jar, 300 cc of oxygen for an absorber").ask(1),
		money("price", func(r *Supply, m exact.Money) { r.Price = exact.Some(m) }, "each; used only where no receipt covers it").ask(1),
	)
}

func machineKind() Kind {
	return kind(Kind{Name: "machine", File: MachinesFile, Key: []string{MachineColumn},
		Short: "freeze-dryers", Long: "a freeze-dryer"},
		func(r *Records) *[]Machine { return &r.Machines },
		func(line int) Machine { return Machine{Line: line} },
		nil,
		id(Machines, func(r *Machine, s string) { r.ID = s }, "identifier").ask(1),
		text("name", func(r *Machine, s string) { r.Name = s }, "name for people").ask(1),
		whole("trays", 1, 1000, func(r *Machine, n int) { r.Trays = exact.Some(n) }, "how many trays it takes"),
		quantity("load_volume", []exact.Dimension{exact.Volume}, func(r *Machine, q exact.Quantity) { r.LoadVolume = q }, "most per run").ask(1),
		quantity("load_mass", massDim, func(r *Machine, q exact.Quantity) { r.LoadMass = q }, "most per run").ask(1),
		whole("cycles", 1, 1000000, func(r *Machine, n int) { r.Cycles = n }, "expected life").need().ask(1),
		money("residual", func(r *Machine, m exact.Money) { r.Residual = m }, "money back at its end").blank("0").ask(1),
		uses(WithColumn, func(r *Machine, list []Use) { r.With = list }, "supplies that every run uses up, such as 1 oil-change, 2 filter").label("supplies of each run").ask(1),
	)
}

func wattageKind() Kind {
	return kind(Kind{Name: "wattage", File: WattageFile, Key: []string{MachineColumn, PhaseColumn},
		Short: "a machine's usual draw in each phase", Long: "what a machine usually draws in a phase"},
		func(r *Records) *[]Wattage { return &r.Wattage },
		func(line int) Wattage { return Wattage{Line: line} },
		nil,
		ref(MachineColumn, func(r *Wattage, s string) { r.Machine = s }, "identifier", Machines).need().defaults(Only).ask(1),
		word(PhaseColumn, phaseNames, func(r *Wattage, p PhaseName) { r.Phase = p }, "").need().ask(1),
		number("watts", func(r *Wattage, n exact.Number) { r.Watts = n }, "typical average draw, W").in("W").need().ask(1),
	)
}

func tariffKind() Kind {
	return kind(Kind{Name: "tariff", File: TariffsFile,
		Short: "bands of electricity tariffs", Long: "a band of an electricity tariff",
		InWords: &Column{Name: "words", Label: "price of a kWh", Help: "such as 0.31, or: days 0.24 from 6 to 22, nights 0.18, tax 5%"}},
		func(r *Records) *[]Band { return &r.Tariffs },
		func(line int) Band {
			return Band{Band: energy.Band{Line: line, End: energy.DayEnd}}
		},
		nil,
		ref("tariff", func(r *Band, s string) { r.Tariff = s }, "identifier", Tariffs).open().need().beside().ask(1),
		date("from", func(r *Band, d exact.Date) { r.From = d }, "first date it holds").beside().ask(1),
		read("months", ListCell, by("blank is all year", energy.ParseMonths), func(r *Band, m energy.MonthSet) { r.Months = m }, "5-10, 11-4 or 1,7").blank("all").ask(1),
		read("days", ListCell, by("blank is every day", energy.ParseDays), func(r *Band, d energy.DaySet) { r.Days = d }, "mon-fri, sat, hol").blank("all").ask(1),
		clock("start", func(r *Band, t energy.Clock) { r.Start = t }, "local clock").blank("0:00").ask(1),
		clock("end", func(r *Band, t energy.Clock) { r.End = t }, "local clock (24:00); may wrap past midnight").ask(1),
		number("above_kwh", func(r *Band, n exact.Number) { r.Above = n }, "household use of the month above which it starts").in("kWh").label("above kWh").blank("0"),
		read("rate", MoneyCell, (*cell).signed, func(r *Band, n exact.Number) { r.Rate = n }, "money per kWh").need().ask(1),
		read("tax", PercentCell, (*cell).number, func(r *Band, n exact.Number) { r.Tax = n }, "% on top").in("%").blank("0").beside().ask(1),
		word("hourly", words{"yes"}, func(r *Band, _ uint8) { r.Hourly = true }, "yes: rate is on top of the price of the hour in "+RatesFolder+"/TARIFF.csv"),
	)
}

func holidayKind() Kind {
	return kind(Kind{Name: "holiday", File: HolidaysFile, Key: []string{"tariff", DateColumn},
		Short: "days that are holidays for a tariff", Long: "a day that is a holiday for a tariff"},
		func(r *Records) *[]Holiday { return &r.Holidays },
		func(line int) Holiday { return Holiday{Line: line} },
		nil,
		ref("tariff", func(r *Holiday, s string) { r.Tariff = s }, "identifier", Tariffs).need().ask(1),
		date(DateColumn, func(r *Holiday, d exact.Date) { r.Date = d }, "a day that is a holiday too").need().ask(1),
	)
}

func shelfKind() Kind {
	return kind(Kind{Name: "price", File: ShelfFile,
		Short: "what shops ask", Long: "what a shop asks"},
		func(r *Records) *[]ShelfRow { return &r.Shelf },
		func(line int) ShelfRow { return ShelfRow{Line: line} },
		checkShelfRow,
		day(func(r *ShelfRow, d exact.Date) { r.Date = d }, "day it was seen").ask(2),
		text("shop", func(r *ShelfRow, s string) { r.Shop = s }, "who asks it").of(Shops).open().need().ask(1),
		ref(ItemColumn, func(r *ShelfRow, s string) { r.Item = s }, "", Foods).need().ask(2),
		amount("size", func(r *ShelfRow, q exact.Quantity) { r.Size = q }, "of a package, as bought").need().ask(2),
		money("price", func(r *ShelfRow, m exact.Money) { r.Price = m }, "of a package").need().ask(2),
		word("terms", words{pricing.Regular.String(), pricing.OnOffer.String()}, func(r *ShelfRow, t pricing.Terms) { r.Terms = t }, "").blank("regular").ask(2),
		word("form", words{pricing.Fresh.String(), pricing.Preserved.String()}, func(r *ShelfRow, f pricing.Form) { r.Form = f }, "").blank("fresh"),
		amount("makes", func(r *ShelfRow, q exact.Quantity) { r.Makes = q }, "what a preserved package makes with water added"),
		note(func(r *ShelfRow, s string) { r.Note = s }),
	)
}

func checkShelfRow(row *rowReader, r *ShelfRow) {
	if r.Form == pricing.Preserved && r.Makes.Sign() == 0 {
		row.fail("makes", "write how much one package makes once water is added, such as 1.2 L", "a preserved package needs what it makes")
	}
}

func batchKind() Kind {
	return kind(Kind{Name: "batch", File: BatchesFile, Key: []string{"batch"},
		Short: "kitchen work before drying", Long: "kitchen work before drying"},
		func(r *Records) *[]Batch { return &r.Batches },
		func(line int) Batch { return Batch{Line: line} },
		nil,
		id(Batches, func(r *Batch, s string) { r.ID = s }, "identifier").defaults(Next).ask(3),
		day(func(r *Batch, d exact.Date) { r.Date = d }, "day of the kitchen work").ask(2),
		ref(ItemColumn, func(r *Batch, s string) { r.Item = s }, "the food made", Foods).need().ask(1),
		amount(QuantityColumn, func(r *Batch, q exact.Quantity) { r.Quantity = q }, "how much was made").need().ask(1),
		parts("from", func(r *Batch, list []Part) { r.From = list }, "foods it took, such as 2 kg leeks, 0.5 L cream").need().ask(1),
		money("cost", func(r *Batch, m exact.Money) { r.Cost = m }, "fuel and the like").blank("0").ask(1),
		note(func(r *Batch, s string) { r.Note = s }),
	)
}
