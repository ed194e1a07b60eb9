package report

import (
	"cmp"
	"slices"

	"putby/ledger"
	"putby/pricing/exact"
)

// A thread is what a trace has found so far. Lots are positions in
// Ledger.Lots; packs, runs and batches in their records.
type thread struct {
	g       *ledger.Ledger
	lots    map[int32]bool // that hold what is traced
	sources []sourceRow    // what it was made of
	bought  []int          // rows of receipts that are traced
	batches []int          // it went into, in order of time
	through []passage      // runs it went through
	tariffs []int          // runs whose electricity is part of it
	packs   []int          // that hold it
	gone    [][ledger.Missing + 1]int
	foods   map[int]bool // that are reported
	assumed bool         // lots were drawn oldest first, as the books assume
	notes   doubts
}

// A sourceRow is an amount that came from a lot, or was charged at list price.
type sourceRow struct {
	role, via string // what for; the batch by whose way
	item      string
	unit      exact.Unit
	lot       int32
	quantity  exact.Number
}

// A passage is a food of a run that holds what is traced.
type passage struct {
	run, item int
	amount    exact.Opt[exact.Number] // of it; none where it is no food
	how       string
}

func newThread(g *ledger.Ledger) *thread {
	t := &thread{g: g, lots: map[int32]bool{}, foods: map[int]bool{}, gone: make([][ledger.Missing + 1]int, len(g.Packs))}
	for i := range g.Moves {
		if m := &g.Moves[i]; m.Pack >= 0 {
			n, _ := m.Quantity.Int64()
			t.gone[m.Pack][m.Reason] += int(n)
		}
	}
	return t
}

// fromReceipt begins at lines of a receipt.
func (t *thread) fromReceipt(rows []int) {
	t.bought = rows
	for i := range t.g.Lots {
		if lot := &t.g.Lots[i]; lot.Batch < 0 && slices.Contains(rows, lot.Row) {
			t.lots[int32(i)] = true
			if f, ok := t.g.FindFood(lot.Item); ok {
				t.foods[f] = true
			}
		}
	}
}

// fromBatch begins at a batch: back to what it took, forward to what it made.
func (t *thread) fromBatch(i int) {
	t.back("food", "", t.g.Batch[i].Takes)
	t.made(i)
}

// fromRun begins at a run: back to all it took, forward to all its packs.
func (t *thread) fromRun(i int) {
	for j := range t.g.Runs[i].Items {
		t.ofRun(i, j)
		t.pass(passage{run: i, item: j})
	}
	t.common(i)
}

// fromPack begins at a pack: back to its run and its supplies.
func (t *thread) fromPack(i int) {
	t.addPack(i)
	pack := &t.g.Packs[i]
	if run, ok := t.g.FindRun(t.g.Records.Packs[i].Run); ok {
		j := slices.IndexFunc(t.g.Runs[run].Items, func(item ledger.ItemCost) bool { return item.Food == pack.Food })
		t.ofRun(run, j)
		t.through = append(t.through, passage{run: run, item: j})
		t.common(run)
	} else {
		t.notes.add("opening stock: the records begin with it, so nothing is known of where it came from")
	}
	t.back("on the pack", "", pack.Takes)
}

// ofRun goes back from a food of a run to the lots of its loads.
func (t *thread) ofRun(run, item int) {
	for _, lc := range t.g.Runs[run].Loads {
		if lc.Item == item {
			t.back("food", "", lc.Takes)
		}
	}
}

// common goes back from a run to its wear, its supplies and its tariff.
func (t *thread) common(run int) {
	cost := &t.g.Runs[run]
	t.back("a cycle of the machine", "", cost.WearTakes)
	t.back("in the cycle", "", cost.SupplyTakes)
	t.tariffs = append(t.tariffs, run)
}

// back lists what a range of takes drew on, and by way of batches what those
// took.
func (t *thread) back(role, via string, r ledger.Range) {
	for _, take := range t.g.Takes[r.From:r.To] {
		if take.Lot == ledger.ListPrice {
			t.addSource(sourceRow{role: role, via: via, lot: ledger.ListPrice, quantity: take.Quantity})
			continue
		}
		lot := &t.g.Lots[take.Lot]
		row := sourceRow{role: role, via: via, item: lot.Item, lot: take.Lot, quantity: take.Quantity}
		if f, ok := t.g.FindFood(lot.Item); ok {
			row.unit, t.foods[f] = t.g.Foods[f].Basis, true
		}
		if known := t.addSource(row); lot.Batch >= 0 && !known {
			t.back(role, lot.Receipt, t.g.Batch[lot.Batch].Takes)
		}
	}
}

// addSource adds to a source, and reports whether it was there already.
func (t *thread) addSource(row sourceRow) bool {
	for i := range t.sources {
		s := &t.sources[i]
		if s.lot == row.lot && s.role == row.role && s.via == row.via && s.item == row.item {
			s.quantity = s.quantity.Add(row.quantity)
			return true
		}
	}
	t.sources = append(t.sources, row)
	return false
}

// follow goes forward from the lots that hold what is traced: into batches,
// which make new lots, then into runs, and onto packs.
func (t *thread) follow() {
	order := make([]int, len(t.g.Batches))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(t.g.Batch[a].Takes.From, t.g.Batch[b].Takes.From) })
	for _, i := range order {
		if amount := t.taken(t.g.Batch[i].Takes); amount.Sign() > 0 {
			t.made(i)
			t.assumed = true
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
func (t *thread) made(batch int) {
	if slices.Contains(t.batches, batch) {
		return
	}
	t.batches = append(t.batches, batch)
	for i := range t.g.Lots {
		if t.g.Lots[i].Batch == batch {
			t.lots[int32(i)] = true
		}
	}
	if f, ok := t.g.FindFood(t.g.Batches[batch].Item); ok {
		t.foods[f] = true
	}
}

// taken is how much of a range of takes came from lots that are traced.
func (t *thread) taken(r ledger.Range) (sum exact.Number) {
	for _, take := range t.g.Takes[r.From:r.To] {
		if take.Lot != ledger.ListPrice && t.lots[take.Lot] {
			sum = sum.Add(take.Quantity)
		}
	}
	return sum
}

func (t *thread) followRun(i int) {
	run := &t.g.Runs[i]
	amounts := make([]exact.Number, len(run.Items))
	for _, lc := range run.Loads {
		if n := t.taken(lc.Takes); n.Sign() > 0 {
			amounts[lc.Item] = amounts[lc.Item].Add(n)
			t.assumed = t.assumed || t.g.Records.Loads[lc.Load].Receipt == ""
		}
	}
	how := ""
	switch {
	case t.taken(run.SupplyTakes).Sign() > 0:
		how = "in the cycle"
	case t.taken(run.WearTakes).Sign() > 0:
		how = "a cycle of the machine"
	}
	for j, n := range amounts {
		switch {
		case n.Sign() > 0:
			t.pass(passage{run: i, item: j, amount: exact.Some(n), how: "food"})
		case how != "":
			t.pass(passage{run: i, item: j, how: how})
		}
	}
}

// pass goes on with the packs of a run's food.
func (t *thread) pass(p passage) {
	t.through = append(t.through, p)
	item := &t.g.Runs[p.run].Items[p.item]
	t.foods[item.Food] = true
	for _, i := range item.Packs {
		if t.g.Packs[i].Done {
			t.addPack(int(i))
		}
	}
}

func (t *thread) addPack(i int) {
	if !slices.Contains(t.packs, i) {
		t.packs = append(t.packs, i)
		t.foods[t.g.Packs[i].Food] = true
	}
}
