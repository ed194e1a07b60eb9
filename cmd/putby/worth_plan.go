package main

import (
	"errors"
	"os"

	"putby/ledger"
	"putby/ledger/question"
	reports "putby/ledger/report"
	"putby/pricing/exact"
)

// planned answers --plan.
func (o *worthOptions) planned(common question.WorthQuery) (answer, error) {
	file, err := openPlan(o.plan)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	offers, faults := question.ReadOffers(o.plan, file)
	return func(s *standing, g *ledger.Ledger) (reports.Doc, error) {
		common.AsOf, common.Now = s.day, s.begins
		d, err := question.PlanOfFile(g, question.PlanQuery{Common: common, File: o.plan, Offers: offers})
		return d, o.planFaults(err)
	}, o.planFaults(faults.Err())
}

// planFaults says of faults that they are of the plan.
func (o *worthOptions) planFaults(err error) error {
	var faults ledger.Faults
	if !errors.As(err, &faults) {
		return err
	}
	return &fileFaults{file: o.plan, list: faults, asked: true}
}

// openPlan opens a regular file: what is none may never end.
func openPlan(name string) (*os.File, error) {
	info, err := os.Stat(name)
	switch {
	case err != nil:
		return nil, question.OptionFault("plan", "name a file with the columns item, price and size", "%v", err)
	case !info.Mode().IsRegular():
		return nil, question.OptionFault("plan", "name a file with the columns item, price and size", "%s is not a regular file", exact.Quote(name))
	}
	return os.Open(name)
}
