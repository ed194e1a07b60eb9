package folder

import (
	"slices"
	"strings"
	"time"

	"putby/ledger"
	"putby/pricing/exact"
)

// A ran is what a few columns tell of a run.
type ran struct {
	id, machine, start, outcome string
	foods                       []string
	packed                      []string // of foods, those of which any is packed
}

// awaits reports whether the run is finished, and of a food, "" being any, nothing
// is packed yet.
func (r *ran) awaits(food string) bool {
	return r.outcome != "spoiled" && r.outcome != "running" && slices.ContainsFunc(r.foods, func(id string) bool {
		return (food == "" || id == food) && !slices.Contains(r.packed, id)
	})
}

// findRuns adds the foods of the runs that an edit is about, and the machines. It
// reports false where it takes all records to find them, or these are of all foods.
func (p *excerptBuilder) findRuns(c Scope) bool {
	if len(c.Runs)+len(c.Ends)+len(c.Packed) == 0 {
		return true
	}
	runs := p.runsThere()
	at := func(id string) int { return slices.IndexFunc(runs, func(r *ran) bool { return r.id == id }) }
	for _, id := range c.Runs {
		i := at(id)
		if i < 0 {
			return false
		}
		p.addFoods(runs[i])
	}
	for _, id := range c.Ends {
		i := at(id)
		if id == "" {
			i = onlyRunning(runs)
		}
		if i < 0 {
			return false
		}
		p.machines[runs[i].machine] = true
		p.addSince(runs, p.began(runs[i]), "")
	}
	for _, food := range c.Packed {
		if !p.addPacked(runs, food) {
			return false
		}
	}
	return len(p.foods) < len(p.few.Foods)
}

// runsThere are all runs, with the foods that they dried and that were packed.
func (p *excerptBuilder) runsThere() (runs []*ran) {
	t := p.tables[ledger.RunsFile]
	run, machine, start, outcome := t.Column(ledger.RunColumn), t.Column(ledger.MachineColumn), t.Column(ledger.StartColumn), t.Column(ledger.OutcomeColumn)
	byID := map[string]*ran{}
	t.Each(func() {
		r := &ran{id: run(), machine: machine(), start: start(), outcome: outcome()}
		runs, byID[r.id] = append(runs, r), r
	})
	gather := func(file string, add func(r *ran, food string)) {
		t := p.tables[file]
		run, item := t.Column(ledger.RunColumn), t.Column(ledger.ItemColumn)
		t.Each(func() {
			if r := byID[run()]; r != nil {
				add(r, item())
			}
		})
	}
	gather(ledger.LoadsFile, func(r *ran, food string) { r.foods = append(r.foods, food) })
	gather(ledger.PacksFile, func(r *ran, food string) {
		if !slices.Contains(r.packed, food) {
			r.packed = append(r.packed, food)
		}
	})
	return runs
}

// began is when a run began.
func (p *excerptBuilder) began(r *ran) time.Time {
	at, _ := exact.ParseMoment(r.start, p.few.Settings.Zone) // which was read before without a fault
	return at
}

// onlyRunning is the run that is running, or -1 where none is, or several are.
func onlyRunning(runs []*ran) int {
	at := -1
	for i, r := range runs {
		if r.outcome == "running" {
			if at >= 0 {
				return -1
			}
			at = i
		}
	}
	return at
}

// addFoods adds the foods of a run.
func (p *excerptBuilder) addFoods(r *ran) {
	for _, food := range r.foods {
		p.foods[food] = true
	}
}

// addSince adds the foods of all runs of a food, "" being any, that began at a moment
// or since.
func (p *excerptBuilder) addSince(runs []*ran, at time.Time, food string) {
	for _, r := range runs {
		if (food == "" || slices.Contains(r.foods, food)) && !p.began(r).Before(at) {
			p.addFoods(r)
		}
	}
}

// addPacked adds the foods of the last run of which a food, "" being any, awaits
// packing, and of those begun since: they may be packed in part, which their yields
// tell. Where none awaits, any may be packed in part.
func (p *excerptBuilder) addPacked(runs []*ran, food string) bool {
	var last time.Time
	for _, r := range runs {
		if at := p.began(r); r.awaits(food) && at.After(last) {
			last = at
		}
	}
	p.addSince(runs, last, food)
	return food != "" || !last.IsZero()
}

// eachRun goes through the names of all runs.
func (p *excerptBuilder) eachRun(do func(id, start string)) {
	t := p.tables[ledger.RunsFile]
	run, start := t.Column(ledger.RunColumn), t.Column(ledger.StartColumn)
	t.Each(func() {
		if id := run(); id != "" {
			do(id, start())
		}
	})
}

// eachPack goes through the names of all packs.
func (p *excerptBuilder) eachPack(do func(id, run, date string)) {
	t := p.tables[ledger.PacksFile]
	pack, run, date := t.Column(ledger.PackColumn), t.Column(ledger.RunColumn), t.Column(ledger.DateColumn)
	t.Each(func() {
		if id := pack(); id != "" {
			do(id, run(), date())
		}
	})
}

// fixed are the columns of records of runs that say which run they are of, and what
// it took: an edit that is judged by an excerpt leaves them as they are.
var fixed = map[string][]string{
	ledger.RunsFile:   {ledger.RunColumn, ledger.MachineColumn, ledger.StartColumn},
	ledger.LoadsFile:  {ledger.RunColumn, ledger.ItemColumn, ledger.QuantityColumn, ledger.ReceiptColumn, ledger.LineColumn},
	ledger.PhasesFile: {ledger.RunColumn, ledger.PhaseColumn, ledger.DurationColumn},
}

// changed is what [excerptBuilder.keep] keeps of a file that an edit changed within. It reports false
// where the edit changed a record that is not there, or what is told of one. Columns
// that are new are blank in all others.
func (p *excerptBuilder) changed(name, before, after string) (kept string, ok bool) {
	was, now := openRowFinder(before), openRowFinder(after)
	if was == nil || now == nil || fixed[name] == nil || len(now.header) < len(was.header) {
		return "", false
	}
	var rows []string // as they were
	was.each(func(row string) { rows = append(rows, row) })
	blank := strings.Repeat(string(now.sep), len(now.header)-len(was.header))
	t := &textTable{rowFinder: now}
	wants := p.wants(name, t)
	ok, now.inPlace = true, true
	// An edit within a file leaves the order of what is there, so old and new rows are held to each
	// other one by one; a row struck leaves one over, rows added come once none is left.
	kept = now.keep(func(row string) bool {
		t.row = row
		wanted := wants()
		if len(rows) == 0 {
			ok = ok && wanted
			return wanted
		}
		old := rows[0]
		rows = rows[1:]
		if bare := strings.TrimRight(old, "\r\n"); row != old && strings.TrimRight(row, "\r\n") != bare+blank {
			ok = ok && wanted && !slices.ContainsFunc(fixed[name], func(column string) bool {
				return was.cell(old, was.column(column)) != now.cell(row, now.column(column))
			})
		}
		return wanted
	})
	return kept, ok && len(rows) == 0
}
