package intake

import (
	"fmt"
	"io"
	"io/fs"
	"iter"
	"slices"
	"strings"

	"putby/ledger"
)

// A Table is a foreign file, read but not understood yet: rows of text, without
// those that are blank, the header among them.
type Table struct {
	Bad  ledger.Faults // rows that could not be split into cells
	Form Form

	// Of a text file the text is kept, and where its rows begin: they are split
	// into cells again whenever they are looked at, which takes a quarter of the
	// memory that all their cells would.
	text string
	at   []rowAt
	rows []Row // of a workbook

	cells, bytes int // in all rows
	most         limits
}

// rowAt is where a row begins: in the text, which [MaxFile] keeps far below 4 GiB, and the
// line. There may be millions.
type rowAt struct{ begin, line uint32 } // bytes from 0; lines from 1

// Len is how many rows there are.
func (t *Table) Len() int { return len(t.at) + len(t.rows) }

// Row returns the row at a position from 0 on. Its cells outlive the table, and
// do not keep the text of the file in memory.
func (t *Table) Row(i int) Row {
	row := t.look().row(i)
	row.Cells = slices.Clone(row.Cells)
	for at, cell := range row.Cells {
		row.Cells[at] = strings.Clone(cell)
	}
	return row
}

// Place is where a cell of a row begins in the file: its line and, of text, its
// column in bytes of UTF-8 from 1. A cell that the row does not have, and one of a
// workbook, has the column 0.
func (t *Table) Place(row, cell int) (line, column int) {
	look := t.look()
	r := look.row(row)
	if t.Form.Workbook || cell >= len(r.Cells) {
		return r.Line, 0
	}
	return look.s.place(cell)
}

// From goes through the rows from a position on. A row's cells are good until
// the next.
func (t *Table) From(i int) iter.Seq[Row] {
	return func(yield func(Row) bool) {
		for look := t.look(); i < t.Len() && yield(look.row(i)); i++ {
		}
	}
}

// A look reads rows of a table, one at a time.
type look struct {
	t *Table
	s *scanner
}

func (t *Table) look() look { return look{t, newScanner(t.text, t.Form.Separator)} }

// row returns a row whose cells are good until the next is looked at.
func (l look) row(i int) Row {
	if l.t.Form.Workbook {
		return l.t.rows[i]
	}
	l.s.at, l.s.line = int(l.t.at[i].begin), int(l.t.at[i].line)
	l.s.next()
	return Row{Line: l.s.first, Last: l.s.last, Cells: l.s.cells}
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

// limits bound what is read: the bytes of a file, the bytes of all its cells or of a workbook
// once unpacked, and the cells of a table.
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
// that cannot be split are in Table.Bad; an error, which is an [ledger.Fault] or one
// of r's, means that there is no table.
func Read(r io.Reader, o Options) (*Table, error) {
	most := o.bounds()
	data, err := readAll(r, most.file)
	if err != nil {
		return nil, err
	}
	t := &Table{Form: Form{Workbook: isWorkbook(data)}, most: most}
	switch {
	case strings.HasPrefix(data, oleMagic):
		return nil, &ledger.Fault{
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
	if t.Len() == 0 {
		return nil, &ledger.Fault{Kind: ErrFormat, What: "the file has no rows"}
	}
	return t, nil
}

// ReadAll reads a file into memory, of no more than [MaxFile] bytes.
func ReadAll(r io.Reader) (string, error) { return readAll(r, MaxFile) }

// readAll reads a file of no more than so many bytes.
func readAll(r io.Reader, most int) (string, error) {
	var b strings.Builder
	if f, ok := r.(fs.File); ok {
		if info, err := f.Stat(); err == nil {
			b.Grow(int(min(info.Size(), int64(most)+1)))
		}
	}
	n, err := io.Copy(&b, io.LimitReader(r, int64(most)+1))
	if n > int64(most) {
		return "", &ledger.Fault{Kind: ErrTooLarge, What: fmt.Sprintf("the file is larger than %d MiB", most>>20), Hint: "import it in parts"}
	}
	return b.String(), err
}

// readText reads a CSV file, whatever its separator.
func readText(t *Table, data string, o Options) (err error) {
	if t.text, t.Form.Encoding, err = decode(data, o.Encoding); err != nil {
		return err
	}
	s := newScanner(t.text, o.Separator)
	s.settle()
	t.Form.Separator = s.sep
	n := 0
	for s.next() {
		n++
		o.report(n, 0)
		if s.why != "" {
			t.Bad = append(t.Bad, ledger.Fault{Line: s.first, Last: s.last, Column: s.wrongColumn(), What: s.why, Hint: s.hint})
			continue
		}
		some, err := t.counts(s.first, s.cells)
		if err != nil {
			return err
		}
		if some {
			t.at = append(t.at, rowAt{uint32(s.begin), uint32(s.first)})
		}
	}
	t.at = slices.Clip(t.at)
	o.reported(n)
	return nil
}

// counts reports whether a row is not blank, and counts its cells: a small
// workbook can unpack to more than any memory holds.
func (t *Table) counts(line int, cells []string) (bool, error) {
	if !slices.ContainsFunc(cells, func(c string) bool { return strings.TrimSpace(c) != "" }) {
		return false, nil
	}
	t.cells += len(cells)
	for _, c := range cells {
		t.bytes += len(c)
	}
	if t.cells > t.most.table || t.bytes > t.most.plain {
		return false, &ledger.Fault{Kind: ErrTooLarge, Line: line, What: "the table has too many cells", Hint: "import it in parts"}
	}
	return true, nil
}
