package ledger

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"
	"sync"

	"putby/ledger/advice"
	"putby/pricing/exact"
)

// finders find records by their identifiers and group those that belong to a
// run. All of it are positions in the slices of Records.
type finders struct {
	foods    finder
	supplies finder
	machines finder
	runs     finder
	packs    finder
	batches  finder
	receipts finder // in the order of their first lines
	tariffs  map[string]bool
	wattage  [][Defrost + 1]exact.Opt[exact.Number] // by machine and phase

	phasesOf groups // by run, in order of step
	loadsOf  groups // by run, in file order
	packsOf  groups // by run, in file order
	linesOf  groups // by receipt, in file order

	runOrder  []int32 // runs by start
	packDrawn []int32 // by each draw, so that no identifier is looked up while events are followed; -1: none, or unknown
}

// index makes the finders of records, and gathers what is wrong with those.
type index struct {
	*finders
	rec     *Records
	unread  unread
	mu      sync.Mutex // of faults: what does not depend on each other is checked side by side
	faults  Faults
	told    map[string]int // faults of each file
	guesses int            // near names looked for
}

// mostFaults is how many faults of a file are told one by one. (Ledgers of a
// million rows can be wrong in each of them.)
const mostFaults = 10000

// newIndex indexes the records and notes doubled and unknown identifiers. Read
// are the faults of reading them.
func newIndex(rec *Records, read Faults) *index {
	x := &index{finders: &finders{}, rec: rec, unread: newUnread(read, rec.Excerpt), told: map[string]int{}}
	x.foods = x.finder(FoodsFile, "food", len(rec.Foods), func(i int32) string { return rec.Foods[i].ID }, func(i int32) int { return rec.Foods[i].Line })
	x.supplies = x.finder(SuppliesFile, "supply", len(rec.Supplies), func(i int32) string { return rec.Supplies[i].ID }, func(i int32) int { return rec.Supplies[i].Line })
	x.machines = x.finder(MachinesFile, "machine", len(rec.Machines), func(i int32) string { return rec.Machines[i].ID }, func(i int32) int { return rec.Machines[i].Line })
	x.tariffs = map[string]bool{}
	for i := range rec.Tariffs {
		x.tariffs[rec.Tariffs[i].Tariff] = true
	}
	for name := range rec.Rates {
		if !x.tariffs[name] && !x.unread.about(TariffsFile, name) {
			x.advise(place{RatesFile(name), 0}, "", "name the file after its tariff, or add a band",
				[]advice.Doing{advice.Do(advice.AddTariff).With("tariff", name).With("hourly", "yes").With("rate", "0")}, "no tariff is called %s", exact.Quote(name))
		}
	}
	for i := range rec.Supplies {
		if s := &rec.Supplies[i]; s.ID != "" && x.foods.has(s.ID) {
			x.fail(place{SuppliesFile, s.Line}, "supply", "give one of them another identifier", "%s is a food too", s.ID)
		}
	}
	x.indexMachines()
	x.checkSettings()
	// Side by side: what is about packs alone needs nothing of runs and receipts, and faults are
	// noted under a lock.
	Parallel(func() {
		x.indexRuns()
		x.indexReceipts()
	}, func() {
		x.packs = x.finder(PacksFile, "pack", rec.Packs.Len(),
			func(i int32) string { return rec.Packs.store.text(rec.Packs.rows[i].id) },
			func(i int32) int { return int(rec.Packs.rows[i].line) })
		x.packDrawn = none(rec.Draws.Len())
		last := int32(-1)
		for i := range rec.Draws.rows {
			if at, ok := x.packs.findNear(last, rec.Draws.store.text(rec.Draws.rows[i].of)); ok {
				x.packDrawn[i], last = at, at
			}
		}
	})
	return x
}

// finder finds n records by their identifiers, and notes doubles.
func (x *index) finder(file, column string, n int, id func(int32) string, line func(int32) int) finder {
	f := newFinder(n, id)
	for i := range int32(n) {
		name := id(i)
		if name == "" {
			continue // already a fault of its cell
		}
		if first, there := f.add(i); there {
			x.fail(place{file, line(i)}, column, "identifiers are used once", "%s %s is in line %d too", column, name, line(first))
		}
	}
	return f
}

// fail notes a fault of a record at one of its columns. Nothing more is noted
// of a record that could not be read whole.
func (x *index) fail(at place, field, hint, format string, args ...any) {
	x.advise(at, field, hint, nil, format, args...)
}

// advise is fail with what to do after the hint.
func (x *index) advise(at place, field, hint string, do []advice.Doing, format string, args ...any) {
	if x.unread.record(at) {
		return
	}
	x.mu.Lock()
	defer x.mu.Unlock()
	if x.told[at.file]++; x.told[at.file] <= mostFaults {
		x.faults = append(x.faults, Fault{File: at.file, Line: at.line, Field: field, What: fmt.Sprintf(format, args...), Hint: hint, Do: do})
	}
}

// summary returns the faults, and how many there are beyond those.
func (x *index) summary() Faults {
	for file, n := range x.told {
		if n > mostFaults {
			x.faults = append(x.faults, Fault{File: file, Rest: true,
				What: fmt.Sprintf("%d more faults than are told one by one", n-mostFaults), Hint: "mend the others first"})
		}
	}
	return x.faults
}

// unknown notes an identifier that no record of any of some files has.
func (x *index) unknown(at place, field, what, id string, files ...string) {
	if id == "" || slices.ContainsFunc(files, func(file string) bool { return x.unread.about(file, id) }) {
		return // its own cell is a fault already, or the record is that it asks for
	}
	var ways []string
	var do []advice.Doing
	for i, file := range files {
		kind := MustKind(file).Name
		way := "add a " + kind
		near, all := x.nearest(file, id)
		switch {
		case near != "":
			way = near + ", which is near; or " + way
		case all == 0 && len(files) == 1:
			way = file + " has no record at all: is the file missing, or was it emptied? Else " + way
		case i == 0:
			way = "correct the name, or " + way
		}
		ways, do = append(ways, way), append(do, advice.Do(advice.Act(kind+" add")).With(kind, id))
	}
	x.advise(at, field, strings.Join(ways, "\n"), do, "%s: no %s is called %s", field, what, exact.Quote(id))
}

// food finds a food, or notes that it is unknown.
func (x *index) food(at place, field, id string) (int32, bool) {
	i, ok := x.foods.find(id)
	if !ok {
		x.unknown(at, field, "food", id, FoodsFile)
	}
	return i, ok
}

func (x *index) checkSettings() {
	if s := &x.rec.Settings; s.Tariff != "" && !x.tariffs[s.Tariff] && !x.unread.about(TariffsFile, s.Tariff) {
		x.advise(place{SettingsFile, s.TariffLine}, "value", "correct the name, or add a tariff",
			[]advice.Doing{advice.Do(advice.AddTariff).With("tariff", s.Tariff)}, "tariff: no tariff is called %s", exact.Quote(s.Tariff))
	}
	seen := make(map[Holiday]bool, len(x.rec.Holidays))
	for _, h := range x.rec.Holidays {
		at := place{HolidaysFile, h.Line}
		if !x.tariffs[h.Tariff] {
			x.unknown(at, "tariff", "tariff", h.Tariff, TariffsFile)
		}
		h.Line = 0 // as in seen
		if seen[h] {
			x.fail(at, DateColumn, "keep one of the two rows", "%s has %v already", h.Tariff, h.Date)
		}
		seen[h] = true
	}
}

// indexReceipts gathers the lines of each receipt, wherever they stand.
func (x *index) indexReceipts() {
	lines := x.rec.Receipts.rows
	news := 0 // how often another receipt begins
	for i := range lines {
		if i == 0 || lines[i].receipt != lines[i-1].receipt {
			news++
		}
	}
	firsts := make([]int32, 0, news) // lines
	x.receipts = newFinder(news, func(i int32) string { return x.rec.Receipts.store.text(lines[firsts[i]].receipt) })
	last := int32(0)
	x.linesOf = group(len(lines), len(lines), func(i int) int {
		if i == 0 || lines[i].receipt != lines[i-1].receipt {
			last = int32(len(firsts))
			firsts = append(firsts, int32(i))
			// Lines of one receipt need not stand together: these go to the one met before, and the
			// place made for a new one is given back.
			if first, there := x.receipts.add(last); there {
				last, firsts = first, firsts[:last]
			}
		}
		return int(last)
	})
	x.batches = x.finder(BatchesFile, "batch", len(x.rec.Batches), func(i int32) string { return x.rec.Batches[i].ID }, func(i int32) int { return x.rec.Batches[i].Line })
	for i := range x.rec.Batches {
		if b := &x.rec.Batches[i]; b.ID != "" && x.receipts.has(b.ID) {
			x.fail(place{BatchesFile, b.Line}, "batch", "receipts and batches share one set of identifiers", "%s is a receipt too", b.ID)
		}
	}
}

func (x *index) indexMachines() {
	rec := x.rec
	for i := range rec.Machines {
		x.checkUses(place{MachinesFile, rec.Machines[i].Line}, rec.Machines[i].With)
	}
	x.wattage = make([][Defrost + 1]exact.Opt[exact.Number], len(rec.Machines))
	for i := range rec.Wattage {
		w := &rec.Wattage[i]
		m, ok := x.machines.find(w.Machine)
		switch {
		case !ok:
			x.unknown(place{WattageFile, w.Line}, MachineColumn, "machine", w.Machine, MachinesFile)
		case x.wattage[m][w.Phase].Given():
			x.fail(place{WattageFile, w.Line}, PhaseColumn, "keep one of the two rows", "%s has a row for %v already", w.Machine, w.Phase)
		default:
			x.wattage[m][w.Phase] = exact.Some(w.Watts)
		}
	}
}

// checkUses notes unknown supplies of a `with` cell.
func (x *index) checkUses(at place, uses []Use) {
	for _, u := range uses {
		if !x.supplies.has(u.Supply) {
			x.unknown(at, WithColumn, "supply", u.Supply, SuppliesFile)
		}
	}
}

// indexRuns finds runs, puts them in order, and gathers what belongs to each.
func (x *index) indexRuns() {
	rec := x.rec
	x.runs = x.finder(RunsFile, "run", len(rec.Runs), func(i int32) string { return rec.Runs[i].ID }, func(i int32) int { return rec.Runs[i].Line })
	for i := range rec.Runs {
		r := &rec.Runs[i]
		if !x.machines.has(r.Machine) {
			x.unknown(place{RunsFile, r.Line}, MachineColumn, "machine", r.Machine, MachinesFile)
		}
		if r.Tariff != "" && !x.tariffs[r.Tariff] {
			x.unknown(place{RunsFile, r.Line}, "tariff", "tariff", r.Tariff, TariffsFile)
		}
	}
	x.runOrder = positions(len(rec.Runs))
	byStart := func(a, b int32) int { return rec.Runs[a].Start.Compare(rec.Runs[b].Start) }
	if !slices.IsSortedFunc(x.runOrder, byStart) {
		slices.SortStableFunc(x.runOrder, byStart)
	}
	x.phasesOf = groupByRun(x, PhasesFile, &rec.Phases, func(p *packedPhase) (textAt, int32) { return p.run, p.line })
	x.orderPhases()
	x.loadsOf = groupByRun(x, LoadsFile, &rec.Loads, func(l *packedLoad) (textAt, int32) { return l.run, l.line })
	x.packsOf = groupByRun(x, PacksFile, &rec.Packs, func(p *packedPack) (textAt, int32) { return p.run, p.line })
	for run := range rec.Meters {
		if !x.runs.has(run) && !x.unread.about(RunsFile, run) {
			x.fail(place{MeterFolder + "/" + run + ".csv", 0}, "", "name the log after its run", "no run is called %s", exact.Quote(run))
		}
	}
}

// groupByRun gathers the records of each run. One without a run is of none;
// one whose run is unknown is noted.
func groupByRun[R any, C compact[R, C]](x *index, file string, list *List[R, C], of func(*C) (run textAt, line int32)) groups {
	last, at, near := textAt(0), -1, int32(-1) // records of a run mostly stand together
	return group(len(x.rec.Runs), list.Len(), func(i int) int {
		row, line := of(&list.rows[i])
		if row == last {
			return at
		}
		run := list.store.text(row)
		last, at = row, -1
		if found, ok := x.runs.findNear(near, run); ok {
			at, near = int(found), found
		} else {
			last = 0 // every one of them is noted
			x.unknown(place{file, int(line)}, RunColumn, "run", run, RunsFile)
		}
		return at
	})
}

// orderPhases puts the phases of each run in order of step.
func (x *index) orderPhases() {
	phases := x.rec.Phases.rows
	byStep := func(a, b int32) int { return cmp.Compare(phases[a].step, phases[b].step) }
	for run := range x.rec.Runs {
		list := x.phasesOf.of(run)
		if !slices.IsSortedFunc(list, byStep) {
			slices.SortStableFunc(list, byStep)
		}
		for i := 1; i < len(list); i++ {
			if a, b := &phases[list[i-1]], &phases[list[i]]; a.step == b.step {
				x.fail(place{PhasesFile, int(b.line)}, "step", "number the phases of a run 1, 2, 3 ...", "run %s has a step %d in line %d too", x.rec.Phases.store.text(b.run), b.step, a.line)
			}
		}
	}
}

// groups are lists of positions, one list for each of a number of owners.
type groups struct {
	start []int32 // by owner, where its list begins in items; one more, the end of the last
	items []int32 // positions of the records, owner by owner
}

func (g groups) of(owner int) []int32 { return g.items[g.start[owner]:g.start[owner+1]] }

// group sorts n items by owner, keeping their order; items whose owner is
// negative are left out.
func group(owners, n int, owner func(int) int) groups {
	// A counting sort: how many each owner has, where its list begins, then the items in their
	// order. Ledgers may have a million rows, and this looks at each twice.
	g, ownerOf := groups{start: make([]int32, owners+1)}, make([]int32, n)
	for i := range n {
		of := owner(i)
		ownerOf[i] = int32(of)
		if of >= 0 {
			g.start[of+1]++
		}
	}
	for i := range owners {
		g.start[i+1] += g.start[i]
	}
	g.items = make([]int32, g.start[owners])
	next := slices.Clone(g.start)
	for i, of := range ownerOf {
		if of >= 0 {
			g.items[next[of]] = int32(i)
			next[of]++
		}
	}
	return g
}

// Errors of amounts.
var (
	errNoUnit  = errors.New("has no unit")
	ErrDensity = errors.New("needs a density") // of a food whose amount is to be converted
)

// InBasis returns q in the food's basis unit. Between volume and mass it goes
// through the food's density, rounded half to even at 12 decimals; within one
// dimension it is exact.
func (f *Food) InBasis(q exact.Quantity) (exact.Number, error) {
	d := q.Unit().Dimension()
	switch {
	case d == exact.NoDimension && f.Basis == exact.Ea, d == f.Basis.Dimension():
		return q.Base().Number(), nil
	case d == exact.NoDimension:
		return exact.Number{}, fmt.Errorf("%v %w; %s", q, errNoUnit, f.counted())
	case d == exact.Count || f.Basis == exact.Ea:
		return exact.Number{}, fmt.Errorf("%s, and %v is a %v", f.counted(), q, d)
	}
	density, ok := f.Density.Get()
	if !ok {
		return exact.Number{}, fmt.Errorf("%s, and %v is a %v: to convert it %w", f.counted(), q, d, ErrDensity)
	}
	in, err := q.Through(density, f.Basis)
	return in.Number(), err
}

// counted says what amounts of the food are counted in, whatever the unit that
// the household writes them in.
func (f *Food) counted() string {
	how := map[exact.Unit]string{exact.L: "by volume", exact.Kg: "by mass", exact.Ea: "in pieces"}
	return f.Title() + " is counted " + how[f.Basis]
}

// amount is InBasis that notes what is wrong at the record that asks.
func (x *index) amount(f *Food, q exact.Quantity, at place, field string) (exact.Number, bool) {
	n, err := f.InBasis(q)
	if err == nil {
		return n, true
	}
	if x.unread.about(FoodsFile, f.ID) {
		return n, false
	}
	hint := "write the amount in a unit of " + f.Basis.Dimension().String()
	if f.Basis == exact.Ea {
		hint = "write a number of pieces, such as 6"
	}
	if errors.Is(err, ErrDensity) {
		hint = "add its density (kg per litre) to " + FoodsFile + ", or " + hint
	}
	x.fail(at, field, hint, "%s: %v", field, err)
	return n, false
}
