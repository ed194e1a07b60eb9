package ledger

import (
	"time"

	"putby/ledger/advice"
	"putby/pricing/exact"
)

// This file holds the runs of a machine against each other.

// checkOverlaps refuses two runs of one machine at once, at the later one. A
// run of unknown length is as long as an instant, which is over when another
// begins with it; one that is running is on for good.
func (g *joiner) checkOverlaps() {
	ends := make([]time.Time, len(g.Records.Runs))
	for i := range ends {
		ends[i] = g.endOf(i)
	}
	last := none(len(g.Machines)) // of each machine, the run that ends latest so far
	for _, i := range g.x.runOrder {
		run := &g.Records.Runs[i]
		m, known := g.x.machines.find(run.Machine)
		if !known {
			continue
		}
		if on := last[m]; on >= 0 && run.Start.Before(ends[on]) {
			if ends[i].After(run.Start) || run.Start.After(g.Records.Runs[on].Start) {
				g.overlap(on, i, ends)
			}
		}
		if last[m] < 0 || ends[i].After(ends[last[m]]) {
			last[m] = i
		}
	}
}

// overlap notes that one run begins while another is on.
func (g *joiner) overlap(first, second int32, ends []time.Time) {
	a, b := &g.Records.Runs[first], &g.Records.Runs[second]
	if a.Start.Equal(b.Start) && first > second {
		first, a, b = second, b, a
	}
	if a.Machine == "" || g.x.unread.run(a.ID) || g.x.unread.run(b.ID) {
		return
	}
	if a.Running {
		g.x.advise(place{RunsFile, b.Line}, StartColumn, "finish that run first", []advice.Doing{advice.Do(advice.Finish, a.ID)},
			"run %s starts on %s at %s, and run %s is running there since %s", b.ID, b.Machine, g.local(b.Start), a.ID, g.local(a.Start))
		return
	}
	g.x.fail(place{RunsFile, b.Line}, StartColumn, "back to back is fine: correct a start, an end or a duration",
		"run %s starts on %s at %s while run %s is on until %s", b.ID, b.Machine,
		g.local(b.Start), a.ID, g.local(ends[first].In(b.Start.Location())))
}

// shownDay and local write a date and a time in what is told of several records, as
// people are shown them.
func (g *joiner) shownDay(d exact.Date) string { return g.Settings.Show().Date(d) }

func (g *joiner) local(t time.Time) string { return g.Settings.Show().Local(t) }

// forever is after the end of every run.
var forever = time.Date(10000, 1, 1, 0, 0, 0, 0, time.UTC)

// endOf returns when a run ends, as far as the records tell; a run of unknown
// length ends as it starts, and one that is running never does.
func (g *joiner) endOf(i int) time.Time {
	run := &g.Records.Runs[i]
	rows := g.x.phasesOf.of(i)
	end, given := run.End.Get()
	if given && len(rows) > 0 {
		g.x.fail(place{RunsFile, run.Line}, "end", "leave it blank: the phases say how long it took", "run %s has an end beside phases", run.ID)
	}
	switch {
	case run.Running:
		return forever
	case given && len(rows) == 0:
		return end
	}
	end = run.Start
	for _, row := range rows {
		end = end.Add(g.Records.phaseLength(row))
	}
	return end
}
