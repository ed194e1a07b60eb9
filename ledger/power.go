package ledger

import (
	"errors"
	"fmt"

	"putby/energy"
	"putby/ledger/advice"
	"putby/pricing/exact"
)

// power is the working out of the electricity of all runs, in order of start as
// the prices of blocks want it, beside everything else.
type power struct {
	rank  []int32    // of each run in that order
	ready int32      // how many runs are known to be worked out
	done  chan int32 // how many are, and closed when all are

	// Known once done is closed.
	unusual []unusual
	failed  string // what a panic said, which is passed on where it is waited for
}

// stride is how many runs are worked out before that is told.
const stride = 64

// startPower begins to work out the electricity of all runs that begin by the
// ledger's date. Until it has finished, a run's electricity may be read after
// [power.await].
func (g *joiner) startPower() *power {
	order := g.x.runOrder
	p := &power{rank: make([]int32, len(order)), done: make(chan int32, len(order)/stride+1)}
	for n, i := range order {
		p.rank[i] = int32(n)
	}
	go func() {
		defer close(p.done)
		p.failed = try(func() { g.billAll(p) })
	}()
	return p
}

// billAll works out the electricity of all runs, and then what takes all of them to
// tell.
func (g *joiner) billAll(p *power) {
	g.buildTariffs()
	g.meter.Expect(len(g.Runs))
	for n, i := range g.x.runOrder {
		run, cost := &g.Records.Runs[i], &g.Runs[i]
		if cost.Done = cost.Date <= g.AsOf; cost.Done {
			g.power(int(i), run, cost)
		}
		if (n+1)%stride == 0 {
			p.done <- int32(n + 1)
		}
	}
	g.checkOverlaps()
	p.unusual = g.findUnusual()
}

// await waits for the electricity of a run.
func (p *power) await(run int32) {
	for p.ready <= p.rank[run] {
		n, more := <-p.done
		if !more {
			p.check()
			n = int32(len(p.rank))
		}
		p.ready = n
	}
}

// finish waits for all.
func (p *power) finish() {
	for range p.done {
	}
	p.check()
}

// check passes on a panic, once all are done.
func (p *power) check() {
	if p.failed != "" {
		panic(p.failed)
	}
}

// cycle gathers what is known of a run's electricity, using phases for it.
func (g *Ledger) cycle(i int, run *Run, phases []energy.Phase) energy.Cycle {
	c := energy.Cycle{Start: run.Start, End: run.End, KWh: run.KWh, Log: g.Meters[run.ID], Phases: phases, Running: run.Running}
	machine, known := g.find.machines.find(run.Machine)
	list := &g.Records.Phases
	for _, row := range g.find.phasesOf.of(i) {
		p := &list.rows[row]
		watts := list.store.maybe(p.watts, p.wattsForm)
		if !watts.Given() && known {
			watts = g.find.wattage[machine][p.phase]
		}
		c.Phases = append(c.Phases, energy.Phase{
			Name: p.phase.String(), Length: p.length, KWh: list.store.maybe(p.kwh, p.kwhForm), Watts: watts,
		})
	}
	return c
}

// power places a run's energy on the clock and posts what it costs.
func (g *joiner) power(i int, run *Run, cost *RunCost) {
	// Of the scratch, phases, spans and posted are of the goroutine that works out electricity;
	// the joining beside it touches none of them.
	cycle := g.cycle(i, run, g.scratch.phases[:0])
	g.scratch.phases, cycle.Room = cycle.Phases, g.scratch.spans
	draw, err := cycle.Resolve()
	g.scratch.spans = draw.Spans
	if err != nil {
		g.powerFault(i, run, err)
		return
	}
	cost.Energy, cost.Length, cost.Notes = draw.Energy, draw.Length, ofElectricity(draw.Notes)
	if !run.Running { // else nobody knows yet what it uses in all
		g.noteElectricity(i, &cycle, &draw, cost)
	}
	if len(draw.Spans) == 0 {
		return
	}
	tariff := g.tariffOf(run)
	if tariff == nil {
		return
	}
	posted, err := g.bill(tariff, draw.Spans, cost)
	if err != nil {
		g.gapFault(run, tariff, err)
		return
	}
	for _, m := range posted {
		cost.Electricity = cost.Electricity.Add(m)
	}
}

// bill returns what each span costs, and keeps how when asked to.
func (g *joiner) bill(t *energy.Tariff, spans []energy.Span, cost *RunCost) ([]exact.Money, error) {
	if !g.options.Itemize {
		posted, err := g.meter.AppendBill(g.scratch.posted[:0], t, spans, g.places)
		if err == nil {
			g.scratch.posted = posted
		}
		return posted, err
	}
	bills, err := g.meter.Itemize(t, spans, g.places)
	cost.Billed = &Billed{Phases: bills}
	for _, b := range bills {
		cost.Posted = append(cost.Posted, b.Cost)
	}
	return cost.Posted, err
}

// tariffOf returns a run's tariff, or nil and a fault.
func (g *joiner) tariffOf(run *Run) *energy.Tariff {
	if run.Tariff == "" && g.Settings.Tariff == "" && !g.x.unread.about(SettingsFile, "tariff") {
		g.x.advise(place{RunsFile, run.Line}, "tariff", "name that of the run\nname that of all runs", []advice.Doing{
			advice.Do(advice.Edit, "run", run.ID).Such("tariff", "NAME"), advice.Do(advice.Edit, "setting", "tariff").Such("value", "NAME")}, "run %s has no tariff", run.ID)
	}
	return g.billing(run.Tariff)
}

// gapFault notes that a run cannot be billed: mostly since the tariff has no
// price for a time of it.
func (g *joiner) gapFault(run *Run, t *energy.Tariff, err error) {
	if g.x.unread.about(TariffsFile, t.Name()) || g.x.unread.about(SettingsFile, "zone") || g.x.unread.run(run.ID) {
		return
	}
	do := []advice.Doing{advice.Do(advice.AddTariff).With("tariff", t.Name()).Such("rate", "0.25")}
	hint := "a band without months, days, start and end holds always; add one"
	switch gap := (*energy.GapError)(nil); {
	case errors.As(err, &gap) && gap.Hourly:
		if g.x.unread.about(TariffsFile, gap.Tariff) {
			return
		}
		var bring advice.Doing
		hint, bring = g.PricesWanted(gap.Tariff)
		do = []advice.Doing{bring}
	case errors.Is(err, energy.ErrNoExport):
		hint, do = "say it, or a rate of 0 where nothing is paid for it", []advice.Doing{advice.Do(advice.AddTariff).With("tariff", ExportTariff).With("rate", "0.08")}
	case errors.Is(err, energy.ErrExportBlocks):
		hint, do = "leave above_kwh of the tariff "+ExportTariff+" blank", nil
	}
	g.x.advise(place{RunsFile, run.Line}, StartColumn, hint, do, "run %s: %v", run.ID, err)
}

// PricesWanted says of a tariff with hourly bands what prices are known, and how
// others are brought in.
func (rec *Records) PricesWanted(tariff string) (known string, bring advice.Doing) {
	bring = advice.Do(advice.ImportTariff, "FILE").With("tariff", tariff)
	first, end, any := rec.Rates[tariff].Span()
	if !any {
		return "there are no prices in " + RatesFile(tariff) + " yet", bring
	}
	zone, show := rec.Settings.Zone, rec.Settings.Show()
	return fmt.Sprintf("%s has prices from %s until %s", RatesFile(tariff), show.Local(first.In(zone)), show.Local(end.In(zone))), bring
}

// powerFault notes that nothing tells what a run used.
func (g *joiner) powerFault(i int, run *Run, err error) {
	if errors.Is(err, energy.ErrEndAndPhases) || g.x.unread.run(run.ID) || g.x.unread.about(WattageFile, run.Machine) {
		return // the first is noted by endOf
	}
	if phase := (*energy.RowError)(nil); errors.Is(err, energy.ErrPhase) && errors.As(err, &phase) {
		p := g.Records.Phases.At(int(g.x.phasesOf.of(i)[phase.Index]))
		g.x.advise(place{PhasesFile, int(p.Line)}, "watts", "say what the phase draws\nsay what the machine usually draws in it", []advice.Doing{
			advice.Do(advice.Edit, "phase", run.ID+":"+fmt.Sprint(p.Step)).Such("watts", "900"),
			advice.Do(advice.AddWattage).With(MachineColumn, run.Machine).With(PhaseColumn, p.Phase.String()).Such("watts", "900"),
		}, "nothing says how much electricity the %v of run %s used", p.Phase, run.ID)
		return
	}
	g.x.advise(place{RunsFile, run.Line}, "kwh", "say what it used, its phases, or bring in a meter log",
		[]advice.Doing{advice.Do(advice.Finish, run.ID).Such("kwh", "11.2")}, "run %s: %v", run.ID, err)
}
