package report

import (
	"fmt"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/pricing"
	"putby/pricing/exact"
)

// Explain takes the cost of a run or a pack apart, step by step, back to the
// file and line of each record. The ledger must be joined with Itemize.
func Explain(g *ledger.Ledger, name string) (Doc, error) {
	if i, ok := g.FindPack(name); ok {
		return explainPack(g, i), nil
	}
	if i, ok := g.FindRun(name); ok {
		return explainRun(g, i), nil
	}
	return Doc{}, &figures.UnknownError{What: "run or pack", Name: name}
}

// where is the place of a record.
func where(file string, line int) Value { return TextOf(fmt.Sprintf("%s:%d", file, line)) }

func explainRun(g *ledger.Ledger, i int) Doc {
	run, cost := &g.Records.Runs[i], &g.Runs[i]
	d := newDoc(g, "How the cost of run "+run.ID+" comes about")
	d.Fields = append(d.Fields,
		Field{Key: "run", Title: "run", Node: TextOf(run.ID)},
		Field{Key: "where", Title: "where", Node: where(ledger.RunsFile, run.Line)},
		Field{Key: "machine", Title: "machine", Node: TextOf(run.Machine)},
		Field{Key: "start", Title: "start", Node: MomentOf(run.Start)},
	)
	d.Fields = append(d.Fields, runSections(g, i)...)
	if run.Running {
		d.Notes = append(d.Notes, noteWords(g, figures.Note{Kind: figures.StillRunning, Run: i}))
	}
	d.Notes = append(d.Notes, cost.Notes...)
	d.Notes = append(d.Notes, cautions(g, func(f int) bool { return cost.Loaded(f) })...)
	return d
}

// runSections are the steps from receipts to the cost per unit.
func runSections(g *ledger.Ledger, i int) []Field {
	return []Field{
		field("food", "1. Food, from its lots", foodSteps(g, i)),
		field("electricity", "2. Electricity, phase by phase and band by band", powerSteps(g, i)),
		field("common", "3. Wear, supplies and labour of the run", commonSteps(g, i)),
		field("shares", "4. Each load's part, and what of it was lost", shareSteps(g, i)),
		field("packs", "5. The good cost on its packs, with their own supplies", packSteps(g, i)),
		field("result", "6. Per unit, beside the shelf", resultSteps(g, i)),
	}
}

// takes lists what was drawn from lots, which are counted in a unit or, if that
// is none, in uses.
func takes(g *ledger.Ledger, t *Table, what string, unit exact.Unit, uses string, r ledger.Range) {
	for _, take := range g.Takes[r.From:r.To] {
		t.Rows = append(t.Rows, takeRow(g, what, unit, uses, take))
	}
}

// countedIn is an amount of a lot and what it is counted in: the unit of a
// food, else a word for its uses.
func countedIn(n exact.Number, unit exact.Unit, uses string) (amount, in Value) {
	if unit == exact.NoUnit {
		return PlainOf(n), TextOf(uses)
	}
	return AmountOf(n, unit), UnitOf(unit)
}

func takeRow(g *ledger.Ledger, what string, unit exact.Unit, uses string, take ledger.Take) Row {
	from, of := TextOf("list price"), None
	if take.Lot != ledger.ListPrice {
		lot := &g.Lots[take.Lot]
		from, of = lotPlace(g, lot), DateOf(lot.Date)
	}
	amount, in := countedIn(take.Quantity, unit, uses)
	return Row{Cells: []Value{TextOf(what), from, of, amount, in, PostedOf(take.Cost)}}
}

// supplyTakes lists what was drawn of supplies, times over. Draws follow the
// order of the uses, which is how one at list price is told: it has no lot.
func supplyTakes(g *ledger.Ledger, t *Table, uses []ledger.Use, times exact.Number, r ledger.Range) {
	takes := g.Takes[r.From:r.To]
	for _, use := range uses {
		for left := use.Number.Mul(times); left.Sign() > 0 && len(takes) > 0; takes = takes[1:] {
			left = left.Sub(takes[0].Quantity)
			row := takeRow(g, use.Supply, exact.NoUnit, "uses", takes[0])
			if s, ok := g.FindSupply(use.Supply); ok && takes[0].Lot == ledger.ListPrice {
				row.Cells[1] = TextOf(fmt.Sprintf("list price (%s:%d)", ledger.SuppliesFile, g.Supplies[s].Line))
			}
			t.Rows = append(t.Rows, row)
		}
	}
}

// lotPlace says which record a lot came from.
func lotPlace(g *ledger.Ledger, lot *ledger.Lot) Value {
	if lot.Batch >= 0 {
		return TextOf(fmt.Sprintf("batch %s (%s:%d)", lot.Receipt, ledger.BatchesFile, g.Batches[lot.Batch].Line))
	}
	name := "receipt " + lot.Receipt
	if lot.Number != "" {
		name += " line " + lot.Number
	}
	return TextOf(fmt.Sprintf("%s (%s:%d)", name, ledger.ReceiptsFile, g.Receipts[lot.Row].Line))
}

func takeColumns(first string) []Column {
	return []Column{
		{Key: "what", Title: first}, {Key: "lot", Title: "from"}, {Key: "date", Title: "of", Rank: 2},
		{Key: "quantity", Title: "amount"}, {Key: "unit", Title: "unit"}, {Key: "cost", Title: "cost"},
	}
}

func foodSteps(g *ledger.Ledger, i int) *Table {
	t := &Table{Columns: takeColumns("food")}
	var sum exact.Money
	for _, lc := range g.Runs[i].Loads {
		food := &g.Foods[g.Runs[i].Items[lc.Item].Food]
		takes(g, t, food.ID, food.Basis, "", lc.Takes)
		sum = sum.Add(lc.Costs[ledger.FoodCost])
	}
	t.Totals = []Row{{Cells: []Value{TextOf("food in all"), None, None, None, None, PostedOf(sum)}}}
	return t
}

func powerSteps(g *ledger.Ledger, i int) *Table {
	t := &Table{Columns: []Column{
		{Key: "phase", Title: "phase"}, {Key: "from", Title: "from"}, {Key: "to", Title: "to", Rank: 2},
		{Key: "kwh", Title: "kWh"}, {Key: "band", Title: "band"}, {Key: "rate", Title: "rate", Rank: 1}, {Key: "tax", Title: "tax %", Rank: 1},
		{Key: "cost", Title: "unrounded"}, {Key: "posted", Title: "posted"},
	}}
	cost := &g.Runs[i]
	for j, bill := range cost.Phases {
		name := g.PhaseName(i, j)
		for _, p := range bill.Pieces {
			t.Rows = append(t.Rows, Row{Cells: []Value{
				TextOf(name), MomentOf(p.From), MomentOf(p.To), QuotientOf(p.Energy, 4), where(ledger.TariffsFile, p.Band.Line),
				PlainOf(p.Band.Rate), PlainOf(p.Band.Tax), QuotientOf(p.Cost, 8), None,
			}})
		}
		last := len(t.Rows) - 1
		if last >= 0 {
			t.Rows[last].Cells[8] = PostedOf(bill.Cost)
		}
	}
	t.Totals = []Row{{Cells: []Value{TextOf("electricity in all"), None, None, QuotientOf(cost.Energy, 4), None, None, None, None, PostedOf(cost.Electricity)}}}
	return t
}

func commonSteps(g *ledger.Ledger, i int) *Table {
	cost := &g.Runs[i]
	t := &Table{Columns: takeColumns("what")}
	takes(g, t, "wear: a cycle of "+g.Records.Runs[i].Machine, exact.NoUnit, "cycles", cost.WearTakes)
	if m, ok := g.FindMachine(g.Records.Runs[i].Machine); ok {
		supplyTakes(g, t, g.Machines[m].With, exact.Int(1), cost.SupplyTakes)
	}
	if run := &g.Records.Runs[i]; run.Hands > 0 {
		t.Rows = append(t.Rows, Row{Cells: []Value{
			TextOf("labour: " + exact.FormatDuration(run.Hands)), where(ledger.RunsFile, run.Line), None, None, None, PostedOf(cost.Labour),
		}})
	}
	return t
}

// weightTitle says by what the loads share, and the unit that it is in.
func weightTitle(g *ledger.Ledger, cost *ledger.RunCost) string {
	title := "weight by " + cost.SharedBy.String()
	switch cost.SharedBy {
	case ledger.ByWater, ledger.ByMass:
		title += ", " + exact.Kg.String()
	case ledger.ByQuantity: // all are counted in one unit
		title += ", " + g.Foods[cost.Items[0].Food].Basis.String()
	}
	return title
}

func shareSteps(g *ledger.Ledger, i int) *Table {
	cost := &g.Runs[i]
	t := &Table{Columns: []Column{
		{Key: "item", Title: "food"}, {Key: "where", Title: "where", Rank: 2}, {Key: "weight", Title: weightTitle(g, cost)},
	}}
	for _, e := range ledger.Elements() {
		t.Columns = append(t.Columns, Column{Key: e.String(), Title: e.String(), Rank: 1})
	}
	t.Columns = append(t.Columns, Column{Key: "lost", Title: "lost"})
	for _, lc := range cost.Loads {
		cells := []Value{foodValue(&g.Foods[cost.Items[lc.Item].Food]), where(ledger.LoadsFile, g.Records.Loads[lc.Load].Line), PlainOf(lc.Weight)}
		for _, m := range lc.Costs {
			cells = append(cells, PostedOf(m))
		}
		t.Rows = append(t.Rows, Row{Cells: append(cells, PostedOf(lc.Lost.Total()))})
	}
	return t
}

func packSteps(g *ledger.Ledger, i int) *Table {
	t := &Table{Columns: []Column{
		{Key: "pack", Title: "pack"}, {Key: "where", Title: "where", Rank: 1}, {Key: "count", Title: "count"}, {Key: "makes", Title: "makes"},
		{Key: "unit", Title: "unit"}, {Key: "share", Title: "share of the run"}, {Key: "supplies", Title: "own supplies"}, {Key: "total", Title: "total"},
	}, Empty: "It awaits packing."}
	if g.Records.Runs[i].Running {
		t.Empty = "It is in the machine."
	}
	for _, item := range g.Runs[i].Items {
		for _, p := range item.Packs {
			pack, cost := &g.Records.Packs[p], &g.Packs[p]
			t.Rows = append(t.Rows, Row{Notes: cost.Notes, Cells: []Value{
				TextOf(pack.ID), where(ledger.PacksFile, pack.Line), CountOf(pack.Count), AmountOf(cost.Made, g.Foods[item.Food].Basis),
				UnitOf(g.Foods[item.Food].Basis), PostedOf(cost.Share.Total()), PostedOf(cost.Own), PostedOf(cost.Total),
			}})
		}
	}
	return t
}

func resultSteps(g *ledger.Ledger, i int) *Table {
	t := &Table{Columns: []Column{
		{Key: "item", Title: "food"}, {Key: "unit", Title: "unit"}, {Key: "total", Title: "total"}, {Key: "reconstituted", Title: "makes"},
		{Key: "per_unit", Title: "per unit"}, {Key: "shelf_per_unit", Title: "shelf"}, {Key: "shelf_from", Title: "shelf price from", Rank: 1},
		{Key: "saving", Title: "saving"},
	}}
	for j := range g.Runs[i].Items {
		r := figures.CostOf(g, figures.CostQuery{}, i, j)
		t.Rows = append(t.Rows, Row{Notes: rowNotes(g, r.Notes), Cells: resultCells(g, &r)})
	}
	return t
}

func resultCells(g *ledger.Ledger, r *figures.CostRow) []Value {
	shelf, from := None, None
	if price, ok := g.ShelfPrice(r.Food, r.Date, pricing.Fresh); ok {
		shelf, from = PriceOf(price.PerUnit, r.Unit), where(ledger.ShelfFile, price.Ask.Line)
		if price.Batch != "" {
			from = TextOf("what batch " + price.Batch + " took")
		}
	}
	return []Value{
		foodValue(&g.Foods[r.Food]), UnitOf(r.Unit), PostedOf(r.Good.Total()), AmountOf(r.Made, r.Unit),
		optPrice(r.PerUnit(), r.Unit), shelf, from, optMoney(r.Saving),
	}
}
