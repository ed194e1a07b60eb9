package figures

import (
	"cmp"
	"slices"

	"putby/ledger"
	"putby/pricing/exact"
)

// A chain is a trace being followed.
type chain struct {
	TraceResult
	g     *ledger.Ledger
	lots  map[int32]bool // that hold what is traced
	packs []int          // that hold it
	power []int          // runs whose electricity is part of it
}

func newChain(g *ledger.Ledger) *chain {
	return &chain{g: g, lots: map[int32]bool{}, TraceResult: TraceResult{Foods: make([]bool, len(g.Foods))}}
}

// fromReceipt begins at lines of a receipt.
func (t *chain) fromReceipt(rows []int) {
	t.Lines = rows
	for i := range t.g.Lots {
		if lot := &t.g.Lots[i]; lot.Batch < 0 && slices.Contains(rows, int(lot.Row)) {
			t.lots[int32(i)] = true
			if f, ok := t.g.FindFood(lot.Item()); ok {
				t.Foods[f] = true
			}
		}
	}
}

// fromBatch begins at a batch: back to what it took, forward to what it made.
func (t *chain) fromBatch(i int) {
	t.back(InFood, "", t.g.Batch[i].Takes)
	t.made(i)
}

// fromRun begins at a run: back to all it took, forward to all its packs.
func (t *chain) fromRun(i int) {
	for j := range t.g.Runs[i].Items {
		t.ofRun(i, j)
		t.pass(Passage{Run: i, Item: j})
	}
	t.common(i)
}

// fromPack begins at a pack: back to its run and its supplies.
func (t *chain) fromPack(i int) {
	t.addPack(i)
	pack := &t.g.Packs[i]
	if run, ok := t.g.FindRun(t.g.Records.Packs.At(i).Run); ok {
		j := slices.IndexFunc(t.g.Runs[run].Items, func(item ledger.ItemCost) bool { return item.Food == pack.Food })
		t.ofRun(run, j)
		t.Passages = append(t.Passages, Passage{Run: run, Item: j})
		t.common(run)
	} else {
		t.Opening = true
	}
	t.back(OnPack, "", pack.Takes)
}

// ofRun goes back from a food of a run to the lots of its loads.
func (t *chain) ofRun(run, item int) {
	for _, lc := range t.g.Runs[run].Loads {
		if int(lc.Item) == item {
			t.back(InFood, "", lc.Takes)
		}
	}
}

// common goes back from a run to its wear, its supplies and its tariff.
func (t *chain) common(run int) {
	cost := &t.g.Runs[run]
	t.back(OfTheMachine, "", cost.WearTakes)
	t.back(InCycle, "", cost.SupplyTakes)
	t.power = append(t.power, run)
}

// back lists what a range of takes drew on, and by way of batches what those
// took. A batch takes from lots made before it alone, so this ends; a source met
// again only adds to its amount, so that no batch is listed twice.
func (t *chain) back(role Role, via string, r ledger.Range) {
	for _, take := range t.g.Takes[r.From:r.To] {
		if take.Lot == ledger.ListPrice {
			t.addSource(Source{For: role, Via: via, Lot: ledger.ListPrice, Quantity: take.Quantity})
			continue
		}
		lot := &t.g.Lots[take.Lot]
		row := Source{For: role, Via: via, Item: lot.Item(), Lot: take.Lot, Quantity: take.Quantity}
		if f, ok := t.g.FindFood(lot.Item()); ok {
			row.Unit, t.Foods[f] = t.g.Foods[f].Basis, true
		}
		if known := t.addSource(row); lot.Batch >= 0 && !known {
			t.back(role, lot.Receipt(), t.g.Batch[lot.Batch].Takes)
		}
	}
}

// addSource adds to a source, and reports whether it was there already.
func (t *chain) addSource(row Source) bool {
	for i := range t.Sources {
		s := &t.Sources[i]
		if s.Lot == row.Lot && s.For == row.For && s.Via == row.Via && s.Item == row.Item {
			s.Quantity = s.Quantity.Add(row.Quantity)
			return true
		}
	}
	t.Sources = append(t.Sources, row)
	return false
}

// follow goes forward from the lots that hold what is traced: into batches,
// which make new lots, then into runs, and onto packs.
func (t *chain) follow() {
	order := make([]int, len(t.g.Batches))
	for i := range order {
		order[i] = i
	}
	// In the order in which they were cooked, as their takes lie: one may go into the next.
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(t.g.Batch[a].Takes.From, t.g.Batch[b].Takes.From) })
	for _, i := range order {
		if amount := t.taken(t.g.Batch[i].Takes); amount.Sign() > 0 {
			t.made(i)
			t.Assumed = true
		}
	}
	for i := range t.g.Runs {
		if t.g.Runs[i].Done {
			t.followRun(i)
		}
	}
	for i := range t.g.Packs {
		if t.taken(t.g.Packs[i].Takes).Sign() > 0 {
			t.addPack(i)
		}
	}
}

// made goes on with what a batch made.
func (t *chain) made(batch int) {
	if slices.Contains(t.Batches, batch) {
		return
	}
	t.Batches = append(t.Batches, batch)
	for i := range t.g.Lots {
		if t.g.Lots[i].Batch == int32(batch) {
			t.lots[int32(i)] = true
		}
	}
	if f, ok := t.g.FindFood(t.g.Batches[batch].Item); ok {
		t.Foods[f] = true
	}
}

// taken is how much of a range of takes came from lots that are traced.
func (t *chain) taken(r ledger.Range) (sum exact.Number) {
	for _, take := range t.g.Takes[r.From:r.To] {
		if take.Lot != ledger.ListPrice && t.lots[take.Lot] {
			sum = sum.Add(take.Quantity)
		}
	}
	return sum
}

func (t *chain) followRun(i int) {
	run := &t.g.Runs[i]
	amounts := make([]exact.Number, len(run.Items))
	for _, lc := range run.Loads {
		if n := t.taken(lc.Takes); n.Sign() > 0 {
			amounts[lc.Item] = amounts[lc.Item].Add(n)
			t.Assumed = t.Assumed || t.g.Records.Loads.At(int(lc.Load)).Receipt == ""
		}
	}
	as := Role(0)
	switch {
	case t.taken(run.SupplyTakes).Sign() > 0:
		as = InCycle
	case t.taken(run.WearTakes).Sign() > 0:
		as = OfTheMachine
	}
	for j, n := range amounts {
		switch {
		case n.Sign() > 0:
			t.pass(Passage{Run: i, Item: j, Amount: exact.Some(n), As: InFood})
		case as != 0:
			t.pass(Passage{Run: i, Item: j, As: as})
		}
	}
}

// pass goes on with the packs of a run's food.
func (t *chain) pass(p Passage) {
	t.Passages = append(t.Passages, p)
	item := &t.g.Runs[p.Run].Items[p.Item]
	t.Foods[item.Food] = true
	for _, i := range item.Packs {
		if t.g.Packs[i].Done {
			t.addPack(int(i))
		}
	}
}

func (t *chain) addPack(i int) {
	if !slices.Contains(t.packs, i) {
		t.packs = append(t.packs, i)
		t.Foods[t.g.Packs[i].Food] = true
	}
}

// finish lists what follows from the packs, the lots and the runs that are
// traced.
func (t *chain) finish() {
	gone := make([][ledger.Missing + 1]int, len(t.g.Packs))
	for i := range t.g.Moves {
		m, quantity := &t.g.Moves[i], exact.Number{}
		if m.Pack >= 0 {
			n, _ := m.Quantity.Int64()
			gone[m.Pack][m.Reason] += int(n)
			if slices.Contains(t.packs, m.Pack) {
				quantity = m.Quantity
			}
		} else {
			// Who takes fresh food or supplies names no lot: that it was of these the books assume.
			quantity = t.taken(m.Takes)
			t.Assumed = t.Assumed || quantity.Sign() > 0
		}
		if quantity.Sign() > 0 {
			t.Moves = append(t.Moves, TracedMove{i, quantity})
		}
	}
	slices.Sort(t.packs)
	for _, i := range t.packs {
		t.Packs = append(t.Packs, TracedPack{i, gone[i]})
	}
	for i := range t.g.Lots {
		if t.lots[int32(i)] && t.g.Lots[i].Left.Sign() > 0 {
			t.InHand = append(t.InHand, int32(i))
		}
	}
	for i := range t.Passages {
		p := &t.Passages[i]
		_, p.Waits = unpacked(t.g, &t.g.Runs[p.Run].Items[p.Item])
	}
	for _, run := range t.power {
		t.Bands = append(t.Bands, bandsOf(t.g, run)...)
	}
}

// bandsOf sums what a run used under each band of its tariff, in file order.
func bandsOf(g *ledger.Ledger, run int) []BandUse {
	var list []BandUse
	for _, bill := range g.Runs[run].Phases {
		for _, p := range bill.Pieces {
			at := slices.IndexFunc(list, func(b BandUse) bool { return b.Band.Line == p.Band.Line })
			if at < 0 {
				at = len(list)
				list = append(list, BandUse{Run: run, Tariff: p.Tariff, Band: p.Band})
			}
			list[at].Energy = list[at].Energy.Add(p.Energy)
			list[at].paid = list[at].paid.Add(p.Energy.Times(p.Rate()))
		}
	}
	slices.SortFunc(list, func(a, b BandUse) int { return cmp.Compare(a.Band.Line, b.Band.Line) })
	return list
}
