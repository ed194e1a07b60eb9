package folder

import (
	"fmt"

	"putby/ledger"
)

// Limits that keep the reading of any folder bounded in memory and time.
const (
	MaxFile   = 512 << 20 // bytes of a file
	MaxCell   = 64 << 10  // bytes of a cell
	MaxCells  = 1000      // cells of a row
	MaxFaults = 1000      // faults of a file that are told one by one
)

// A tally gathers the faults of a file: the first ones whole, and how many
// more there are.
type tally struct {
	file string
	list ledger.Faults
	more int          // faults beyond those in list; 0: all are there
	next ledger.Fault // the first of those not told
}

func (t *tally) add(f ledger.Fault) {
	f.File = t.file
	if len(t.list) < MaxFaults {
		t.list = append(t.list, f)
		return
	}
	if t.more == 0 {
		t.next = f
	}
	t.more++
}

// at adds a fault at a place.
func (t *tally) at(line, column int, what, hint string) {
	t.add(ledger.Fault{Line: line, Column: column, What: what, Hint: hint})
}

// faults returns what was gathered, in the order of the file.
func (t *tally) faults() ledger.Faults {
	list := t.list
	list.Sort()
	if t.more > 0 {
		f := t.next
		list = append(list, ledger.Fault{
			File: t.file, Line: f.Line, Column: f.Column, Rest: true,
			What: fmt.Sprintf("from here on %d more faults, not told one by one", t.more),
			Hint: "mend those above first",
		})
	}
	return list
}
