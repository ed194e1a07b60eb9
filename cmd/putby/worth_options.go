package main

import (
	"github.com/spf13/cobra"

	"putby/ledger"
	reports "putby/ledger/report"
	"putby/pricing"
	"putby/pricing/exact"
)

// worthOptions are the facts of a sale as they are typed.
type worthOptions struct {
	output
	asOf, as, ratio, price, size, offer                        string
	limit, visits, cycles, freshDays, keepMonths               int
	shelf, machine, load, cycleTime, turnaround, start         string
	kwh, tariff, rate, each, with, packCost, yield, fresh, use string
	stock, wear                                                string
	without                                                    []string
	frozen, all                                                bool
}

func (o *worthOptions) add(cmd *cobra.Command) {
	f := cmd.Flags()
	f.StringVar(&o.price, "price", "", "`money` for one package")
	f.StringVar(&o.size, "size", "", "of one package, such as \"500 g\"")
	f.IntVar(&o.limit, "limit", -1, "most `packages` a visit (no limit)")
	f.IntVar(&o.visits, "visits", 1, "how often you go")
	f.StringVar(&o.offer, "offer", "", "such as \"3 for 5.00\"")
	f.StringVar(&o.as, "as", "", "the `food` that it is dried as")
	f.StringVar(&o.ratio, "ratio", "", "what one unit bought makes of that, such as \"48 mL\"")
	f.BoolVar(&o.frozen, "frozen", false, "it is kept frozen until its turn")
	f.StringVar(&o.asOf, "as-of", "", "the day of purchase (the last record's `date`)")
	f.StringVar(&o.shelf, "shelf", "", "regular shelf price, `money` per L, kg or ea")
	f.StringVar(&o.machine, "machine", "", "which `machine`")
	f.StringVar(&o.load, "load", "", "most per cycle, such as \"4 L\"")
	f.StringVar(&o.cycleTime, "cycle-hours", "", "how long a cycle takes, such as 30h")
	f.StringVar(&o.turnaround, "turnaround", "", "between two cycles, such as 3h (0)")
	f.StringVar(&o.start, "start", "", "`time` of the first cycle (when the machine is free)")
	f.IntVar(&o.freshDays, "fresh-days", -1, "`days` before it turns")
	f.IntVar(&o.cycles, "cycles", -1, "most `cycles` before it turns")
	f.StringVar(&o.kwh, "kwh", "", "`energy` of a cycle, kWh")
	f.StringVar(&o.tariff, "tariff", "", "which `tariff` (the settings')")
	f.StringVar(&o.rate, "rate", "", "`money` per kWh, taxes in, instead of a tariff")
	f.StringVar(&o.each, "each", "", "what a container gives, such as \"1 L\"")
	f.StringVar(&o.with, "with", "", "supplies per container, such as \"1 jar-1l, 1 lid\"")
	f.StringVar(&o.packCost, "pack-cost", "", "`money` per container, instead of its supplies")
	f.StringVar(&o.yield, "yield", "", "reconstituted per fresh `amount`, such as 0.95")
	f.StringVar(&o.fresh, "fresh", "", "eaten fresh, such as \"2 L\"")
	f.StringVar(&o.use, "use", "", "used a month, such as \"3 L\"")
	f.IntVar(&o.keepMonths, "keep-months", -1, "`months` it keeps once packed")
	f.StringVar(&o.stock, "stock", "", "in store already, such as \"5 L\"")
	f.StringVar(&o.wear, "wear", "", "`money` per cycle")
	f.StringSliceVar(&o.without, "without", nil, "leave out `elements`: electricity, supplies, wear, labour")
	f.BoolVar(&o.all, "all", false, "show every number of packages")
	_ = cmd.MarkFlagRequired("price")
	_ = cmd.MarkFlagRequired("size")
}

// query turns the flags into a query; all but --start, which is local.
func (o *worthOptions) query(item string) (reports.WorthQuery, error) {
	q := reports.WorthQuery{
		Item: item, As: o.as, Visits: o.visits, Frozen: o.frozen, Machine: o.machine, Tariff: o.tariff,
		AsOf: exact.NoDate, FullTable: o.all,
	}
	p := &parser{}
	q.AsOf = p.date("as-of", o.asOf)
	q.Price = p.number("price", o.price).Or(exact.Number{})
	q.Size = p.quantity("size", o.size)
	q.Ratio = p.quantity("ratio", o.ratio)
	q.Limit = p.count("limit", o.limit)
	q.Shelf = p.number("shelf", o.shelf)
	q.Load = p.quantity("load", o.load)
	q.CycleTime = p.duration("cycle-hours", o.cycleTime)
	q.Turnaround = p.duration("turnaround", o.turnaround).Or(0)
	q.FreshDays = p.count("fresh-days", o.freshDays)
	q.Cycles = p.count("cycles", o.cycles)
	q.KWh = p.number("kwh", o.kwh)
	q.Rate = p.number("rate", o.rate)
	q.Each = p.quantity("each", o.each)
	q.PackCost = p.money("pack-cost", o.packCost)
	q.Yield = p.number("yield", o.yield)
	q.Fresh = p.quantity("fresh", o.fresh)
	q.Use = p.quantity("use", o.use)
	q.KeepMonths = p.count("keep-months", o.keepMonths)
	q.Stock = p.quantity("stock", o.stock)
	q.Wear = p.money("wear", o.wear)
	if o.visits < 1 {
		p.fail("visits", "one visit at least", "%d is no number of visits", o.visits)
	}
	if o.offer != "" {
		offer, err := pricing.ParseOffer(o.offer)
		p.check("offer", err, "such as \"3 for 5.00\" or \"25% off\"")
		q.Offer = exact.Some(offer)
	}
	if o.with != "" {
		uses, err := ledger.ParseUses(o.with)
		p.check("with", err, "such as \"1 jar-1l, 1 lid\"")
		q.With = uses
	}
	var err error
	if q.Without, err = parseElements(o.without); err != nil && p.err == nil {
		p.err = err
	}
	return q, p.err
}

// local reads what needs the ledger's zone.
func (o *worthOptions) local(g *ledger.Ledger, q *reports.WorthQuery) error {
	if o.start == "" {
		return nil
	}
	t, err := exact.ParseMoment(o.start, g.Settings.Zone)
	if err != nil {
		return &reports.QueryError{Option: "start", Why: err.Error(), Hint: "write it as \"2025-02-28 18:30\""}
	}
	q.Start = exact.Some(t)
	return nil
}
