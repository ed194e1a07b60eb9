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
	reporting
	turning
	doubts
	query  WhenQuery
	dried  int // position in Foods
	dryer  figures.Dryer
	cycle  time.Duration
	load   exact.Number
	energy figures.CycleEnergy
	phases []figures.Phase
	tariff *energy.Tariff
	kwh    exact.Number
	from   time.Time // the first start
	to     time.Time // the last

	missing []MissingFact
	err     error // the first wrong option
}

// whenFactsOf gathers them. Its error is an [*figures.UnknownError], a [*QueryError] for an
// option that is wrong, or a [*MissingError] that names everything that is missing.
func whenFactsOf(g *ledger.Ledger, q WhenQuery) (*whenFacts, error) {
	name, _ := ledger.Meant(q.Item, g.Records.NamedFoods())
	food, ok := g.FindFood(name)
	if !ok {
		return nil, &figures.UnknownError{What: "food", Name: name}
	}
	w := &whenFacts{reporting: reportingOn(g), query: q, dried: food}
	var err error
	if w.dryer, err = figures.DryerOf(g, q.Machine, food); err != nil {
		return nil, factWords(g, &figures.WorthQuery{}, err)
	}
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

// food is the food that is dried.
func (w *whenFacts) food() *ledger.Food { return &w.g.Foods[w.dried] }

// unit is what its amounts are in.
func (w *whenFacts) unit() exact.Unit { return w.food().Basis }

func (w *whenFacts) lack(what, flag, record string) {
	w.missing = append(w.missing, MissingFact{what, flag, record})
}

func (w *whenFacts) wrong(option, hint, format string, args ...any) {
	if w.err == nil {
		w.err = errorf(option, hint, format, args...)
	}
}

// findLength finds how long a cycle takes: as given, else as the food's runs on
// the machine took, else as the machine's did, else as any did.
func (w *whenFacts) findLength() {
	length := w.dryer.Length(w.query.Length)
	if length.OfOthers {
		w.addf("no good run of %s tells how long a cycle takes: the median of all is taken", w.food().Title())
	}
	if w.cycle = length.Time; w.cycle > 0 {
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
	if w.cycle, ok = figures.MedianTime(lengths); !ok {
		w.lack("how long a cycle takes", "--hours", "a run with its phases")
		return
	}
	w.dryer.Runs = runs
	w.addf("no good run of the machine tells how long a cycle takes: the median of runs on other machines is taken")
}

// findShape finds how a cycle's energy lies over its time.
func (w *whenFacts) findShape() {
	for _, runs := range [][]int{w.dryer.Runs, w.dryer.RunsOf(-1)} {
		if w.phases = figures.UsualPhases(w.g, runs, w.cycle); len(w.phases) > 0 {
			w.dryer.Runs = runs
			return
		}
	}
	w.addf("no run has phases: the draw is taken to be even over the cycle")
}

// findEnergy finds what a cycle uses, at the load given or at the mean of the
// food's runs.
func (w *whenFacts) findEnergy() {
	switch uses := w.dryer.Uses(w.dried); {
	case w.query.Load.Sign() > 0:
		var err error
		if w.load, err = w.food().InBasis(w.query.Load); err != nil {
			w.err = factWords(w.g, &figures.WorthQuery{}, &figures.FactError{Fact: figures.LoadFact, Fault: figures.WrongUnit, Food: w.dried, Err: err})
			return
		}
	case len(uses) > 0:
		loads := make([]exact.Ratio, len(uses))
		for i, u := range uses {
			loads[i] = u.X
		}
		w.load = figures.MeanOf(loads).Round(exact.QuantityPlaces, exact.HalfEven)
	}
	var err error
	if w.energy, err = w.dryer.Energy(w.query.KWh, w.load, w.cycle); err != nil {
		w.lack("the electricity of a cycle", "--kwh", "a run of it, or the machine's watts in "+ledger.WattageFile)
		return
	}
	w.add(energyNotes(w.food().Title(), &w.energy)...)
	w.kwh = w.energy.KWh(w.load)
}

// findPrices finds the tariff.
func (w *whenFacts) findPrices() {
	w.tariff = w.g.Tariff(w.query.Tariff)
	switch {
	case w.tariff != nil:
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
	for _, i := range w.dryer.AllRuns() {
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
		w.addf("%s is on with run %s since %s, longer than is usual: no start counts before that is finished (putby finish)", machine, run.ID, run.Start.Format(whenForm))
	case run.Running:
		w.from = end
		w.addf("%s is on with run %s since %s: it is taken to end as usual, on %s", machine, run.ID, run.Start.Format(whenForm), end.Format(whenForm))
	case end.After(w.from):
		w.from = end
		w.addf("%s is on with run %s until %s", run.Machine, run.ID, end.Format(whenForm))
	}
}

// mostStarts is how many starts are priced at most: every second of a week, or
// every minute of a year.
const mostStarts = 700_000

// whenForm writes a time in a sentence.
const whenForm = "Mon 2006-01-02 at 15:04"

// legs are the phases of the cycle.
func (w *whenFacts) legs() []energy.Leg {
	return figures.LegsOf(w.phases, w.cycle, exact.RatioOf(w.kwh))
}

// search asks about the starts from one time to another.
func (w *whenFacts) search(from, to time.Time) energy.Search {
	return energy.Search{
		Tariff: w.tariff, Meter: w.g.Meter(), Profile: w.legs(), From: from, To: to,
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
