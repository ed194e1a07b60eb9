package render

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"putby/ledger/report"
	"putby/pricing/exact"
)

// A Format is a way to write a report.
type Format uint8

// The formats.
const (
	Table    Format = iota // text for a terminal
	CSV                    // one table, RFC 4180, all digits
	JSON                   // the whole report, all digits
	Markdown               // GitHub's flavour
	HTML                   // a fragment, without styles or scripts
)

var formatNames = [...]string{"table", "csv", "json", "md", "html"}

// Formats returns the names of the formats.
func Formats() []string { return slices.Clone(formatNames[:]) }

// String returns the name that [ParseFormat] reads.
func (f Format) String() string {
	if int(f) < len(formatNames) {
		return formatNames[f]
	}
	return fmt.Sprintf("format %d", uint8(f))
}

// ErrFormat is what the error of [ParseFormat] is.
var ErrFormat = errors.New("unknown format")

// ParseFormat finds a format by its name.
func ParseFormat(name string) (Format, error) {
	for i, n := range formatNames {
		if n == name {
			return Format(i), nil
		}
	}
	return Table, fmt.Errorf("%w %s: it is one of %s", ErrFormat, exact.Quote(name), strings.Join(formatNames[:], ", "))
}

// Options say how a report is written. The zero value is plain text as wide as
// it needs.
type Options struct {
	Width   int    // columns of the terminal; 0 is no limit
	Colour  bool   // bold and dim, by ECMA-48 sequences; nothing depends on them
	Chart   bool   // draw the columns and series that are made for it
	ASCII   bool   // lines, bars and ellipses of ASCII characters
	Alone   bool   // nothing gives the report in another format
	Bare    bool   // HTML: without the report's title, for a page that has its own
	Section string // CSV: the key of the table or object to write; blank is the first table
}

// Render writes d to w. It writes nothing when d or the options are at fault,
// and returns w's first error.
func Render(w io.Writer, d report.Doc, f Format, o Options) error {
	if err := d.Check(); err != nil {
		return fmt.Errorf("render: %w", err)
	}
	b := bufio.NewWriter(w)
	var err error
	switch f {
	case Table:
		err = writeTerminal(b, d, o)
	case CSV:
		err = writeCSV(b, d, o.Section)
	case JSON:
		err = writeJSON(b, d)
	case Markdown:
		err = writeMarkdown(b, d, o)
	case HTML:
		err = writeHTML(b, d, o.Bare)
	default:
		err = fmt.Errorf("render: %w %d", ErrFormat, f)
	}
	if err != nil {
		return err
	}
	return b.Flush()
}
