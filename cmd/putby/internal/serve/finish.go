package serve

import (
	"slices"
	"strings"

	"putby/cmd/putby/internal/entry"
	"putby/cmd/putby/internal/page"
	"putby/ledger"
	"putby/ledger/report"
)

// Two forms end in entry.Finish: this one ends a run or adds what is known of an earlier one, moreForm
// lets it go on. They are apart, so that who only adds time cannot end the run by a field left as it is.
var finishForm = recording{
	path: "finish", link: "Finish", title: "Finish a run",
	intro: "The end of the run that is on. What is not known yet can be added later, under the run's name. " +
		"Of its electricity one thing is needed: the meter's kWh, the phases, or that they were as usual.",
	groups: finishGroups, draft: finishDraft,
	beside: []page.Link{{To: "/" + moreForm.path, Name: moreForm.title}, {To: "/" + meterForm.path, Name: meterForm.title}},
}

// moreForm adds time to a run that is not over.
var moreForm = recording{
	path: "more", title: "More time for a run",
	intro:  "It is not dry yet, and goes on: a phase, and how much longer. The run is not ended by this.",
	groups: moreGroups, draft: moreDraft,
}

func moreGroups(f *filling) []page.Group {
	run := f.column("run", "run", running(f.Records))
	run.Options, run.Help = f.runs(), "the one that goes on"
	return []page.Group{{Title: "It goes on", Fields: []page.Field{
		f.linesField("more", "more time", "a phase and how much longer, one a line: secondary 2h", "secondary 2h"), run,
	}}}
}

func moreDraft(f *filling) (*entry.Draft, error) {
	more := f.lines("more")
	if len(more) == 0 {
		return nil, entry.Wrongs{{Part: "more", Err: &ledger.Fault{Kind: entry.ErrTyped, What: "say how much longer it runs, such as secondary 2h"}}}
	}
	return entry.Finish(f.Base, entry.FinishIn{Run: f.text("run", ""), More: more})
}

// onNow tells which runs are on.
func (f *filling) onNow() []page.Field {
	on, g := entry.Running(f.Records), f.join()
	if g == nil {
		return nil
	}
	var list []page.Field
	for i := range g.Records.Runs {
		if slices.Contains(on, g.Records.Runs[i].ID) {
			list = append(list, page.Field{Kind: "words", Label: "On now:", Value: report.OneLine(g, report.Written{Kind: "run", At: i})})
		}
	}
	return list
}

func finishGroups(f *filling) []page.Group {
	run := f.column("run", "run", running(f.Records))
	run.Options, run.Help = f.runs(), "the one that ends, or an earlier one to add to"
	return []page.Group{
		{Title: "The end", Fields: append(f.onNow(), run,
			f.textField("at", "until when", "9:15, or yesterday 9:15; empty: now, or when its phases end", ""),
			f.numberField("kwh", "kWh", "what the meter says, in all", ""),
			f.switchField("as-usual", "as usual: the phases of that food's last good run"),
			f.linesField("dry", "dry weights", "the weight after, one food a line: chicken-broth 0.61 kg; of the only food the weight will do"),
		)},
		folded("Phases, losses and more",
			f.linesField("phases", "phases", strings.Join(ledger.MustKind("phase").Column("phase").Words, ", ")+", and how long it took, one a line: primary 22h"),
			f.linesField("wet", "wet weights", "the weight before, one food a line"),
			f.linesField("lost", "lost", "what was spilled or thrown away of what was loaded, one food a line: apples 0.2 kg"),
			f.switchField("spoiled", "spoiled: all of it is lost"),
			f.textField("hands", "hands", "the work of your hands, such as 25m", ""),
			f.column("run", "tariff", ""),
			f.column("run", "note", "")),
	}
}

// running is the run that is on; "" where there is none, or are several.
func running(rec *ledger.Records) string {
	if on := entry.Running(rec); len(on) == 1 {
		return on[0]
	}
	return ""
}

// What the texts mean, and which of them go together, package entry says: here is no check of its own.
func finishDraft(f *filling) (*entry.Draft, error) {
	return entry.Finish(f.Base, entry.FinishIn{
		Run: f.text("run", ""), At: f.text("at", ""), KWh: f.text("kwh", ""), AsUsual: f.text("as-usual", "") != "",
		Phases: f.lines("phases"), Wet: f.lines("wet"), Dry: f.lines("dry"), Lost: f.lines("lost"),
		Spoiled: f.text("spoiled", "") != "", Hands: f.text("hands", ""), Tariff: f.text("tariff", ""), Note: f.text("note", ""),
	})
}
