package folder

import (
	"slices"

	"putby/ledger"
)

// A picking finds the records of an excerpt.
type picking struct {
	tables map[string]table // of the files of which it leaves out some, by name
	few    *ledger.Records  // foods, supplies, machines and batches
	foods  map[string]bool  // of whose packs everything is wanted

	wide     bool            // packs or supplies are moved, so that what all supplies and machines cost counts
	lots     map[string]bool // the foods, those that they were made of, where it is wide supplies and machines
	runs     map[string]bool // that dried the foods
	takers   map[string]bool // runs that took of any of the lots; these too
	worn     map[string]bool // machines whose runs cost wear or supplies
	packs    map[string]bool // of the foods
	receipts map[string]bool
	bought   string // the day of whose receipts all are wanted, and of others the first line
	empties  bool   // containers that serve again were counted
}

// A table goes through the records of a file by single cells, as [ledger.Table] does.
type table interface {
	Column(name string) func() string
	Each(do func())
	Keep(wanted func() bool)
}

// picked are the files that have a table.
var picked = []string{
	ledger.ReceiptsFile, ledger.RunsFile, ledger.PhasesFile, ledger.LoadsFile, ledger.PacksFile, ledger.DrawsFile, ledger.CountsFile,
}

// pick finds the records that an edit concerns, and has the tables keep no more. It
// reports false where there is no excerpt.
func (p *picking) pick(c Concern) bool {
	p.foods, p.lots, p.bought = setOf(c.Foods), setOf(c.Lots), c.Bought
	p.wide = len(c.Foods)+len(c.Packs) > 0
	p.findFoods(setOf(c.Packs))
	p.findLots()
	ledger.Parallel(p.pickLoads, func() {
		p.pickPacks()
		p.pickReceipts()
	})
	if p.empties { // what was found empty hangs on every pack in store
		return false
	}
	p.pickRuns()
	return true
}

func setOf(list []string) map[string]bool {
	set := make(map[string]bool, len(list))
	for _, s := range list {
		set[s] = true
	}
	return set
}

// findFoods adds the foods of packs.
func (p *picking) findFoods(packs map[string]bool) {
	if len(packs) == 0 {
		return
	}
	t := p.tables[ledger.PacksFile]
	pack, item := t.Column("pack"), t.Column("item")
	t.Each(func() {
		if packs[pack()] {
			p.foods[item()] = true
		}
	})
}

// findLots finds all whose lots decide what the foods and lots that are known cost.
func (p *picking) findLots() {
	p.worn = map[string]bool{}
	for food := range p.foods {
		p.lots[food] = true
	}
	for more := true; more; {
		more = false
		for i := range p.few.Batches {
			b := &p.few.Batches[i]
			for _, part := range b.From {
				if p.lots[b.Item] && !p.lots[part.Item] {
					p.lots[part.Item], more = true, true
				}
			}
		}
	}
	for i := range p.few.Supplies {
		p.wide = p.wide || p.lots[p.few.Supplies[i].ID]
	}
	if !p.wide {
		return
	}
	for i := range p.few.Supplies {
		p.lots[p.few.Supplies[i].ID] = true
	}
	for i := range p.few.Machines {
		m := &p.few.Machines[i]
		p.lots[m.ID], p.worn[m.ID] = true, len(m.With) > 0
	}
}

// pickLoads finds the runs of the foods with all their loads and phases, and all
// other loads of their lots.
func (p *picking) pickLoads() {
	p.runs, p.takers = map[string]bool{}, map[string]bool{}
	t := p.tables[ledger.LoadsFile]
	run, item := t.Column("run"), t.Column("item")
	if len(p.foods) > 0 {
		t.Each(func() {
			if p.foods[item()] {
				p.runs[run()] = true
			}
		})
	}
	t.Keep(func() bool {
		of := run()
		wanted := p.runs[of] || p.lots[item()]
		if wanted {
			p.takers[of] = true
		}
		return wanted
	})
	t = p.tables[ledger.PhasesFile]
	run = t.Column("run")
	t.Keep(func() bool { return p.runs[run()] })
}

// pickPacks finds the packs of the foods with what was drawn of them and counted,
// all that took supplies where these count, and what was taken in hand.
func (p *picking) pickPacks() {
	p.packs = map[string]bool{}
	t := p.tables[ledger.PacksFile]
	pack, item, with := t.Column("pack"), t.Column("item"), t.Column("with")
	t.Keep(func() bool {
		if p.foods[item()] {
			p.packs[pack()] = true
			return true
		}
		return p.wide && with() != ""
	})
	p.pickTaken(ledger.DrawsFile, func(string) {})
	var again []string
	for i := range p.few.Supplies {
		if s := &p.few.Supplies[i]; s.ServesAgain() {
			again = append(again, s.ID)
		}
	}
	p.pickTaken(ledger.CountsFile, func(item string) { p.empties = p.empties || slices.Contains(again, item) })
}

// pickTaken finds the rows of a file that are of the packs, or of something in
// hand, which is told.
func (p *picking) pickTaken(name string, inHand func(item string)) {
	t := p.tables[name]
	pack, item := t.Column("pack"), t.Column("item")
	t.Keep(func() bool {
		of := item()
		if of != "" {
			inHand(of)
		}
		return of != "" || p.packs[pack()]
	})
}

// pickReceipts finds the receipts by which something came into the lots, and those
// that a new one is held against.
func (p *picking) pickReceipts() {
	p.receipts = map[string]bool{}
	t := p.tables[ledger.ReceiptsFile]
	receipt, date, item := t.Column("receipt"), t.Column("date"), t.Column("item")
	t.Each(func() {
		if p.bought != "" && date() == p.bought {
			p.receipts[receipt()] = true
		}
		of := item()
		if !p.lots[of] {
			return
		}
		p.receipts[receipt()] = true
		if _, machine := p.worn[of]; machine {
			p.worn[of] = true
		}
	})
	met, last := map[string]bool{}, ""
	t.Keep(func() bool {
		id := receipt()
		if p.receipts[id] || p.bought == "" {
			return p.receipts[id]
		}
		first := id != last && !met[id]
		met[id], last = true, id
		return first
	})
}

// pickRuns finds the runs that took of the lots, and those that wear a machine.
func (p *picking) pickRuns() {
	t := p.tables[ledger.RunsFile]
	run, machine := t.Column("run"), t.Column("machine")
	t.Keep(func() bool { return p.takers[run()] || p.worn[machine()] })
}
