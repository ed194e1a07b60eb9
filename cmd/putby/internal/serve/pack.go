package serve

import (
	"putby/cmd/putby/internal/entry"
	"putby/cmd/putby/internal/page"
	"putby/ledger"
	"putby/ledger/report"
	"putby/pricing/exact"
)

var packForm = recording{
	path: "pack", link: "Pack", title: "Record a pack",
	intro:  "A row of like containers. Look first, and it says how many absorbers they need and what to heed.",
	groups: packGroups, rows: packRows, advice: packAdvice,
}

func packGroups(f *filling) []page.Group {
	k, _ := ledger.KindOf("pack")
	run := f.text("run", lastUnpacked(f.rec))
	s := entry.Suggest(k, f.rec, map[string]string{"run": run}, f.today)
	s["run"] = run
	for i := range f.rec.Loads {
		if l := &f.rec.Loads[i]; l.Run == run && run != "" {
			s["item"] = l.Item
			break
		}
	}
	return []page.Group{{Title: "Pack", Fields: f.fieldsOf(k, "", s, "cost")},
		{Title: "Opening stock", Folded: true, Fields: f.fieldsOf(k, "", s, "pack", "run", "item", "date", "count", "each", "dry", "with", "best_by", "place")}}
}

// lastUnpacked is the newest good run that has no pack, if it is the last one.
func lastUnpacked(rec *ledger.Records) string {
	if len(rec.Runs) == 0 {
		return ""
	}
	run := &rec.Runs[len(rec.Runs)-1]
	for i := range rec.Packs {
		if rec.Packs[i].Run == run.ID {
			return ""
		}
	}
	if run.Spoiled {
		return ""
	}
	return run.ID
}

func packRows(f *filling) ([]entry.Row, error) {
	k, _ := ledger.KindOf("pack")
	return []entry.Row{{Kind: k, Cells: f.cells(k, "")}}, nil
}

// packAdvice is what the command says of a pack as well.
func packAdvice(f *filling, rows []entry.Row) []string {
	more, faults := f.rec.With(rows[0].Kind, rows[0].Cells)
	if len(faults) > 0 {
		return nil
	}
	g, faults := ledger.Join(more, ledger.Options{Through: exact.NoDate, PricesThrough: exact.NoDate})
	if len(faults) > 0 {
		return nil
	}
	return report.PackAdvice(g, len(more.Packs)-1)
}
