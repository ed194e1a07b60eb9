package folder

import (
	"bufio"
	"encoding/csv"
	"errors"
	"io"
	"strings"

	"putby/ledger"
)

// A scanner reads the records of a text by encoding/csv, and knows of each its
// bytes, so that untouched ones are kept as they are, and the place of every
// cell.
type scanner struct {
	text  string
	sep   byte
	csv   *csv.Reader
	from  int // where csv began to read
	lines int // how many lines are before that

	// The record read last.
	start, end int           // its bytes, line end included
	startLine  int           // the line it begins at
	cells      []string      // their text, quotes resolved
	bad        *ledger.Fault // why it cannot be split into cells, with its place, or nil
}

func newScanner(text string, sep byte) *scanner {
	s := &scanner{text: text, sep: sep}
	s.skipTo(0)
	return s
}

// skipTo goes on with the record that begins at an offset, or behind it.
func (s *scanner) skipTo(at int) {
	const buffer = 64 << 10
	s.csv = csv.NewReader(bufio.NewReaderSize(strings.NewReader(s.text[at:]), min(buffer, len(s.text)-at)))
	s.csv.Comma, s.csv.FieldsPerRecord, s.csv.ReuseRecord = rune(s.sep), -1, true
	s.from, s.end, s.lines = at, at, strings.Count(s.text[:at], "\n")
}

// next reads the next record that is not a blank line. It reports false at the
// end of the text.
func (s *scanner) next() bool {
	cells, err := s.csv.Read()
	if errors.Is(err, io.EOF) {
		return false
	}
	// The reader passes over blank lines and does not tell; they belong to no record.
	for s.start = s.end; s.text[s.start] <= '\r' && s.blankLine(); {
	}
	s.end = s.from + int(s.csv.InputOffset())
	s.cells, s.bad = cells, nil
	if err != nil {
		s.bad = s.flawOf(err.(*csv.ParseError)) // a string gives no other error
		return true
	}
	s.startLine, _ = s.position(0)
	for i, cell := range cells {
		switch {
		case i == MaxCells:
			s.limit(i, "more than 1,000 cells in a row", "look for a quote or a line end that is missing")
		case len(cell) > MaxCell:
			s.limit(i, "the cell is longer than 64 KiB", "put long texts elsewhere and note where")
		default:
			continue
		}
		break
	}
	return true
}

// blankLine passes over a blank line at the record's start, if there is one.
func (s *scanner) blankLine() bool {
	rest := strings.TrimPrefix(s.text[s.start:], "\r")
	if !strings.HasPrefix(rest, "\n") {
		return false
	}
	s.start = len(s.text) - len(rest) + 1
	return true
}

// limit notes that a cell is beyond what is read.
func (s *scanner) limit(i int, what, hint string) {
	line, column := s.position(i)
	s.bad = &ledger.Fault{Line: line, Column: column, What: what, Hint: hint}
	s.cells = s.cells[:i]
}

// flawOf says what is wrong with quotes.
func (s *scanner) flawOf(err *csv.ParseError) *ledger.Fault {
	s.startLine = s.lines + err.StartLine
	f := &ledger.Fault{Line: s.lines + err.Line, Column: err.Column}
	at := s.offset(f.Line, f.Column)
	switch {
	case errors.Is(err, csv.ErrBareQuote):
		f.What, f.Hint = "a quote inside a cell that does not begin with one",
			`put the whole cell in quotes and write the quote twice, such as "12"" tray"`
	case at < len(s.text) && s.text[at] == '"': // it closes the cell
		f.Column++
		f.What, f.Hint = "text after the quote that closes a cell", `write a quote inside a cell twice, such as "12"" tray"`
	default: // the text ends
		f.Line, f.Column = s.opening()
		f.What, f.Hint = "the quote that opens here is never closed", "close it before the separator; nothing after it could be read"
	}
	return f
}

// opening is the place of the cell behind the last that could be read.
func (s *scanner) opening() (line, column int) {
	if len(s.cells) == 0 {
		return s.startLine, 1
	}
	at := s.place(len(s.cells) - 1)
	if s.text[at] == '"' {
		for at++; s.text[at] != '"' || s.text[at+1] == '"'; at++ {
			if s.text[at] == '"' {
				at++
			}
		}
	}
	at += strings.IndexByte(s.text[at:], s.sep) + 1
	before := s.text[s.start:at]
	return s.startLine + strings.Count(before, "\n"), len(before) - strings.LastIndexByte(before, '\n')
}

// blank reports whether the record is nothing but separators.
func (s *scanner) blank() bool {
	for _, cell := range s.cells {
		for i := range len(cell) {
			if cell[i] != ' ' && cell[i] != '\t' {
				return false
			}
		}
	}
	return s.bad == nil
}

// position is a cell's line and column, the latter in bytes from 1.
func (s *scanner) position(i int) (line, column int) {
	line, column = s.csv.FieldPos(i)
	return s.lines + line, column
}

// cellAt returns the position of a cell, or of the record's beginning where it
// has no such cell.
func (s *scanner) cellAt(i int) (line, column int) {
	if i < 0 || i >= len(s.cells) {
		return s.startLine, 1
	}
	return s.position(i)
}

// place is where a cell begins in the text, its quote included.
func (s *scanner) place(i int) int { return s.offset(s.position(i)) }

// offset turns a position in the record read last into an offset in the text.
func (s *scanner) offset(line, column int) int {
	at := s.start
	for n := s.startLine; n < line; n++ {
		at += strings.IndexByte(s.text[at:], '\n') + 1
	}
	return at + column - 1
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
