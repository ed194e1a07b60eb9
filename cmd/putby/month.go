package main

import (
	"strings"
	"time"

	"github.com/spf13/cobra"

	"putby/cmd/putby/internal/entry"
	"putby/ledger/figures"
	"putby/ledger/question"
	reports "putby/ledger/report"
	"putby/pricing/exact"
	"putby/pricing/locale"
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
	locale  func() locale.Locale
}

func newMonthCommand(a *app) *cobra.Command {
	o := &monthOptions{locale: a.locale}
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
	f.StringArrayVar(&o.budgets, "budget", nil, "most to spend in a month, as `kind=amount`: "+strings.Join(figures.SpendingNames(), ", "))
	fixed(cmd, "by", append(reports.EachNames(), byHousehold)...)
}

// query reads the flags and the period.
func (o *monthOptions) query(now time.Time, args []string) (q figures.MonthQuery, err error) {
	if q.Query, err = o.part(now); err != nil {
		return q, err
	}
	for _, period := range args {
		if o.from != "" || o.to != "" {
			return q, question.OptionFault("from", "give one or the other", "the month or year %s is given as well", exact.Quote(period))
		}
		var ok bool
		at := entry.Moment{Now: now, Today: exact.DateIn(now)}
		if q.From, q.To, ok = at.Period(period); !ok || q.From == q.To {
			return q, mistyped(notPeriod(period, "month or a year", "a month such as 2025-06 or october, or a year such as 2025"))
		}
	}
	if q.Each, err = question.ParseEach(o.by); err != nil {
		return q, err
	}
	most := map[string]exact.Money{}
	for _, list := range o.budgets {
		if err := readBudgets(o.locale(), list, most); err != nil {
			return q, err
		}
	}
	q.Budgets, err = question.ParseBudgets(most, q.Each)
	return q, err
}

// readBudgets reads amounts by kind, such as food=300,other=12.50. A comma parts two of
// them where a kind stands behind it, else it belongs to the amount.
func readBudgets(l locale.Locale, list string, into map[string]exact.Money) error {
	var budgets []string
	for part := range strings.SplitSeq(list, ",") {
		if last := len(budgets) - 1; last >= 0 && !strings.Contains(part, "=") {
			budgets[last] += "," + part
		} else {
			budgets = append(budgets, part)
		}
	}
	for _, budget := range budgets {
		kind, amount, found := strings.Cut(strings.TrimSpace(budget), "=")
		if err := entry.TwoWays(l, amount); err != nil {
			return question.OptionFault("budget", "", "%v", err)
		}
		n, err := exact.ParseNumber(entry.Number(entry.Native(l, amount)))
		if !found || err != nil {
			return question.OptionFault("budget", "write it as food=300", "%s is not a kind and an amount", exact.Quote(budget))
		}
		into[kind] = exact.MoneyOf(n)
	}
	return nil
}
