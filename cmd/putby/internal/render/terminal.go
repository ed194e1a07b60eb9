package render

import (
	"fmt"
	"io"

	"putby/ledger/report"
)

// A terminal writes a report as blocks of lines with a blank line between two.
type terminal struct {
	shower
	pen
	opt   Options
	foot  footnotes
	lines []string
	said  bool // the answer, so that a table that is nothing needs no words of its own
}

func writeTerminal(w io.Writer, d report.Doc, o Options) error {
	t := terminal{shower: showerOf(d), pen: penOf(o), opt: o}
	words := d.Words
	if len(words) > 0 { // the answer comes first
		t.said = true
		t.block(t.bold(wrap(Clean(words[0]), o.Width)))
		words = words[1:]
	}
	if title := headline(d); title != "" {
		t.block(t.bold(wrap(title, o.Width)))
	}
	for _, more := range words {
		t.block(wrap(Clean(more), o.Width))
	}
	// Before the notes: what rows note is numbered as their tables are laid out.
	if err := t.fields(d.Fields, "", severalParts(d.Fields)); err != nil {
		return err
	}
	t.notes(d.Foot())
	for _, line := range t.lines {
		if _, err := fmt.Fprintln(w, line); err != nil {
			return err
		}
	}
	return nil
}

// block adds lines, if there are any, apart from those before.
func (t *terminal) block(lines []string) {
	if len(lines) == 0 {
		return
	}
	if len(t.lines) > 0 {
		t.lines = append(t.lines, "")
	}
	t.lines = append(t.lines, lines...)
}

// fields writes parts in order; values that follow each other make one block.
func (t *terminal) fields(fields []report.Field, indent string, titled bool) error {
	var run []pair
	for _, f := range fields {
		if f.Title == "" {
			continue
		}
		title := Clean(f.Title)
		if v, ok := f.Node.(report.Value); ok {
			run = append(run, t.pair(title, v))
			continue
		}
		t.block(t.pairs(run, indent))
		run = nil
		var head []string
		if titled {
			head = t.bold(wrap(title, t.opt.Width))
		}
		if err := t.part(head, f.Node); err != nil {
			return err
		}
	}
	t.block(t.pairs(run, indent))
	return nil
}

// part writes a part right below its heading, if there is anything to say.
func (t *terminal) part(head []string, n report.Node) error {
	var lines []string
	switch n := n.(type) {
	case report.List:
		for _, v := range n {
			lines = append(lines, hang("  ", t.phrase(v), t.opt.Width)...)
		}
	case report.Object:
		// Its footnotes go on from those so far: a note has one number in the whole report.
		inner := terminal{shower: t.shower, pen: t.pen, opt: t.opt, foot: t.foot}
		if err := inner.fields(n, "  ", true); err != nil {
			return err
		}
		lines, t.foot = inner.lines, inner.foot
	case *report.Table:
		if vanishes(n) && (t.said || len(head) > 0) {
			return nil
		}
		var err error
		if lines, err = t.table(t.sheet(n, &t.foot)); err != nil {
			return err
		}
	case *report.Series:
		if t.opt.Chart {
			lines = t.lineChart(n)
		}
	}
	if len(lines) > 0 {
		t.block(append(head, lines...))
	}
	return nil
}

// vanishes reports whether a table is nothing and says nothing: then its
// heading is left out too.
func vanishes(t *report.Table) bool {
	return len(t.Rows)+len(t.Totals) == 0 && t.Empty == ""
}

// notes writes those about the report, then those of its rows.
func (t *terminal) notes(notes []string) {
	var lines []string
	for _, n := range notes {
		lines = append(lines, hang("  * ", Clean(n), t.opt.Width)...)
	}
	for i, n := range t.foot.list {
		lines = append(lines, hang(fmt.Sprintf("%3d ", i+1), n, t.opt.Width)...)
	}
	t.block(t.dim(lines))
}

func (t *terminal) bold(lines []string) []string { return t.styled("\x1b[1m", lines) }

func (t *terminal) dim(lines []string) []string { return t.styled("\x1b[2m", lines) }

// styled puts an ECMA-48 rendition around each line where colour is asked for.
func (t *terminal) styled(on string, lines []string) []string {
	if !t.opt.Colour {
		return lines
	}
	out := make([]string, len(lines))
	for i, line := range lines {
		out[i] = on + line + "\x1b[0m"
	}
	return out
}
