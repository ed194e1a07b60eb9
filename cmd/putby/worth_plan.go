package main

import (
	"fmt"
	"os"

	"github.com/spf13/pflag"

	"putby/ledger"
	reports "putby/ledger/report"
	"putby/pricing/exact"
)

// runPlan answers --plan.
func runPlan(a *app, o *worthOptions, flags *pflag.FlagSet) error {
	common, err := o.query(flags, "")
	if err != nil {
		return err
	}
	data, err := readPlan(o.plan)
	if err != nil {
		return err
	}
	offers, faults := reports.ReadPlan(o.plan, data)
	if err := faults.Err(); err != nil {
		return err
	}
	g, err := o.stand(a, &common)
	if err != nil {
		return err
	}
	d, err := reports.Plan(g, reports.PlanQuery{Common: common, File: o.plan, Offers: offers})
	if err != nil {
		return err
	}
	return a.printReport(g, d, o.output)
}

// readPlan reads a regular file that is not too long.
func readPlan(name string) ([]byte, error) {
	info, err := os.Stat(name)
	switch {
	case err != nil:
		return nil, &reports.QueryError{Option: "plan", Why: err.Error(), Hint: "name a CSV file with the columns item, price and size"}
	case !info.Mode().IsRegular():
		return nil, &reports.QueryError{Option: "plan", Why: exact.Quote(name) + " is not a regular file", Hint: "name a CSV file"}
	case info.Size() > reports.MaxPlanBytes:
		return nil, &reports.QueryError{Option: "plan", Why: fmt.Sprintf("%s is longer than %d bytes", exact.Quote(name), reports.MaxPlanBytes), Hint: ""}
	}
	return os.ReadFile(name)
}

// stand joins the ledger as it stands on the day of a question.
func (o *worthOptions) stand(a *app, q *reports.WorthQuery) (*ledger.Ledger, error) {
	s, err := a.stand(*o.texts["as-of"])
	if err != nil {
		return nil, err
	}
	q.AsOf = s.day
	return s.byDay(ledger.Options{})
}
