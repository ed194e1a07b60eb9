package serve

import (
	"strconv"
	"strings"

	"putby/cmd/putby/internal/entry"
	"putby/cmd/putby/internal/page"
	"putby/ledger"
	"putby/ledger/report"
)

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
			fields[j].Need = fields[j].Need && i == 1
		}
		groups = append(groups, page.Group{Title: "Load " + strconv.Itoa(i), Fields: fields, Folded: i > 1})
	}
	phases := entry.UsualPhases(f.Records, f.text("machine", s["machine"]), nil)
	return append(groups, page.Group{Title: "Phases", Fields: []page.Field{
		f.linesField("phases", "phases, one a line", ledger.MustKind("phase").Column("phase").Help+", its duration, and if known watts or kWh: primary 22h30m 640 W", phases...),
	}})
}

func runDraft(f *filling) (*entry.Draft, error) {
	k := ledger.MustKind("run")
	loads := ledger.MustKind("load")
	run := f.cells(k, "")
	if run["run"] == "" {
		run["run"] = entry.NextRun(f.Records, f.At.Day(run["start"]))
	}
	rows := []entry.Row{{Kind: k, Cells: run}}
	for i := 1; i <= runLoads; i++ {
		cells := f.cells(loads, "load-"+strconv.Itoa(i)+"-")
		if len(cells) == 0 {
			continue
		}
		cells["run"] = run["run"]
		rows = append(rows, entry.Row{Kind: loads, Cells: cells})
	}
	step := 0
	var bad []*entry.WrongError
	for line := range strings.Lines(f.text("phases", "")) {
		if line = strings.TrimSpace(line); line == "" {
			continue
		}
		step++
		row, err := entry.ParsePhase(f.Records, run["run"], step, line)
		if err == nil {
			err = entry.CheckPhase(line, row)
		}
		if err != nil {
			bad = append(bad, &entry.WrongError{Part: "phases", Number: step, Err: err})
		}
		rows = append(rows, row)
	}
	if bad != nil {
		return nil, &entry.WrongsError{List: bad}
	}
	return &entry.Draft{Rows: rows, Advise: func(g *ledger.Ledger) []string { return report.LoadAdvice(g, len(g.Runs)-1) }}, nil
}
