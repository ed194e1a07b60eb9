package main

import (
	"strings"
	"time"

	"github.com/spf13/cobra"

	"putby/cmd/putby/internal/entry"
	"putby/ledger"
	"putby/ledger/question"
	reports "putby/ledger/report"
	"putby/pricing/exact"
)

const whenLong = `Say when in the coming days it costs least to start a run of a food, what that
saves against starting now, and when it will be done.

A usual run is what this household's runs of the food on the machine usually are:
their median length, their phases' parts of time and electricity, and the kWh
that "worth" works with (a line on load, else their mean, else usual watts).
Where the food has no run the machine's others tell. --kwh and --hours stand in.

The cheapest start of every day is shown, the cheapest of all first. None of the
starts on a step is left out. Prices are the tariff's bands as they will hold,
with holidays, seasons and changes of price and of the clocks; the month's use so
far counts for blocks. The first start is now, or when the machine is free. A start
after the day on which the food in hand turns is not named, unless none is in
time: then that is said first. Food in hand is in time when its run begins on that
day; worth and card want the runs of an offer to end before it.

Without a food it lists the fresh food in hand in the order in which the machine
should take it, what turns first and then what is worth more, each with the
cheapest start that leaves it and all behind it in time; and what to eat or
freeze instead, since the machine cannot take it in time.

--from asks about another time; records after its day are then left out, unless
--as-of says otherwise.`

type whenOptions struct {
	reportFlags
	question.WhenTexts
}

func newWhenCommand(a *app) *cobra.Command {
	o := &whenOptions{}
	return newReportCommand(a, &cobra.Command{
		Use:   "when [FOOD]",
		Short: "the cheapest time to start a run",
		Long:  whenLong,
		Example: `  putby when --start-between 07:00-22:00
  putby when chicken-broth --finish-between 07:00-22:00
  putby when strawberries --from "2025-11-20 18:00" --days 3 --start-between 06:30-22:30
  putby when beaten-egg --hours 30h --kwh 14.2 --tariff standard --format json`,
		Args:              between(0, 1, "FOOD"),
		ValidArgsFunction: a.completeFoods,
	}, reporting{on: &o.reportFlags, chart: true, flags: o.flags, ask: o.ask})
}

func (o *whenOptions) flags(cmd *cobra.Command) {
	f := cmd.Flags()
	f.SortFlags = false
	f.StringVar(&o.FinishBetween, "finish-between", "", "only when somebody is there to unload: `07:00-22:00`")
	f.StringVar(&o.StartBetween, "start-between", "", "only when somebody is there to load: `07:00-22:00`")
	f.StringVar(&o.From, "from", "", "first start: a day, a local `time`, or one with an offset (now)")
	f.StringVar(&o.Days, "days", "", "how many `days` ahead to look (7)")
	f.StringVar(&o.Step, "step", "", "starts are multiples of this `time` (15m)")
	f.StringVar(&o.Machine, "machine", "", "which `machine` (that of the food's last run)")
	f.StringVar(&o.Tariff, "tariff", "", "which `tariff` (the settings')")
	f.StringVar(&o.KWh, "kwh", "", "`kWh` of the run (as in its runs)")
	f.StringVar(&o.Hours, "hours", "", "the `time` that the run takes, such as 30h (median of its runs)")
	f.StringVar(&o.Load, "load", "", "what goes in: an `amount` such as 4L (as usual)")
	f.StringVar(&o.asOf, "as-of", "", "the `day` to stand at, today, yesterday or a date: later records are left out (that of --from, else today, or the setting as_of)")
	alsoNamed(f, "hours", "cycle-hours")
}

func (o *whenOptions) ask(now time.Time, args []string) (answer, error) {
	o.From = firstStart(now, o.From)
	q, err := question.ParseWhen(strings.Join(args, ""), o.WhenTexts)
	o.asOf = o.day()
	return func(s *standing, g *ledger.Ledger) (reports.Doc, error) {
		q.Now = s.at.Now
		if len(args) == 0 {
			return question.Next(g, q)
		}
		return question.When(g, q)
	}, err
}

// firstStart is when runs may begin, as people tell it: of a day alone it is 0:00, and
// of today nothing, which is now. What cannot be read stays, to be refused.
func firstStart(now time.Time, text string) string {
	at := entry.Moment{Now: now, Today: exact.DateIn(now)}
	text = at.Dated(text)
	switch day, err := exact.ParseDate(text); {
	case err != nil:
		return text
	case day == at.Today:
		return ""
	}
	return text + " 00:00"
}

// day is the day asked about: that of --from, unless --as-of names another.
func (o *whenOptions) day() string {
	if o.asOf == "" && len(o.From) > 10 {
		if _, err := exact.ParseDate(o.From[:10]); err == nil { // what is wrong with it is said later
			return o.From[:10]
		}
	}
	return o.asOf
}
