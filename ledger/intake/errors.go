package intake

import (
	"errors"
	"fmt"
	"strings"
)

// What a [ledger.Fault] says of a file that cannot be imported at all, for
// errors.Is. What is wrong with single rows is a [Bad] instead.
var (
	// ErrFormat: the file is not a table that can be read.
	ErrFormat = errors.New("not a table that can be read")
	// ErrEncoding: the text is not of the encoding given, or of none known.
	ErrEncoding = errors.New("the encoding cannot be read")
	// ErrTooLarge: the file is beyond a limit.
	ErrTooLarge = errors.New("too large")
	// ErrNoSheet: the workbook has no sheet of that name.
	ErrNoSheet = errors.New("no such sheet")
	// ErrHeader: no row has the columns that the map reads.
	ErrHeader = errors.New("the columns are not there")
	// ErrAmbiguous: dates or numbers can be read in two ways.
	ErrAmbiguous = errors.New("can be read in two ways")
	// ErrMixed: dates or numbers are written in two ways that exclude each other.
	ErrMixed = errors.New("written in two ways")
)

// A Bad is a row that cannot be imported.
type Bad struct {
	Line   int    // where the row begins in the file; in a workbook the sheet's row
	Last   int    // the last line that is lost with it; Line in most cases
	Column string // header of the cell at fault, or the ledger's column; may be empty
	What   string // lower case, no full stop
	Hint   string // what to try; may be empty
}

// Error returns the line, the column and what is wrong, without the hint.
func (b Bad) Error() string {
	where := fmt.Sprintf("line %d", b.Line)
	if b.Last > b.Line {
		where = fmt.Sprintf("lines %d to %d", b.Line, b.Last)
	}
	if b.Column != "" {
		where += ", " + b.Column
	}
	return where + ": " + b.What
}

// lines puts errors one a line.
func lines[E error](errs []E) string {
	text := make([]string, len(errs))
	for i, err := range errs {
		text[i] = err.Error()
	}
	return strings.Join(text, "\n")
}
