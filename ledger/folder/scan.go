package folder

import (
	"strings"
)

// A scanner splits a text into records as RFC 4180 has them, in the same way
// as encoding/csv, which the tests hold it to. It is its own so that cells are
// parts of the text and cost no allocation, so that every cell's place and
// every record's bytes are known (untouched ones are kept as they are), and so
// that no text makes it use memory of its own.
type scanner struct {
	text string
	sep  byte
	at   int // where the next record begins
	line int // its line

	// The record scanned last.
	start, end int      // its bytes, line end included
	startLine  int      // the line it begins at
	cells      []string // their text, quotes resolved
	places     []int    // where each begins in the text, its quote included
	bad        *flaw    // why it cannot be used, or nil
}

// A flaw is what keeps a record from being split into cells.
type flaw struct {
	at         int // offset in the text
	what, hint string
}

func newScanner(text string, sep byte) *scanner {
	return &scanner{text: text, sep: sep, line: 1}
}

// next scans the next record that is not a blank line. It reports false at
// the end of the text.
func (s *scanner) next() bool {
	s.skipBlank()
	if s.at == len(s.text) {
		return false
	}
	s.start, s.startLine = s.at, s.line
	s.cells, s.places, s.bad = s.cells[:0], s.places[:0], nil
	i := s.at
	for more := true; more; {
		place := i
		var cell string
		if i < len(s.text) && s.text[i] == '"' {
			cell, i, more = s.quoted(i)
		} else {
			cell, i, more = s.plain(i)
		}
		if s.bad == nil {
			s.add(place, cell)
		}
	}
	s.at, s.end = i, i
	return true
}

func (s *scanner) skipBlank() {
	for {
		size := s.lineEnd(s.at)
		if size == 0 {
			return
		}
		s.at += size
		s.line++
	}
}

// lineEnd returns the length of the line end at i: "\n", "\r\n", or a "\r"
// that ends the text. It is 0 where there is none.
func (s *scanner) lineEnd(i int) int {
	switch {
	case i >= len(s.text):
		return 0
	case s.text[i] == '\n':
		return 1
	case s.text[i] == '\r' && i+1 == len(s.text):
		return 1
	case s.text[i] == '\r' && s.text[i+1] == '\n':
		return 2
	}
	return 0
}

// plain scans a cell without quotes. It returns where the next one begins, and
// whether there is one in this record.
func (s *scanner) plain(from int) (cell string, next int, more bool) {
	text, sep := s.text, s.sep
	for i := from; i < len(text); i++ {
		switch c := text[i]; {
		case c == sep:
			return text[from:i], i + 1, true
		case c == '\n':
			s.line++
			return strings.TrimSuffix(text[from:i], "\r"), i + 1, false
		case c == '"':
			s.flaw(i, "a quote inside a cell that does not begin with one",
				`put the whole cell in quotes and write the quote twice, such as "12"" tray"`)
			return "", s.nextLine(i), false
		}
	}
	return strings.TrimSuffix(text[from:], "\r"), len(text), false
}

// quoted scans a cell in quotes.
func (s *scanner) quoted(from int) (cell string, next int, more bool) {
	i, doubled := from+1, false
	for {
		size := strings.IndexByte(s.text[i:], '"')
		if size < 0 {
			s.flaw(from, "the quote that opens here is never closed",
				"close it before the separator; nothing after it could be read")
			return "", len(s.text), false
		}
		i += size + 1
		if i < len(s.text) && s.text[i] == '"' {
			i, doubled = i+1, true
			continue
		}
		break
	}
	inside := s.text[from+1 : i-1]
	cell = unquote(inside, doubled)
	s.line += strings.Count(inside, "\n")
	if i == len(s.text) {
		return cell, i, false
	}
	if s.text[i] == s.sep {
		return cell, i + 1, true
	}
	if size := s.lineEnd(i); size > 0 {
		s.line++
		return cell, i + size, false
	}
	s.flaw(i, "text after the quote that closes a cell", `write a quote inside a cell twice, such as "12"" tray"`)
	return "", s.nextLine(i), false
}

// unquote resolves what is between quotes: doubled quotes, and CR LF as LF.
func unquote(inside string, doubled bool) string {
	if doubled {
		inside = strings.ReplaceAll(inside, `""`, `"`)
	}
	if strings.IndexByte(inside, '\r') >= 0 {
		inside = strings.ReplaceAll(inside, "\r\n", "\n")
	}
	return inside
}

func (s *scanner) flaw(at int, what, hint string) {
	if s.bad == nil {
		s.bad = &flaw{at, what, hint}
	}
}

// nextLine skips to the line after the one that i is in.
func (s *scanner) nextLine(i int) int {
	s.line++
	if size := strings.IndexByte(s.text[i:], '\n'); size >= 0 {
		return i + size + 1
	}
	return len(s.text)
}

func (s *scanner) add(place int, cell string) {
	switch {
	case len(s.cells) == MaxCells:
		s.flaw(place, "more than 1,000 cells in a row", "look for a quote or a line end that is missing")
		return
	case len(cell) > MaxCell:
		s.flaw(place, "the cell is longer than 64 KiB", "put long texts elsewhere and note where")
	}
	s.cells = append(s.cells, cell)
	s.places = append(s.places, place)
}

// blank reports whether the record is nothing but separators.
func (s *scanner) blank() bool {
	if s.bad != nil {
		return false
	}
	for _, c := range s.cells {
		for i := range len(c) {
			if c[i] != ' ' && c[i] != '\t' {
				return false
			}
		}
	}
	return true
}

// position turns an offset in the record scanned last into line and column,
// the latter in bytes from 1.
func (s *scanner) position(at int) (line, column int) {
	before := s.text[s.start:at]
	line = s.startLine + strings.Count(before, "\n")
	return line, len(before) - strings.LastIndexByte(before, '\n')
}

// cellAt returns the position of a cell, or of the record's beginning where it
// has no such cell.
func (s *scanner) cellAt(i int) (line, column int) {
	if i < 0 || i >= len(s.places) {
		return s.startLine, 1
	}
	return s.position(s.places[i])
}

// separator finds the separator of a text by its header: the more frequent of
// ',' and ';' outside quotes.
func separator(text string) byte {
	text = strings.TrimLeft(text, "\r\n")
	commas, semicolons, quoted := 0, 0, false
	for i := 0; i < len(text) && (quoted || text[i] != '\n'); i++ {
		switch c := text[i]; {
		case c == '"':
			quoted = !quoted
		case quoted:
		case c == ',':
			commas++
		case c == ';':
			semicolons++
		}
	}
	if semicolons > commas {
		return ';'
	}
	return ','
}
