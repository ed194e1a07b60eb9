package folder

import (
	"slices"
	"strings"

	"putby/ledger"
)

// A rowFinder picks records out of the text of a file by one or two of their cells,
// without reading the others: most records have nothing to do with what is asked.
// The text is one that was read before without a fault, so that a quote in it only
// ever stands round a cell, or twice within one.
type rowFinder struct {
	head   string // with the byte order mark
	rest   string
	header []string
	sep    byte

	inPlace bool // what is kept stays at its line
}

// openRowFinder begins with a text; nil is for one without a header.
func openRowFinder(text string) *rowFinder {
	body := strings.TrimPrefix(text, mark)
	scan := newScanner(body, separator(body))
	header, ok := scan.header()
	if !ok || scan.bad != nil {
		return nil
	}
	at := len(text) - len(body) + scan.end
	return &rowFinder{head: text[:at], rest: text[at:], header: header, sep: scan.sep}
}

// column is the place of a column, or -1.
func (s *rowFinder) column(name string) int { return slices.Index(s.header, name) }

// each goes through the records, line ends included.
func (s *rowFinder) each(do func(row string)) {
	for rest := s.rest; rest != ""; {
		end := lineEnd(rest, 0)
		for end < len(rest) && strings.Count(rest[:end], `"`)%2 == 1 { // within a cell in quotes
			end = lineEnd(rest, end)
		}
		do(rest[:end])
		rest = rest[end:]
	}
}

// lineEnd is where the line ends that goes on at an offset.
func lineEnd(text string, from int) int {
	if at := strings.IndexByte(text[from:], '\n'); at >= 0 {
		return from + at + 1
	}
	return len(text)
}

// cell is the text of a cell as records have it; "" without a column.
func (s *rowFinder) cell(row string, column int) string {
	if column < 0 {
		return ""
	}
	cell, ok := plainCell(row, s.sep, column), true
	if strings.IndexByte(row, '"') >= 0 {
		if cell, ok = quotedCell(row, s.sep, column); !ok {
			cell = s.scanned(row, column)
		}
	}
	if strings.HasPrefix(cell, "'") {
		cell = ledger.UnescapeFormula(cell)
	}
	return strings.Trim(cell, " \t")
}

// scanned is the cell as the scanner reads it, which takes longer.
func (s *rowFinder) scanned(row string, column int) string {
	scan := newScanner(row, s.sep)
	if scan.next() && column < len(scan.cells) {
		return scan.cells[column]
	}
	return ""
}

// quotedCell is the cell of a row some of whose cells stand in quotes; false where
// a quote stands anywhere else.
func quotedCell(row string, sep byte, column int) (string, bool) {
	for ; row != ""; column-- {
		if row[0] != '"' {
			if column == 0 {
				cell := plainCell(row, sep, 0)
				return cell, strings.IndexByte(cell, '"') < 0
			}
			at := strings.IndexByte(row, sep)
			if at < 0 {
				return "", strings.IndexByte(row, '"') < 0 // the row ends before the column
			}
			if strings.IndexByte(row[:at], '"') >= 0 {
				return "", false
			}
			row = row[at+1:]
			continue
		}
		end := 1
		for end < len(row) {
			if row[end] != '"' {
				end++
			} else if strings.HasPrefix(row[end:], `""`) {
				end += 2
			} else {
				break
			}
		}
		if end >= len(row) {
			return "", false
		}
		rest := row[end+1:]
		if column == 0 {
			cell := strings.ReplaceAll(strings.ReplaceAll(row[1:end], `""`, `"`), "\r\n", "\n")
			return cell, rest == "" || rest[0] == sep || strings.Trim(rest, "\r\n") == ""
		}
		if rest == "" || rest[0] != sep {
			return "", strings.Trim(rest, "\r\n") == ""
		}
		row = rest[1:]
	}
	return "", true
}

// plainCell is the cell of a row that has no quotes.
func plainCell(row string, sep byte, column int) string {
	for ; column > 0; column-- {
		at := strings.IndexByte(row, sep)
		if at < 0 {
			return ""
		}
		row = row[at+1:]
	}
	if at := strings.IndexByte(row, sep); at >= 0 {
		return row[:at]
	}
	return strings.TrimRight(row, "\r\n")
}

// keep is the text with no more records than those that are wanted.
func (s *rowFinder) keep(wanted func(row string) bool) string {
	var b strings.Builder
	b.WriteString(s.head)
	s.each(func(row string) {
		if wanted(row) {
			b.WriteString(row)
		} else if s.inPlace {
			for range strings.Count(row, "\n") {
				b.WriteByte('\n')
			}
		}
	})
	return b.String()
}
