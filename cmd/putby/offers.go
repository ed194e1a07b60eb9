package main

import (
	"github.com/spf13/cobra"

	"putby/ledger"
	reports "putby/ledger/report"
	"putby/pricing/exact"
)

const offersLong = `Show what shops asked for a food and what you paid for it, per edible unit: the
lowest of the last 30 days, by which a reduction is measured (Directive 98/6/EC,
article 6a), the year's median and quartiles, how often it is on offer and how
far apart, and every price shop by shop. --chart draws prices over time.

Shelf prices are those in shelf.csv; prices paid are those of receipts, with
their discounts and taxes. What was paid below the regular
shelf price of that day was on offer, too. An offer seen again within 7 days is
the same offer.`

type offersOptions struct {
	output
	queryFlags
	shop, form string
}

func newOffersCommand(a *app) *cobra.Command {
	o := &offersOptions{}
	cmd := &cobra.Command{
		Use:   "offers ITEM",
		Short: "the history of a food's prices, and when it is on offer",
		Long:  offersLong,
		Example: `  putby offers strawberries
  putby offers eggs --chart
  putby offers strawberries --form preserved --format csv`,
		Args:              arguments("ITEM"),
		ValidArgsFunction: a.completeFoods,
		RunE:              func(_ *cobra.Command, args []string) error { return runOffers(a, o, args[0]) },
	}
	f := cmd.Flags()
	f.SortFlags = false
	f.StringVar(&o.from, "from", "", "first `date` that is listed")
	f.StringVar(&o.to, "to", "", "last `date` that counts")
	addAsOf(f, &o.asOf)
	f.StringVar(&o.shop, "shop", "", "only this `shop`")
	f.StringVar(&o.form, "form", "fresh", "fresh, or the shop's own preserved equivalent")
	o.output.add(cmd)
	o.output.addChart(cmd)
	return cmd
}

func runOffers(a *app, o *offersOptions, item string) error {
	o.item = item
	query, err := o.query(a.now())
	if err != nil {
		return err
	}
	form, err := parseForm("form", o.form)
	if err != nil {
		return &reports.QueryError{Option: "form", Why: exact.Quote(o.form) + " is not a form", Hint: "fresh or preserved"}
	}
	s, err := a.stand(o.asOf)
	if err != nil {
		return err
	}
	query.AsOf = s.day
	g, err := s.byDay(ledger.Options{})
	if err != nil {
		return err
	}
	d, err := reports.Offers(g, reports.OffersQuery{Query: query, Shop: o.shop, Form: form})
	if err != nil {
		return a.foodError(err)
	}
	return a.printReport(g, d, o.output)
}
