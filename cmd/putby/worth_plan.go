package main

import (
	"fmt"
	"os"

	"putby/ledger"
	reports "putby/ledger/report"
	"putby/pricing/exact"
)

// planned answers --plan.
func (o *worthOptions) planned(common reports.WorthQuery) (answer, error) {
	data, err := readPlan(o.plan)
	if err != nil {
		return nil, err
	}
	offers, faults := reports.ReadPlan(o.plan, data)
	return func(s *standing, g *ledger.Ledger) (reports.Doc, error) {
		common.AsOf = s.day
		return reports.Plan(g, reports.PlanQuery{Common: common, File: o.plan, Offers: offers})
	}, faults.Err()
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
