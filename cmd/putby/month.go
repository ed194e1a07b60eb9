package main

import (
	"strings"
	"time"

	"github.com/spf13/cobra"

	"putby/ledger/figures"
	"putby/ledger/question"
	reports "putby/ledger/report"
	"putby/pricing/exact"
)

const monthLong = `Show month by month what was spent, put by, used, lost and saved.

Name a month or a year to see it alone, or give --from and --to: the whole
months that they fall in count. A month without records is a row of zeros;
a kind of money that does not move at all is left out, but of CSV and JSON.

"money out" is what the receipts say by kind, and the electricity of the runs;
deposits are no spending. "saved" is realised when food is used from a pack: it
is what the shelf asked that day, less what the pack cost. "net" takes off what
was lost in runs, spoiled or missing. What packs in store are still to save is
below. The packs in store before, and what was put by, less what went out, are
the packs in store after: that is proved by counting the packs, to the last digit.

The last month shown is set beside the one before it and the same one a year
earlier. A budget is the most to spend on a kind in a month: it comes from
budget_food and the like in settings.csv, or from --budget.`

type monthOptions struct {
	reportFlags
	by      string
	budgets []string
}

func newMonthCommand(a *app) *cobra.Command {
	o := &monthOptions{}
	return newReportCommand(a, &cobra.Command{
		Use:   "month [MONTH|YEAR]",
		Short: "spent, put by, used, lost and saved, month by month",
		Long:  monthLong,
		Example: `  putby month
  putby month 2025-03 --budget food=120,electricity=12
  putby month --by year
  putby month 2025 --by shop
  putby month --by kind --from 2025-01-01 --to 2025-06-30
  putby month --item leek-soup --format csv`,
		Args: between(0, 1, "a MONTH, a YEAR or nothing"),
	}, reporting{on: &o.reportFlags, chart: true, many: true, by: &o.by, flags: o.flags, ask: asking(o.query, question.Asked(reports.Month))})
}

func (o *monthOptions) flags(cmd *cobra.Command) {
	o.queryFlags.add(cmd)
	f := cmd.Flags()
	f.StringVar(&o.by, "by", "month", "a row for each `kind`: month, year, week, shop or kind of spending; with --households also household")
	f.StringSliceVar(&o.budgets, "budget", nil, "most to spend in a month, as `kind=amount`: food, supplies, machines, services, other, electricity")
	fixed(cmd, "by", "month", "year", "week", "shop", "kind", byHousehold)
}

// query reads the flags and the period.
func (o *monthOptions) query(now time.Time, args []string) (q figures.MonthQuery, err error) {
	if q.Query, err = o.part(now); err != nil {
		return q, err
	}
	for _, period := range args {
		if o.from != "" || o.to != "" {
			return q, &question.Error{Option: "from", Why: "the month or year " + exact.Quote(period) + " is given as well", Hint: "give one or the other"}
		}
		if q.From, q.To, err = question.ParsePeriod(period); err != nil {
			return q, usageError{err}
		}
	}
	if q.Each, err = question.ParseEach(o.by); err != nil {
		return q, err
	}
	most, err := parseBudgets(o.budgets)
	if err != nil {
		return q, err
	}
	q.Budgets, err = question.ParseBudgets(most, q.Each)
	return q, err
}

// parseBudgets reads amounts by kind, such as food=300.
func parseBudgets(list []string) (map[string]exact.Money, error) {
	budgets := map[string]exact.Money{}
	for _, one := range list {
		kind, amount, found := strings.Cut(one, "=")
		n, err := exact.ParseNumber(amount)
		if !found || err != nil {
			return nil, &question.Error{Option: "budget", Why: exact.Quote(one) + " is not a kind and an amount", Hint: "write it as food=300"}
		}
		budgets[kind] = exact.MoneyOf(n)
	}
	return budgets, nil
}
