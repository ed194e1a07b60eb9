package report

import (
	"fmt"
	"strings"
	"time"

	"putby/energy"
	"putby/ledger"
	"putby/ledger/figures"
	"putby/pricing/exact"
)

// Explain lays out what the cost of a run or a pack is made of, step by step,
// back to the file and line of each record; see [figures.Explain].
func Explain(g *ledger.Ledger, name string) (Doc, error) {
	return laid(g, name, figures.Explain, func(g *ledger.Ledger, _ string, found *figures.ExplainResult) Doc {
		e := explained{reportingOn(g), found}
		if e.Pack >= 0 {
			return e.packDoc()
		}
		return e.runDoc()
	})
}

// explained is being laid out.
type explained struct {
	reporting
	*figures.ExplainResult
}

// where is the place of a record.
func where(file string, line int) Value { return TextOf(fmt.Sprintf("%s:%d", file, line)) }

func (e explained) runDoc() Doc {
	run, cost := &e.g.Records.Runs[e.Run], &e.g.Runs[e.Run]
	d := newDoc(e.g, "What the cost of run "+run.ID+" is made of")
	d.Words = []string{e.answerOfRun()}
	d.Fields = append(d.Fields,
		Field{Key: "run", Title: "run", Node: TextOf(run.ID)},
		Field{Key: "where", Title: "where", Node: where(ledger.RunsFile, run.Line)},
		Field{Key: "machine", Title: "machine", Node: TextOf(run.Machine)},
		Field{Key: "start", Title: "start", Node: MomentOf(run.Start)},
	)
	d.Fields = append(d.Fields, e.runSections()...)
	if run.Running {
		d.Notes = append(d.Notes, noteWords(e.g, figures.Note{Kind: figures.StillRunning, Run: e.Run}))
	}
	d.Notes = append(d.Notes, Stated(e.g, cost.Notes)...)
	d.Cautions = cautions(e.g, func(f int) bool { return cost.Loaded(f) })
	return d
}

// runSections are the steps from receipts to the cost per unit.
func (e explained) runSections() []Field {
	return []Field{
		field("food", "1. Food, from its lots", e.food()),
		field("electricity", "2. Electricity, phase by phase and band by band", powerSteps(e.g, e.Run)),
		field("common", "3. Wear, supplies and labour of the run", e.common()),
		field("shares", "4. Each load's part, and what of it was lost", shareSteps(e.g, e.Run)),
		field("packs", "5. The good cost on its packs, with their own supplies", packSteps(e.g, e.Run)),
		field("result", "6. Per unit, beside the shelf", e.costs()),
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

// taken is the row of an amount drawn from a lot.
func (e explained) taken(t *figures.Taken) Row {
	what, unit, uses := "wear: a cycle of ", exact.NoUnit, "uses"
	from, of := "list price", None
	switch {
	case t.Food >= 0:
		what, unit = e.g.Foods[t.Food].ID, e.g.Foods[t.Food].Basis
	case t.Supply >= 0:
		what = e.g.Supplies[t.Supply].ID
		from = fmt.Sprintf("list price (%s:%d)", ledger.SuppliesFile, e.g.Supplies[t.Supply].Line)
	default:
		what, uses = what+e.g.Records.Runs[e.Run].Machine, "cycles"
	}
	if t.Lot != ledger.ListPrice {
		lot := &e.g.Lots[t.Lot]
		from, of = lotPlace(e.g, lot), DateOf(lot.Date)
	}
	amount, in := countedIn(t.Quantity, unit, uses)
	return Row{Cells: []Value{TextOf(what), TextOf(from), of, amount, in, PostedOf(t.Cost)}}
}

// takenTable lists what was drawn from lots.
func (e explained) takenTable(what string, list []figures.Taken) *Table {
	t := &Table{Columns: []Column{
		{Key: "what", Title: what}, {Key: "lot", Title: "from", Wrap: true}, {Key: "date", Title: "of", Rank: 2},
		{Key: "quantity", Title: "amount"}, {Key: "unit", Title: "unit"}, {Key: "cost", Title: "cost"},
	}}
	for i := range list {
		t.Rows = append(t.Rows, e.taken(&list[i]))
	}
	return t
}

// lotPlace says which record a lot came from.
func lotPlace(g *ledger.Ledger, lot *ledger.Lot) string {
	if lot.Batch >= 0 {
		return fmt.Sprintf("batch %s (%s:%d)", lot.Receipt(), ledger.BatchesFile, g.Batches[lot.Batch].Line)
	}
	name := "receipt " + lot.Receipt()
	if lot.Number() != "" {
		name += " line " + lot.Number()
	}
	return fmt.Sprintf("%s (%s:%d)", name, ledger.ReceiptsFile, g.Receipts.At(int(lot.Row)).Line)
}

func (e explained) food() *Table {
	t := e.takenTable("food", e.Food)
	t.Totals = []Row{{Cells: []Value{TextOf("food in all"), None, None, None, None, PostedOf(e.Bought)}}}
	return t
}

func powerSteps(g *ledger.Ledger, i int) *Table {
	t := &Table{Columns: []Column{
		{Key: "phase", Title: "phase"}, {Key: "from", Title: "from"}, {Key: "to", Title: "to", Rank: 4},
		{Key: "kwh", Title: "kWh"}, {Key: "band", Title: "band", Rank: 3, Wrap: true}, {Key: "rate", Title: "rate", Rank: 5}, {Key: "tax", Title: "tax %", Rank: 5},
		{Title: "rate+tax", Rank: 2},
		{Key: "cost", Title: "unrounded"}, {Key: "posted", Title: "posted", Rank: 1},
	}}
	cost := &g.Runs[i]
	moment := momentsOf(cost)
	for j, bill := range cost.Phases {
		name := g.PhaseName(i, j)
		for _, p := range bill.Pieces {
			t.add(TextOf(name), moment(p.From), moment(p.To), QuotientOf(p.Energy, 4), bandPlace(p),
				PlainOf(p.Rate()), PlainOf(p.Band.Tax), PlainOf(p.Band.PriceAt(p.Hour.Or(exact.Number{}))), QuotientOf(p.Cost, 8), None)
		}
		last := len(t.Rows) - 1
		if last >= 0 { // posted is rounded once a phase, so it stands beside the phase's last piece
			t.Rows[last].Cells[9] = PostedOf(bill.Cost)
		}
	}
	t.Totals = []Row{{Cells: []Value{TextOf("electricity in all"), None, None, QuotientOf(cost.Energy, 4), None, None, None, None, None, PostedOf(cost.Electricity)}}}
	return t
}

// momentsOf is how the times of a run are shown: with their offset where the
// clocks change during it, since one of them may then be shown twice.
func momentsOf(cost *ledger.RunCost) func(time.Time) Value {
	offsets := map[string]bool{}
	for _, bill := range cost.Phases {
		for _, p := range bill.Pieces {
			offsets[p.From.Format("-07:00")] = true
		}
	}
	if len(offsets) > 1 {
		return momentWithOffset
	}
	return MomentOf
}

// bandPlace is the place of the band that a piece falls in, and of the hour's
// price where it has one.
func bandPlace(p energy.Piece) Value {
	if p.Hour.Given() {
		return TextOf(fmt.Sprintf("%s:%d + %s:%d", ledger.TariffsFile, p.Band.Line, ledger.RatesFile(p.Tariff), p.HourLine))
	}
	return where(ledger.TariffsFile, p.Band.Line)
}

func (e explained) common() *Table {
	t := e.takenTable("what", e.Common)
	if run := &e.g.Records.Runs[e.Run]; run.Hands > 0 {
		t.add(TextOf("labour: "+exact.FormatDuration(run.Hands)), where(ledger.RunsFile, run.Line), None, None, None, PostedOf(e.g.Runs[e.Run].Labour))
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
		cells := []Value{foodValue(&g.Foods[cost.Items[lc.Item].Food]), where(ledger.LoadsFile, g.Records.Loads.At(int(lc.Load)).Line), PlainOf(lc.Weight)}
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
			pack, cost := g.Records.Packs.At(int(p)), &g.Packs[p]
			t.Rows = append(t.Rows, Row{Notes: Stated(g, cost.Notes()), Cells: []Value{
				TextOf(pack.ID), where(ledger.PacksFile, pack.Line), CountOf(pack.Count), AmountOf(cost.Made(), g.Foods[item.Food].Basis),
				UnitOf(g.Foods[item.Food].Basis), PostedOf(cost.Share.Total()), PostedOf(cost.Own), PostedOf(cost.Total()),
			}})
		}
	}
	return t
}

// answerOfRun says what each food of the run cost.
func (e explained) answerOfRun() string {
	var parts []string
	for i := range e.Costs {
		r := &e.Costs[i]
		per, packed := r.PerUnit().Get()
		if !packed {
			continue
		}
		unit := figures.UnitAnswer{Unit: r.Unit, PerUnit: per, Shelf: r.Shelf, OfBatch: r.OfBatch}
		parts = append(parts, e.title(r.Food)+" "+e.money(r.Good.Total().Ratio())+", "+e.unitAnswer(unit, false, onShelf))
	}
	run := "Run " + e.g.Records.Runs[e.Run].ID
	if parts == nil {
		return run + ": " + e.money(e.Good().Ratio()) + " so far; nothing of it is packed."
	}
	return run + ": " + strings.Join(parts, "; ") + "."
}

func (e explained) costs() *Table {
	t := &Table{Columns: []Column{
		{Key: "item", Title: "food"}, {Key: "unit", Title: "unit"}, {Key: "total", Title: "total"}, {Key: "reconstituted", Title: "makes"},
		{Key: "per_unit", Title: "per unit"}, {Key: "shelf_per_unit", Title: "shelf"}, {Key: "shelf_from", Title: "shelf price from", Rank: 1},
		{Key: "saving", Title: "saving"},
	}}
	for i := range e.Costs {
		r, from := &e.Costs[i], None
		if price, ok := r.Price.Get(); ok && price.Batch != "" {
			from = TextOf("what batch " + price.Batch + " took")
		} else if ok {
			from = where(ledger.ShelfFile, price.Ask.Line)
		}
		t.Rows = append(t.Rows, Row{Notes: rowNotes(e.g, r.Notes), Cells: []Value{
			foodValue(&e.g.Foods[r.Food]), UnitOf(r.Unit), PostedOf(r.Good.Total()), AmountOf(r.Made, r.Unit),
			optPrice(r.PerUnit(), r.Unit), optPrice(r.Shelf, r.Unit), from, optMoney(r.Saving),
		}})
	}
	return t
}
