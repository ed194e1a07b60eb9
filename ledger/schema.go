package ledger

import (
	"cmp"
	"fmt"
	"iter"
	"slices"
	"sort"
	"strings"
	"time"

	"putby/pricing/exact"
)

// A Kind describes one kind of record: its file and its columns. Reading,
// writing and help all go by it.
type Kind struct {
	Name    string // one record of it: "receipt", "run" ...
	Short   string // what its records are, in a few words
	Long    string // what one of them is of, behind a verb: record what a shop asks
	File    string
	Columns []Column
	InWords *Column // by which one may be said in words, with no other columns than those that are Beside; nil: it may not
	// Key names the columns that identify a record; none: a record is told by
	// its line alone.
	Key    []string
	reader func(rec *Records, header []string) rowFunc
	list   func(*Records) RecordList
}

// rowFunc reads one row's cells, which are as many as the header has. A lost
// row does not become a record; it returns what that would have been about.
type rowFunc func(row *rowReader, cells []string, lost bool) []subject

// Kinds returns all kinds of records but the settings and meter logs, in the order
// in which README lists their files.
func Kinds() []Kind { return slices.Clone(kinds()) }

// KindOf finds a kind by the name of its records or of its file.
func KindOf(name string) (Kind, bool) {
	for _, k := range append([]Kind{settingsKind()}, kinds()...) {
		if k.Name == name || k.File == name {
			return k, true
		}
	}
	return Kind{}, false
}

// MustKind finds a kind by a name that the program itself has; it panics where
// there is none.
func MustKind(name string) Kind {
	k, ok := KindOf(name)
	if !ok {
		panic("ledger: no kind of record is called " + name)
	}
	return k
}

// SettingsKind describes settings.csv, whose rows are a name and a value each.
func SettingsKind() Kind { return settingsKind() }

// A Reader reads the rows of one file into records.
type Reader struct {
	row   rowReader
	read  rowFunc
	width int // cells of the header, and so of every row
}

// Read begins to read a file with the given header into rec; the ledger's zone, nil
// for UTC, is that of times without an offset. Faults, such as a missing or doubled
// column, mean that no row can be read; then the reader is nil. Readers of different
// files may work side by side.
func (k Kind) Read(rec *Records, zone *time.Location, header []string) (*Reader, Faults) {
	if faults := k.headerFaults(header); faults != nil {
		return nil, faults
	}
	return &Reader{rowReader{file: k.File, zone: cmp.Or(zone, time.UTC)}, k.reader(rec, header), len(header)}, nil
}

// headerFaults are those of a header of the kind's file.
func (k Kind) headerFaults(header []string) Faults {
	need := Distinct(k.Columns, func(c *Column) string {
		if !c.Need {
			return ""
		}
		return c.Name
	})
	faults := HeaderFaults(header, need, "the header needs: "+strings.Join(need, ", "))
	for i := range faults {
		faults[i].File, faults[i].Line = k.File, 1
	}
	return faults
}

// HeaderFaults are the columns that a header has twice, and those that it needs and
// lacks, with the hint for these.
func HeaderFaults(header, need []string, hint string) (faults Faults) {
	for i, name := range header {
		if name != "" && slices.Index(header, name) < i {
			faults = append(faults, Fault{Field: name, What: "the column " + exact.Quote(name) + " is there twice", Hint: "rename one, or take it out"})
		}
	}
	for _, name := range need {
		if !slices.Contains(header, name) {
			faults = append(faults, Fault{What: "the column " + exact.Quote(name) + " is missing", Hint: hint})
		}
	}
	return faults
}

// Grow makes room in rec for that many more records, of which a million at
// most are believed.
func (k Kind) Grow(rec *Records, rows int) { k.list(rec).grow(min(rows, 1<<20)) }

// Clip sees to it that records of the kind that are added to rec come into no list that
// others share.
func (k Kind) Clip(rec *Records) { k.list(rec).clip() }

// Clear takes all records of the kind out of rec, so that their file can be read
// again. Whoever shares the list of them keeps it.
func (k Kind) Clear(rec *Records) { k.list(rec).clear() }

// List returns the records of the kind, each of its own type; of the settings none.
func (k Kind) List(rec *Records) RecordList { return k.list(rec) }

// Len is how many records of the kind there are.
func (k Kind) Len(rec *Records) int { return k.list(rec).Len() }

// Lines goes through the lines of the kind's file at which its records begin.
func (k Kind) Lines(rec *Records) iter.Seq[int] {
	return func(yield func(int) bool) {
		for i := range k.Len(rec) {
			if !yield(k.list(rec).line(i)) {
				return
			}
		}
	}
}

// AtLine is the position of the record that begins at a line of the kind's file;
// -1 where there is none.
func (k Kind) AtLine(rec *Records, line int) int {
	list := k.list(rec)
	at, there := sort.Find(list.Len(), func(i int) int { return line - list.line(i) })
	if !there {
		return -1
	}
	return at
}

// Row reads the record that begins at line (1 is the header's). It returns the
// row's faults, whose Field names the column; the slice is good until the next
// call.
func (r *Reader) Row(line int, cells []string) Faults {
	r.row.line, r.row.faults = line, r.row.faults[:0]
	if len(cells) != r.width {
		return widthFault(&r.row, len(cells), r.width, r.lose(cells))
	}
	r.read(&r.row, cells, false)
	return r.row.faults
}

// lose returns what a row with too few or too many cells is about, as far as
// can be told.
func (r *Reader) lose(cells []string) []subject {
	fit := make([]string, r.width)
	copy(fit, cells)
	return r.read(&rowReader{file: r.row.file, line: r.row.line, zone: r.row.zone}, fit, true)
}

// widthFault is that of a row with too few or too many cells.
func widthFault(row *rowReader, cells, width int, about []subject) Faults {
	return append(row.faults, Fault{
		File: row.file, Line: row.line, row: row.line, about: about,
		What: fmt.Sprintf("the row has %d cells, the header %d", cells, width),
		Hint: "a cell with a comma needs quotes around it; an empty cell still needs its comma",
	})
}

// kind completes a kind whose rows are of type R.
//   - slice says where in the records they go,
//   - begin makes a record with what blank cells mean,
//   - check, which may be nil, looks at a record whole.
func kind[R any, P interface {
	*R
	record
}](k Kind, slice func(*Records) *[]R,
	begin func(line int) R, check func(*rowReader, *R), fields ...field[R]) Kind {
	list := func(rec *Records) lister[R] { return (*plainList[R])(slice(rec)) }
	return listed[R, P](k, list, begin, check, fields...)
}

// listed is [kind] for records that are in any list of them.
func listed[R any, P interface {
	*R
	record
}](k Kind, list func(*Records) lister[R],
	begin func(line int) R, check func(*rowReader, *R), fields ...field[R]) Kind {
	for i := range fields {
		k.Columns = append(k.Columns, fields[i].describe())
	}
	k.list = func(rec *Records) RecordList { return list(rec) }
	k.reader = func(rec *Records, header []string) rowFunc {
		// Fields are read in the order of the kind, wherever their cells are.
		type there struct {
			*Column
			at   int // position of its cell in the file's rows
			read func(*cell, *R)
		}
		var all []there
		for i := range fields {
			if at := slices.Index(header, fields[i].Name); at >= 0 {
				all = append(all, there{&k.Columns[i], at, fields[i].reader()})
			}
		}
		list := list(rec)
		// One of each for the whole file: rows come one after the other, and a reader is not shared.
		c, r, add := new(cell), new(R), list.adder()
		return func(row *rowReader, cells []string, lost bool) []subject {
			*r = begin(row.line)
			c.row, row.packed = row, list.packs()
			for i := range all {
				f, text := &all[i], trim(cells[all[i].at])
				switch {
				case text != "":
					c.name, c.text = f.Name, text
					f.read(c, r)
				case f.Need:
					c.name = f.Name
					c.fail("it is needed: "+cmp.Or(f.Help, "fill it in"), "the cell is blank")
				}
			}
			// It holds cells against each other: one that could not be read is zero, and would be
			// blamed for that again.
			if check != nil && len(row.faults) == 0 {
				check(row, r)
			}
			if lost {
				return P(r).about()
			}
			add(r)
			for i := range row.faults {
				row.faults[i].row, row.faults[i].about = row.line, P(r).about()
			}
			return nil
		}
	}
	return k
}

// trim cuts spaces and tabs off both ends of a cell. Every cell passes here, and nearly
// none has any: that is seen sooner than strings.Trim has made a set of the two.
func trim(s string) string {
	for len(s) > 0 && (s[0] == ' ' || s[0] == '\t') {
		s = s[1:]
	}
	for len(s) > 0 && (s[len(s)-1] == ' ' || s[len(s)-1] == '\t') {
		s = s[:len(s)-1]
	}
	return s
}

// fail notes a fault of a whole record at one of its columns.
func (r *rowReader) fail(field, hint, format string, args ...any) {
	(&cell{row: r, name: field}).fail(hint, format, args...)
}
