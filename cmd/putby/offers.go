package main

import (
	"time"

	"github.com/spf13/cobra"

	"putby/ledger/figures"
	"putby/ledger/question"
)

const offersLong = `Show what shops asked for a food and what you paid for it, per edible unit: the
lowest of the last 30 days, by which a reduction is measured (Directive 98/6/EC,
article 6a), the year's median and quartiles, how often it is on offer and how
far apart, and every price shop by shop. --chart draws prices over time.

Shelf prices are those in shelf.csv; prices paid are those of receipts, with
their discounts and taxes. What was paid below the regular
shelf price of that day was on offer, too. An offer seen again within 7 days is
the same offer.

How often an offer at least as good as the last comes is told of all that is
known, whatever the shop; when the next is likely to begin is an estimate with
its span, and takes four of them.`

type offersOptions struct {
	reportFlags
	shop, form string
}

func newOffersCommand(a *app) *cobra.Command {
	o := &offersOptions{}
	return newReportCommand(a, &cobra.Command{
		Use:   "offers FOOD",
		Short: "the history of a food's prices, and when it is on offer",
		Long:  offersLong,
		Example: `  putby offers strawberries
  putby offers eggs --chart
  putby offers strawberries --form preserved --format csv`,
		Args:              arguments("FOOD"),
		ValidArgsFunction: a.completeFoods,
	}, reporting{on: &o.reportFlags, chart: true, many: true, flags: o.flags, hint: foodHint, ask: asking(o.query, question.Offers)})
}

func (o *offersOptions) flags(cmd *cobra.Command) {
	f := cmd.Flags()
	f.SortFlags = false
	f.StringVar(&o.from, "from", "", "first `date` that is listed")
	f.StringVar(&o.to, "to", "", "last `date` that counts")
	addAsOf(f, &o.asOf)
	f.StringVar(&o.shop, "shop", "", "only this `shop`")
	f.StringVar(&o.form, "form", "fresh", "prices of which `form`: fresh, or preserved, the shop's own equivalent")
	fixed(cmd, "form", forms()...)
}

// query reads the flags.
func (o *offersOptions) query(now time.Time, args []string) (q figures.OffersQuery, err error) {
	o.item, q.Shop = args[0], o.shop
	if q.Query, err = o.part(now); err == nil {
		q.Form, err = parseForm("form", o.form)
	}
	return q, err
}
