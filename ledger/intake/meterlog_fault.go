package intake

import (
	"bufio"
	"bytes"
	"fmt"
	"io"
	"strings"
)

// A LogFault says what is wrong with a meter log, and where: line and column
// from 1, the column in bytes.
type LogFault struct {
	Line, Column int
	Problem      string
	Hint         string // what to do, or blank
}

// Error names the place and the problem.
func (f *LogFault) Error() string { return fmt.Sprintf("%d:%d: %s", f.Line, f.Column, f.Problem) }

// LogFaults are the faults of one log, in its order; never empty. There may be
// more in the file when there are 50.
type LogFaults []*LogFault

// Error lists the faults, one a line.
func (f LogFaults) Error() string { return lines(f) }

// lines puts errors one a line.
func lines[E error](errs []E) string {
	text := make([]string, len(errs))
	for i, err := range errs {
		text[i] = err.Error()
	}
	return strings.Join(text, "\n")
}

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
func findSeparator(in *bufio.Reader) (rune, *LogFault) {
	head, err := in.Peek(maxLine)
	if err != nil && err != io.EOF && len(head) == 0 {
		return 0, csvFault(err)
	}
	fault := func(problem, hint string) *LogFault {
		return &LogFault{Line: 1, Column: 1, Problem: problem, Hint: hint}
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
