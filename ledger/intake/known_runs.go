package intake

import (
	"strconv"
	"time"

	"putby/ledger"
	"putby/pricing/exact"
)

// A runBook is the ledger's runs with their phases and loads, found by number, or by
// machine and start: which a machine can have but once. Of a run that is there, phases
// are matched by their names and loads by their foods, each used up once.
type runBook struct {
	byID   map[string]*ledger.Run
	byTime map[string]*ledger.Run // by machine and start
	phases map[string][]ledger.Phase
	loads  map[string][]*knownLoad
	taken  map[string]bool // identifiers of runs that this import adds
	claims map[string]int  // by machine and start: the line of this import that has the run
}

type knownLoad struct {
	record ledger.Load
	used   bool
}

func newRunBook(rec *ledger.Records) *runBook {
	b := &runBook{
		map[string]*ledger.Run{}, map[string]*ledger.Run{}, map[string][]ledger.Phase{},
		map[string][]*knownLoad{}, map[string]bool{}, map[string]int{},
	}
	for i := range rec.Runs {
		b.byID[rec.Runs[i].ID] = &rec.Runs[i]
		b.byTime[timeKey(rec.Runs[i].Machine, rec.Runs[i].Start)] = &rec.Runs[i]
	}
	for _, p := range rec.Phases.All() {
		b.phases[p.Run] = append(b.phases[p.Run], p)
	}
	for _, l := range rec.Loads.All() {
		b.loads[l.Run] = append(b.loads[l.Run], &knownLoad{record: l})
	}
	return b
}

// timeKey tells runs apart: a machine is in one run at a time.
func timeKey(machine string, start time.Time) string {
	return machine + " " + start.UTC().Format(time.DateTime)
}

// find returns the run of the ledger that a group is, or nil: of its number,
// else of its machine and start.
func (b *runBook) find(g *runGroup, zone *time.Location) *ledger.Run {
	if g.own && b.byID[g.id] != nil {
		return b.byID[g.id]
	}
	start, err := exact.ParseMoment(g.cells["start"], zone)
	if err != nil {
		return nil // the ledger's own check says why
	}
	return b.byTime[timeKey(g.cells["machine"], start)]
}

// name makes an identifier of a run's machine and start, with a number behind
// it where another run has that.
func (b *runBook) name(g *runGroup) string {
	start := g.cells["start"]
	base := identifier(g.cells["machine"] + "-" + start[:min(len(start), len("2025-02-28 18:30"))])
	id := base[:min(len(base), maxID-4)]
	for n, base := 2, id; b.byID[id] != nil || b.taken[id]; n++ {
		id = base + "-" + strconv.Itoa(n)
	}
	b.taken[id] = true
	return id
}

// claim notes that a line has the run of a machine at a time, or returns the
// line that has it already.
func (b *runBook) claim(r *ledger.Run, line int) (other int) {
	key := timeKey(r.Machine, r.Start)
	if other = b.claims[key]; other == 0 {
		b.claims[key] = line
		b.taken[r.ID] = true
	}
	return other
}

// phase returns the phase of a run that bears a name, if the run has but one.
func (b *runBook) phase(run string, name ledger.PhaseName) *ledger.Phase {
	var found *ledger.Phase
	for i := range b.phases[run] {
		if p := &b.phases[run][i]; p.Phase == name {
			if found != nil {
				return nil
			}
			found = p
		}
	}
	return found
}

// load uses up the load of the ledger that a load of the file is: one of its
// run and food that has the cells which the file fills, else the first of its
// run and food.
func (b *runBook) load(r *ledger.Load, cell func(column string) string) *ledger.Load {
	var first *knownLoad
	for _, k := range b.loads[r.Run] {
		if k.used || k.record.Item != r.Item {
			continue
		}
		has, gives := bothGiven(loadCells(&k.record), loadCells(r), cell)
		if column, _, _ := difference(has, gives); column == "" {
			k.used = true
			return &k.record
		}
		if first == nil {
			first = k
		}
	}
	if first == nil {
		return nil
	}
	first.used = true
	return &first.record
}

// runCells are what a run means.
func runCells(r *ledger.Run) []meaning {
	end := ""
	if t, ok := r.End.Get(); ok {
		end = t.UTC().Format(time.DateTime)
	}
	return []meaning{
		verbatim("machine", r.Machine),
		{"start", r.Start.UTC().Format(time.DateTime), r.Start.Format(time.DateTime)},
		verbatim("end", end),
		verbatim("tariff", r.Tariff),
		verbatim("kwh", given(r.KWh)),
		verbatim("hands", exact.FormatDuration(r.Hands)),
		verbatim("outcome", r.Outcome()),
	}
}

// given writes a number, or nothing where none is given.
func given(n exact.Opt[exact.Number]) string {
	if n, ok := n.Get(); ok {
		return n.String()
	}
	return ""
}

// phaseCells are what a phase of one name means.
func phaseCells(p *ledger.Phase) []meaning {
	return []meaning{verbatim("duration", exact.FormatDuration(p.Length))}
}

// loadCells are what a load means.
func loadCells(r *ledger.Load) []meaning {
	return []meaning{
		verbatim("item", r.Item),
		{"quantity", sizeKey(r.Quantity), r.Quantity.String()},
		verbatim("receipt", r.Receipt),
		verbatim("line", r.Number),
		verbatim("trays", given(r.Trays)),
		{"wet", sizeKey(r.Wet), r.Wet.String()},
		{"dry", sizeKey(r.Dry), r.Dry.String()},
		{"lost", sizeKey(r.Lost), r.Lost.String()},
	}
}
