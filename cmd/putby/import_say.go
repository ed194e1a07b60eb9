package main

import (
	"cmp"
	"fmt"
	"io"
	"strings"

	"putby/cmd/putby/internal/intake"
)

// How much of a plan a person is shown.
const (
	previewRows = 5  // rows of each file
	mostRemarks = 20 // of one sort
)

// sayPlan shows what an import would do, before it does it.
func (a *app) sayPlan(p *intake.Plan) {
	v := p.Preview(previewRows)
	fmt.Fprintf(a.stdout, "The file is %s; its header is in line %d.\n", printable(v.Form), v.Header)
	for _, f := range v.Fills {
		fmt.Fprintf(a.stdout, "  %-16s %s\n", f.Column, printable(fillText(f)))
	}
	for _, f := range v.First {
		fmt.Fprintln(a.stdout, "  "+f.File)
		for _, r := range f.Rows {
			fmt.Fprintln(a.stdout, "  + "+printable(strings.Join(r.Cells, ",")))
		}
		if more := rowsOf(p, f.File) - len(f.Rows); more > 0 {
			fmt.Fprintf(a.stdout, "  + ... and %d more\n", more)
		}
	}
	sayRemarks(a.stdout, p.Unknown, func(u intake.UnknownName) string {
		return fmt.Sprintf("line %d: %q is no item of the ledger, so it is spending only (%s); --name says what it is", u.Line, u.Name, rowCount(u.Rows))
	})
	sayRemarks(a.stdout, p.Differ, func(d intake.Differ) string {
		return fmt.Sprintf("line %d: the ledger has it at %s:%d with another %s (%q, here %q): left as it is", d.Line, d.File, d.At, d.Column, d.Has, d.Gives)
	})
	a.sayBad(p.Bad)
	fmt.Fprintf(a.stdout, "%s to add, %d there already, %d different, %d bad, %d left out by the map.\n", rowCount(v.Add), v.There, v.Differ, v.Bad, v.Left)
}

// fillText says how a column is filled.
func fillText(f intake.FillPreview) string {
	if f.From == "" {
		return "always " + cmp.Or(f.Reads, "nothing")
	}
	if f.Foreign == "" {
		return "from " + f.From + ", which is blank"
	}
	return fmt.Sprintf("from %s: %q is read as %s", f.From, f.Foreign, cmp.Or(f.Reads, "nothing"))
}

func rowsOf(p *intake.Plan, file string) int {
	for _, f := range p.Add {
		if f.File == file {
			return len(f.Rows)
		}
	}
	return 0
}

func rowCount(n int) string {
	if n == 1 {
		return "1 row"
	}
	return fmt.Sprintf("%d rows", n)
}

// sayRemarks says what there is to say of some rows.
func sayRemarks[R any](w io.Writer, list []R, say func(R) string) {
	for i, r := range list {
		if i == mostRemarks {
			fmt.Fprintf(w, "  ... and %d more like these\n", len(list)-i)
			return
		}
		fmt.Fprintln(w, "  "+printable(say(r)))
	}
}

// sayBad lists the bad rows by their lines.
func (a *app) sayBad(list []intake.Bad) {
	for i, b := range list {
		if i == mostFaults {
			fmt.Fprintf(a.stderr, "and %d more\n", len(list)-i)
			return
		}
		fmt.Fprintln(a.stderr, printable(b.Error()))
		if b.Hint != "" {
			fmt.Fprintln(a.stderr, "  try: "+printable(b.Hint))
		}
	}
}
