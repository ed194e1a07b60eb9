package question

import (
	"errors"
	"slices"
	"strings"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/ledger/report"
	"putby/pricing/exact"
)

// Energy answers what cycles used; see [report.Energy]. The error is a fault of [ErrOption].
func Energy(g *ledger.Ledger, q figures.EnergyQuery) (report.Doc, error) {
	d, err := report.Energy(g, q)
	return d, ofMachine(g, err)
}

// Payback answers what the machines have earned back; see [report.Payback]. The
// error is a fault of [ErrOption].
func Payback(g *ledger.Ledger, q figures.PaybackQuery) (report.Doc, error) {
	d, err := report.Payback(g, q)
	return d, ofMachine(g, err)
}

// ofMachine is [Wrong] of a question that may name a machine.
func ofMachine(g *ledger.Ledger, err error) error {
	var unknown *figures.UnknownError
	if !errors.As(err, &unknown) || unknown.Of[0] != ledger.Machines {
		return Wrong(g, err)
	}
	return OptionFault("machine", "machines are in "+ledger.MachinesFile, "no machine is called %s", exact.Quote(unknown.Name))
}

// Offers answers what shops asked for a food; see [report.Offers]. The error is an
// [*figures.UnknownError] for the food, or a fault of [ErrOption].
func Offers(g *ledger.Ledger, q figures.OffersQuery) (report.Doc, error) {
	d, err := report.Offers(g, q)
	if errors.As(err, new(*figures.UnknownError)) {
		return d, err
	}
	return d, Wrong(g, err)
}

// OnHand answers what is in the house; see [report.OnHand]. The error is an
// a fault of [ErrOption].
func OnHand(g *ledger.Ledger, q figures.OnHandQuery) (report.Doc, error) {
	d, err := report.OnHand(g, q, Flag)
	return d, Wrong(g, err)
}

// Trace answers where something came from and went; see [report.Trace]. The error
// is a fault of [ErrOption] or a [*figures.UnknownError].
func Trace(g *ledger.Ledger, q figures.TraceQuery) (report.Doc, error) {
	if q.Kind != "" && !slices.Contains(figures.TraceKinds(), q.Kind) {
		return report.Doc{}, OptionFault("kind", "one of: "+strings.Join(figures.TraceKinds(), ", "), "%s is not a kind that is traced", exact.Quote(q.Kind))
	}
	d, err := report.Trace(g, q)
	return d, Wrong(g, err)
}

// TariffWeek draws a week of a tariff; see [report.TariffWeek]. The error is an
// a fault of [ErrOption] or a [*figures.UnknownError].
func TariffWeek(rec *ledger.Records, q figures.TariffQuery) (report.Doc, error) {
	d, err := report.TariffWeek(rec, q, Flag)
	return d, Wrong(&ledger.Ledger{Records: rec}, err)
}
