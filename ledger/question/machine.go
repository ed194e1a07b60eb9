package question

import (
	"errors"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/ledger/report"
	"putby/pricing/exact"
)

// MachineTexts is a machine query as it is typed; empty is not given.
type MachineTexts struct{ Price, Residual, Cycles, Saving, PerYear string }

// ParseMachineQuery reads a machine query. Its error is a [*Error], or a
// [*MissingError] for a price or life that was not given.
func ParseMachineQuery(t MachineTexts) (q figures.MachineQuery, err error) {
	err = readTyped([]typed{
		{"price", t.Price, func(r *reading) { q.Price = exact.MoneyOf(r.number()) }},
		{"cycles", t.Cycles, func(r *reading) { q.Cycles = r.atLeastOne() }},
		{"residual", t.Residual, func(r *reading) { q.Residual = exact.MoneyOf(r.number()) }},
		{"saving", t.Saving, func(r *reading) { q.Saving = exact.Some(r.number()) }},
		{"per-year", t.PerYear, func(r *reading) { q.PerYear = exact.Some(r.positive()) }},
	})
	var missing []MissingFact
	if t.Price == "" {
		missing = append(missing, MissingFact{"the price of the machine", give("price"), ""})
	}
	if t.Cycles == "" {
		missing = append(missing, MissingFact{"how many runs it is expected to last", give("cycles"), ""})
	}
	if err == nil && missing != nil {
		err = &MissingError{Facts: missing}
	}
	return q, err
}

// Machine answers whether a machine pays; see [report.MachineWorth]. Errors are an
// [*Error] and a [*MissingError].
func Machine(g *ledger.Ledger, q figures.MachineQuery) (report.Doc, error) {
	if q.Cycles <= 0 {
		return report.Doc{}, errorf("cycles", "", "a machine lasts 1 cycle at least")
	}
	d, err := report.MachineWorth(g, q)
	switch {
	case errors.Is(err, figures.ErrNoSaving):
		return d, &MissingError{Facts: []MissingFact{{"what a run saves", give("saving"), "good runs with their packs and the shelf prices of their foods"}}}
	case err != nil:
		return d, errorf("cycles", "", "%v", err)
	}
	return d, nil
}
