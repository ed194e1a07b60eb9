package report

import (
	"time"

	"putby/energy"
	"putby/ledger"
	"putby/ledger/figures"
	"putby/pricing/exact"
)

// whenFacts are what a search for the cheapest start needs: a usual cycle of
// the food, found as for the sale decision, and the time asked about.
type whenFacts struct {
	*facts
	turning
	query WhenQuery
	kwh   exact.Number
	from  time.Time // the first start
	to    time.Time // the last
}

// whenFactsOf gathers them. Its error is an [*figures.UnknownError], a [*QueryError] for an
// option that is wrong, or a [*MissingError] that names everything that is missing.
func whenFactsOf(g *ledger.Ledger, q WhenQuery) (*whenFacts, error) {
	f, err := factsOf(g, WorthQuery{
		Item: q.Item, AsOf: exact.NoDate, Machine: q.Machine, KWh: q.KWh, CycleTime: q.Length, Tariff: q.Tariff, Load: q.Load,
	})
	if err != nil {
		return nil, err
	}
	w := &whenFacts{query: q, facts: f}
	w.findMachine()
	w.findLength()
	w.findShape()
	w.findEnergy()
	w.findPrices()
	w.findTime()
	switch {
	case w.err != nil:
		return nil, w.err
	case w.missing != nil:
		return nil, &MissingError{w.missing}
	}
	return w, nil
}

// findLength finds how long a cycle takes: as given, else as the food's runs on
// the machine took, else as the machine's did, else as any did.
func (w *whenFacts) findLength() {
	if w.findCycle(); w.cycle > 0 {
		return
	}
	var lengths []time.Duration
	var runs []int
	for i := range w.g.Runs {
		length, ok := w.g.Runs[i].Length.Get()
		if ok && length > 0 && w.g.Runs[i].Done && w.g.Records.Runs[i].Good() {
			lengths, runs = append(lengths, length), append(runs, i)
		}
	}
	var ok bool
	if w.cycle, ok = medianTime(lengths); !ok {
		w.lack("how long a cycle takes", "--hours", "a run with its phases")
		return
	}
	w.runs = runs
	w.note("no good run of the machine tells how long a cycle takes: the median of runs on other machines is taken")
}

// findShape finds how a cycle's energy lies over its time.
func (w *whenFacts) findShape() {
	for _, runs := range [][]int{w.runs, w.runsOf(-1)} {
		if w.power.phases = usualPhases(w.g, runs, w.cycle); len(w.power.phases) > 0 {
			w.runs = runs
			return
		}
	}
	w.note("no run has phases: the draw is taken to be even over the cycle")
}

// findEnergy finds what a cycle uses, at the load given or at the mean of the
// food's runs.
func (w *whenFacts) findEnergy() {
	switch uses := w.uses(w.dried); {
	case w.query.Load.Given():
		w.sale.Load = w.eaten("load", w.query.Load)
	case len(uses) > 0:
		loads := make([]exact.Ratio, len(uses))
		for i, u := range uses {
			loads[i] = u.X
		}
		w.sale.Load = rounded(figures.MeanOf(loads))
	}
	if w.err == nil && !w.estimate() {
		w.lack("the electricity of a cycle", "--kwh", "a run of it, or the machine's watts in "+ledger.WattageFile)
		return
	}
	if w.err == nil {
		w.kwh = w.power.kwh(w.sale.Load)
	}
}

// findPrices finds the tariff.
func (w *whenFacts) findPrices() {
	w.power.tariff = w.g.Tariff(w.query.Tariff)
	switch {
	case w.power.tariff != nil:
	case w.query.Tariff != "":
		w.wrong("tariff", "tariffs are in "+ledger.TariffsFile, "no tariff is called %s", exact.Quote(w.query.Tariff))
	default:
		w.lack("what a kWh costs", "--tariff", "a tariff, and its name in "+ledger.SettingsFile)
	}
}

// findTime finds the time asked about, which begins when the machine is free.
func (w *whenFacts) findTime() {
	zone := w.g.Settings.Zone
	w.from = w.query.Now.In(zone).Truncate(time.Minute)
	if w.query.From != "" {
		t, err := exact.ParseMoment(w.query.From, zone)
		if err != nil {
			w.wrong("from", "write it as \"2025-02-28 18:30\", or with an offset", "%v", err)
			return
		}
		w.from = t
	}
	w.findTurning(exact.DateIn(w.from))
	for _, i := range w.runsOnMachine() {
		w.waitFor(i)
	}
	// The same time of day so many days on.
	date, clock := exact.DateIn(w.from), w.from.Hour()*3600+w.from.Minute()*60+w.from.Second()
	w.to, _ = exact.LocalTime(date.AddDays(w.query.Days), clock, zone)
	if w.to.Sub(w.from)/max(w.query.Step, time.Second) > mostStarts {
		w.wrong("step", "write a longer one, or fewer --days", "that is more than %d starts", mostStarts)
	}
}

// waitFor puts the first start off until a run on the machine has ended.
func (w *whenFacts) waitFor(i int) {
	run, end := &w.g.Records.Runs[i], figures.BusyUntil(w.g, i, w.cycle)
	machine := itemTitle(w.g, run.Machine)
	switch {
	case run.Running && !end.After(w.from):
		w.note("%s is on with run %s since %s, longer than is usual: no start counts before that is finished (putby finish)", machine, run.ID, run.Start.Format(whenForm))
	case run.Running:
		w.from = end
		w.note("%s is on with run %s since %s: it is taken to end as usual, on %s", machine, run.ID, run.Start.Format(whenForm), end.Format(whenForm))
	case end.After(w.from):
		w.from = end
		w.note("%s is on with run %s until %s", run.Machine, run.ID, end.Format(whenForm))
	}
}

// mostStarts is how many starts are priced at most: every second of a week, or
// every minute of a year.
const mostStarts = 700_000

// whenForm writes a time in a sentence.
const whenForm = "Mon 2006-01-02 at 15:04"

// legs are the phases of the cycle.
func (w *whenFacts) legs() []energy.Leg {
	return legsOf(w.power.phases, w.cycle, exact.RatioOf(w.kwh))
}

// search asks about the starts from one time to another.
func (w *whenFacts) search(from, to time.Time) energy.Search {
	return energy.Search{
		Tariff: w.power.tariff, Meter: w.g.Meter(), Profile: w.legs(), From: from, To: to,
		Step: w.query.Step, Begin: w.query.Start, Finish: w.query.Finish, Places: w.g.Places(),
	}
}

// days are the first and last start of each local day until an end, the first
// day's from the very first start on; days without a start on a step are left
// out.
func (w *whenFacts) days(until time.Time) [][2]time.Time {
	zone, step := w.g.Settings.Zone, w.query.Step
	var days [][2]time.Time
	first := w.from
	for date := exact.DateIn(w.from); !first.After(until); date = date.AddDays(1) {
		next := onStep(date.AddDays(1).Midnight(zone), step) // the next day's first
		last := next.Add(-time.Second)
		if last.After(until) {
			last = until
		}
		if last.Before(first) {
			last = first
		}
		if !first.Equal(next) {
			days = append(days, [2]time.Time{first, last})
		}
		first = next
	}
	return days
}

// onStep is the first whole multiple of a step on the clock of an instant, from
// it on.
func onStep(at time.Time, step time.Duration) time.Time {
	seconds := int64(step / time.Second)
	_, east := at.Zone()
	over := (at.Unix() + int64(east)) % seconds
	if over < 0 {
		over += seconds
	}
	if over > 0 {
		at = at.Add(time.Duration(seconds-over) * time.Second)
	}
	return at
}
