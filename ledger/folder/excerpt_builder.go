package folder

import (
	"slices"

	"putby/ledger"
)

// An excerptBuilder finds the records of an excerpt. Each of its sets is found from those
// above it and is whole before the next is asked for: of the foods the lots, of lots and
// foods the loads with their runs, and of these and the receipts at last the runs.
type excerptBuilder struct {
	tables map[string]table // of the files of which it leaves out some, by name
	few    *ledger.Records  // foods, supplies, machines and batches
	foods  map[string]bool  // of whose packs everything is wanted

	machines map[string]bool // of whose runs everything is wanted
	wide     bool            // packs or supplies are moved, so that what all supplies and machines cost counts
	lots     map[string]bool // the foods, those that they were made of, where it is wide supplies and machines
	runs     map[string]bool // that dried the foods, or were on the machines
	takers   map[string]bool // runs that took of any of the lots; these too
	worn     map[string]bool // machines whose runs cost wear or supplies
	packs    map[string]bool // of the foods, or with supplies where containers are counted
	receipts map[string]bool
	bought   string // the day of whose receipts all are wanted, and of others the first line
	empties  bool   // containers that serve again are counted
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
func (p *excerptBuilder) pick(c Scope) bool {
	p.foods, p.lots, p.machines, p.bought = setOf(c.Foods), setOf(c.Lots), setOf(c.Machines), c.Bought
	if !p.findRuns(c) {
		return false
	}
	p.wide = len(p.foods)+len(c.Packs)+len(p.machines) > 0
	p.findFoods(setOf(c.Packs))
	p.findLots()
	p.empties = c.Containers || p.wide && p.countsEmpties()
	for _, name := range []string{ledger.LoadsFile, ledger.PhasesFile} {
		if t, ok := p.tables[name].(*textTable); ok {
			t.rowFinder.inPlace = len(c.Ends) > 0 // where a record is changed it is told by its line
		}
	}
	ledger.Parallel(p.pickLoads, func() {
		p.pickPacks()
		p.pickReceipts()
	})
	p.keep(ledger.RunsFile) // which the loads and the receipts decide: takers and worn
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
func (p *excerptBuilder) findFoods(packs map[string]bool) {
	if len(packs) == 0 {
		return
	}
	t := p.tables[ledger.PacksFile]
	pack, item := t.Column(ledger.PackColumn), t.Column(ledger.ItemColumn)
	t.Each(func() {
		if packs[pack()] {
			p.foods[item()] = true
		}
	})
}

// findLots finds all whose lots decide what the foods and lots that are known cost.
func (p *excerptBuilder) findLots() {
	p.worn = map[string]bool{}
	for food := range p.foods {
		p.lots[food] = true
	}
	for more := true; more; { // a batch may be made of what another made
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
	p.wide = p.wide || slices.ContainsFunc(p.few.Supplies, func(s ledger.Supply) bool { return p.lots[s.ID] })
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

// pickLoads finds the runs of the foods and on the machines with all their loads and
// phases, and all other loads of their lots.
func (p *excerptBuilder) pickLoads() {
	p.runs, p.takers = map[string]bool{}, map[string]bool{}
	p.addRuns(ledger.LoadsFile, ledger.ItemColumn, p.foods)
	p.addRuns(ledger.RunsFile, ledger.MachineColumn, p.machines)
	p.keep(ledger.LoadsFile)
	p.keep(ledger.PhasesFile)
}

// addRuns adds the runs of the records of which a column is one of some things.
func (p *excerptBuilder) addRuns(name, column string, of map[string]bool) {
	if len(of) == 0 {
		return
	}
	t := p.tables[name]
	run, thing := t.Column(ledger.RunColumn), t.Column(column)
	t.Each(func() {
		if of[thing()] {
			p.runs[run()] = true
		}
	})
}

// keep keeps no more than the records of runs that are wanted.
func (p *excerptBuilder) keep(name string) {
	t := p.tables[name]
	t.Keep(p.wants(name, t))
}

// wants tells the records of a file that are wanted: phases of the runs, loads of
// these and of their lots, and the runs that took of the lots, wear a machine or are
// on one that is asked for.
func (p *excerptBuilder) wants(name string, t table) func() bool {
	run := t.Column(ledger.RunColumn)
	switch name {
	case ledger.LoadsFile:
		item := t.Column(ledger.ItemColumn)
		return func() bool {
			of := run()
			wanted := p.runs[of] || p.lots[item()]
			if wanted {
				p.takers[of] = true
			}
			return wanted
		}
	case ledger.RunsFile:
		machine := t.Column(ledger.MachineColumn)
		return func() bool { return p.takers[run()] || p.worn[machine()] || p.machines[machine()] }
	}
	return func() bool { return p.runs[run()] }
}

// pickPacks finds the packs of the foods with what was drawn of them and counted,
// all that took supplies where these count, and what was taken in hand.
func (p *excerptBuilder) pickPacks() {
	p.packs = map[string]bool{}
	t := p.tables[ledger.PacksFile]
	pack, item, with := t.Column(ledger.PackColumn), t.Column(ledger.ItemColumn), t.Column(ledger.WithColumn)
	t.Keep(func() bool {
		of := p.foods[item()]
		takes := !of && (p.wide || p.empties) && with() != ""
		if of || takes && p.empties {
			p.packs[pack()] = true
		}
		return of || takes
	})
	p.pickTaken(ledger.DrawsFile)
	p.pickTaken(ledger.CountsFile)
}

// countsEmpties reports whether containers that serve again were counted: how many
// stood empty hangs on every pack in store.
func (p *excerptBuilder) countsEmpties() (counted bool) {
	t := p.tables[ledger.CountsFile]
	item := t.Column(ledger.ItemColumn)
	t.Each(func() {
		of := item()
		counted = counted || slices.ContainsFunc(p.few.Supplies, func(s ledger.Supply) bool { return s.ID == of && s.ServesAgain() })
	})
	return counted
}

// pickTaken finds the rows of a file that are of the packs, or of something in hand.
func (p *excerptBuilder) pickTaken(name string) {
	t := p.tables[name]
	pack, item := t.Column(ledger.PackColumn), t.Column(ledger.ItemColumn)
	t.Keep(func() bool { return item() != "" || p.packs[pack()] })
}

// pickReceipts finds the receipts by which something came into the lots, and those
// that a new one is held against.
func (p *excerptBuilder) pickReceipts() {
	p.receipts = map[string]bool{}
	t := p.tables[ledger.ReceiptsFile]
	receipt, date, item := t.Column(ledger.ReceiptColumn), t.Column(ledger.DateColumn), t.Column(ledger.ItemColumn)
	t.Each(func() {
		if p.bought != "" && date() == p.bought {
			p.receipts[receipt()] = true
		}
		of := item()
		if !p.lots[of] {
			return
		}
		p.receipts[receipt()] = true
		if _, machine := p.worn[of]; machine { // one that was bought wears
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
