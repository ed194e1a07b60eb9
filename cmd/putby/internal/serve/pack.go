package serve

import (
	"putby/cmd/putby/internal/entry"
	"putby/cmd/putby/internal/page"
	"putby/ledger"
)

// Packs come as lines in words or as one row by fields; what neither says is as entry.Pack takes it.
var packForm = recording{
	makes: "pack",
	path:  "pack", link: "Pack", title: "Pack",
	intro:  "Like containers, one food a line. Look first, and it says what the labels will say, whether there are jars and absorbers enough, and what to heed.",
	groups: packGroups, draft: packDraft, parts: map[string]string{"rows": "packs"},
}

// packSaid are the columns that a line says by itself.
var packSaid = []string{"item", "count", "each", "dry"}

// packEmpty says of columns what they are where they are left empty.
var packEmpty = map[string]string{
	"pack": "a name for it; empty: the next",
	"run":  "the run it came from; empty: the last that awaits packing",
	"with": "supplies per container, such as 1 jar-1l, 1 lid; empty: as last time",
}

func packGroups(f *filling) []page.Group {
	k := ledger.MustKind("pack")
	rest := f.fieldsOf(k, "", map[string]string{"date": f.At.Today.String()}, append([]string{"date", "place"}, packSaid...)...)
	var said []page.Field
	for _, column := range packSaid {
		said = append(said, f.column("pack", column, ""))
	}
	for i := range rest {
		rest[i].Need = false
		if help := packEmpty[rest[i].Name]; help != "" {
			rest[i].Help = help
		}
	}
	return []page.Group{
		{Title: "Packs", Fields: []page.Field{
			f.linesField("packs", "what was packed", "chives 2 x 90 g, one food a line; dry 14 g may follow. Where it can only be one food, 6 alone will do: each as last time", f.byNames(f.ToPack())...),
			f.column("pack", "date", f.At.Today.String()),
			f.column("pack", "place", ""),
		}},
		folded("The run, what goes with each, and more", append(rest, f.switchField("bare", "nothing goes with them: no jar, no lid, no absorber"))...),
		folded("One row by fields, in place of the lines", said...),
	}
}

func packDraft(f *filling) (*entry.Draft, error) {
	cells := f.cells(ledger.MustKind("pack"), "")
	// An empty cell means nothing goes with them; a missing one, as last time.
	if f.text("bare", "") != "" {
		cells["with"] = ""
	}
	return entry.Pack(f.Base, entry.PackIn{Lines: f.lines("packs"), Cells: cells})
}
