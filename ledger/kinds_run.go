package ledger

import (
	"time"

	"putby/pricing/exact"
)

// This file describes the files from the machine to the table: runs and what goes in, packs,
// what is taken out, frozen and counted.

func runKind() Kind {
	return kind(Kind{Name: "run", File: RunsFile, Key: []string{RunColumn},
		Short: "runs of the machine", Long: "a run of the machine"},
		func(r *Records) *[]Run { return &r.Runs },
		func(line int) Run { return Run{Line: line} },
		func(row *rowReader, r *Run) {
			switch end, ok := r.End.Get(); {
			case ok && end.Before(r.Start):
				row.fail("end", "correct the start or the end", "the run ends before it starts")
			case ok && r.Running:
				row.fail("end", "leave the end blank, or the outcome", "the run is running, and has an end")
			}
		},
		id(Runs, func(r *Run, s string) { r.ID = s }, "identifier").defaults(Next).ask(2),
		ref(MachineColumn, func(r *Run, s string) { r.Machine = s }, "", Machines).need().defaults(Only).ask(1),
		moment(StartColumn, func(r *Run, t time.Time) { r.Start = t }, "local date and time, or with an offset").need().ask(1),
		moment("end", func(r *Run, t time.Time) { r.End = exact.Some(t) }, "only where there are no phases"),
		ref("tariff", func(r *Run, s string) { r.Tariff = s }, "", Tariffs).blank("the settings'"),
		number("kwh", func(r *Run, n exact.Number) { r.KWh = exact.Some(n) }, "metered total").in("kWh").label("kWh").ask(2),
		duration("hands", func(r *Run, d time.Duration) { r.Hands = d }, "hands-on time, such as 40m").ask(2),
		word(OutcomeColumn, outcomes, func(r *Run, i uint8) { r.Spoiled, r.Running = i == 1, i == 2 }, "").blank("good"),
		note(func(r *Run, s string) { r.Note = s }),
	)
}

func phaseKind() Kind {
	return listed(Kind{Name: "phase", File: PhasesFile, Key: []string{RunColumn, "step"},
		Short: "phases of runs", Long: "a phase of a run"},
		func(r *Records) lister[Phase] { return &r.Phases },
		func(line int) Phase { return Phase{Line: int32(line)} },
		nil,
		ref(RunColumn, func(r *Phase, s string) { r.Run = s }, "", Runs).need().ask(1),
		whole("step", 0, 100000, func(r *Phase, n int) { r.Step = int32(n) }, "order within the run").need().defaults(Next).ask(1),
		word(PhaseColumn, phaseNames, func(r *Phase, p PhaseName) { r.Phase = p }, "").need().ask(1),
		duration(DurationColumn, func(r *Phase, d time.Duration) { r.Length = d }, "8h24m, 8:24, 8:24:07 or 504m").need().ask(1),
		number("watts", func(r *Phase, n exact.Number) { r.Watts = exact.Some(n) }, "average draw, W").in("W"),
		number("kwh", func(r *Phase, n exact.Number) { r.KWh = exact.Some(n) }, "metered").in("kWh").label("kWh"),
	)
}

func loadKind() Kind {
	return listed(Kind{Name: "load", File: LoadsFile,
		Short: "what went into runs", Long: "what went into a run"},
		func(r *Records) lister[Load] { return &r.Loads },
		func(line int) Load { return Load{Line: line} },
		checkLoad,
		ref(RunColumn, func(r *Load, s string) { r.Run = s }, "", Runs).need().ask(1),
		ref(ItemColumn, func(r *Load, s string) { r.Item = s }, "", Foods).need().ask(1),
		amount(QuantityColumn, func(r *Load, q exact.Quantity) { r.Quantity = q }, "what went in, edible").need().ask(1),
		ref(ReceiptColumn, func(r *Load, s string) { r.Receipt = s }, "the one receipt or batch that it came from; blank: the oldest", Receipts, Batches).label("from receipt"),
		ref(LineColumn, func(r *Load, s string) { r.Number = s }, "and which line of that receipt").label("line of the receipt").main(),
		positive("trays", func(r *Load, n exact.Number) { r.Trays = exact.Some(n) }, "how many trays it filled"),
		weight("wet", func(r *Load, q exact.Quantity) { r.Wet = q }, "weight before").label("weight before").ask(1),
		weight("dry", func(r *Load, q exact.Quantity) { r.Dry = q }, "weight after").label("weight after").ask(1),
		maybe("lost", func(r *Load, q exact.Quantity) { r.Lost = q }, "part of the quantity that was spilled or thrown away"),
	)
}

func checkLoad(row *rowReader, r *Load) {
	if r.Number != "" && r.Receipt == "" {
		row.fail(LineColumn, "name the receipt too", "a line of no receipt")
	}
	if r.Wet.Given() && r.Dry.Given() && r.Wet.Base().Number().Less(r.Dry.Base().Number()) {
		row.fail("dry", "are the two the wrong way round?", "%v dry is more than %v wet", r.Dry, r.Wet)
	}
}

func packKind() Kind {
	return listed(Kind{Name: "pack", File: PacksFile, Key: []string{PackColumn},
		Short: "jars and bags that were packed", Long: "jars and bags that were packed"},
		func(r *Records) lister[Pack] { return &r.Packs },
		func(line int) Pack { return Pack{Line: line} },
		checkPack,
		id(Packs, func(r *Pack, s string) { r.ID = s }, "identifier").defaults(Next).ask(2),
		ref(RunColumn, func(r *Pack, s string) { r.Run = s }, "the run it came from; blank: opening stock", Runs).ask(1),
		ref(ItemColumn, func(r *Pack, s string) { r.Item = s }, "", Foods).need().defaults(Only).ask(1),
		day(func(r *Pack, d exact.Date) { r.Date = d }, "day of packing").ask(1),
		whole("count", 1, maxContainers, func(r *Pack, n int) { r.Count = n }, "containers").need().ask(1),
		amount("each", func(r *Pack, q exact.Quantity) { r.Each = q }, "what one makes with water added again").label("each makes").need().defaults(AsUsual).ask(1),
		weight("dry", func(r *Pack, q exact.Quantity) { r.Dry = q }, "weight in one container").label("dry weight in one").ask(1),
		uses(WithColumn, func(r *Pack, list []Use) { r.With = list }, "supplies per container, such as 1 jar-1l, 1 lid").label("what goes with each").defaults(AsUsual).ask(1),
		date("best_by", func(r *Pack, d exact.Date) { r.BestBy = d }, "").blank("packing + the food's keep_months"),
		text("place", func(r *Pack, s string) { r.Place = s }, "where it is stored").of(Places).open().ask(1),
		money("cost", func(r *Pack, m exact.Money) { r.Cost = m }, "of the whole row, for opening stock"),
		word("packed", words{"all"}, func(r *Pack, _ uint8) { r.All = true }, "all: nothing more of the run's food is to be packed").label("is that all of it"),
	)
}

// maxContainers is the most containers of a pack row.
const maxContainers = 100000

func checkPack(row *rowReader, r *Pack) {
	if r.Run != "" && !r.Cost.IsZero() {
		row.fail("cost", "leave it blank, or leave out the run for opening stock", "the cost of a pack from a run comes from the run")
	}
	if r.Run == "" && r.All {
		row.fail("packed", "leave it blank", "opening stock comes from no run of which more could be packed")
	}
}

func drawKind() Kind {
	return listed(Kind{Name: "draw", File: DrawsFile,
		Short: "what was taken out", Long: "what was taken out"},
		func(r *Records) lister[Draw] { return &r.Draws },
		func(line int) Draw { return Draw{Line: line} },
		func(row *rowReader, r *Draw) { checkTarget(row, r.Pack, r.Item, r.Quantity) },
		day(func(r *Draw, d exact.Date) { r.Date = d }, "day it was taken").ask(2),
		ref(PackColumn, func(r *Draw, s string) { r.Pack = s }, "a pack; then quantity is in containers", Packs).main(),
		ref(ItemColumn, func(r *Draw, s string) { r.Item = s }, "or a food or supply in hand", Foods, Supplies).main(),
		amount(QuantityColumn, func(r *Draw, q exact.Quantity) { r.Quantity = q }, "containers, an amount of the food, or pieces of the supply").need().defaults(Offered).ask(1),
		word("reason", reasons[:Missing], func(r *Draw, reason Reason) { r.Reason = reason }, "").blank("used").ask(1),
		note(func(r *Draw, s string) { r.Note = s }),
	)
}

func frozenKind() Kind {
	return kind(Kind{Name: "frozen", File: FrozenFile,
		Short: "fresh food that went into the freezer", Long: "fresh food that went into the freezer"},
		func(r *Records) *[]Freeze { return &r.Freezes },
		func(line int) Freeze { return Freeze{Line: line} },
		nil,
		day(func(r *Freeze, d exact.Date) { r.Date = d }, "day it went into the freezer").ask(2),
		ref(ItemColumn, func(r *Freeze, s string) { r.Item = s }, "a food in hand", Foods).need().ask(1),
		amount(QuantityColumn, func(r *Freeze, q exact.Quantity) { r.Quantity = q }, "how much of it").need().ask(1),
		note(func(r *Freeze, s string) { r.Note = s }),
	)
}

func countKind() Kind {
	return kind(Kind{Name: "count", File: CountsFile,
		Short: "stocktakes", Long: "what a stocktake found"},
		func(r *Records) *[]Count { return &r.Counts },
		func(line int) Count { return Count{Line: line} },
		func(row *rowReader, r *Count) { checkTarget(row, r.Pack, r.Item, r.Quantity) },
		day(func(r *Count, d exact.Date) { r.Date = d }, "day of the stocktake, at its end").ask(2),
		ref(PackColumn, func(r *Count, s string) { r.Pack = s }, "a pack; then quantity is in containers", Packs).main(),
		ref(ItemColumn, func(r *Count, s string) { r.Item = s }, "or a food or supply", Foods, Supplies).main(),
		maybe(QuantityColumn, func(r *Count, q exact.Quantity) { r.Quantity = q }, "what is there").need().ask(1),
		note(func(r *Count, s string) { r.Note = s }),
	)
}

// checkTarget holds a draw or count to one thing and its measure.
func checkTarget(row *rowReader, pack, item string, q exact.Quantity) {
	switch {
	case pack == "" && item == "":
		row.fail(PackColumn, "name a pack, or a food or supply in the column item", "neither a pack nor a food or supply")
	case pack != "" && item != "":
		row.fail(ItemColumn, "a pack says what food it is: leave one of the two blank", "both a pack and a food or supply")
	case pack != "":
		if q.Given() && q.Unit() != exact.Ea || !q.Number().IsInt() {
			row.fail(QuantityColumn, "write how many containers, such as 2", "%v is not a whole number of containers", q)
		}
	}
}
