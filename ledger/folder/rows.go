package folder

import (
	"cmp"
	"slices"
	"strings"

	"putby/ledger"
)

// A Row is a record as its file has it.
type Row struct {
	Line  int               // where it begins
	Cells map[string]string // by column, unknown columns too
}

// Rows returns the records of one kind in the ledger at dir, in file order. It
// takes no lock and needs no leave to write. Faults are those of the file's
// form, not of what its cells hold.
func Rows(dir string, k ledger.Kind) ([]Row, error) {
	return allOf(rowListOf(dir, k))
}

// Rows is [Rows] of the ledger as it was read.
func (b *Book) Rows(k ledger.Kind) ([]Row, error) { return allOf(b.rowList(k)) }

func allOf(l *RowList, err error) (rows []Row, _ error) {
	if err != nil {
		return nil, err
	}
	for i := range l.rows {
		rows = append(rows, l.Row(i))
	}
	return rows, nil
}

// A RowList is the records of one kind as their file has them, in file order: each is
// taken apart when it is asked for, since few of many are.
type RowList struct {
	*rowFinder // by which cells are read
	rows       []listedRow
}

// A listedRow is the text of a record, line end included, and where it begins.
type listedRow struct {
	line int // of the file, from 1
	text string
}

// Len is how many records there are.
func (l *RowList) Len() int { return len(l.rows) }

// Line is where the i-th record begins.
func (l *RowList) Line(i int) int { return l.rows[i].line }

// Text is the i-th record as it is written.
func (l *RowList) Text(i int) string { return l.rows[i].text }

// Row is the i-th record.
func (l *RowList) Row(i int) Row {
	scan := newScanner(l.rows[i].text, l.sep)
	scan.next()
	return Row{l.rows[i].line, cellsBy(l.header, scan.cells)}
}

// Cells returns what reads a column of the i-th record.
func (l *RowList) Cells(column string) func(i int) string {
	at := l.column(column)
	return func(i int) string { return l.cell(l.rows[i].text, at) }
}

// AtLine is which record begins at a line; -1: none does.
func (l *RowList) AtLine(line int) int {
	i, ok := slices.BinarySearchFunc(l.rows, line, func(r listedRow, line int) int { return cmp.Compare(r.line, line) })
	if !ok {
		return -1
	}
	return i
}

// rowListOf reads the records of one kind in a file of which nothing is known.
func rowListOf(dir string, k ledger.Kind) (*RowList, error) {
	return readIn(dir, func(root *tree) (*RowList, error) {
		s, err := settled(root, k.File)
		if err != nil {
			return nil, err
		}
		return (&Book{root: root, files: s}).rowList(k) // without records, so that [Tx.sheet] looks for faults
	})
}

func (b *Book) rowList(k ledger.Kind) (*RowList, error) {
	tx := &Tx{book: b, sheets: map[string]*sheet{}}
	sheet, err := tx.sheet(k)
	if err == nil {
		err = sheet.load()
	}
	if err != nil {
		return nil, err
	}
	l := &RowList{rowFinder: &rowFinder{header: sheet.header, sep: sheet.sep}}
	for _, r := range sheet.rows[min(1, len(sheet.rows)):] {
		l.rows = append(l.rows, listedRow{r.line, sheet.text[r.start:r.end]})
	}
	return l, nil
}

// Rows returns the records of one kind, and whether they are those that rec, which
// [Cache.Read] returned, was made of. A file that was read before, without a fault, is not
// looked through for one again.
func (k *Cache) Rows(rec *ledger.Records, kind ledger.Kind) (list *RowList, same bool, err error) {
	if text, same, ok := k.again(rec, kind.File); ok {
		if s := openRowFinder(text); s != nil {
			return s.list(), same, nil
		}
	}
	list, err = rowListOf(k.dir, kind)
	return list, false, err
}

// again reads a file that is as it was when it was last read, and had no fault then. Same
// is whether rec was made of it.
func (k *Cache) again(rec *ledger.Records, name string) (text string, same, ok bool) {
	root, err := openRoot(k.dir)
	if err != nil {
		return "", false, false
	}
	defer root.Close()
	text, there, err := root.read(name, MaxFile)
	if err != nil || !there {
		return "", false, false
	}
	now := sum(text)
	k.mu.Lock()
	defer k.mu.Unlock()
	f := k.files[name]
	return text, k.rec == rec, f != nil && f.sum == now && len(f.faults) == 0
}

// list is all records of a text.
func (s *rowFinder) list() *RowList {
	l := &RowList{rowFinder: s, rows: make([]listedRow, 0, strings.Count(s.rest, "\n")+1)}
	line := 1 + strings.Count(s.head, "\n")
	s.each(func(row string) {
		if !s.blank(row) {
			l.rows = append(l.rows, listedRow{line, row})
		}
		line += strings.Count(row, "\n")
	})
	return l
}

// blank reports whether a row is nothing but separators.
func (s *rowFinder) blank(row string) bool {
	if strings.Trim(row, " \t\r\n\""+string(s.sep)) != "" {
		return false
	}
	scan := newScanner(row, s.sep)
	return !scan.next() || scan.blank()
}
