package folder

import (
	"path"
	"slices"

	"putby/ledger"
)

// A picking finds the records of an excerpt in the texts of a ledger.
type picking struct {
	texts map[string]string // of all files
	few   *ledger.Records   // foods, supplies, machines and batches
	foods map[string]bool   // of whose packs everything is wanted

	lots     map[string]bool // these, the foods that they were made of, supplies and machines
	runs     map[string]bool // that dried the foods
	takers   map[string]bool // runs that took of any of the lots; these too
	worn     map[string]bool // machines whose runs cost wear or supplies
	packs    map[string]bool // of the foods
	receipts map[string]bool
	bought   string // the day of whose receipts all are wanted, and of others the first line
	empties  bool   // containers that serve again were counted

	loads, phases, packed, draws, counts, lines, ran string // texts with the records wanted
}

// pick finds the records that an edit concerns. The texts are those of an excerpt's
// files; nil where there is none.
func (p *picking) pick(c Concern) map[string]string {
	p.foods, p.lots, p.bought = setOf(c.Foods), setOf(c.Lots), c.Bought
	p.findFoods(setOf(c.Packs))
	p.findLots()
	ledger.Together(p.pickLoads, func() {
		p.pickPacks()
		p.pickReceipts()
	})
	if p.empties { // what was found empty hangs on every pack in store
		return nil
	}
	p.pickRuns()
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

// pickLoads finds the runs of the foods with all their loads and phases, and all
// other loads of their lots.
func (p *picking) pickLoads() {
	p.runs, p.takers = map[string]bool{}, map[string]bool{}
	s := p.sieve(ledger.LoadsFile)
	run, item := s.column("run"), s.column("item")
	s.each(func(row string) {
		if p.foods[s.cell(row, item)] {
			p.runs[s.cell(row, run)] = true
		}
	})
	p.loads = s.keep(func(row string) bool {
		of := s.cell(row, run)
		wanted := p.runs[of] || p.lots[s.cell(row, item)]
		if wanted {
			p.takers[of] = true
		}
		return wanted
	})
	s = p.sieve(ledger.PhasesFile)
	run = s.column("run")
	p.phases = s.keep(func(row string) bool { return p.runs[s.cell(row, run)] })
}

// pickPacks finds the packs of the foods with what was drawn of them and counted,
// and all that took supplies or food in hand.
func (p *picking) pickPacks() {
	p.packs = map[string]bool{}
	s := p.sieve(ledger.PacksFile)
	pack, item, with := s.column("pack"), s.column("item"), s.column("with")
	p.packed = s.keep(func(row string) bool {
		if p.foods[s.cell(row, item)] {
			p.packs[s.cell(row, pack)] = true
			return true
		}
		return s.cell(row, with) != ""
	})
	p.draws = p.pickTaken(ledger.DrawsFile, func(string) {})
	var again []string
	for i := range p.few.Supplies {
		if s := &p.few.Supplies[i]; s.ServesAgain() {
			again = append(again, s.ID)
		}
	}
	p.counts = p.pickTaken(ledger.CountsFile, func(item string) { p.empties = p.empties || slices.Contains(again, item) })
}

// pickTaken finds the rows of a file that are of the packs, or of something in
// hand, which is told.
func (p *picking) pickTaken(name string, inHand func(item string)) string {
	s := p.sieve(name)
	pack, item := s.column("pack"), s.column("item")
	return s.keep(func(row string) bool {
		of := s.cell(row, item)
		if of != "" {
			inHand(of)
		}
		return of != "" || p.packs[s.cell(row, pack)]
	})
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

// pickRuns finds the runs that took of the lots, and those that wear a machine.
func (p *picking) pickRuns() {
	s := p.sieve(ledger.RunsFile)
	run, machine := s.column("run"), s.column("machine")
	p.ran = s.keep(func(row string) bool { return p.takers[s.cell(row, run)] || p.worn[s.cell(row, machine)] })
}
