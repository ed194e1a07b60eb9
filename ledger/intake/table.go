package intake

import (
	"bytes"
	"fmt"
	"io"
	"slices"
	"strings"
)

// A Table is a foreign file, read but not understood yet: rows of text.
type Table struct {
	Rows []Row // those that are not blank, the header among them
	Bad  []Bad // rows that could not be split into cells
	Form Form

	cells, bytes int // in all rows
	most         limits
}

// A Row is one row of a foreign file.
type Row struct {
	Line  int // where it begins in the file; in a workbook the sheet's row
	Last  int // where it ends
	Cells []string
}

// A Form is how a table was written.
type Form struct {
	Encoding  Encoding // of a text file
	Separator byte     // of a text file
	Workbook  bool     // whether cells are values as a workbook stores them
	Sheet     string   // of a workbook
	From1904  bool     // whether the workbook counts its dates from 1904
}

// String says how the table was written, in a few words.
func (f Form) String() string {
	if f.Workbook {
		return fmt.Sprintf("workbook, sheet %q", f.Sheet)
	}
	return fmt.Sprintf("%s, separated by %s", f.Encoding, separatorWord(f.Separator))
}

// Options say how to read a table; their zero value finds everything out.
type Options struct {
	Encoding  Encoding
	Separator byte   // 0: found by the rows
	Sheet     string // of a workbook; empty: the first
	// Progress, which may be nil, is called now and then while there are many
	// rows, with how many are done of how many in all; all is 0 while that is
	// not known. If it was called, the last call has done equal to all.
	Progress func(done, all int)

	limits *limits // nil: the package's; tests set small ones
}

// limits bound what is read; see the constants for the units.
type limits struct{ file, plain, table int }

func (o Options) bounds() limits {
	if o.limits != nil {
		return *o.limits
	}
	return limits{MaxFile, MaxPlain, MaxTable}
}

// reportEvery is how many rows pass between two calls of Progress.
const reportEvery = 2048

func (o Options) report(done, all int) {
	if o.Progress != nil && done%reportEvery == 0 {
		o.Progress(done, all)
	}
}

// reported tells that all rows are done, if any call was made before.
func (o Options) reported(all int) {
	if o.Progress != nil && all >= reportEvery {
		o.Progress(all, all)
	}
}

// Read reads a CSV file or an .xlsx workbook; its first bytes tell which. Rows
// that cannot be split are in Table.Bad; an error, which is an [*Error] or one
// of r's, means that there is no table.
func Read(r io.Reader, o Options) (*Table, error) {
	most := o.bounds()
	data, err := io.ReadAll(io.LimitReader(r, int64(most.file)+1))
	if err != nil {
		return nil, err
	}
	t := &Table{Form: Form{Workbook: isWorkbook(data)}, most: most}
	switch {
	case len(data) > most.file:
		return nil, &Error{Kind: ErrTooLarge, What: "the file is larger than 64 MiB", Hint: "import it in parts"}
	case bytes.HasPrefix(data, []byte(oleMagic)):
		return nil, &Error{
			Kind: ErrFormat, What: "the file is a workbook of an older format, or has a password",
			Hint: "save it without a password as .xlsx, or as CSV",
		}
	case t.Form.Workbook:
		err = readWorkbook(t, data, o)
	default:
		err = readText(t, data, o)
	}
	if err != nil {
		return nil, err
	}
	if len(t.Rows) == 0 {
		return nil, &Error{Kind: ErrFormat, What: "the file has no rows"}
	}
	return t, nil
}

// readText reads a CSV file, whatever its separator.
func readText(t *Table, data []byte, o Options) (err error) {
	var text string
	if text, t.Form.Encoding, err = decode(data, o.Encoding); err != nil {
		return err
	}
	s := newScanner(text, o.Separator)
	s.skipSeparatorLine()
	if s.sep == 0 {
		s.sep = sniffSeparator(text[s.at:])
	}
	t.Form.Separator = s.sep
	var arena []string // rows share arrays, which saves an allocation each
	n := 0
	for s.next() {
		n++
		o.report(n, 0)
		if s.why != "" {
			t.Bad = append(t.Bad, Bad{Line: s.first, Last: s.last, What: s.why, Hint: s.hint})
			continue
		}
		if cap(arena)-len(arena) < len(s.cells) {
			arena = make([]string, 0, max(4096, len(s.cells)))
		}
		at := len(arena)
		arena = append(arena, s.cells...)
		if err := t.add(Row{Line: s.first, Last: s.last, Cells: arena[at:len(arena):len(arena)]}); err != nil {
			return err
		}
	}
	o.reported(n)
	return nil
}

// skipSeparatorLine passes over a first line "sep=;", by which spreadsheets
// tell each other the separator.
func (s *scanner) skipSeparatorLine() {
	rest, ok := strings.CutPrefix(s.text, "sep=")
	if !ok || len(rest) < 2 {
		return
	}
	size := s.lineEnd(len("sep=") + 1)
	if separatorWord(rest[0]) == "" || size == 0 {
		return
	}
	if s.sep == 0 {
		s.sep = rest[0]
	}
	s.at, s.line = len("sep=")+1+size, 2
}

// add keeps a row that is not blank. A small workbook can unpack to more than
// any memory holds, so what is kept is counted.
func (t *Table) add(r Row) error {
	if !slices.ContainsFunc(r.Cells, func(c string) bool { return strings.TrimSpace(c) != "" }) {
		return nil
	}
	t.Rows = append(t.Rows, r)
	t.cells += len(r.Cells)
	for _, c := range r.Cells {
		t.bytes += len(c)
	}
	if t.cells > t.most.table || t.bytes > t.most.plain {
		return &Error{Kind: ErrTooLarge, Line: r.Line, What: "the table has too many cells", Hint: "import it in parts"}
	}
	return nil
}
