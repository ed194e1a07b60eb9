package intake

import (
	"bufio"
	"bytes"
	"io"
	"strings"

	"putby/ledger"
)

const (
	hintTime  = "write times as 2025-02-28T18:30:05+01:00, or as seconds since 1970"
	hintValue = "write digits with a point, such as 812.5"
)

// maxLine is the longest line of a log.
const maxLine = 1 << 16

// A lineReader fails at a line that is too long, so that a file that is no log
// does not fill the memory.
type lineReader struct {
	r      io.Reader
	line   int
	length int
}

type longLineError struct{ line int }

func (e *longLineError) Error() string { return "line too long" }

// Read reads on.
func (l *lineReader) Read(p []byte) (int, error) {
	n, err := l.r.Read(p)
	rest := p[:n]
	for {
		at := bytes.IndexByte(rest, '\n')
		if at < 0 {
			l.length += len(rest)
			break
		}
		if l.length+at > maxLine {
			l.length = maxLine + 1
			break
		}
		l.line, l.length, rest = l.line+1, 0, rest[at+1:]
	}
	if l.length > maxLine {
		return 0, &longLineError{l.line + 1}
	}
	return n, err
}

// findSeparator looks at the header for the separator, past a byte order mark
// and a line that names it (sep=;).
func findSeparator(in *bufio.Reader) (rune, *ledger.Fault) {
	head, err := in.Peek(maxLine)
	if err != nil && err != io.EOF && len(head) == 0 {
		return 0, csvFault(err)
	}
	fault := func(problem, hint string) *ledger.Fault {
		return &ledger.Fault{Line: 1, Column: 1, What: problem, Hint: hint}
	}
	switch {
	case len(head) == 0:
		return 0, csvFault(io.EOF)
	case bytes.HasPrefix(head, []byte("\xff\xfe")), bytes.HasPrefix(head, []byte("\xfe\xff")):
		return 0, fault("the file is UTF-16", "save it as UTF-8")
	case bytes.IndexByte(head, 0) >= 0:
		return 0, fault("the file has a NUL byte: it is no text", "save it as CSV in UTF-8")
	case bytes.HasPrefix(head, []byte("\xef\xbb\xbf")):
		head = head[3:]
		in.Discard(3)
	}
	if len(head) > 6 && bytes.EqualFold(head[:4], []byte("sep=")) && (head[5] == '\n' || head[5] == '\r') {
		separator := rune(head[4])
		if _, err := in.ReadString('\n'); err != nil || !strings.ContainsRune(";,\t", separator) {
			return 0, fault("the line sep= must name a comma, a semicolon or a tab", "")
		}
		return separator, nil
	}
	line, _, _ := bytes.Cut(bytes.TrimLeft(head, "\r\n"), []byte("\n"))
	for _, separator := range ";\t," {
		if bytes.ContainsRune(line, separator) {
			return separator, nil
		}
	}
	return 0, fault("the first row has no comma, semicolon or tab: a log has a column of times and one of values",
		"begin the file with a header such as time,power (W)")
}
