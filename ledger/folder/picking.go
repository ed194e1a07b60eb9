package folder

import (
	"path"
	"slices"

	"putby/ledger"
)

// A picking finds the records of an excerpt in the texts of a ledger.
type picking struct {
	texts    map[string]string // of all files
	few      *ledger.Records   // foods, supplies, machines and batches
	foods    map[string]bool   // of whose packs everything is wanted
	machines map[string]bool   // of whose runs everything is wanted

	lots     map[string]bool // of foods, those that they were made of, supplies and machines
	runs     map[string]bool // that dried the foods, or were on the machines
	takers   map[string]bool // runs that took of any of the lots; these too
	worn     map[string]bool // machines whose runs cost wear or supplies
	packs    map[string]bool // of the foods, or with supplies where containers are counted
	receipts map[string]bool
	bought   string // the day of whose receipts all are wanted, and of others the first line
	empties  bool   // containers that serve again are counted
	inPlace  bool   // records are told by their lines

	loads, phases, packed, draws, counts, lines, ran string // texts with the records wanted
}

// pick finds the records that an edit concerns. The texts are those of an excerpt's
// files; nil where there is none.
func (p *picking) pick(c Concern) map[string]string {
	p.foods, p.lots, p.machines, p.bought = setOf(c.Foods), setOf(c.Lots), setOf(c.Machines), c.Bought
	p.inPlace, p.empties = len(c.Ends) > 0, c.Containers || p.countsEmpties()
	if !p.findRuns(c) {
		return nil
	}
	p.findFoods(setOf(c.Packs))
	p.findLots()
	ledger.Together(p.pickLoads, func() {
		p.pickPacks()
		p.pickReceipts()
	})
	p.ran = p.kept(ledger.RunsFile)
	parts := map[string]string{
		ledger.LoadsFile: p.loads, ledger.PhasesFile: p.phases, ledger.PacksFile: p.packed, ledger.DrawsFile: p.draws,
		ledger.CountsFile: p.counts, ledger.ReceiptsFile: p.lines, ledger.RunsFile: p.ran,
	}
	picked := map[string]string{}
	for name, text := range p.texts {
		if part, ok := parts[name]; ok {
			picked[name] = part
		} else if path.Dir(name) != ledger.MeterFolder || p.runs[runOf(name)] {
			picked[name] = text
		}
	}
	return picked
}

func setOf(list []string) map[string]bool {
	set := make(map[string]bool, len(list))
	for _, s := range list {
		set[s] = true
	}
	return set
}

// sieve opens a file; where there is none, nothing is in it.
func (p *picking) sieve(name string) *sieve {
	if s := openSieve(p.texts[name]); s != nil {
		return s
	}
	return new(sieve)
}

// findFoods adds the foods of packs.
func (p *picking) findFoods(packs map[string]bool) {
	if len(packs) == 0 {
		return
	}
	s := p.sieve(ledger.PacksFile)
	pack, item := s.column("pack"), s.column("item")
	s.each(func(row string) {
		if packs[s.cell(row, pack)] {
			p.foods[s.cell(row, item)] = true
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
		p.lots[p.few.Supplies[i].ID] = true
	}
	for i := range p.few.Machines {
		m := &p.few.Machines[i]
		p.lots[m.ID], p.worn[m.ID] = true, len(m.With) > 0
	}
}

// pickLoads finds the runs of the foods and on the machines with all their loads and
// phases, and all other loads of their lots.
func (p *picking) pickLoads() {
	p.runs, p.takers = map[string]bool{}, map[string]bool{}
	s := p.sieve(ledger.LoadsFile)
	run, item := s.column("run"), s.column("item")
	s.each(func(row string) {
		if p.foods[s.cell(row, item)] {
			p.runs[s.cell(row, run)] = true
		}
	})
	if len(p.machines) > 0 {
		s := p.sieve(ledger.RunsFile)
		run, machine := s.column("run"), s.column("machine")
		s.each(func(row string) {
			if p.machines[s.cell(row, machine)] {
				p.runs[s.cell(row, run)] = true
			}
		})
	}
	p.loads, p.phases = p.kept(ledger.LoadsFile), p.kept(ledger.PhasesFile)
}

// kept is a file with no more than the records of runs that are wanted.
func (p *picking) kept(name string) string {
	s := p.sieve(name)
	s.inPlace = p.inPlace
	return s.keep(p.wants(name, s))
}

// wants tells the records of a file that are wanted: phases of the runs, loads of
// these and of their lots, and the runs that took of the lots, wear a machine or are
// on one that is asked for.
func (p *picking) wants(name string, s *sieve) func(row string) bool {
	run, item, machine := s.column("run"), s.column("item"), s.column("machine")
	return func(row string) bool {
		of := s.cell(row, run)
		switch {
		case p.runs[of]:
			return true
		case name == ledger.LoadsFile && p.lots[s.cell(row, item)]:
			p.takers[of] = true
			return true
		}
		on := s.cell(row, machine)
		return name == ledger.RunsFile && (p.takers[of] || p.worn[on] || p.machines[on])
	}
}

// pickPacks finds the packs of the foods with what was drawn of them and counted,
// and all that took supplies or food in hand.
func (p *picking) pickPacks() {
	p.packs = map[string]bool{}
	s := p.sieve(ledger.PacksFile)
	pack, item, with := s.column("pack"), s.column("item"), s.column("with")
	p.packed = s.keep(func(row string) bool {
		of, takes := p.foods[s.cell(row, item)], s.cell(row, with) != ""
		if of || takes && p.empties {
			p.packs[s.cell(row, pack)] = true
		}
		return of || takes
	})
	p.draws, p.counts = p.pickTaken(ledger.DrawsFile), p.pickTaken(ledger.CountsFile)
}

// countsEmpties reports whether containers that serve again were counted: how many
// stood empty hangs on every pack in store.
func (p *picking) countsEmpties() (counted bool) {
	s := p.sieve(ledger.CountsFile)
	item := s.column("item")
	s.each(func(row string) {
		of := s.cell(row, item)
		counted = counted || slices.ContainsFunc(p.few.Supplies, func(s ledger.Supply) bool { return s.ID == of && s.ServesAgain() })
	})
	return counted
}

// pickTaken finds the rows of a file that are of the packs, or of something in hand.
func (p *picking) pickTaken(name string) string {
	s := p.sieve(name)
	pack, item := s.column("pack"), s.column("item")
	return s.keep(func(row string) bool { return s.cell(row, item) != "" || p.packs[s.cell(row, pack)] })
}

// pickReceipts finds the receipts by which something came into the lots, and those
// that a new one is held against.
func (p *picking) pickReceipts() {
	p.receipts = map[string]bool{}
	s := p.sieve(ledger.ReceiptsFile)
	receipt, date, item := s.column("receipt"), s.column("date"), s.column("item")
	s.each(func(row string) {
		if p.bought != "" && s.cell(row, date) == p.bought {
			p.receipts[s.cell(row, receipt)] = true
		}
		of := s.cell(row, item)
		if !p.lots[of] {
			return
		}
		p.receipts[s.cell(row, receipt)] = true
		if _, machine := p.worn[of]; machine {
			p.worn[of] = true
		}
	})
	met, last := map[string]bool{}, ""
	p.lines = s.keep(func(row string) bool {
		id := s.cell(row, receipt)
		if p.receipts[id] || p.bought == "" {
			return p.receipts[id]
		}
		first := id != last && !met[id]
		met[id], last = true, id
		return first
	})
}
