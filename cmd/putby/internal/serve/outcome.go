package serve

import (
	"fmt"
	"slices"
	"strings"

	"putby/cmd/putby/internal/entry"
	"putby/cmd/putby/internal/page"
	"putby/ledger"
	"putby/ledger/folder"
	"putby/ledger/report"
)

// newPacks are the packs that a draft makes.
func newPacks(d *entry.Draft) (ids []string) {
	for _, row := range d.Rows {
		if row.Kind.Name == "pack" {
			ids = append(ids, row.Cells["pack"])
		}
	}
	return ids
}

// outcomeOf is what became of a form, as far as its change tells.
func outcomeOf(c folder.Change) *outcome {
	o := &outcome{number: c.Number}
	place := func(f folder.FileChange) int { // a run before its loads
		return slices.IndexFunc(ledger.Kinds(), func(k ledger.Kind) bool { return k.File == f.Name })
	}
	for _, file := range slices.SortedStableFunc(slices.Values(c.Files), func(a, b folder.FileChange) int { return place(a) - place(b) }) {
		removed, added := file.Lines()
		o.change = append(o.change, page.Changed{File: file.Name, Removed: firstLines(removed), Added: firstLines(added)})
	}
	return o
}

// mostLines is how many lines of a change are shown of each file.
const mostLines = 100

func firstLines(list []string) []string {
	if n := len(list) - mostLines; n > 1 {
		list = append(list[:mostLines:mostLines], fmt.Sprintf("... and %d more", n))
	}
	return list
}

// advise sorts cautions from what else is to be known. What stands at the foot of every
// page is not said twice.
func (o *outcome) advise(list []report.Remark) {
	for i, line := range flat(report.Lines(list)) {
		switch {
		case list[i] == report.Safety:
		case list[i].Caution:
			o.cautions = append(o.cautions, line)
		default:
			o.know = append(o.know, line)
		}
	}
}

// flat writes lines without what aligns their columns on a terminal.
func flat(lines []string) []string {
	said := make([]string, len(lines))
	for i, line := range lines {
		said[i] = strings.ReplaceAll(strings.TrimSpace(line), report.Tab, "; ")
	}
	return said
}
