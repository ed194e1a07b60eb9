package ledger

import (
	"cmp"
	"slices"
	"time"

	"putby/energy"
	"putby/pricing/exact"
)

// buildTariffs gathers the bands and holidays of each tariff.
func (g *Ledger) buildTariffs() {
	bands, holidays := map[string][]energy.Band{}, map[string][]exact.Date{}
	var names []string
	for i := range g.Tariffs {
		b := &g.Tariffs[i]
		if _, seen := bands[b.Tariff]; !seen {
			names = append(names, b.Tariff)
		}
		bands[b.Tariff] = append(bands[b.Tariff], b.Band)
	}
	for _, h := range g.Holidays {
		holidays[h.Tariff] = append(holidays[h.Tariff], h.Date)
	}
	g.tariffs = make(map[string]*energy.Tariff, len(names))
	for _, name := range names {
		t, err := energy.NewTariff(name, g.Settings.Zone, bands[name], holidays[name])
		if err != nil {
			g.x.fail(TariffsFile, bands[name][0].Line, "tariff", "", "tariff %s: %v", name, err)
			continue
		}
		g.tariffs[name] = t
	}
}

// checkOverlaps refuses two runs of one machine at once, at the later one.
func (g *Ledger) checkOverlaps() {
	order := positions(len(g.Records.Runs))
	slices.SortStableFunc(order, func(a, b int32) int {
		x, y := &g.Records.Runs[a], &g.Records.Runs[b]
		return cmp.Or(cmp.Compare(x.Machine, y.Machine), x.Start.Compare(y.Start))
	})
	var last *Run // the one that ends latest so far
	var end time.Time
	for _, i := range order {
		run := &g.Records.Runs[i]
		if last == nil || last.Machine != run.Machine {
			last, end = run, g.endOf(int(i))
			continue
		}
		if run.Start.Before(end) {
			g.x.failSum(RunsFile, run.Line, "start", "back to back is fine: correct a start, an end or a duration",
				"run %s starts on %s at %s while run %s is on until %s", run.ID, run.Machine,
				run.Start.Format(momentForm), last.ID, end.In(run.Start.Location()).Format(momentForm))
		}
		if e := g.endOf(int(i)); e.After(end) {
			last, end = run, e
		}
	}
}

const momentForm = "2006-01-02 15:04"

// endOf returns when a run ends, as far as the records tell; a run of unknown
// length ends as it starts.
func (g *Ledger) endOf(i int) time.Time {
	run := &g.Records.Runs[i]
	rows := g.x.phasesOf.of(i)
	end, given := run.End.Get()
	if given && len(rows) > 0 {
		g.x.failSum(RunsFile, run.Line, "end", "leave it blank: the phases say how long it took", "run %s has an end beside phases", run.ID)
	}
	if len(rows) == 0 {
		if given {
			return end
		}
		return run.Start
	}
	end = run.Start
	for _, row := range rows {
		end = end.Add(g.Records.Phases[row].Length)
	}
	return end
}

// LastDate returns the date of the last record that has one, or NoDate.
func LastDate(rec *Records) exact.Date {
	last := exact.NoDate
	for i := range rec.Receipts {
		last = max(last, rec.Receipts[i].Date)
	}
	for i := range rec.Shelf {
		last = max(last, rec.Shelf[i].Date)
	}
	for i := range rec.Batches {
		last = max(last, rec.Batches[i].Date)
	}
	for i := range rec.Runs {
		last = max(last, exact.DateIn(rec.Runs[i].Start))
	}
	for i := range rec.Packs {
		last = max(last, rec.Packs[i].Date)
	}
	for i := range rec.Draws {
		last = max(last, rec.Draws[i].Date)
	}
	for i := range rec.Counts {
		last = max(last, rec.Counts[i].Date)
	}
	return last
}
