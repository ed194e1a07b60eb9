package main

import (
	"cmp"
	"encoding/csv"
	"fmt"
	"io"
	"strconv"
	"strings"

	"putby/ledger/intake"
)

// How much of a plan a person is shown.
const (
	previewRows = 5  // rows of each file
	mostRemarks = 20 // of one sort
)

// sayPlan shows what an import would do, before it does it.
func (a *app) sayPlan(p *intake.Plan) {
	fmt.Fprintf(a.stdout, "The file is %s; its header is in line %d.\n", printable(p.Form.String()), p.Header)
	for _, f := range p.Fills {
		fmt.Fprintf(a.stdout, "  %-16s %s\n", f.Column, printable(fillText(f)))
	}
	sayRemarks(a.stdout, p.Unread, unreadText)
	for _, f := range p.Add {
		fmt.Fprintln(a.stdout, "  "+f.File)
		shown := 0
		for r := range f.Rows() {
			if shown++; shown > previewRows {
				fmt.Fprintf(a.stdout, "  + ... and %d more\n", f.Len()-previewRows)
				break
			}
			fmt.Fprintln(a.stdout, "  + "+printable(csvLine(r.Cells)))
		}
	}
	sayRemarks(a.stdout, p.Unknown, func(u intake.UnknownName) string {
		return fmt.Sprintf("line %d: %q is nothing that the ledger knows, so it is spending only (%s); --name says what it is", u.Line, u.Name, howMany(u.Rows, "row"))
	})
	sayRemarks(a.stdout, p.Differ, func(d intake.Differ) string {
		return fmt.Sprintf("line %d: the ledger has it at %s:%d with another %s (%q, here %q): left as it is", d.Line, d.File, d.At, d.Column, d.Has, d.Gives)
	})
	listFaults(a.stderr, p.Bad)
	fmt.Fprintf(a.stdout, "%s to add, %d there already, %d different, %d bad, %d left out by the map.\n",
		howMany(p.Rows(), "row"), len(p.There), len(p.Differ), len(p.Bad), p.Left)
}

// fillText says how a column is filled.
func fillText(f intake.Filled) string {
	if f.From == "" {
		return "always " + cmp.Or(f.Reads, "nothing")
	}
	if f.Foreign == "" {
		return "from " + f.From + ", which is blank"
	}
	return fmt.Sprintf("from %s: %q is read as %s", f.From, f.Foreign, cmp.Or(f.Reads, "nothing"))
}

// unreadText says that a column of the file fills nothing.
func unreadText(u intake.Unread) string {
	header := strconv.Quote(u.Header)
	if u.Header == "" {
		header = "a column without a header"
	}
	return fmt.Sprintf("%-16s %s, such as %q", "not read", header, u.Foreign)
}

// csvLine writes cells as the ledger's file will have them.
func csvLine(cells []string) string {
	var b strings.Builder
	w := csv.NewWriter(&b)
	_ = w.Write(cells) // a builder takes everything
	w.Flush()
	return strings.TrimSuffix(b.String(), "\n")
}

// sayRemarks says what there is to say of some rows.
func sayRemarks[R any](w io.Writer, list []R, say func(R) string) { sayFirst(w, list, len(list), say) }

// sayFirst is sayRemarks of the first remarks of so many.
func sayFirst[R any](w io.Writer, list []R, all int, say func(R) string) {
	for i, r := range list {
		if i == mostRemarks {
			fmt.Fprintf(w, "  ... and %d more like these\n", all-i)
			return
		}
		fmt.Fprintln(w, "  "+printable(say(r)))
	}
}
