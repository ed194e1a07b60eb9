package main

import (
	"fmt"
	"os"

	"putby/ledger"
	"putby/ledger/question"
	reports "putby/ledger/report"
	"putby/pricing/exact"
)

// planned answers --plan.
func (o *worthOptions) planned(common question.WorthQuery) (answer, error) {
	data, err := readPlan(o.plan)
	if err != nil {
		return nil, err
	}
	offers, faults := question.ReadOffers(o.plan, data)
	return func(s *standing, g *ledger.Ledger) (reports.Doc, error) {
		common.AsOf = s.day
		return question.PlanOfFile(g, question.PlanQuery{Common: common, File: o.plan, Offers: offers})
	}, faults.Err()
}

// readPlan reads a regular file that is not too long.
func readPlan(name string) ([]byte, error) {
	info, err := os.Stat(name)
	switch {
	case err != nil:
		return nil, &question.Error{Option: "plan", Why: err.Error(), Hint: "name a CSV file with the columns item, price and size"}
	case !info.Mode().IsRegular():
		return nil, &question.Error{Option: "plan", Why: exact.Quote(name) + " is not a regular file", Hint: "name a CSV file"}
	case info.Size() > question.MaxOffersBytes:
		return nil, &question.Error{Option: "plan", Why: fmt.Sprintf("%s is longer than %d bytes", exact.Quote(name), question.MaxOffersBytes), Hint: ""}
	}
	return os.ReadFile(name)
}
