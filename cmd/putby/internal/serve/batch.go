package serve

import (
	"strings"

	"putby/cmd/putby/internal/entry"
	"putby/cmd/putby/internal/page"
	"putby/ledger"
)

// The form of batch add; asLast fills in what the last batch of that food took.
var batchForm = recording{
	seldom: true,
	path:   "batch", link: "Kitchen", title: "Kitchen work before drying",
	intro:  "A soup, a purée, eggs beaten: what it took of the fresh food in hand, and what it made.",
	groups: batchGroups, draft: added("batch"), buttons: []page.Button{asLast},
}

func batchGroups(f *filling) []page.Group {
	k := ledger.MustKind("batch")
	f.fillAsLast(k)
	made := f.only(k, nil, "item", "quantity")
	made[0].Label = "food made"
	from := f.only(k, nil, "from")[0]
	from.Kind, from.Label, from.Help = "lines", "what it took", "an amount and a food, one a line: 2 kg leeks"
	// A line for each food, in place of the commas of the file.
	from.Value = strings.Join(linesOf(strings.ReplaceAll(from.Value, ", ", "\n")), "\n")
	id := f.only(k, nil, "batch")
	id[0].Need, id[0].Help = false, "a name for it; empty: the next"
	rest := append(f.fieldsOf(k, "", map[string]string{"date": f.At.Today.String()}, "item", "quantity", "from", "batch"), id...)
	return []page.Group{
		{Title: "The batch", Fields: append(made, from)},
		folded("Another day, other cost, a note", rest...),
	}
}

// added is the draft of one record of a kind, by its cells.
func added(kind string) func(*filling) (*entry.Draft, error) {
	return func(f *filling) (*entry.Draft, error) {
		k := ledger.MustKind(kind)
		return entry.Add(f.Base, k, f.cells(k, ""))
	}
}
