package serve

import (
	"putby/cmd/putby/internal/entry"
	"putby/cmd/putby/internal/page"
	"putby/ledger"
)

// Asks what cannot be known later; all else of a run is said when it is finished.
var startForm = recording{
	makes: "run",
	path:  "start", link: "Start", title: "Start a run",
	intro:  "What goes into the machine, as it goes in. What the run used, and the weights, are said when it is finished.",
	groups: startGroups, draft: startDraft,
	beside: []page.Link{{To: "/" + runForm.path, Name: runForm.title}},
	parts:  map[string]string{"rows": "loads"},
}

func startGroups(f *filling) []page.Group {
	fields := []page.Field{
		f.linesField("loads", "what goes in", "an amount and a food, one a line: 5.5 kg apples; trays 3, wet 5.2 kg or from RECEIPT may follow", f.byNames(f.usualLoad())...),
		f.textField("at", "since when", "19:40, or yesterday 19:40; empty: now", ""),
	}
	more := []page.Field{f.column("run", "tariff", ""), f.column("run", "run", ""), f.column("run", "note", "")}
	// With one machine nobody is asked which.
	if machine := f.column("run", "machine", ""); len(f.Records.NamedMachines()) > 1 {
		fields = append(fields, machine)
	}
	more[1].Help = "a name for it; empty: the next"
	return []page.Group{{Title: "Run", Fields: fields}, folded("More", more...)}
}

// usualLoad is what is likely to be dried next.
func (f *filling) usualLoad() []string {
	machines := ledger.Machines.In(f.Records)
	g := f.join()
	if g == nil || len(machines) != 1 {
		return nil
	}
	return []string{entry.UsualLoad(g, machines[0], f.At.Now)}
}

func startDraft(f *filling) (*entry.Draft, error) {
	return entry.Start(f.Base, entry.StartIn{
		Loads: f.lines("loads"), At: f.text("at", ""), Machine: f.text("machine", ""), Tariff: f.text("tariff", ""),
		Run: f.text("run", ""), Note: f.text("note", ""),
	})
}
