package intake

import (
	"iter"
	"maps"
	"slices"
	"strconv"
	"strings"
	"time"

	"putby/ledger"
	"putby/pricing/exact"
)

// A runGroup is the rows of one run of the foreign file.
type runGroup struct {
	id     string
	own    bool // whether the file gives the identifier
	drafts []*draft
	cells  map[string]string // of the run and its phases, from all its rows
	known  *ledger.Run       // the run of the ledger that it is, or nil
}

// runs turns rows of runs into runs, phases and loads: a row is a run with one
// load, or one more load of a run that a row before it has.
func (w *writer) runs(drafts iter.Seq[*draft]) {
	known := newRunBook(w.rec)
	var groups []*runGroup
	byKey := map[string]*runGroup{}
	for d := range drafts {
		g := w.runOf(d, byKey)
		if g == nil || !w.joinRun(d, g) {
			continue
		}
		if len(g.drafts) == 0 {
			groups = append(groups, g)
		}
		g.drafts = append(g.drafts, d)
	}
	for _, g := range groups {
		w.run(g, known)
	}
}

// runOf finds the run of a row: by its number, else by machine and start.
func (w *writer) runOf(d *draft, byKey map[string]*runGroup) *runGroup {
	if machine := d.get("machine"); machine != "" {
		id, _, _, ok := w.resolve(machine, ledger.MachineLine.String())
		if _, known := w.book.find(id, ledger.MachineLine.String()); !ok || !known {
			w.lacks(d, "machine", exact.Quote(machine)+" is no machine that the ledger knows", ledger.NameMeaning, exact.Quote(machine))
			return nil
		}
		d.set("machine", id)
	}
	id := d.get("run")
	key := "id " + id
	if id == "" {
		if d.get("machine") == "" || d.get("start") == "" {
			w.bad(d, "", "the row has neither a number of the run nor both machine and start", "")
			return nil
		}
		key = "at " + d.get("machine") + " " + d.get("start")
	}
	g := byKey[key]
	if g == nil {
		g = &runGroup{id: id, own: id != "", cells: map[string]string{}}
		byKey[key] = g
	}
	return g
}

// joinRun takes what a row says of the run itself; rows of one run may not
// contradict each other.
func (w *writer) joinRun(d *draft, g *runGroup) bool {
	var own []string
	for _, column := range Runs.Columns() {
		text := d.get(column)
		if text == "" || strings.HasPrefix(column, "load.") {
			continue
		}
		if have := g.cells[column]; have != "" && have != text {
			w.bad(d, column, "the run has "+have+" in a row before and "+text+" here", "")
			return false
		}
		own = append(own, column)
	}
	// Only once all agree, so that a row that is refused leaves nothing behind.
	for _, column := range own {
		g.cells[column] = d.get(column)
	}
	return true
}

// run holds a run against the ledger and adds what is new of it.
func (w *writer) run(g *runGroup, known *runBook) {
	first := g.drafts[0]
	g.known = known.find(g, w.zone())
	if g.known != nil {
		g.id = g.known.ID
	} else if !g.own {
		g.id = known.name(g)
	}
	g.cells["run"] = g.id
	row := laid(w.checker(ledger.RunsFile).columns, in(g.withKnown()))
	c, ok := w.check(first, ledger.RunsFile, row)
	if !ok {
		return
	}
	record := c.rec.Runs[0]
	if w.ahead("start", exact.DateIn(record.Start), g.drafts...) {
		return
	}
	other := known.claim(&record, first.row.Line)
	switch {
	case other > 0:
		w.bad(first, "start", "line "+strconv.Itoa(other)+" has another run of "+record.Machine+" at that time",
			"number both rows alike if they are one run")
		return
	case g.known == nil:
		if g.cells["end"] != "" && g.hasPhases() {
			w.bad(first, "end", "the run has an end beside phases, which say how long it took", "fill only one of them")
			return
		}
		w.add(ledger.RunsFile, first.row.Line, row, &c.rec)
	default:
		has, gives := bothGiven(runCells(g.known), runCells(&record), in(g.cells))
		w.compare(first, ledger.RunsFile, g.known.Line, has, gives)
	}
	w.phases(g, known)
	w.loads(g, known)
}

// laid lays cells out in the order of a file's columns.
func laid(columns []string, cell func(column string) string) []string {
	row := make([]string, len(columns))
	for i, name := range columns {
		row[i] = cell(name)
	}
	return row
}

// in looks cells up.
func in(cells map[string]string) func(column string) string {
	return func(column string) string { return cells[column] }
}

// withKnown returns the run's cells, those that a run needs from the ledger
// where the file, which may be about loads alone, leaves them out.
func (g *runGroup) withKnown() map[string]string {
	if g.known == nil {
		return g.cells
	}
	cells := maps.Clone(g.cells)
	if cells["machine"] == "" {
		cells["machine"] = g.known.Machine
	}
	if cells["start"] == "" {
		cells["start"] = g.known.Start.Format("2006-01-02 15:04:05Z07:00")
	}
	return cells
}

func (w *writer) zone() *time.Location {
	if w.rec.Settings.Zone == nil {
		return time.UTC
	}
	return w.rec.Settings.Zone
}

// compare notes a record of the ledger as there, or as differing.
func (w *writer) compare(d *draft, file string, at int, has, gives []meaning) {
	if column, a, b := difference(has, gives); column != "" {
		w.p.Differ = append(w.p.Differ, Differ{d.row.Line, file, at, column, a, b})
		return
	}
	w.p.There = append(w.p.There, There{Line: d.row.Line, File: file, At: at})
}

// bothGiven keeps the cells that the file fills.
func bothGiven(has, gives []meaning, cell func(column string) string) (a, b []meaning) {
	for i, c := range gives {
		if cell(c.column) != "" {
			a, b = append(a, has[i]), append(b, c)
		}
	}
	return a, b
}

func (g *runGroup) hasPhases() bool {
	return slices.ContainsFunc(phases(), func(p string) bool { return g.cells["phase."+p] != "" })
}

// phases adds the phases of a run whose phases the ledger does not have.
func (w *writer) phases(g *runGroup, known *runBook) {
	columns := w.checker(ledger.PhasesFile).columns
	step := 0
	for _, phase := range phases() {
		length := g.cells["phase."+phase]
		if length == "" {
			continue
		}
		step++
		row := laid(columns, in(map[string]string{
			"run": g.id, "step": strconv.Itoa(step), "phase": phase, "duration": length,
		}))
		c, ok := w.check(g.drafts[0], ledger.PhasesFile, row)
		if !ok {
			continue
		}
		record := c.rec.Phases.At(0)
		if have := known.phase(g.id, record.Phase); have != nil {
			w.compare(g.drafts[0], ledger.PhasesFile, int(have.Line), phaseCells(have), phaseCells(&record))
			continue
		}
		if list := known.phases[g.id]; len(list) > 0 {
			w.p.Differ = append(w.p.Differ, Differ{g.drafts[0].row.Line, ledger.PhasesFile, int(list[0].Line), "phase", "", phase})
			continue
		}
		w.add(ledger.PhasesFile, g.drafts[0].row.Line, row, &c.rec)
	}
}

// loads adds the loads of a run that the ledger does not have.
func (w *writer) loads(g *runGroup, known *runBook) {
	columns := w.checker(ledger.LoadsFile).columns
	for _, d := range g.drafts {
		cell := func(column string) string { return d.get("load." + column) }
		if !slices.ContainsFunc(columns, func(c string) bool { return cell(c) != "" }) {
			continue
		}
		item, _, ok := w.food(d, "load.item")
		if !ok {
			continue
		}
		d.set("load.item", item)
		row := laid(columns, cell)
		row[slices.Index(columns, "run")] = g.id
		c, ok := w.check(d, ledger.LoadsFile, row)
		if !ok {
			continue
		}
		record := c.rec.Loads.At(0)
		if have := known.load(&record, cell); have != nil {
			has, gives := bothGiven(loadCells(have), loadCells(&record), cell)
			w.compare(d, ledger.LoadsFile, have.Line, has, gives)
			continue
		}
		w.add(ledger.LoadsFile, d.row.Line, row, &c.rec)
	}
}
