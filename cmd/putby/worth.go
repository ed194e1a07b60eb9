package main

import (
	"slices"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"putby/ledger"
	reports "putby/ledger/report"
	"putby/pricing/exact"
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
It says which containers and absorbers must be bought to pack it all.

Amounts have a unit: 500g, 1.5L, "12 ea". --shelf is what one edible L, kg or ea
costs, or the tag as it stands: 3.99/454g. Times are 30h, 8h24m or hours.

An offer can be typed as the shop says it, and several at once ask for a plan:
which to buy, how many of each, in which order and when to dry them in one
machine, and which jars and absorbers to buy beside.

--plan FILE asks what to buy of several offers, and in which order to dry them in
one machine. FILE is CSV with a line for each offer. Its columns are item, price,
size and any other option of the food, the packing or a run, with _ for -:

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
	output
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
		RunE: func(cmd *cobra.Command, args []string) error {
			if o.plan != "" {
				return runPlan(a, o, cmd.Flags())
			}
			if isSpoken(cmd.Flags(), args) {
				return runSpoken(a, o, cmd.Flags(), args)
			}
			return runWorth(a, o, cmd.Flags(), args[0])
		},
	}
	o.add(cmd)
	a.completeFlags(cmd)
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

func (o *worthOptions) add(cmd *cobra.Command) {
	f := cmd.Flags()
	f.SortFlags = false
	for _, opt := range reports.WorthOptions() {
		switch {
		case opt.Name == "also":
			f.StringArrayVar(&o.also, opt.Name, nil, opt.Help)
		case opt.Switch:
			o.switches[opt.Name] = f.Bool(opt.Name, false, opt.Help)
		default:
			o.texts[opt.Name] = f.String(opt.Name, "", opt.Help)
		}
	}
	f.StringVar(&o.plan, "plan", "", "several offers at once, from a CSV `file`")
	f.BoolVar(&o.all, "all", false, "show the rest, too: tables, with every number of packages")
	f.BoolVar(&o.brief, "brief", false, "the answer in words alone (so on a terminal)")
	o.output.add(cmd)
	o.output.addChart(cmd)
}

// completeFlags offers foods, machines and tariffs to the shell.
func (a *app) completeFlags(cmd *cobra.Command) {
	for name, list := range map[string]func(*ledger.Ledger) []string{
		"as": func(g *ledger.Ledger) []string { return namesOf(g.Foods, func(f ledger.Food) string { return f.ID }) },
		"machine": func(g *ledger.Ledger) []string {
			return namesOf(g.Machines, func(m ledger.Machine) string { return m.ID })
		},
		"tariff": func(g *ledger.Ledger) []string {
			return namesOf(g.Tariffs, func(b ledger.Band) string { return b.Tariff })
		},
		"without": func(*ledger.Ledger) []string { return []string{"electricity", "supplies", "wear", "labour"} },
	} {
		_ = cmd.RegisterFlagCompletionFunc(name, func(*cobra.Command, []string, string) ([]cobra.Completion, cobra.ShellCompDirective) {
			g, err := a.load(ledger.Options{Through: exact.NoDate, PricesThrough: exact.NoDate})
			if err != nil {
				return nil, cobra.ShellCompDirectiveNoFileComp
			}
			return list(g), cobra.ShellCompDirectiveNoFileComp
		})
	}
}

// namesOf lists names, each once, in order.
func namesOf[R any](list []R, name func(R) string) []string {
	names := make([]string, len(list))
	for i, r := range list {
		names[i] = name(r)
	}
	slices.Sort(names)
	return slices.Compact(names)
}

func runWorth(a *app, o *worthOptions, flags *pflag.FlagSet, item string) error {
	q, err := o.query(flags, item)
	if err != nil {
		return err
	}
	g, err := o.stand(a, &q)
	if err != nil {
		return err
	}
	if q.Budget.Given() {
		return a.sayOffers(g, []reports.WorthQuery{q}, o)
	}
	return a.sayWorth(g, q, o)
}

// sayWorth prints the answer about one offer; what is first goes before its notes.
func (a *app) sayWorth(g *ledger.Ledger, q reports.WorthQuery, o *worthOptions, first ...string) error {
	asks := !o.all && !o.brief && !o.chart && a.terminal && o.format == "table"
	q.Brief = o.brief || asks
	d, err := reports.Worth(g, q)
	if err != nil {
		return a.foodError(err)
	}
	d.Notes = slices.Concat(first, d.Notes)
	if asks {
		d.Words = append(d.Words, "With --all come the figures: what it costs, package by package, and what would change the answer.")
	}
	return a.printReport(g, d, o.output)
}

// query turns the flags that were given into a query, but for the day on which
// it stands.
func (o *worthOptions) query(flags *pflag.FlagSet, item string) (reports.WorthQuery, error) {
	q := reports.NewWorthQuery(item)
	q.FullTable = o.all
	for _, opt := range reports.WorthOptions() {
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

// foodError says of a food that is not recorded what to try.
func (a *app) foodError(err error) error {
	return a.unknown(err, foodHint)
}

// completeFoods offers the foods to the shell.
func (a *app) completeFoods(_ *cobra.Command, args []string, _ string) ([]cobra.Completion, cobra.ShellCompDirective) {
	g, err := a.load(ledger.Options{Through: exact.NoDate, PricesThrough: exact.NoDate})
	if err != nil || len(args) > 0 {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	var names []cobra.Completion
	for i := range g.Foods {
		names = append(names, cobra.CompletionWithDesc(g.Foods[i].ID, printable(g.Foods[i].Name)))
	}
	return names, cobra.ShellCompDirectiveNoFileComp
}
