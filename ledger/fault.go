package ledger

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"

	"putby/ledger/advice"
)

// A Fault is something wrong, at the place where a person can mend it, and what to
// try. Faults of the records are a [Faults]: one is enough to refuse every report.
// What cannot be done with a ledger's folder or a foreign file is one as an error,
// a *Fault; errors.Is finds its kind and its cause.
type Fault struct {
	Kind   error          // what it is, of those that a package has names for; else nil
	File   string         // name within the ledger's folder; empty where another file or none is meant
	Path   string         // of a value in JSON, such as $.rates[0]
	Line   int            // of the record, 1 for the header; 0 when the whole file is meant; in a workbook the sheet's row
	Last   int            // of a foreign row, the last line that is lost with it; 0: Line
	Column int            // in bytes from 1; 0 until it is known, see Field
	Field  string         // the column's name, from which a reader of the file finds Column; of a foreign row the header, or the ledger's column
	What   string         // what is wrong: lower case, no full stop; of a ledger's cell it begins with the column's name
	Hint   string         // what to try; may be empty
	Do     []advice.Doing // what else to do, after Hint; what does the same in several ways
	Choice Choice         // what a person may say to mend it; Hint is part of how that is told
	Err    error          // the cause; may be nil
	// Rest marks a fault that stands for further ones of its file, which are too
	// many to be told: of reading, for all from its line on.
	Rest bool

	// Of a fault of reading:
	row   int       // the line at which its record begins
	about []subject // what it leaves unread
}

// Error returns the fault in one line, without its hint. What is wrong with a
// whole file, or a whole record, stands at its beginning.
func (f Fault) Error() string {
	text := f.What
	if f.Err != nil {
		text += ": " + f.Err.Error()
	}
	switch {
	case f.File != "":
		return fmt.Sprintf("%s:%d:%d: %s", f.File, max(f.Line, 1), max(f.Column, 1), text)
	case f.Path != "":
		return f.Path + ": " + text
	case f.Column > 0:
		return fmt.Sprintf("%d:%d: %s", f.Line, f.Column, text)
	case f.Line > 0:
		where := fmt.Sprintf("line %d", f.Line)
		if f.Last > f.Line {
			where = fmt.Sprintf("lines %d to %d", f.Line, f.Last)
		}
		if f.Field != "" {
			where += ", " + f.Field
		}
		return where + ": " + text
	}
	return text
}

// Unwrap returns the fault's kind and cause.
func (f Fault) Unwrap() []error { return []error{f.Kind, f.Err} }

// Faults are all that is wrong with a ledger. As an error they say how many.
type Faults []Fault

// ErrFaults: of an error that is [Faults], for errors.Is.
var ErrFaults = errors.New("the records have faults")

// Is reports whether they are asked for by their kind.
func (fs Faults) Is(kind error) bool { return kind == ErrFaults }

// Error lists the faults, one a line.
func (fs Faults) Error() string {
	lines := make([]string, len(fs))
	for i, f := range fs {
		lines[i] = f.Error()
	}
	return strings.Join(lines, "\n")
}

// Sort orders faults by file, line and column.
func (fs Faults) Sort() {
	slices.SortStableFunc(fs, func(a, b Fault) int {
		return cmp.Or(cmp.Compare(a.File, b.File), cmp.Compare(a.Line, b.Line),
			cmp.Compare(a.Column, b.Column), cmp.Compare(a.What, b.What))
	})
}

// Err returns the faults as an error, or nil when there are none.
func (fs Faults) Err() error {
	if len(fs) == 0 {
		return nil
	}
	return fs
}

// Names of the files of a ledger.
const (
	SettingsFile = "settings.csv"
	FoodsFile    = "foods.csv"
	SuppliesFile = "supplies.csv"
	MachinesFile = "machines.csv"
	WattageFile  = "wattage.csv"
	TariffsFile  = "tariffs.csv"
	HolidaysFile = "holidays.csv"
	ReceiptsFile = "receipts.csv"
	ShelfFile    = "shelf.csv"
	BatchesFile  = "batches.csv"
	RunsFile     = "runs.csv"
	PhasesFile   = "phases.csv"
	LoadsFile    = "loads.csv"
	PacksFile    = "packs.csv"
	DrawsFile    = "draws.csv"
	FrozenFile   = "frozen.csv"
	CountsFile   = "counts.csv"
	MeterFolder  = "meter" // of one log a run, RUN.csv
	RatesFolder  = "rates" // of the prices of hourly bands, TARIFF.csv
)
