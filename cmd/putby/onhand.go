package main

import (
	"strconv"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"putby/ledger/figures"
	"putby/ledger/question"
	"putby/pricing/exact"
)

const onhandLong = `Show what is in the house: packs in store, oldest first, with the days to their
best-by, what they cost and what the shop would ask; fresh food in hand with the
days left to dry it; what awaits packing; supplies and what they are enough for;
and the cycles left on each machine.

Fresh food is listed lot by lot; a crumb of one, under 1 % of what was bought, is
left out (--format json has all). A jar is free when it is owned and does not
stand full in store. --soon shows only what is to be used within so many days,
the first of it first.
Days are counted from today, or the day of --as-of; --from and --to change
nothing, since what is on hand is of one day.`

type onhandOptions struct {
	reportFlags
	soon string
}

func newOnHandCommand(a *app) *cobra.Command {
	o := &onhandOptions{}
	return newReportCommand(a, &cobra.Command{
		Use:   "onhand",
		Short: "packs in store, fresh food, supplies and cycles left",
		Long:  onhandLong,
		Example: `  putby onhand
  putby onhand --soon 60d --as-of 2025-12-01
  putby onhand --item chicken-broth
  putby onhand --format csv --table supplies`,
		Args: arguments(),
	}, reporting{on: &o.reportFlags, chart: true, many: true, flags: o.flags, ask: asking(o.query, question.OnHand)})
}

func (o *onhandOptions) flags(cmd *cobra.Command) {
	o.queryFlags.add(cmd)
	cmd.Flags().StringVar(&o.soon, "soon", "", "only what is to be used within so many `days`, such as 60d or 8w")
	cmd.Flags().StringVar(&o.soon, "due", "", "as --soon `days`, which is its name now")
	_ = cmd.Flags().MarkHidden("due")
}

// query reads the flags.
func (o *onhandOptions) query(now time.Time, _ []string) (q figures.OnHandQuery, err error) {
	if q.Query, err = o.part(now); err != nil || o.soon == "" {
		return q, err
	}
	days, ok := parseDays(o.soon)
	if !ok {
		return q, question.OptionFault("soon", "write it as 60d or 8w", "%s is no number of days", exact.Quote(o.soon))
	}
	q.Due = exact.Some(days)
	return q, nil
}

// parseDays reads 60d, 60 or 8w, up to 10,000 days.
func parseDays(s string) (int, bool) {
	number, per := strings.TrimSuffix(s, "d"), 1
	if weeks, ok := strings.CutSuffix(s, "w"); ok {
		number, per = weeks, 7
	}
	n, err := strconv.ParseUint(number, 10, 16)
	return int(n) * per, err == nil && int(n)*per <= 10000
}
