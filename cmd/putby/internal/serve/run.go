package serve

import (
	"strconv"

	"putby/cmd/putby/internal/entry"
	"putby/cmd/putby/internal/page"
	"putby/ledger"
)

// A run that is over, by fields: for one as it happens there are startForm and finishForm.
var runForm = recording{
	makes: "run",
	path:  "run", title: "Record a run that is over",
	parts:  map[string]string{"phase": "phases"},
	intro:  "A run of the machine: what went in, and how long each phase took. The meter's kWh can be added later.",
	groups: runGroups, draft: runDraft,
}

// runLoads is how many foods the form has room for.
const runLoads = 4

func runGroups(f *filling) []page.Group {
	k := ledger.MustKind("run")
	loads := ledger.MustKind("load")
	s, _ := f.Suggest(k, nil)
	groups := []page.Group{{Title: "Run", Fields: f.fieldsOf(k, "", s)}}
	for i := 1; i <= runLoads; i++ {
		fields := f.fieldsOf(loads, "load-"+strconv.Itoa(i)+"-", nil, "run", "receipt", "line")
		for j := range fields {
			fields[j].Need = fields[j].Need && i == 1 // one food there must be
		}
		groups = append(groups, page.Group{Title: "Load " + strconv.Itoa(i), Fields: fields, Folded: i > 1})
	}
	phases := entry.UsualPhases(f.Records, f.text("machine", s["machine"]), nil)
	return append(groups, page.Group{Title: "Phases", Fields: []page.Field{
		f.linesField("phases", "phases, one a line", ledger.MustKind("phase").Column("phase").Help+", its duration, and if known watts or kWh: primary 22h30m 640 W", phases...),
	}})
}

func runDraft(f *filling) (*entry.Draft, error) {
	in := entry.RunIn{Cells: f.cells(ledger.MustKind("run"), ""), Phases: f.lines("phases")}
	k := ledger.MustKind("load")
	for i := 1; i <= runLoads; i++ {
		if cells := f.cells(k, "load-"+strconv.Itoa(i)+"-"); len(cells) > 0 {
			in.Filled = append(in.Filled, entry.Row{Kind: k, Cells: cells})
		}
	}
	return entry.AddRun(f.Base, in)
}
