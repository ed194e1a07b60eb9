package question

import (
	"errors"
	"time"

	"putby/energy"
	"putby/ledger"
	"putby/ledger/advice"
	"putby/ledger/figures"
	"putby/ledger/report"
	"putby/pricing/exact"
)

// A WhenQuery is a [figures.WhenQuery] whose first start is known once the
// ledger's zone is.
type WhenQuery struct {
	figures.WhenQuery
	Now   time.Time // the first start, where Typed is empty
	Typed string    // local time of the first start, or with an offset
}

// WhenTexts is such a query as it is typed; empty is not given.
type WhenTexts struct {
	Machine, Tariff, Load, KWh, Hours, From, Days, Step, StartBetween, FinishBetween string
}

// The usual scope of a [WhenQuery].
const (
	whenDays = 7
	whenStep = 15 * time.Minute
)

// mostAhead is how far ahead a start may be asked about.
const mostAhead = 366

// ParseWhen reads a query about a food. Its error is a fault of [ErrOption].
func ParseWhen(item string, t WhenTexts) (WhenQuery, error) {
	q := WhenQuery{WhenQuery: figures.WhenQuery{Item: item, Machine: t.Machine, Tariff: t.Tariff, Days: whenDays, Step: whenStep}, Typed: t.From}
	for _, o := range []struct {
		option, text string
		set          func(*reading)
	}{
		{"load", t.Load, func(r *reading) { q.Load = r.above(r.quantity()) }},
		{"kwh", t.KWh, func(r *reading) { q.KWh = exact.Some(r.number()) }},
		{"hours", t.Hours, func(r *reading) { q.Length = exact.Some(r.length()) }},
		{"days", t.Days, func(r *reading) { q.Days = r.days() }},
		{"step", t.Step, func(r *reading) { q.Step = r.length() }},
		{"start-between", t.StartBetween, func(r *reading) { q.Start = exact.Some(r.window()) }},
		{"finish-between", t.FinishBetween, func(r *reading) { q.Finish = exact.Some(r.window()) }},
	} {
		if o.text == "" {
			continue
		}
		r := &reading{option: o.option, text: o.text}
		if o.set(r); r.err != nil {
			return q, r.err
		}
	}
	return q, nil
}

// When answers when to start a run; see [report.When]. Errors are a
// [*figures.UnknownError], a fault of [ErrOption] and a [*MissingError].
func When(g *ledger.Ledger, q WhenQuery) (report.Doc, error) { return q.answer(g, report.When) }

// Next answers what to dry next; see [report.Next]. Its errors are those of [When].
func Next(g *ledger.Ledger, q WhenQuery) (report.Doc, error) {
	return q.answer(g, func(g *ledger.Ledger, q figures.WhenQuery) (report.Doc, error) { return report.Next(g, q, Flag) })
}

func (q WhenQuery) answer(g *ledger.Ledger, lay func(*ledger.Ledger, figures.WhenQuery) (report.Doc, error)) (report.Doc, error) {
	if err := q.begin(g); err != nil {
		return report.Doc{}, err
	}
	d, err := lay(g, q.WhenQuery)
	if err != nil {
		return d, whenWrong(g, err)
	}
	return d, nil
}

// begin finds the first start in the ledger's zone.
func (q *WhenQuery) begin(g *ledger.Ledger) (err error) {
	zone := g.Settings.Zone
	if q.From = q.Now.In(zone).Truncate(time.Minute); q.Typed == "" {
		return nil
	}
	if q.From, err = exact.ParseMoment(q.Typed, zone); err != nil {
		return OptionFault("from", "write it as \"2025-02-28 18:30\", or with an offset", "%v", err)
	}
	return nil
}

// days reads how many days ahead to look.
func (r *reading) days() int {
	n := r.atLeastOne()
	if n > mostAhead {
		r.fail("write a smaller number", "%s is more than %d", r.text, mostAhead)
	}
	return n
}

// window reads a stretch of the local clock.
func (r *reading) window() energy.Window {
	w, err := energy.ParseWindow(r.text)
	r.check(err, "write it as 07:00-22:00")
	return w
}

// whenWrong says what the question lacks, or which option is wrong.
func whenWrong(g *ledger.Ledger, err error) error {
	var wrong *figures.FactError
	var gap *energy.GapError
	switch {
	case errors.As(err, new(*figures.UnknownError)):
		return err
	case errors.As(err, &wrong) && wrong.Missing != nil:
		return &MissingError{Facts: whenLacks(g, wrong.Missing)}
	case wrong != nil:
		return factWords(g, &figures.WorthQuery{}, err)
	case errors.Is(err, figures.ErrTooManyStarts):
		return OptionFault("step", "write a longer one, or fewer "+g.Settings.Say(advice.Only("days")), "that is more than %d starts", figures.MostStarts)
	case errors.As(err, &gap) && gap.Hourly:
		known, bring := g.PricesWanted(gap.Tariff)
		return OptionFault("tariff", known+": "+g.Settings.Say(bring), "%v, nor had that hour of the week one in the last 8 weeks whose prices are known", err)
	case errors.As(err, &gap):
		return OptionFault("tariff", "add a band for it, or name another tariff; to see its week: "+g.Settings.Say(advice.Do(advice.CheckTariff, gap.Tariff)), "%v", err)
	}
	return OptionFault("days", "", "%v", err)
}

// whenLacks names the facts that are missing, by the options of this command.
func whenLacks(g *ledger.Ledger, missing []figures.Missing) (list []MissingFact) {
	for _, m := range missing {
		switch m.Fact {
		case figures.LengthFact:
			list = append(list, MissingFact{"how long a run takes", give("hours"), "a run with its phases"})
		case figures.KWhFact:
			list = append(list, MissingFact{"the electricity of a run", give("kwh"), kwhRecord(g)})
		case figures.TariffFact:
			list = append(list, MissingFact{"what a kWh costs", give("tariff"), tariffRecord(g)})
		}
	}
	return list
}
