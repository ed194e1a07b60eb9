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

// ParseMachineQuery reads a machine query. Its error is a fault of [ErrOption], or a
// [*MissingError] for a price or life that was not given.
func ParseMachineQuery(t MachineTexts) (figures.MachineQuery, error) {
	var q figures.MachineQuery
	var missing []MissingFact
	var first error
	// In this order, so that of several slips the same one is told first each time.
	for _, o := range []struct {
		option, text, need string
		set                func(*reading)
	}{
		{"price", t.Price, "the price of the machine", func(r *reading) { q.Price = exact.MoneyOf(r.number()) }},
		{"cycles", t.Cycles, "how many runs it is expected to last", func(r *reading) { q.Cycles = r.atLeastOne() }},
		{"residual", t.Residual, "", func(r *reading) { q.Residual = exact.MoneyOf(r.number()) }},
		{"saving", t.Saving, "", func(r *reading) { q.Saving = exact.Some(r.number()) }},
		{"per-year", t.PerYear, "", func(r *reading) { q.PerYear = exact.Some(r.positive()) }},
	} {
		switch r := (&reading{option: o.option, text: o.text}); {
		case o.text != "":
			if o.set(r); first == nil && r.err != nil {
				first = r.err
			}
		case o.need != "":
			missing = append(missing, MissingFact{o.need, give(o.option), ""})
		}
	}
	switch {
	case first != nil:
		return q, first
	case missing != nil:
		return q, &MissingError{Facts: missing}
	}
	return q, nil
}

// Machine answers whether a machine pays; see [report.MachineWorth]. Errors are a
// fault of [ErrOption] and a [*MissingError].
func Machine(g *ledger.Ledger, q figures.MachineQuery) (report.Doc, error) {
	if q.Cycles <= 0 {
		return report.Doc{}, OptionFault("cycles", "", "a machine lasts 1 cycle at least")
	}
	d, err := report.MachineWorth(g, q)
	switch {
	case errors.Is(err, figures.ErrNoSaving):
		return d, &MissingError{Facts: []MissingFact{{"what a run saves", give("saving"), "good runs with their packs and the shelf prices of their foods"}}}
	case err != nil:
		return d, OptionFault("cycles", "", "%v", err)
	}
	return d, nil
}
