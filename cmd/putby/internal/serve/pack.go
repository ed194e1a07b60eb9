package serve

import (
	"net/url"

	"putby/cmd/putby/internal/entry"
	"putby/cmd/putby/internal/page"
	"putby/ledger"
	"putby/ledger/report"
)

var packForm = recording{
	path: "pack", link: "Pack", title: "Record a pack",
	intro:  "A row of like containers. Look first, and it says how many absorbers they need and what to heed.",
	groups: packGroups, draft: packDraft, next: packLabels,
}

func packGroups(f *filling) []page.Group {
	k := ledger.MustKind("pack")
	offers, _ := entry.Suggest(k, f.Records, nil, f.At)
	run := f.text("run", offers["run"])
	s, _ := entry.Suggest(k, f.Records, map[string]string{"run": run}, f.At)
	s["run"] = run
	return []page.Group{{Title: "Pack", Fields: f.fieldsOf(k, "", s, "cost")},
		{Title: "Opening stock", Folded: true, Fields: []page.Field{f.field(k.Column("cost"), "cost", "")}}}
}

func packDraft(f *filling) (*entry.Draft, error) {
	k := ledger.MustKind("pack")
	return &entry.Draft{
		Rows:   []entry.Row{{Kind: k, Cells: f.cells(k, "")}},
		Advise: func(g *ledger.Ledger) []string { return report.PackAdvice(g, len(g.Packs)-1) },
	}, nil
}

// packLabels leads to the labels of a pack.
func packLabels(d *entry.Draft) []page.Link {
	return []page.Link{{To: "/labels/" + url.PathEscape(d.Rows[0].Cells["pack"]), Name: "Print its labels"}}
}
