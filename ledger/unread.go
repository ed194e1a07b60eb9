package ledger

import (
	"cmp"
	"path"
	"strings"
)

// place is where a record stands.
type place struct {
	file string
	line int // 1 is the header; 0: the file as a whole
}

// A subject is something that records tell of and others ask for: a receipt, a
// run, the lots of an item ... It is named by the file that tells of it and an
// identifier; without one it is all that the file tells of, when part of it
// could not be told into records.
type subject struct{ file, id string }

// lotsOf stands for a file in the subjects that are lots, since two files
// make them.
const lotsOf = "lots"

// unread hold records that could not be read and amounts that could not be
// worked out, so that faults caused by them are not reported again. The zero
// value holds none.
type unread struct {
	records  map[place]bool // have faults of their own
	rest     map[string]int // of a file, the line from which on any record may
	subjects map[subject]bool
	unmade   map[string]bool // items of which a lot could not be made; the rest does not change
	excerpt  *Excerpt        // of the records, where not all were read
}

// newUnread gathers what the faults of reading leave unread, and what was not
// read.
func newUnread(read Faults, excerpt *Excerpt) unread {
	d := unread{excerpt: excerpt, records: map[place]bool{}, rest: map[string]int{}, subjects: map[subject]bool{}, unmade: map[string]bool{}}
	for _, f := range read {
		d.records[place{f.File, cmp.Or(f.row, f.Line)}] = true
		if f.Rest {
			d.rest[f.File] = f.Line
		}
		for _, s := range f.subjects() {
			if s.id != "" || f.about == nil {
				d.subjects[s] = true
			}
		}
	}
	return d
}

// subjects returns what a fault of reading leaves unread. Where no record
// could be read, that is all that the file tells of.
func (f *Fault) subjects() []subject {
	if f.about != nil {
		return f.about
	}
	switch {
	case f.File == ReceiptsFile || f.File == BatchesFile:
		return []subject{{ReceiptsFile, ""}, {lotsOf, ""}}
	case f.File == HolidaysFile:
		return []subject{{TariffsFile, ""}}
	case path.Dir(f.File) == MeterFolder:
		return []subject{{RunsFile, strings.TrimSuffix(path.Base(f.File), ".csv")}}
	case path.Dir(f.File) == RatesFolder:
		return []subject{{TariffsFile, strings.TrimSuffix(path.Base(f.File), ".csv")}}
	}
	return []subject{{f.File, ""}}
}

// record reports whether a record could not be read whole.
func (d *unread) record(at place) bool {
	from, cut := d.rest[at.file]
	return d.records[at] || cut && at.line >= from
}

// about reports whether what a file tells of id is unread, in part or whole.
func (d *unread) about(file, id string) bool {
	return d.excerpt.leavesOut(file, id) || len(d.subjects) > 0 && (d.subjects[subject{file, id}] || d.subjects[subject{file, ""}])
}

// lots reports whether the lots of an item, or what they are counted in, are
// unread.
func (d *unread) lots(item string) bool {
	return d.unmade[item] || d.about(lotsOf, item) || d.about(FoodsFile, item) || d.about(SuppliesFile, item)
}

// noLot notes the lots of an item as unread, since one could not be made.
func (d *unread) noLot(item string) { d.unmade[item] = true }

// run reports whether a run, its phases or its loads are unread.
func (d *unread) run(id string) bool {
	return d.about(RunsFile, id) || d.about(PhasesFile, id) || d.about(LoadsFile, id)
}

// A record says what it tells of, and so what is unread when it cannot be
// read whole. An identifier that cannot be read is empty, and then nobody can
// ask for the record. A list that is empty says that nothing asks for such records;
// nil would stand for the whole file, as [Fault.subjects] has it.
type record interface{ about() []subject }

func (r *Food) about() []subject     { return []subject{{FoodsFile, r.ID}} }
func (r *Supply) about() []subject   { return []subject{{SuppliesFile, r.ID}} }
func (r *Machine) about() []subject  { return []subject{{MachinesFile, r.ID}} }
func (r *Wattage) about() []subject  { return []subject{{WattageFile, r.Machine}} }
func (r *Band) about() []subject     { return []subject{{TariffsFile, r.Tariff}} }
func (r *Holiday) about() []subject  { return []subject{{TariffsFile, r.Tariff}} }
func (r *Run) about() []subject      { return []subject{{RunsFile, r.ID}} }
func (r *Phase) about() []subject    { return []subject{{PhasesFile, r.Run}} }
func (r *Load) about() []subject     { return []subject{{LoadsFile, r.Run}} }
func (r *Pack) about() []subject     { return []subject{{PacksFile, r.ID}} }
func (r *ShelfRow) about() []subject { return []subject{} }
func (r *Draw) about() []subject     { return []subject{} } // books without it have more, not less
func (r *Freeze) about() []subject   { return []subject{} }
func (r *Count) about() []subject    { return []subject{} }

func (r *ReceiptRow) about() []subject {
	return []subject{{ReceiptsFile, r.Receipt}, {lotsOf, r.Item}}
}

func (r *Batch) about() []subject {
	return []subject{{ReceiptsFile, r.ID}, {lotsOf, r.Item}}
}
