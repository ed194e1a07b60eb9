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
	groups: packGroups, rows: packRows, advice: packAdvice, next: packLabels,
}

func packGroups(f *filling) []page.Group {
	k := ledger.MustKind("pack")
	offers, _ := entry.Suggest(k, f.rec, nil, f.at)
	run := f.text("run", offers["run"])
	s, _ := entry.Suggest(k, f.rec, map[string]string{"run": run}, f.at)
	s["run"] = run
	return []page.Group{{Title: "Pack", Fields: f.fieldsOf(k, "", s, "cost")},
		{Title: "Opening stock", Folded: true, Fields: []page.Field{f.field(k.Column("cost"), "cost", "")}}}
}

func packRows(f *filling) ([]entry.Row, error) {
	k := ledger.MustKind("pack")
	return []entry.Row{{Kind: k, Cells: f.cells(k, "")}}, nil
}

// packAdvice is what the command says of a pack as well.
func packAdvice(f *filling, rows []entry.Row) []string {
	g, ok := entry.Joined(f.rec, rows)
	if !ok {
		return nil
	}
	return report.PackAdvice(g, len(g.Packs)-1)
}

// packLabels leads to the labels of a pack.
func packLabels(rows []entry.Row) []page.Link {
	return []page.Link{{To: "/labels/" + url.PathEscape(rows[0].Cells["pack"]), Name: "Print its labels"}}
}
