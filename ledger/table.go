package ledger

import "time"

// Columns that code asks for by name; the definitions of the kinds name them so too.
const (
	DateColumn, ItemColumn, MachineColumn, OutcomeColumn                = "date", "item", "machine", "outcome"
	PackColumn, ReceiptColumn, RunColumn, StartColumn                   = "pack", "receipt", "run", "start"
	WithColumn, QuantityColumn, LineColumn, PhaseColumn, DurationColumn = "with", "quantity", "line", "phase", "duration"
)

// A Table goes through the records of a file by single columns, to pick some of them:
// to make whole records takes several times as long.
type Table struct {
	at     int // position of the record at hand
	rows   int // as many as there were when it was opened
	column func(name string) func(i int) string
	keep   func(wanted func(i int) bool)
}

// Column returns what reads a column of the record at hand; of supplies in a list it
// tells only whether there are any.
func (t *Table) Column(name string) func() string {
	cell := t.column(name)
	return func() string { return cell(t.at) }
}

// Each has one record after the other at hand.
func (t *Table) Each(do func()) {
	for t.at = range t.rows {
		do()
	}
}

// Keep leaves no more in the records than those that are wanted. The table still goes
// through all.
func (t *Table) Keep(wanted func() bool) {
	t.keep(func(i int) bool {
		t.at = i
		return wanted()
	})
}

// Table opens a file's records: of those files of which an excerpt leaves out some.
func (rec *Records) Table(file string) *Table {
	switch file {
	case ReceiptsFile:
		text := rec.Receipts.store.text
		return tableOf(&rec.Receipts.rows, map[string]func(*packedReceipt) string{
			ReceiptColumn: func(c *packedReceipt) string { return text(c.receipt) },
			DateColumn:    func(c *packedReceipt) string { return c.date.String() },
			ItemColumn:    func(c *packedReceipt) string { return text(c.item) },
		})
	case RunsFile:
		return tableOf(&rec.Runs, map[string]func(*Run) string{
			RunColumn:     func(r *Run) string { return r.ID },
			MachineColumn: func(r *Run) string { return r.Machine },
			StartColumn:   func(r *Run) string { return r.Start.Format(time.RFC3339) },
			OutcomeColumn: (*Run).Outcome,
		})
	case PhasesFile:
		text := rec.Phases.store.text
		return tableOf(&rec.Phases.rows, map[string]func(*packedPhase) string{
			RunColumn: func(c *packedPhase) string { return text(c.run) },
		})
	case LoadsFile:
		text := rec.Loads.store.text
		return tableOf(&rec.Loads.rows, map[string]func(*packedLoad) string{
			RunColumn:  func(c *packedLoad) string { return text(c.run) },
			ItemColumn: func(c *packedLoad) string { return text(c.item) },
		})
	case PacksFile:
		text := rec.Packs.store.text
		return tableOf(&rec.Packs.rows, map[string]func(*packedPack) string{
			PackColumn: func(c *packedPack) string { return text(c.id) },
			RunColumn:  func(c *packedPack) string { return text(c.run) },
			DateColumn: func(c *packedPack) string { return c.date.String() },
			ItemColumn: func(c *packedPack) string { return text(c.item) },
			WithColumn: func(c *packedPack) string {
				if c.with == 0 {
					return ""
				}
				return "some"
			},
		})
	case DrawsFile:
		text := rec.Draws.store.text
		return tableOf(&rec.Draws.rows, map[string]func(*packedDraw) string{
			PackColumn: func(c *packedDraw) string { return text(c.of) },
			ItemColumn: func(c *packedDraw) string { return text(c.item) },
		})
	case CountsFile:
		return tableOf(&rec.Counts, map[string]func(*Count) string{
			PackColumn: func(c *Count) string { return c.Pack },
			ItemColumn: func(c *Count) string { return c.Item },
		})
	}
	panic("ledger: no excerpt is made of " + file)
}

// tableOf is a table of records, with what reads those of its columns that are picked by.
func tableOf[R any](list *[]R, columns map[string]func(*R) string) *Table {
	all := *list
	return &Table{
		rows: len(all),
		column: func(name string) func(int) string {
			// One that is not listed panics at the first record: programs name columns here, not people.
			cell := columns[name]
			return func(i int) string { return cell(&all[i]) }
		},
		keep: func(wanted func(int) bool) {
			var some []R
			for i := range all {
				if wanted(i) {
					some = append(some, all[i])
				}
			}
			*list = some
		},
	}
}
