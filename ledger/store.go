package ledger

import (
	"slices"

	"putby/pricing/exact"
)

// StoreOf is a ledger of the packs of some foods alone, with what was drawn of
// them and counted: what is in store, at a fraction of the work of [Join]. Of its
// records it has those packs, the loads and runs that they come from, and all
// foods and supplies. It works out no cost, and what is wrong with the records it
// does not say.
func StoreOf(rec *Records, foods ...string) *Ledger {
	g := begin(rec.about(foods), Options{Bare: true})
	g.outlinePacks()
	pass := func(int32) {}
	g.events().each(g.AsOf, [classCount]func(int32){
		receiptClass: pass, batchClass: pass, runClass: pass, frozenClass: pass,
		packClass:  func(i int32) { g.Packs[i].Done = g.Packs[i].Food >= 0 },
		drawClass:  g.drawOut,
		countClass: g.takeStock,
	})
	return g.Ledger
}

// HandOf is [StoreOf] with what is in hand of foods and supplies, fresh and by the
// piece, too, at the end of a day, or with [exact.NoDate] after all records.
func HandOf(rec *Records, day exact.Date, items ...string) *Ledger {
	few := rec.about(items)
	few.addHand(rec, items)
	g := begin(few, Options{Through: day, Bare: true})
	// Lots cost nothing here: only amounts are asked for.
	g.Spends, g.spendNotes = make([]exact.Money, few.Receipts.Len()), map[int32][]Note{}
	g.outlinePacks()
	g.events().each(g.AsOf, [classCount]func(int32){
		receiptClass: g.buy, batchClass: g.cook,
		runClass: func(i int32) {
			g.loadUp(int(i), &few.Runs[i], &g.Runs[i])
			g.scratch.loads = g.scratch.loads[:0]
			g.wear(&few.Runs[i], &g.Runs[i])
		},
		packClass: g.pack, drawClass: g.drawOut, frozenClass: g.freeze, countClass: g.takeStock,
	})
	return g.Ledger
}

// addHand adds the records that tell what is in hand of foods and supplies.
func (rec *Records) addHand(all *Records, items []string) {
	asked := func(item string) bool { return slices.Contains(items, item) }
	uses := func(list []Use) bool { return slices.ContainsFunc(list, func(u Use) bool { return asked(u.Supply) }) }
	packs, runs, machines := map[string]bool{}, map[string]bool{}, map[string]bool{}
	rec.Packs = all.Packs.Only(func(p *Pack) bool { return asked(p.Item) || uses(p.With) })
	for _, p := range rec.Packs.All() {
		packs[p.ID] = true
	}
	for i := range all.Machines {
		machines[all.Machines[i].ID] = uses(all.Machines[i].With)
	}
	for i := range rec.Runs {
		runs[rec.Runs[i].ID] = true
	}
	rec.Runs = only(all.Runs, func(r *Run) bool { return runs[r.ID] || machines[r.Machine] })
	rec.Receipts = all.Receipts.Only(func(r *ReceiptRow) bool { return r.Kind <= SupplyLine && asked(r.Item) })
	rec.Batches = only(all.Batches, func(b *Batch) bool {
		return asked(b.Item) || slices.ContainsFunc(b.From, func(p Part) bool { return asked(p.Item) })
	})
	rec.Draws = all.Draws.Only(func(d *Draw) bool { return packs[d.Pack] || asked(d.Item) })
	rec.Freezes = only(all.Freezes, func(f *Freeze) bool { return asked(f.Item) })
	rec.Counts = only(all.Counts, func(c *Count) bool { return packs[c.Pack] || asked(c.Item) })
}

// about returns the records that tell what is in store of some foods, and how it
// was dried.
func (rec *Records) about(foods []string) *Records {
	few := &Records{Settings: rec.Settings, Foods: rec.Foods, Supplies: rec.Supplies, Machines: rec.Machines, Tariffs: rec.Tariffs}
	packs, runs := map[string]bool{}, map[string]bool{}
	few.Packs = rec.Packs.Only(func(p *Pack) bool { return slices.Contains(foods, p.Item) })
	few.Loads = rec.Loads.Only(func(l *Load) bool { return slices.Contains(foods, l.Item) })
	for _, p := range few.Packs.All() {
		packs[p.ID], runs[p.Run] = true, true
	}
	for _, l := range few.Loads.All() {
		runs[l.Run] = true
	}
	few.Runs = only(rec.Runs, func(r *Run) bool { return runs[r.ID] })
	few.Draws = rec.Draws.Only(func(d *Draw) bool { return packs[d.Pack] })
	few.Counts = only(rec.Counts, func(c *Count) bool { return packs[c.Pack] })
	return few
}

// only returns the records that are asked for.
func only[R any](list []R, asked func(*R) bool) (some []R) {
	for i := range list {
		if asked(&list[i]) {
			some = append(some, list[i])
		}
	}
	return some
}
