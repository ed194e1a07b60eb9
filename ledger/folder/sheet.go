package folder

import (
	"cmp"
	"fmt"
	"iter"
	"maps"
	"slices"
	"strings"

	"putby/ledger"
)

// A sheet is the text of a file of records, to be edited row by row. Whatever
// is not edited stays byte for byte: order, quotes, blank lines, unknown
// columns. What is written goes by the file's own separator, line ends and
// habit of quoting.
type sheet struct {
	name   string
	text   string // as it was
	mark   int    // length of the byte order mark
	sep    byte
	eol    string
	quote  bool // whether the header's cells are all in quotes
	header []string
	rows   []row // the header first; blank lines are none; only it before load
	loaded bool
	edits  map[int]string  // new texts of rows, by index in rows; "" of one that is struck
	added  strings.Builder // rows behind the last, and before them a header that there was none of
	count  int             // of the rows added
	next   int             // the line at which the next one begins
}

// A row is a record's place in the text, its line end included.
type row struct{ line, start, end int } // line from 1; bytes of sheet.text, the mark counted

// openSheet takes a text apart; it refuses one with broken quotes. A text
// without a header, such as an empty one, gets the header that is given.
func openSheet(name, text string, header []string) (*sheet, error) {
	s, err := beginSheet(name, text, header)
	if err == nil {
		err = s.load()
	}
	if err != nil {
		return nil, err
	}
	return s, nil
}

// beginSheet is openSheet for a text that is known to be sound: its rows are
// looked for only when they are needed.
func beginSheet(name, text string, header []string) (*sheet, error) {
	s := &sheet{name: name, text: text, eol: "\n", edits: map[int]string{}, next: nextLine(text)}
	t := &tally{file: name}
	body, ok := decode(text, t)
	if !ok {
		return nil, t.faults()
	}
	s.mark = len(text) - len(body)
	s.sep = separator(body)
	scan := newScanner(body, s.sep)
	if s.header, ok = scan.header(); !ok {
		s.header, s.loaded = header, true
		s.add(header)
		return s, nil
	}
	if scan.bad != nil {
		t.add(*scan.bad)
		return nil, t.faults()
	}
	head := body[scan.start:scan.end]
	if strings.HasSuffix(head, "\r\n") {
		s.eol = "\r\n"
	}
	s.quote = strings.Count(head, `"`) >= 2*len(s.header)
	s.rows = []row{{scan.startLine, scan.start + s.mark, scan.end + s.mark}}
	return s, nil
}

// nextLine is the line that a row behind a text begins at.
func nextLine(text string) int {
	line := 1 + strings.Count(text, "\n")
	if text != "" && !strings.HasSuffix(text, "\n") {
		line++
	}
	return line
}

// load looks for the rows behind the header.
func (s *sheet) load() error {
	if s.loaded {
		return nil
	}
	s.loaded = true
	t := &tally{file: s.name}
	scan := newScanner(s.text[s.mark:], s.sep)
	scan.header()
	for scan.next() {
		// A broken quote may swallow rows that a person sees as whole.
		if scan.bad != nil {
			t.add(*scan.bad)
			return t.faults()
		}
		if !scan.blank() {
			s.rows = append(s.rows, row{scan.startLine, scan.start + s.mark, scan.end + s.mark})
		}
	}
	return nil
}

// find returns the index of the record that begins at a line.
func (s *sheet) find(line int) (int, error) {
	if err := s.load(); err != nil {
		return 0, err
	}
	i, ok := slices.BinarySearchFunc(s.rows, line, func(r row, line int) int { return cmp.Compare(r.line, line) })
	if !ok || i == 0 {
		return 0, fmt.Errorf("%s has no record that begins at line %d", s.name, line)
	}
	return i, nil
}

// textOf returns the text of a row as edited; nothing of one that is struck.
func (s *sheet) textOf(i int) string {
	if text, edited := s.edits[i]; edited {
		return text
	}
	return s.text[s.rows[i].start:s.rows[i].end]
}

// raw returns the text of a row as edited, and its cells in it. A row without
// cells cannot be read or is struck.
func (s *sheet) raw(i int) (raw string, scan *scanner) {
	raw = s.textOf(i)
	scan = newScanner(raw, s.sep)
	if !scan.next() || scan.bad != nil {
		scan.cells = nil
	}
	return raw, scan
}

// cells returns a record's cells by the header's names.
func (s *sheet) cells(i int) map[string]string {
	_, scan := s.raw(i)
	return cellsBy(s.header, scan.cells)
}

// strike takes a record out.
func (s *sheet) strike(i int) { s.edits[i] = "" }

// set changes the named cells of a record; the others stay as they are.
func (s *sheet) set(i int, cells map[string]string) error {
	if err := s.need(cells); err != nil {
		return err
	}
	raw, scan := s.raw(i)
	if scan.cells == nil {
		return fmt.Errorf("line %d of %s cannot be read", s.rows[i].line, s.name)
	}
	body := bare(raw)
	parts := make([]string, max(len(s.header), len(scan.cells)))
	for at := range scan.cells {
		end := len(body)
		if at+1 < len(scan.cells) {
			end = scan.place(at+1) - 1 // up to the separator
		}
		parts[at] = body[scan.place(at):end]
	}
	for at, name := range s.header {
		text, given := cells[name]
		if given && (at >= len(scan.cells) || text != ledger.UnescapeFormula(scan.cells[at])) { // else as it is written
			parts[at] = s.cell(text, strings.HasPrefix(parts[at], `"`))
		}
	}
	s.edits[i] = strings.Join(parts, string(s.sep)) + raw[len(body):]
	return nil
}

// append adds a record behind the last.
func (s *sheet) append(cells map[string]string) error {
	if err := s.need(cells); err != nil {
		return err
	}
	s.add(s.lay(cells))
	s.count++
	return nil
}

// lay lays cells out in the order of the header.
func (s *sheet) lay(cells map[string]string) []string {
	list := make([]string, len(s.header))
	for i, name := range s.header {
		list[i] = cells[name]
	}
	return list
}

// appendRows adds many records, whose cells are in the order of columns. Began,
// which may be nil, is told at which line each begins.
func (s *sheet) appendRows(columns []string, rows iter.Seq[[]string], began func(line int)) error {
	var from []int  // for each column of the header the cell that fills it, or -1
	var spare []int // cells that no column of the header has yet
	lay := func() {
		from, spare = from[:0], spare[:0]
		for _, name := range s.header {
			from = append(from, slices.Index(columns, name))
		}
		for i, name := range columns {
			if !slices.Contains(s.header, name) {
				spare = append(spare, i)
			}
		}
	}
	lay()
	var list []string
	for row := range rows {
		if slices.ContainsFunc(spare, func(i int) bool { return row[i] != "" }) {
			cells := map[string]string{}
			for i, name := range columns {
				cells[name] = row[i]
			}
			if err := s.need(cells); err != nil {
				return err
			}
			lay()
		}
		list = list[:0]
		for _, i := range from {
			cell := ""
			if i >= 0 {
				cell = row[i]
			}
			list = append(list, cell)
		}
		if began != nil {
			began(s.next)
		}
		s.add(list)
		s.count++
	}
	return nil
}

// add writes a record behind all others.
func (s *sheet) add(cells []string) {
	begin := s.added.Len()
	s.writeRow(&s.added, cells)
	s.next += strings.Count(s.added.String()[begin:], "\n")
}

// writeRow writes a record as the file has them.
func (s *sheet) writeRow(out *strings.Builder, cells []string) {
	for i, text := range cells {
		if i > 0 {
			out.WriteByte(s.sep)
		}
		out.WriteString(s.cell(text, false))
	}
	out.WriteString(s.eol)
}

// need sees to it that the header has the columns of cells that are not blank:
// a column of the records that this file has done without is added.
func (s *sheet) need(cells map[string]string) error {
	k, _ := ledger.KindOf(s.name)
	for _, c := range k.Columns {
		if cells[c.Name] != "" && !slices.Contains(s.header, c.Name) {
			if err := s.addColumn(c.Name); err != nil {
				return err
			}
		}
	}
	unknown := ""
	for name, text := range cells {
		if text != "" && !slices.Contains(s.header, name) && (unknown == "" || name < unknown) {
			unknown = name
		}
	}
	if unknown != "" {
		return fmt.Errorf("%s has no column %q", s.name, unknown)
	}
	return nil
}

// addColumn adds a column to the right, blank in every row.
func (s *sheet) addColumn(name string) error {
	if len(s.rows) == 0 {
		return fmt.Errorf("the new file %s has no column %q", s.name, name)
	}
	if err := s.load(); err != nil {
		return err
	}
	for i := range s.rows {
		raw, scan := s.raw(i)
		if scan.cells == nil { // struck, or a fault already
			continue
		}
		cell := ""
		if i == 0 {
			cell = s.cell(name, false)
		}
		body := bare(raw)
		s.edits[i] = body + string(s.sep) + cell + raw[len(body):]
	}
	rows := newScanner(s.added.String(), s.sep)
	s.added.Reset()
	for rows.next() {
		s.added.WriteString(strings.TrimSuffix(rows.text[rows.start:rows.end], s.eol) + string(s.sep) + s.eol)
	}
	s.header = append(s.header, name)
	return nil
}

// cell writes a cell so that no spreadsheet runs it, in quotes where it needs
// them or had them, or where the whole file has them.
func (s *sheet) cell(text string, had bool) string {
	text = ledger.EscapeFormula(text)
	plain := !strings.ContainsAny(text, "\"\r\n") && strings.IndexByte(text, s.sep) < 0 && strings.TrimSpace(text) == text
	if plain && !had && !s.quote {
		return text
	}
	text = strings.ReplaceAll(text, "\r\n", "\n")
	if s.eol == "\r\n" {
		text = strings.ReplaceAll(text, "\n", s.eol)
	}
	return `"` + strings.ReplaceAll(text, `"`, `""`) + `"`
}

// hunks returns what the edits change. Rows that follow each other are one.
func (s *sheet) hunks() []Hunk {
	var list []Hunk
	var new strings.Builder
	start, end := -1, -1
	flush := func() {
		if start >= 0 && s.text[start:end] != new.String() {
			list = append(list, Hunk{At: start, Removed: Text(s.text[start:end]), Added: Text(new.String())})
		}
		start = -1
		new.Reset()
	}
	for _, i := range slices.Sorted(maps.Keys(s.edits)) {
		r := s.rows[i]
		if r.start != end { // blank lines between two rows stay, and part them
			flush()
		}
		if start < 0 {
			start = r.start
		}
		new.WriteString(s.edits[i])
		end = r.end
	}
	flush()
	if s.added.Len() > 0 {
		rows := s.added.String()
		now := s.text
		if len(list) > 0 {
			now, _ = apply(s.text, list)
		}
		// Whether the last line has its end is asked of the text as edited: its last row may be struck.
		if len(now) > s.mark && !strings.HasSuffix(now, "\n") {
			rows = s.eol + rows
		}
		list = append(list, Hunk{At: len(s.text), Added: Text(rows)})
	}
	return surround(s.text, list)
}

// String returns the text as edited.
func (s *sheet) String() string {
	text, _ := apply(s.text, s.hunks())
	return text
}
