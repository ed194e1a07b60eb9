package figures

import (
	"cmp"
	"errors"
	"slices"
	"time"

	"putby/energy"
	"putby/ledger"
	"putby/pricing/exact"
)

// A WhenQuery asks when it costs least to start a cycle of a food. What is not
// given comes from the ledger.
type WhenQuery struct {
	Item    string // the food
	Machine string
	Tariff  string
	Load    exact.Quantity           // what goes in; not given: as usual
	KWh     exact.Opt[exact.Number]  // of the cycle
	Length  exact.Opt[time.Duration] // of the cycle
	From    time.Time                // the first start
	Days    int                      // how far the last start lies from the first
	By      exact.Opt[time.Time]     // the last start, where that is sooner
	Step    time.Duration            // what starts are multiples of; a second at least
	Start   exact.Opt[energy.Window] // when somebody is there to load
	Finish  exact.Opt[energy.Window] // when somebody is there to unload
}

// MostStarts is how many starts are priced at most: every second of a week, or
// every minute of a year.
const MostStarts = 700_000

// ErrTooManyStarts says that a query asks for more than [MostStarts].
var ErrTooManyStarts = errors.New("there are too many starts to price")

// A WhenResult is when to start.
type WhenResult struct {
	Food   int // position in Foods
	Cycle  UsualCycle
	Tariff *energy.Tariff

	From, To time.Time // the first start, once the machine is free, and the last
	Waits    []Wait    // what the machine must finish first
	Turning

	Now  energy.Start
	Best []DayStart // of each day that has a start, the cheapest first; of equal ones the earlier
	Late bool       // no start is in time for the food in hand: these are for other food
}

// A UsualCycle is what a cycle of a food is taken to be.
type UsualCycle struct {
	Dryer      Dryer
	Length     Length
	OtherDryer bool         // no run of the machine tells the length, only those of others
	Load       exact.Number // in the food's basis unit
	Energy     CycleEnergy
	KWh        exact.Number // with that load
	Phases     []Phase      // none where no run tells them: then the draw is even
}

// Legs are how the cycle's energy lies over its time.
func (c *UsualCycle) Legs() []energy.Leg {
	return LegsOf(c.Phases, c.Length.Time, exact.RatioOf(c.KWh))
}

// A Wait is a run that the machine is on with.
type Wait struct {
	Run     int       // position
	Until   time.Time // as usual, where it is running
	Overdue bool      // it has run longer than is usual, so nobody knows until when
}

// A DayStart is the cheapest start of a day.
type DayStart struct {
	energy.Start
	Saving exact.Money // against starting at once; below 0: it costs more
}

// When works out when it costs least to start a cycle of a food: the cheapest
// start of each day, beside what starting at once costs. A cycle is as this
// household's usually are, as for [Worth]; what the month has used counts for the
// prices of blocks. Every start on a step is priced, as long as the food in hand is
// good, and further only where no start is in time for it. The ledger must be
// joined through the day asked about. The error is an [*UnknownError] for the
// food, a [*FactError], a [*MissingError] that names everything that is missing,
// [ErrTooManyStarts], or what package energy says of the tariff.
func When(g *ledger.Ledger, q WhenQuery) (*WhenResult, error) {
	scope, err := Query{Item: q.Item}.In(g)
	if err != nil || scope.Food < 0 {
		return nil, unknown(ledger.Foods, q.Item)
	}
	w := when{WhenResult: &WhenResult{Food: scope.Food}, g: g, q: q}
	if err := w.cycle(); err != nil {
		return nil, err
	}
	if w.Now, err = w.search(w.From, w.To).Price(w.From); err != nil {
		return nil, err
	}
	if err := w.findUntil(w.LastInTime()); err != nil {
		return nil, err
	}
	if len(w.Best) == 0 && w.UseBy != exact.NoDate {
		w.Late = true
		err = w.findUntil(w.To)
	}
	return w.WhenResult, err
}

// LastInTime is the last second at which a start is in time for the food in hand,
// and within the days asked about.
func (r *WhenResult) LastInTime() time.Time {
	if end := orLast(r.UseBy).AddDays(1).Midnight(r.From.Location()).Add(-time.Second); end.Before(r.To) {
		return end
	}
	return r.To
}

// when is a result in the making.
type when struct {
	*WhenResult
	g *ledger.Ledger
	q WhenQuery
}

// cycle finds what a cycle is, what its electricity costs, and the time asked
// about.
func (w *when) cycle() error {
	var p problems
	var err error
	if w.Cycle.Dryer, err = DryerOf(w.g, w.q.Machine, w.Food); err != nil {
		return err
	}
	p.add(w.findLength())
	w.Cycle.Phases = w.Cycle.Dryer.usualPhases(w.Cycle.Length.Time)
	p.add(w.findEnergy())
	p.add(w.findTariff())
	p.add(w.findTime())
	return p.err()
}

// findLength finds how long a cycle takes: as given, else as the food's runs on
// the machine took, else as the machine's did, else as any did.
func (w *when) findLength() error {
	c := &w.Cycle
	if c.Length = c.Dryer.Length(w.q.Length); c.Length.Time > 0 {
		return nil
	}
	var lengths []time.Duration
	var runs []int
	for i := range w.g.Runs {
		length, ok := w.g.Runs[i].Length.Get()
		if ok && length > 0 && w.g.Runs[i].Done && w.g.Records.Runs[i].Good() {
			lengths, runs = append(lengths, length), append(runs, i)
		}
	}
	if c.Length.Time, c.OtherDryer = medianTime(lengths); !c.OtherDryer {
		return lack(Missing{Fact: LengthFact, Food: w.Food})
	}
	c.Dryer.Runs = runs
	return nil
}

// findEnergy finds what a cycle uses, at the load given or at the mean of the
// food's runs: as the machine's own runs tell, and only where they do not over a
// length that is of other machines.
func (w *when) findEnergy() (err error) {
	c := &w.Cycle
	switch uses := c.Dryer.Uses(w.Food); {
	case w.q.Load.Sign() > 0:
		if c.Load, err = w.g.Foods[w.Food].InBasis(w.q.Load); err != nil {
			return &FactError{Fact: LoadFact, Fault: WrongUnit, Food: w.Food, Err: err}
		}
	case len(uses) > 0:
		c.Load = rounded(meanOf(loadsOfUses(uses)))
	}
	length := c.Length.Time
	if c.OtherDryer {
		length = 0
	}
	if c.Energy, err = c.Dryer.Energy(w.q.KWh, c.Load, length); err != nil && c.OtherDryer {
		c.Energy, err = c.Dryer.Energy(w.q.KWh, c.Load, c.Length.Time)
	}
	if err == nil {
		c.KWh = c.Energy.KWh(c.Load)
	}
	return err
}

func (w *when) findTariff() error {
	w.Tariff = w.g.Tariff(w.q.Tariff)
	switch {
	case w.Tariff != nil:
		return nil
	case w.q.Tariff != "":
		return &FactError{Fact: TariffFact, Fault: Unknown, Name: w.q.Tariff}
	}
	return lack(Missing{Fact: TariffFact, Food: w.Food})
}

// findTime finds the time asked about, which begins when the machine is free, and
// ends at the same time of day so many days on.
func (w *when) findTime() error {
	zone := w.g.Settings.Zone
	w.From = w.q.From.In(zone)
	w.Turning = turningOf(w.g, w.Food, exact.DateIn(w.From))
	for _, i := range w.Cycle.Dryer.AllRuns() {
		wait := Wait{Run: i, Until: busyUntil(w.g, i, w.Cycle.Length.Time)}
		switch ends := wait.Until.After(w.From); {
		case ends:
			w.From = wait.Until
		case w.g.Records.Runs[i].Running:
			wait.Overdue = true
		default:
			continue
		}
		w.Waits = append(w.Waits, wait)
	}
	date, clock := exact.DateIn(w.From), w.From.Hour()*3600+w.From.Minute()*60+w.From.Second()
	w.To, _ = exact.LocalTime(date.AddDays(w.q.Days), clock, zone)
	if by, given := w.q.By.Get(); given && by.Before(w.To) {
		w.To = by
	}
	if w.To.Before(w.From) {
		w.To = w.From
	}
	if w.To.Sub(w.From)/max(w.q.Step, time.Second) > MostStarts {
		return ErrTooManyStarts
	}
	return nil
}

// search asks about the starts from one time to another.
func (w *when) search(from, to time.Time) energy.Search {
	return energy.Search{
		Tariff: w.Tariff, Meter: w.g.Meter(), Profile: w.Cycle.Legs(), From: from, To: to,
		Step: w.q.Step, Begin: w.q.Start, Finish: w.q.Finish, Places: w.g.Places(),
	}
}

// findUntil searches day by day until an end.
func (w *when) findUntil(until time.Time) error {
	for _, day := range w.days(until) {
		best, found, err := w.search(day[0], day[1]).Cheapest()
		if err != nil {
			return err
		}
		if found {
			w.Best = append(w.Best, DayStart{best, w.Now.Cost.Sub(best.Cost)})
		}
	}
	slices.SortStableFunc(w.Best, func(a, b DayStart) int {
		return cmp.Or(a.Cost.Cmp(b.Cost), a.At.Compare(b.At))
	})
	return nil
}

// days are the first and last start of each local day until an end, the first
// day's from the very first start on; days without a start on a step are left
// out.
func (w *when) days(until time.Time) [][2]time.Time {
	var days [][2]time.Time
	first := w.From
	for date := exact.DateIn(w.From); !first.After(until); date = date.AddDays(1) {
		next := onStep(date.AddDays(1).Midnight(w.g.Settings.Zone), max(w.q.Step, time.Second)) // the next day's first
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
	// On the clock, not in UTC: steps of an hour are on the hour where a zone is half an hour off.
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
