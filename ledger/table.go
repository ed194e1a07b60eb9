package ledger

import "time"

// A Table goes through the records of a file by single columns, to pick some of them:
// to make whole records takes several times as long.
type Table struct {
	at     int
	rows   int
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
		return packedTable(&rec.Receipts, map[string]func(*store, *packedReceipt) string{
			"receipt": func(s *store, c *packedReceipt) string { return s.text(c.receipt) },
			"date":    func(_ *store, c *packedReceipt) string { return c.date.String() },
			"item":    func(s *store, c *packedReceipt) string { return s.text(c.item) },
		})
	case RunsFile:
		return plainTable(&rec.Runs, map[string]func(*Run) string{
			"run":     func(r *Run) string { return r.ID },
			"machine": func(r *Run) string { return r.Machine },
			"start":   func(r *Run) string { return r.Start.Format(time.RFC3339) },
			"outcome": (*Run).Outcome,
		})
	case PhasesFile:
		return packedTable(&rec.Phases, map[string]func(*store, *packedPhase) string{
			"run": func(s *store, c *packedPhase) string { return s.text(c.run) },
		})
	case LoadsFile:
		return packedTable(&rec.Loads, map[string]func(*store, *packedLoad) string{
			"run":  func(s *store, c *packedLoad) string { return s.text(c.run) },
			"item": func(s *store, c *packedLoad) string { return s.text(c.item) },
		})
	case PacksFile:
		return packedTable(&rec.Packs, map[string]func(*store, *packedPack) string{
			"pack": func(s *store, c *packedPack) string { return s.text(c.id) },
			"run":  func(s *store, c *packedPack) string { return s.text(c.run) },
			"date": func(_ *store, c *packedPack) string { return c.date.String() },
			"item": func(s *store, c *packedPack) string { return s.text(c.item) },
			"with": func(_ *store, c *packedPack) string {
				if c.with == 0 {
					return ""
				}
				return "some"
			},
		})
	case DrawsFile:
		return packedTable(&rec.Draws, map[string]func(*store, *packedDraw) string{
			"pack": func(s *store, c *packedDraw) string { return s.text(c.of) },
			"item": func(s *store, c *packedDraw) string { return s.text(c.item) },
		})
	case CountsFile:
		return plainTable(&rec.Counts, map[string]func(*Count) string{
			"pack": func(c *Count) string { return c.Pack },
			"item": func(c *Count) string { return c.Item },
		})
	}
	panic("ledger: no excerpt is made of " + file)
}

func packedTable[R any, C compact[R, C]](list *List[R, C], columns map[string]func(*store, *C) string) *Table {
	all := *list
	return &Table{
		rows: len(all.rows),
		column: func(name string) func(int) string {
			cell := columns[name]
			return func(i int) string { return cell(all.store, &all.rows[i]) }
		},
		keep: func(wanted func(int) bool) {
			some := List[R, C]{store: all.store}
			for i := range all.rows {
				if wanted(i) {
					some.rows = append(some.rows, all.rows[i])
				}
			}
			*list = some
		},
	}
}

func plainTable[R any](list *[]R, columns map[string]func(*R) string) *Table {
	all := *list
	return &Table{
		rows: len(all),
		column: func(name string) func(int) string {
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
