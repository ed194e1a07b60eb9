package ledger

import "putby/pricing/exact"

var runKind = kind("run", RunsFile, []string{"run"},
	func(r *Records) *[]Run { return &r.Runs },
	func(line int) Run { return Run{Line: line} },
	func(row *rowReader, r *Run) {
		if end, ok := r.End.Get(); ok && end.Before(r.Start) {
			row.fail("end", "correct the start or the end", "the run ends before it starts")
		}
	},
	need("run", func(c *cell, r *Run) { r.ID = c.id() }, "identifier"),
	need("machine", func(c *cell, r *Run) { r.Machine = c.id() }, "a machine"),
	need("start", func(c *cell, r *Run) { r.Start = c.moment() }, "local date and time, or with an offset"),
	may("end", func(c *cell, r *Run) { r.End = exact.Some(c.moment()) }, "only where there are no phases"),
	may("tariff", func(c *cell, r *Run) { r.Tariff = c.id() }, "a tariff (the settings')"),
	may("kwh", func(c *cell, r *Run) { r.KWh = number1(c) }, "metered total"),
	may("hands", func(c *cell, r *Run) { r.Hands = c.duration() }, "hands-on time, such as 40m"),
	may("outcome", func(c *cell, r *Run) { r.Spoiled = c.word(words{"good", "spoiled"}) == 1 }, "good or spoiled (good)"),
	may("note", func(c *cell, r *Run) { r.Note = c.text }, ""),
)

var phaseKind = kind("phase", PhasesFile, []string{"run", "step"},
	func(r *Records) *[]Phase { return &r.Phases },
	func(line int) Phase { return Phase{Line: line} },
	nil,
	need("run", func(c *cell, r *Phase) { r.Run = c.id() }, "a run"),
	need("step", func(c *cell, r *Phase) { r.Step = c.whole(0, 100000) }, "order within the run"),
	need("phase", func(c *cell, r *Phase) { r.Phase = PhaseName(c.word(phaseNames)) }, "freezing, evacuation, primary, secondary, hold or defrost"),
	need("duration", func(c *cell, r *Phase) { r.Length = c.duration() }, "8h24m, 8:24, 8:24:07 or 504m"),
	may("watts", func(c *cell, r *Phase) { r.Watts = number1(c) }, "average draw, W"),
	may("kwh", func(c *cell, r *Phase) { r.KWh = number1(c) }, "metered"),
)

var loadKind = kind("load", LoadsFile, nil,
	func(r *Records) *[]Load { return &r.Loads },
	func(line int) Load { return Load{Line: line} },
	checkLoad,
	need("run", func(c *cell, r *Load) { r.Run = c.id() }, "a run"),
	need("item", func(c *cell, r *Load) { r.Item = c.id() }, "a food"),
	need("quantity", func(c *cell, r *Load) { r.Quantity = c.above(c.amount(foodDims...)) }, "what went in, edible"),
	may("receipt", func(c *cell, r *Load) { r.Receipt = c.id() }, "the receipt or batch to draw on, and no other"),
	may("line", func(c *cell, r *Load) { r.Number = c.id() }, "and its line"),
	may("trays", func(c *cell, r *Load) { r.Trays = exact.Some(c.positive()) }, "how many trays it filled"),
	may("wet", func(c *cell, r *Load) { r.Wet = c.quantity(massDim...) }, "weight before"),
	may("dry", func(c *cell, r *Load) { r.Dry = c.quantity(massDim...) }, "weight after"),
	may("lost", func(c *cell, r *Load) { r.Lost = c.amount(foodDims...) }, "part of the quantity that was spilled or thrown away"),
)

func checkLoad(row *rowReader, r *Load) {
	if r.Number != "" && r.Receipt == "" {
		row.fail("line", "name the receipt too", "a line of no receipt")
	}
	if r.Wet.Given() && r.Dry.Given() && r.Wet.Base().Number().Less(r.Dry.Base().Number()) {
		row.fail("dry", "are the two the wrong way round?", "%v dry is more than %v wet", r.Dry, r.Wet)
	}
}

var packKind = kind("pack", PacksFile, []string{"pack"},
	func(r *Records) *[]Pack { return &r.Packs },
	func(line int) Pack { return Pack{Line: line, BestBy: exact.NoDate} },
	checkPack,
	need("pack", func(c *cell, r *Pack) { r.ID = c.id() }, "identifier"),
	may("run", func(c *cell, r *Pack) { r.Run = c.id() }, "the run it came from; blank: opening stock"),
	need("item", func(c *cell, r *Pack) { r.Item = c.id() }, "a food"),
	need("date", func(c *cell, r *Pack) { r.Date = c.date() }, "day of packing"),
	need("count", func(c *cell, r *Pack) { r.Count = c.whole(1, MaxContainers) }, "containers"),
	need("each", func(c *cell, r *Pack) { r.Each = c.above(c.amount(foodDims...)) }, "what one gives once reconstituted"),
	may("dry", func(c *cell, r *Pack) { r.Dry = c.quantity(massDim...) }, "weight in one container"),
	may("with", func(c *cell, r *Pack) { r.With = c.uses() }, "supplies per container, such as 1 jar-1l, 1 lid"),
	may("best_by", func(c *cell, r *Pack) { r.BestBy = c.date() }, "(packing + the food's keep_months)"),
	may("place", func(c *cell, r *Pack) { r.Place = c.text }, "where it is stored"),
	may("cost", func(c *cell, r *Pack) { r.Cost = c.money() }, "of the whole row, for opening stock"),
	may("packed", func(c *cell, r *Pack) { r.All = c.word(words{"all"}) == 0 }, "all: nothing more of the run's food is to be packed"),
)

// MaxContainers is the most containers of a pack row.
const MaxContainers = 100000

func checkPack(row *rowReader, r *Pack) {
	if r.Run != "" && !r.Cost.IsZero() {
		row.fail("cost", "leave it blank, or leave out the run for opening stock", "the cost of a pack from a run comes from the run")
	}
	if r.Run == "" && r.All {
		row.fail("packed", "leave it blank", "opening stock comes from no run of which more could be packed")
	}
}

var drawKind = kind("draw", DrawsFile, nil,
	func(r *Records) *[]Draw { return &r.Draws },
	func(line int) Draw { return Draw{Line: line} },
	func(row *rowReader, r *Draw) { checkTarget(row, r.Pack, r.Item, r.Quantity) },
	need("date", func(c *cell, r *Draw) { r.Date = c.date() }, "day it was taken"),
	may("pack", func(c *cell, r *Draw) { r.Pack = c.id() }, "a pack; then quantity is in containers"),
	may("item", func(c *cell, r *Draw) { r.Item = c.id() }, "or a food or supply in hand"),
	need("quantity", func(c *cell, r *Draw) { r.Quantity = c.above(c.amount(foodDims...)) }, "containers, an amount of the food, or pieces of the supply"),
	may("reason", func(c *cell, r *Draw) { r.Reason = Reason(c.word(reasons)) }, "used, given or spoiled (used)"),
	may("note", func(c *cell, r *Draw) { r.Note = c.text }, ""),
)

var frozenKind = kind("frozen", FrozenFile, nil,
	func(r *Records) *[]Freeze { return &r.Freezes },
	func(line int) Freeze { return Freeze{Line: line} },
	nil,
	need("date", func(c *cell, r *Freeze) { r.Date = c.date() }, "day it went into the freezer"),
	need("item", func(c *cell, r *Freeze) { r.Item = c.id() }, "a food in hand"),
	need("quantity", func(c *cell, r *Freeze) { r.Quantity = c.above(c.amount(foodDims...)) }, "how much of it"),
	may("note", func(c *cell, r *Freeze) { r.Note = c.text }, ""),
)

var countKind = kind("count", CountsFile, nil,
	func(r *Records) *[]Count { return &r.Counts },
	func(line int) Count { return Count{Line: line} },
	func(row *rowReader, r *Count) { checkTarget(row, r.Pack, r.Item, r.Quantity) },
	need("date", func(c *cell, r *Count) { r.Date = c.date() }, "day of the stocktake, at its end"),
	may("pack", func(c *cell, r *Count) { r.Pack = c.id() }, "a pack; then quantity is in containers"),
	may("item", func(c *cell, r *Count) { r.Item = c.id() }, "or a food or supply"),
	need("quantity", func(c *cell, r *Count) { r.Quantity = c.amount(foodDims...) }, "what is there"),
	may("note", func(c *cell, r *Count) { r.Note = c.text }, ""),
)

// checkTarget holds a draw or count to one thing and its measure.
func checkTarget(row *rowReader, pack, item string, q exact.Quantity) {
	switch {
	case pack == "" && item == "":
		row.fail("pack", "name a pack, or a food or supply under item", "neither a pack nor an item")
	case pack != "" && item != "":
		row.fail("item", "a pack knows its item: leave one of the two blank", "both a pack and an item")
	case pack != "":
		if q.Given() && q.Unit() != exact.Ea || !q.Number().IsInt() {
			row.fail("quantity", "write how many containers, such as 2", "%v is not a whole number of containers", q)
		}
	}
}
