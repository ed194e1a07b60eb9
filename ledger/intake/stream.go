package intake

import (
	"bufio"
	"errors"
	"io"
	"strings"
	"unicode/utf8"

	"putby/ledger"
)

// How much of a stream is at hand: before a record is scanned so much that it, or
// what is wrong with it, lies within; and how much is read at once.
const (
	streamAhead = 3 * MaxCell
	streamChunk = 4 * MaxCell
)

// openStream begins to scan a text of any length. The encoding is found by its
// beginning, the separator by its header. What keeps it from being read at all, at once or
// later, is the scanner's err.
func openStream(in io.Reader) *scanner {
	head := bufio.NewReaderSize(in, MaxCell)
	start, _ := head.Peek(MaxCell) // an error comes again
	// A character that is cut at the end would look like none of UTF-8.
	for cut := 1; cut < utf8.UTFMax && cut <= len(start); cut++ {
		if at := len(start) - cut; utf8.RuneStart(start[at]) && !utf8.FullRune(start[at:]) {
			start = start[:at]
		}
	}
	s := newScanner("", 0)
	s.more, s.buffer = head, make([]byte, streamChunk)
	if d := guess(string(start)).decoder(); d != nil {
		s.more = d.Reader(head)
	}
	s.fill()
	s.text = strings.TrimPrefix(s.text, byteOrderMark)
	// Whether what follows has line feeds is not known: carriage returns alone end lines only in a
	// text that is read at once.
	if s.more != nil || strings.Contains(s.text, "\n") {
		s.eol = '\n'
	}
	s.settleByHeader()
	return s
}

// fill reads on until enough is at hand, and lets go what has been scanned.
func (s *scanner) fill() {
	if s.more == nil || len(s.text)-s.at >= streamAhead {
		return
	}
	n, err := io.ReadFull(s.more, s.buffer)
	s.passed += int64(s.at)
	s.text, s.at = s.text[s.at:]+string(s.buffer[:n]), 0
	if err != nil {
		s.more = nil
	}
	s.err = checkText(s.text, s.line, textAlone)
	if err != nil && !errors.Is(err, io.EOF) && !errors.Is(err, io.ErrUnexpectedEOF) {
		s.err = &ledger.Fault{Line: s.line, Column: 1, What: "it cannot be read", Err: err}
	}
}

// read is how many bytes of a stream have been scanned, once they are UTF-8.
func (s *scanner) read() int64 { return s.passed + int64(s.at) }
