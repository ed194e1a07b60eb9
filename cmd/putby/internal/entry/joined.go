package entry

import (
	"putby/ledger"
	"putby/ledger/advice"
	"putby/ledger/report"
)

// A Check is what every change of a ledger must pass: that its records join. It
// keeps what it has joined last, to say what a change comes to.
type Check struct {
	Joined  *ledger.Ledger // nil where there were faults
	Wording advice.Wording // of what it says
	Brief   bool           // whether nobody asks it which lots were drawn on
	// Told, which may be nil, is called with what was joined without faults,
	// before anything is saved.
	Told func(*ledger.Ledger)
	// Known, which may be nil, is the ledger before the change: where all that the
	// change does comes after it, that is gone on with.
	Known *ledger.Ledger
}

// Faults are those of the records.
func (c *Check) Faults(rec *ledger.Records) ledger.Faults {
	rec.Settings.Wording = c.Wording
	g, faults := c.join(rec)
	if c.Joined = g; len(faults) > 0 {
		c.Joined = nil
	} else if c.Told != nil {
		c.Told(g)
	}
	return faults
}

func (c *Check) join(rec *ledger.Records) (*ledger.Ledger, ledger.Faults) {
	if c.Known != nil {
		if g, ok := c.Known.Continued(rec); ok {
			return g, nil
		}
	}
	return ledger.Join(rec, ledger.Options{Brief: c.Brief})
}

// Joined joins a ledger's records with rows that are about to be added, to say
// what a person should know of them. It reports false where anything is wrong:
// the saving says what.
func Joined(rec *ledger.Records, rows []Row) (*ledger.Ledger, bool) {
	more, faults := withRows(rec, rows)
	if len(faults) > 0 {
		return nil, false
	}
	if rec.Excerpt != nil {
		covers, ok := rec.Covers(more)
		if more.Excerpt = covers; !ok {
			return nil, false
		}
	}
	g, faults := ledger.Join(more, ledger.Options{})
	return g, len(faults) == 0
}

// Foretell says what a draft will come to, as it is said once it is saved; nil
// where the saving will say what is wrong.
func (b *Base) Foretell(d *Draft) []string {
	if g, ok := Joined(b.Records, d.Rows); ok {
		return d.Lines(g)
	}
	return nil
}

// Written names, among records with rows at their end, those rows.
func Written(rec *ledger.Records, rows []Row) []report.Written {
	var kinds []string
	count := map[string]int{}
	for _, row := range rows {
		if count[row.Kind.Name] == 0 {
			kinds = append(kinds, row.Kind.Name)
		}
		count[row.Kind.Name]++
	}
	var list []report.Written
	for _, kind := range kinds {
		list = append(list, report.LastWritten(rec, kind, count[kind])...)
	}
	return list
}
