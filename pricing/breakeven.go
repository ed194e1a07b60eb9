package pricing

import (
	"errors"

	"putby/pricing/exact"
)

// ErrNeverPays: each unit gains nothing, so no number of them pays.
var ErrNeverPays = errors.New("nothing is gained each time, so it never pays")

// BreakEvenUnits returns how many units, of which each gains a margin (its
// price less what it varies with), it takes to recover a fixed cost and reach a
// target beyond it: the smallest whole number that does (OpenStax, Principles
// of Accounting 2, cost-volume-profit analysis). It is 0 when there is nothing
// to recover. The error is [ErrNeverPays].
func BreakEvenUnits(fixed, target exact.Money, margin exact.Ratio) (exact.Number, error) {
	need := fixed.Add(target)
	switch {
	case need.Sign() <= 0:
		return exact.Number{}, nil
	case margin.Sign() <= 0:
		return exact.Number{}, ErrNeverPays
	}
	return exact.RatioOf(need.Number()).Quo(margin).Ceil(), nil
}

// Payback returns how many periods it takes until an outlay comes back at so
// much a period, both money in major units, exactly: 0 where there is no
// outlay. The error is [ErrNeverPays].
func Payback(outlay, perPeriod exact.Ratio) (exact.Ratio, error) {
	switch {
	case outlay.Sign() <= 0:
		return exact.Ratio{}, nil
	case perPeriod.Sign() <= 0:
		return exact.Ratio{}, ErrNeverPays
	}
	return outlay.Quo(perPeriod), nil
}

// A Machine is the question whether a machine is worth buying. Money is in
// major units.
type Machine struct {
	Price    exact.Money // to buy it; not above Residual: there is nothing to earn back
	Residual exact.Money // what it brings at the end of its life
	Cycles   int         // its expected life; above 0
	Saving   exact.Ratio // what a cycle saves against the shelf, before wear
}

// A MachineAnswer says when a machine pays.
type MachineAnswer struct {
	Wear   exact.Ratio  // what a cycle must save for it to pay at all: (price - residual) / life
	Cycles exact.Number // the cycle with which it has paid; 0 where it costs nothing
	Pays   bool         // whether that is within its life
	Gain   exact.Ratio  // what it has saved at the end of its life, less its cost; below 0 it has lost
	Price  exact.Ratio  // the highest price at which it would pay
}

// LifeField is the expected life of a [Machine].
const LifeField SaleField = "Cycles"

// Decide answers the question. Errors are a [*SaleError] for a life of no
// cycles, and [ErrNeverPays], which comes with every figure but Cycles.
func (m Machine) Decide() (MachineAnswer, error) {
	if m.Cycles <= 0 {
		return MachineAnswer{}, &SaleError{LifeField, "must be above 0"}
	}
	cost, life := m.Price.Sub(m.Residual), whole(m.Cycles)
	earned := m.Saving.Mul(life)
	a := MachineAnswer{
		Wear:  exact.RatioOf(cost.Number()).Quo(life),
		Gain:  earned.Sub(exact.RatioOf(cost.Number())),
		Price: earned.Add(exact.RatioOf(m.Residual.Number())),
	}
	var err error
	a.Cycles, err = BreakEvenUnits(cost, exact.Money{}, m.Saving)
	a.Pays = err == nil && a.Gain.Sign() >= 0
	return a, err
}
