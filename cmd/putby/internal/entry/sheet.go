package entry

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"putby/ledger"
	"putby/ledger/advice"
	"putby/ledger/figures"
	"putby/ledger/intake"
)

// The columns of a list that are read back.
const (
	packColumn    = "pack"
	itemColumn    = "item"
	unitColumn    = "unit"
	countedColumn = "counted"
	goneColumn    = "gone"
)

// ReadSheet reads a filled list of a stocktake: a table with a header (see
// [intake.Read]), of which the columns pack, item, unit, counted and gone are read. A
// row whose counted cell is blank was not looked at. All that is wrong comes at once,
// as [ledger.Faults].
func ReadSheet(b *Base, date string, text io.Reader) ([]Counted, error) {
	list, g, err := ToCount(b, date, figures.CountQuery{Supplies: true, Fresh: true})
	if err != nil {
		return nil, err
	}
	t, err := intake.Read(text, intake.Options{})
	if fault := (*ledger.Fault)(nil); errors.As(err, &fault) {
		return nil, ledger.Faults{*fault}
	} else if err != nil {
		return nil, err
	}
	s := sheetReader{g: g, rec: b.Records, list: list, table: t, faults: t.Bad, seen: map[string]int{}}
	s.read()
	switch {
	case s.faults != nil:
		return nil, s.faults
	case s.counted == nil:
		return nil, ledger.Faults{{Line: 1, Column: 1, What: "nothing is counted in it", Hint: "write what is there into the column " + countedColumn}}
	}
	return s.counted, nil
}

// A sheetReader reads a list row by row.
type sheetReader struct {
	g       *ledger.Ledger
	rec     *ledger.Records
	list    []figures.Countable
	table   *intake.Table
	at      map[string]int // columns by name
	row     int            // of the table
	cells   []string       // of the row
	seen    map[string]int // lines by what they count
	counted []Counted
	rows    []sheetRow // of the same
	faults  ledger.Faults
}

// A sheetRow is what a row counts, and where its number stands.
type sheetRow struct {
	of           figures.Countable
	line, column int // of the list that was read, from 1
}

func (s *sheetReader) read() {
	for row := range s.table.From(0) {
		s.cells = row.Cells
		if s.row == 0 && !s.head() {
			return
		} else if s.row > 0 {
			s.count()
		}
		s.row++
	}
	for i, r := range s.rows { // once it is known which packs are missing
		if _, _, err := ReadCount(s.g, WithReturned(s.g, r.of, s.counted), s.counted[i].Found); err != nil {
			s.faults = append(s.faults, ledger.Fault{Line: r.line, Column: r.column, What: countedColumn + ": " + err.Error()})
		}
	}
	s.faults.Sort()
}

// head finds the columns, and reports whether all that it takes are there.
func (s *sheetReader) head() bool {
	s.at = map[string]int{}
	for i, name := range s.cells {
		s.at[ledger.Fold(name)] = i
	}
	_, pack := s.at[packColumn]
	_, item := s.at[itemColumn]
	if _, ok := s.at[countedColumn]; !ok || !pack && !item {
		s.faults = ledger.Faults{{Line: 1, Column: 1, What: "the header needs the columns pack or item, and counted", Hint: "begin with such a list", Do: []advice.Doing{advice.Do(advice.Stocktake).With("sheet").With("format", "csv")}}}
		return false
	}
	return true
}

// cell is the text of a column, without blanks around it.
func (s *sheetReader) cell(column string) string {
	if i, ok := s.at[column]; ok && i < len(s.cells) {
		return ledger.UnescapeFormula(strings.TrimSpace(s.cells[i]))
	}
	return ""
}

// fail adds a fault at a column of the row.
func (s *sheetReader) fail(column, what, hint string) {
	line, at := s.table.Place(s.row, s.at[column])
	s.faults = append(s.faults, ledger.Fault{Line: line, Column: at, What: column + ": " + what, Hint: hint})
}

// count reads what a row counts.
func (s *sheetReader) count() {
	text := s.cell(countedColumn)
	if unit := s.cell(unitColumn); unit != "" && isNumber(Number(text)) {
		text += " " + unit // in which the list has what the books have
	}
	// A printed list may have a line to write on: left as it is, nobody looked.
	if strings.Trim(text, "_-. ") == "" {
		return
	}
	c, ok := s.of()
	if !ok {
		return
	}
	line, _ := s.table.Place(s.row, 0)
	key := fmt.Sprint(c.Pack, c.Food, c.Supply)
	if first, twice := s.seen[key]; twice {
		s.fail(countedColumn, fmt.Sprintf("%s is counted on line %d already", c.ID(s.g), first), "add the two together in one row")
		return
	}
	s.seen[key] = line
	counted := CountedOf(s.g, c, text, strings.ToLower(s.cell(goneColumn)))
	if counted.Gone != "" && !slices.Contains(Became, counted.Gone) {
		s.fail(goneColumn, quote(counted.Gone)+" is not one of: "+strings.Join(Became, ", "), "leave it blank where nobody knows")
	}
	line, at := s.table.Place(s.row, s.at[countedColumn])
	s.counted, s.rows = append(s.counted, counted), append(s.rows, sheetRow{c, line, at})
}

// of finds what a row counts.
func (s *sheetReader) of() (c figures.Countable, ok bool) {
	column, counted := packColumn, Counted{Pack: s.cell(packColumn)}
	if counted.Pack == "" {
		column, counted.Item = itemColumn, s.cell(itemColumn)
	}
	if c, ok = counted.in(s.g, s.list); ok {
		return c, true
	}
	name := counted.Pack + counted.Item
	var names []string
	for _, c := range s.list {
		if (c.Pack >= 0) == (column == packColumn) {
			names = append(names, c.ID(s.g))
		}
	}
	what := quote(name) + " is not in store on that day"
	if name == "" {
		what = "it names neither a pack nor a food or supply"
	}
	s.fail(column, what, ledger.Nearest(name, names))
	return c, false
}
