package main

import (
	"fmt"
	"strings"

	"putby/cmd/putby/internal/intake"
)

// previewRows is how many rows of each file a preview shows.
const previewRows = 5

// sayPlan shows what an import would do, before it does it.
func (a *app) sayPlan(p *intake.Plan) {
	v := p.Preview(previewRows)
	fmt.Fprintf(a.stdout, "The file is %s; its header is in line %d.\n", printable(v.Form), v.Header)
	for _, f := range v.Fills {
		from := "always"
		if f.From != "" {
			from = "from " + f.From
		}
		fmt.Fprintf(a.stdout, "  %-12s %s: %q is read as %q\n", f.Column, printable(from), f.Foreign, f.Reads)
	}
	for _, f := range v.First {
		fmt.Fprintln(a.stdout, "  "+f.File)
		for _, r := range f.Rows {
			fmt.Fprintln(a.stdout, "  + "+printable(strings.Join(r.Cells, ",")))
		}
	}
	for _, u := range p.Unknown {
		fmt.Fprintf(a.stdout, "  line %d: %q is no item of the ledger, so it is spending only (%d rows); %s can say what it is\n", u.Line, u.Name, u.Rows, namesFile)
	}
	for _, d := range p.Differ {
		fmt.Fprintf(a.stdout, "  line %d: the ledger has it at %s:%d with another %s (%q, here %q): left as it is\n", d.Line, d.File, d.At, d.Column, d.Has, d.Gives)
	}
	for _, b := range p.Bad {
		fmt.Fprintln(a.stderr, printable(b.Error()))
		if b.Hint != "" {
			fmt.Fprintln(a.stderr, "  try: "+printable(b.Hint))
		}
	}
	fmt.Fprintf(a.stdout, "%d rows to add, %d there already, %d different, %d bad, %d left out by the map.\n", v.Add, v.There, v.Differ, v.Bad, v.Left)
}
