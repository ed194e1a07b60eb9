package intake

import (
	"io"
	"strings"

	"putby/ledger"
)

// Limits that keep the reading of any file bounded in memory and time.
const (
	MaxFile  = 64 << 20  // bytes of a file; of a workbook, as packed
	MaxPlain = 256 << 20 // bytes of a workbook once unpacked
	MaxCell  = 64 << 10  // bytes of a cell
	MaxCells = 1000      // cells of a row
	MaxTable = 16 << 20  // cells of a table
)

// A scanner splits foreign text into records. On text that keeps to RFC 4180
// it does what encoding/csv does; beyond that it takes what spreadsheets and
// shops write: quotes within a cell that does not begin with one are text, and
// a carriage return alone ends a line where the text has no line feeds.
//
// A record that cannot be split does not end the reading. A quote that is
// never closed costs only the line that it is on; text after a closing quote
// costs the lines from the record's first to the text's.
//
// The text is at hand as a whole, or is read on from a stream in memory that does
// not depend on its length; then no record may be longer than a cell.
type scanner struct {
	text string
	sep  byte
	eol  byte // what ends a line
	at   int  // where the next record begins
	line int  // its line

	cells     []string // of the record scanned last
	begin     int      // where it begins
	first     int      // the line it begins at
	last      int      // the line it ends at
	starts    []int    // where each cell does, its quote included
	why, hint string   // why it cannot be used; empty if it can
	wrong     int      // where that is

	// Of a stream:
	more   io.Reader // what is not read yet; nil: all is
	buffer []byte    // what is read at once; nil: the text is no stream
	passed int64     // bytes that are let go
	err    error     // a [ledger.Fault] that ended the reading
}

// newScanner begins with a text at hand; a separator of 0 is still to be found
// ([scanner.settle]).
func newScanner(text string, sep byte) *scanner {
	eol := byte('\n')
	if !strings.Contains(text, "\n") {
		eol = '\r'
	}
	return &scanner{text: text, sep: sep, eol: eol, line: 1}
}

// next scans the next record that is not an empty line, and reports whether
// there is one.
func (s *scanner) next() bool {
	for s.fill(); s.lineEnd(s.at) > 0; s.fill() {
		s.at += s.lineEnd(s.at)
		s.line++
	}
	if s.at >= len(s.text) || s.err != nil {
		return false
	}
	s.begin = s.at
	s.cells, s.starts, s.first, s.why, s.hint = s.cells[:0], s.starts[:0], s.line, "", ""
	for s.cell() {
		if len(s.cells) >= MaxCells {
			s.fail(s.at, "the row has more than 1,000 cells", "")
			break
		}
	}
	ends := strings.Count(s.text[s.begin:s.at], string(s.eol))
	s.line, s.last = s.first+ends, s.first+ends
	if ends > 0 && s.text[s.at-1] == s.eol {
		s.last--
	}
	if s.buffer != nil && s.at-s.begin > MaxCell {
		s.err = &ledger.Fault{Kind: ErrTooLarge, Line: s.first, Column: 1, What: "the line is longer than 64 KiB", Hint: "is this a table in CSV?"}
		return false
	}
	return true
}

// cell scans one cell and what ends it, and reports whether another follows.
func (s *scanner) cell() bool {
	s.starts = append(s.starts, s.at)
	if s.at < len(s.text) && s.text[s.at] == '"' {
		return s.quoted()
	}
	from, text := s.at, s.text
	for ; s.at < len(text); s.at++ {
		if c := text[s.at]; c == s.sep || c <= '\r' && s.lineEnd(s.at) > 0 {
			break
		}
	}
	return s.add(text[from:s.at])
}

// quoted scans a cell that begins with a quote.
func (s *scanner) quoted() bool {
	from := s.at + 1
	end := from
	for {
		// No further than a cell may go: else a file full of open quotes would be gone through for
		// each of them.
		size := strings.IndexByte(s.text[end:min(len(s.text), end+MaxCell)], '"')
		if size < 0 || end-from > MaxCell {
			s.fail(from-1, "the quote is not closed", "close it, or write no quote at the beginning of a cell")
			return false
		}
		end += size + 1
		if end == len(s.text) || s.text[end] != '"' {
			break
		}
		end++
	}
	s.at = end
	if s.at < len(s.text) && s.text[s.at] != s.sep && s.lineEnd(s.at) == 0 {
		s.fail(s.at, "there is text after the quote that closes a cell", `write a quote within a cell twice: 12"" tray`)
		return false
	}
	cell := strings.ReplaceAll(s.text[from:end-1], `""`, `"`)
	return s.add(strings.ReplaceAll(cell, "\r\n", "\n"))
}

// add keeps a cell and passes over what ends it.
func (s *scanner) add(cell string) bool {
	if len(cell) > MaxCell {
		s.fail(s.at, "a cell is longer than 64 KiB", "")
		return false
	}
	s.cells = append(s.cells, cell)
	if s.at < len(s.text) && s.text[s.at] == s.sep {
		s.at++
		return true
	}
	s.at += s.lineEnd(s.at)
	return false
}

// fail notes why the record cannot be used and goes on after the line that i
// is in.
func (s *scanner) fail(i int, why, hint string) {
	s.why, s.hint, s.wrong = why, hint, i
	size := strings.IndexByte(s.text[i:], s.eol)
	if size < 0 {
		s.at = len(s.text)
		return
	}
	s.at = i + size + 1
}

// lineEnd returns the length of the line end at i, 0 where there is none. A
// carriage return that ends the text is one, as encoding/csv has it.
func (s *scanner) lineEnd(i int) int {
	switch {
	case i >= len(s.text):
		return 0
	case s.text[i] == s.eol:
		return 1
	case s.text[i] == '\r' && i+1 == len(s.text):
		return 1
	case s.text[i] == '\r' && s.text[i+1] == s.eol && s.eol == '\n':
		return 2
	}
	return 0
}

// place is the line and the column, in bytes from 1, of a cell of the record.
func (s *scanner) place(cell int) (line, column int) { return s.placeAt(s.starts[cell]) }

// wrongColumn is the column of what is wrong with the record, 0 where that is not on
// the line that it begins at.
func (s *scanner) wrongColumn() int {
	if line, column := s.placeAt(s.wrong); line == s.first {
		return column
	}
	return 0
}

// placeAt is the same of an offset in the record.
func (s *scanner) placeAt(at int) (line, column int) {
	before := s.text[s.begin:at]
	return s.first + strings.Count(before, string(s.eol)), len(before) - strings.LastIndexByte(before, s.eol)
}
