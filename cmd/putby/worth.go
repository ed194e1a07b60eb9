package main

import (
	"errors"
	"slices"
	"time"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"putby/ledger"
	"putby/ledger/question"
	reports "putby/ledger/report"
)

const worthLong = `Say whether food on offer is worth buying in bulk to dry, and how many packages.

Every number of packages is worked out, from none to the most that the shop, the
machine and your use allow: what they cost with the runs and containers that
they need, beside what the same food would cost at the shelf. The answer is the
number that saves most.

Only the food, the price and the size of a package must be given. All else
comes from the ledger: the shelf price, the machine and its load, the usual
run and its electricity under the tariff, the packing as last done, wear, how
long the food waits, what is in store and what is used a month. Every one of
them can be given instead, so that it also answers in a ledger with nothing but
settings and the food. What is missing is named, all at once.
It says which containers and absorbers must be bought to pack it all. Electricity
is that of runs from --start on: from when the machine is free, which is now at the
earliest, or 0:00 of the day of --as-of.

Amounts have a unit: 500g, 1.5L, "12 ea". --shelf is what one edible L, kg or ea
costs, or the tag as it stands: 3.99/454g. Times are 30h, 8h24m or hours.

An offer can be typed as the shop says it, and several at once ask for a plan:
which to buy, how many of each, in which order and when to dry them in one
machine, and which jars and absorbers to buy beside.

--plan FILE asks what to buy of several offers, and in which order to dry them in
one machine. FILE is CSV or .xlsx with a row for each offer. Its columns are item,
price, size and any other option of the food, the packing or a run, with _ for -:

  item,as,price,size,limit,use_by
  strawberries,,2.49,454g,12,2025-11-19
  eggs,beaten-egg,2.59,12 ea,12,

A plan freezes at once what the machine cannot take before it turns, where the
food's frozen_days are known, within the room that the setting freezer_volume
leaves beside what is frozen already. --budget keeps what the food of all offers
costs within a sum. The plan is the best there is; where there were too many ways
to try them all, it says how much more another may save at most.

On a terminal the answer is in words; --all shows all figures. What is sent to a
file or to another program has them always.

"putby worth machine" asks whether a machine pays.`

// worthOptions are the facts of a sale as they are typed.
type worthOptions struct {
	reportFlags
	texts    map[string]*string
	switches map[string]*bool
	also     []string
	plan     string
	all      bool
	brief    bool
}

func newWorthCommand(a *app) *cobra.Command {
	o := &worthOptions{texts: map[string]*string{}, switches: map[string]*bool{}}
	cmd := &cobra.Command{
		Use:   "worth FOOD --price MONEY --size AMOUNT [--limit PACKAGES]",
		Short: "is this sale worth buying in bulk, and how many?",
		Long:  worthLong,
		Example: `  putby worth strawberries --price 2.49 --size 454g --limit 12
  putby worth eggs --as beaten-egg --price 2.59 --size "12 ea" --limit 12
  putby worth strawberries --price 2.49 --size 454g --limit 4 --visits 3 --frozen
  putby worth strawberries --price 2.49 --size 454g --offer "3 for 6.00"
  putby worth "strawberries 3.99 454 g limit 12" "chicken-broth 2 for 3.00 900 mL"
  putby worth "strawberries 2.49 454 g limit 30" "carrots 0.99 2 kg limit 6" --budget 60
  putby worth --plan offers.csv --turnaround 3h`,
		Args:              worthArguments(o),
		ValidArgsFunction: a.completeFoods,
	}
	newReportCommand(a, cmd, reporting{on: &o.reportFlags, chart: true, hint: foodHint, flags: o.flags,
		ask: func(now time.Time, args []string) (answer, error) {
			start := cmd.Flags().Lookup("start")
			*o.texts["start"] = firstStart(now, *o.texts["start"])
			start.Changed = start.Changed && *o.texts["start"] != "" // else it is as where nobody says
			return o.ask(a, cmd.Flags(), args)
		}})
	a.completeFlag(cmd, "as", ledger.Foods.In)
	fixed(cmd, "without", ledger.ElementNames()[1:]...) // food is what it is all about
	cmd.AddCommand(newWorthMachineCommand(a))
	return cmd
}

// worthArguments wants a food, offers in the shop's words, or a plan.
func worthArguments(o *worthOptions) cobra.PositionalArgs {
	return func(cmd *cobra.Command, args []string) error {
		if o.plan != "" {
			return arguments()(cmd, args)
		}
		if len(args) == 0 {
			return arguments("FOOD")(cmd, args)
		}
		return nil
	}
}

func (o *worthOptions) flags(cmd *cobra.Command) {
	f := cmd.Flags()
	f.SortFlags = false
	for _, opt := range question.Options() {
		switch {
		case opt.Name == "as-of":
			f.StringVar(&o.asOf, opt.Name, "", opt.Help)
		case opt.Name == "also":
			f.StringArrayVar(&o.also, opt.Name, nil, opt.Help)
		case opt.Switch:
			o.switches[opt.Name] = f.Bool(opt.Name, false, opt.Help)
		default:
			o.texts[opt.Name] = f.String(opt.Name, "", opt.Help)
		}
	}
	f.StringVar(&o.plan, "plan", "", "several offers at once, from a `file`")
	f.BoolVar(&o.all, "all", false, "show the rest, too: tables, with every number of packages")
	f.BoolVar(&o.brief, "brief", false, "the answer in words alone (so on a terminal)")
	alsoNamed(f, "cycle-hours", "hours")
}

// ask reads the flags and what they are about: a food, offers in the shop's words,
// or a file of offers.
func (o *worthOptions) ask(a *app, flags *pflag.FlagSet, args []string) (answer, error) {
	q, err := o.query(flags)
	switch {
	case err != nil:
		return nil, err
	case o.plan != "":
		return o.planned(q)
	case isInWords(flags, args):
		return func(s *standing, g *ledger.Ledger) (reports.Doc, error) {
			q.AsOf, q.Now = s.day, s.begins
			offers, sizes, notes, err := offersInWords(g.Records, q, args)
			if err != nil {
				return reports.Doc{}, err
			}
			d, err := o.worth(a, g, offers, notes)
			return sizesFirst(d, sizes, o.format), err
		}, nil
	}
	q.Item = args[0]
	return func(s *standing, g *ledger.Ledger) (reports.Doc, error) {
		q.AsOf, q.Now = s.day, s.begins
		d, err := o.worth(a, g, []question.WorthQuery{q}, nil)
		return d, withoutOffer(q.Item, err)
	}, nil
}

// withoutOffer says what answers about a food of which nothing but the offer is
// missing.
func withoutOffer(item string, err error) error {
	var missing *question.MissingError
	other := func(f question.MissingFact) bool { return f.Give[0].Name != "price" && f.Give[0].Name != "size" }
	if errors.As(err, &missing) && !slices.ContainsFunc(missing.Facts, other) {
		missing.Hint = "putby " + commandLine([]string{"card", "--item", item}) + ", which says up to which price it pays"
	}
	return err
}

// worth answers about one offer, or says what to buy of several or within a
// budget; what is first goes before its notes.
func (o *worthOptions) worth(a *app, g *ledger.Ledger, offers []question.WorthQuery, first []string) (d reports.Doc, err error) {
	if q := offers[0]; len(offers) == 1 && !q.Budget.Given() {
		asks := !o.all && !o.brief && !o.chart && a.terminal && o.format == "table"
		q.Brief = o.brief || asks
		told, wrong := question.Worth(g, q)
		if d, err = told.Doc, wrong; asks {
			d.Words = append(d.Words, "With --all come the figures: what it costs, package by package, and what would change the answer.")
		}
	} else {
		d, err = question.Plan(g, offers)
	}
	d.Notes = slices.Concat(first, d.Notes)
	return d, err
}

// query turns the flags that were given into a query about no food yet, but for the
// day on which it stands.
func (o *worthOptions) query(flags *pflag.FlagSet) (question.WorthQuery, error) {
	q := question.NewWorthQuery("")
	q.FullTable = o.all
	for _, opt := range question.Options() {
		for _, text := range o.given(flags, opt.Name) {
			if err := q.Set(opt.Name, text); err != nil {
				return q, err
			}
		}
	}
	return q, nil
}

// given are the texts of an option, if it was given.
func (o *worthOptions) given(flags *pflag.FlagSet, name string) []string {
	switch {
	case !flags.Changed(name), name == "as-of":
		return nil
	case name == "also":
		return o.also
	case o.switches[name] != nil:
		return []string{map[bool]string{true: "yes", false: "no"}[*o.switches[name]]}
	}
	return []string{*o.texts[name]}
}

const foodHint = "putby food list shows the foods there are, and putby food add adds one"
