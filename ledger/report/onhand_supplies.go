package report

import (
	"fmt"
	"slices"

	"putby/ledger"
	"putby/pricing/exact"
)

// A supplyState is what there is of a supply, by the piece.
type supplyState struct {
	*ledger.Supply
	ledger.Pieces
	cost  exact.Money
	usage supplyUsage
	away  exact.Number // on packs given away, less those that a draw says stayed there
	notes []string
}

// supplyUsage is what a supply is drawn for, and how much each time.
type supplyUsage struct {
	what string // "containers" or "cycles"; empty: nobody knows
	each exact.Number
}

// supplyField lists the supplies that were ever bought or used.
func supplyField(g *ledger.Ledger) Field {
	t := &Table{Columns: []Column{
		{Key: "supply", Title: "supply"}, {Key: "kind", Title: "kind", Rank: 4}, {Key: "owned", Title: "owned", Rank: 2},
		{Key: "in_store", Title: "full in store", Rank: 3}, {Key: "free", Title: "free"}, {Key: "uses_left"}, {Title: "uses left", Rank: 4}, {Key: "lasts", Title: "enough for"}, {Key: "of", Title: "more"},
		{Key: "cost", Title: "cost", Rank: 3}, {Key: NotesKey, Title: "notes"},
	}}
	for i := range g.Supplies {
		s := stateOf(g, i)
		if len(g.SupplyStock(i).Lots()) == 0 && !s.everUsed(g) {
			continue
		}
		t.Rows = append(t.Rows, s.row())
	}
	return field("supplies", "Supplies left", t)
}

func stateOf(g *ledger.Ledger, i int) supplyState {
	s := supplyState{Supply: &g.Supplies[i], Pieces: g.Pieces(i), cost: g.SupplyStock(i).Cost}
	s.usage = usageOf(g, s.Supply)
	if s.ServesAgain() {
		s.away = givenAway(g, i)
	}
	s.judge()
	return s
}

// usageOf finds what a supply is for: what the packs or the machines draw it
// for, else what its kind is for.
func usageOf(g *ledger.Ledger, s *ledger.Supply) supplyUsage {
	var u supplyUsage
	latest := exact.NoDate
	for i := range g.Records.Packs {
		p := &g.Records.Packs[i]
		if n := drawnBy(p.With, s.ID); g.Packs[i].Done && n.Sign() > 0 && p.Date >= latest {
			u, latest = supplyUsage{"containers", n}, p.Date
		}
	}
	if u.what != "" {
		return u
	}
	for i := range g.Machines {
		if n := drawnBy(g.Machines[i].With, s.ID); n.Sign() > 0 {
			u = supplyUsage{"cycles", n.Max(u.each)}
		}
	}
	switch {
	case u.what != "":
		return u
	case slices.Contains([]ledger.SupplyKind{ledger.Jar, ledger.Bag, ledger.Lid, ledger.Absorber, ledger.Label}, s.Kind):
		return supplyUsage{"containers", exact.Int(1)}
	case s.Kind == ledger.Oil || s.Kind == ledger.Filter:
		return supplyUsage{"cycles", exact.Int(1)}
	}
	return u
}

// drawnBy returns how much of a supply a `with` draws.
func drawnBy(with []ledger.Use, supply string) (n exact.Number) {
	for _, u := range with {
		if u.Supply == supply {
			n = n.Add(u.Number)
		}
	}
	return n
}

// givenAway is how many containers went away on packs that were given, beyond
// those that a draw says stayed with whom they were given to.
func givenAway(g *ledger.Ledger, supply int) (n exact.Number) {
	for i := range g.Moves {
		m := &g.Moves[i]
		switch {
		case m.Reason != ledger.Given:
		case m.Supply == supply:
			n = n.Sub(m.Quantity)
		case m.Pack >= 0:
			n = n.Add(drawnBy(g.Records.Packs[m.Pack].With, g.Supplies[supply].ID).Mul(m.Quantity))
		}
	}
	return n
}

// judge says what is odd.
func (s *supplyState) judge() {
	if s.ServesAgain() && s.Owned.Cmp(exact.RatioOf(s.InStore)) < 0 {
		s.notes = append(s.notes, "more stand full in store than receipts cover")
	}
	if s.away.Sign() > 0 {
		s.notes = append(s.notes, fmt.Sprintf("counted as returned: %v given away with packs. Record those that are not: putby draw add --item %s --quantity %v --reason given", s.away, s.ID, s.away))
	}
	switch {
	case s.UsesLeft.Sign() > 0:
	case s.Price.Given():
		s.notes = append(s.notes, "none is left by the receipts: what is used is charged at its list price")
	default:
		s.notes = append(s.notes, "none is left by the receipts, and it has no list price: its next use needs a receipt first")
	}
}

// lasts is how many more containers or cycles it is enough for.
func (s *supplyState) lasts() Value {
	if s.usage.each.Sign() <= 0 {
		return None
	}
	ready := exact.RatioOf(s.UsesLeft)
	if s.ServesAgain() {
		ready = s.Free
	}
	return PlainOf(ready.Quo(exact.RatioOf(s.usage.each)).Floor())
}

func (s *supplyState) row() Row {
	inStore := None
	if s.ServesAgain() {
		inStore = PlainOf(s.InStore)
	}
	return Row{Notes: s.notes, Cells: []Value{
		nameValue(s.ID, s.Name), TextOf(s.Kind.String()), piecesOf(s.Owned), inStore, piecesOf(s.Free), PlainOf(s.UsesLeft), QuotientOf(exact.RatioOf(s.UsesLeft), 0), s.lasts(), textOrNone(s.usage.what), MoneyOf(s.cost),
	}}
}

// everUsed reports whether the supply is on a pack or in a machine's cycle.
func (s *supplyState) everUsed(g *ledger.Ledger) bool {
	for i := range g.Records.Packs {
		if g.Packs[i].Done && drawnBy(g.Records.Packs[i].With, s.ID).Sign() > 0 {
			return true
		}
	}
	for i := range g.Machines {
		if drawnBy(g.Machines[i].With, s.ID).Sign() > 0 {
			return true
		}
	}
	return false
}

// machineField lists the machines with the cycles left on them.
func machineField(g *ledger.Ledger) Field {
	t := &Table{Columns: []Column{
		{Key: "machine", Title: "machine"}, {Key: "cycles_done", Title: "cycles done"}, {Key: "cycles_left", Title: "cycles left"},
		{Key: "cost_left", Title: "wear left", Rank: 1}, {Key: "residual", Title: "residual", Rank: 2}, {Key: NotesKey, Title: "notes"},
	}}
	for i := range g.Machines {
		t.Rows = append(t.Rows, machineRow(g, i))
	}
	return field("machines", "Machines", t)
}

func machineRow(g *ledger.Ledger, i int) Row {
	m, stock, done := &g.Machines[i], g.MachineStock(i), 0
	for j := range g.Runs {
		if g.Runs[j].Done && g.Records.Runs[j].Machine == m.ID {
			done++
		}
	}
	if len(stock.Lots()) == 0 {
		return Row{Cells: []Value{nameValue(m.ID, m.Name), CountOf(done), None, None, None}, Notes: []string{"no receipt has it, so no wear is counted"}}
	}
	var residual exact.Money
	for _, lot := range stock.Lots() {
		residual = residual.Add(g.Lots[lot].Residual)
	}
	row := Row{Cells: []Value{nameValue(m.ID, m.Name), CountOf(done), PlainOf(stock.Left), MoneyOf(stock.Cost.Sub(residual)), MoneyOf(residual)}}
	if stock.Left.Sign() <= 0 {
		row.Notes = []string{"all expected cycles are used up: no wear is counted any more"}
	}
	return row
}
