package figures

import (
	"slices"

	"putby/ledger"
	"putby/pricing/exact"
)

// A Measure is a figure by which foods compare.
type Measure uint8

// The measures of foods. Money is in the ledger's currency.
const (
	CostPerUnit        Measure = iota // per L, kg or piece, reconstituted
	CostPerServing                    // not given without a serving, or what it weighs
	CostPer1000Kcal                   // of the food as eaten
	CostPer100gProtein                // of the food as eaten
	FoodPerUnit                       // of the cost per unit: what the food cost
	ElectricityPerUnit
	SuppliesPerUnit
	WearPerUnit
	LabourPerUnit
	FoodPercent // of the cost, in %
	CostPerUnitWithLoss
	ShelfPerUnit  // what the shelf asks, the mean of its runs
	SavingPerUnit // the shelf's price less the cost
	Saving        // of all its runs
	MadeInAll     // L, kg or pieces, reconstituted
	CostInAll
	RunsInAll
	LowestPerUnit // of the cheapest run
	MedianPerUnit
	HighestPerUnit
	DeviationPerUnit // estimate: the standard deviation from run to run
	KWhPerUnit
	EarnedPerRun // what a whole run earns once all is used, before wear
)

// Highest reports whether the highest is the best.
func (m Measure) Highest() bool {
	return slices.Contains([]Measure{FoodPercent, SavingPerUnit, Saving, MadeInAll, RunsInAll, EarnedPerRun}, m)
}

// OfUnit reports whether a measure is of litres, kilograms or pieces, which do
// not compare with each other.
func (m Measure) OfUnit() bool {
	return !slices.Contains([]Measure{CostPerServing, CostPer1000Kcal, CostPer100gProtein, FoodPercent, Saving, CostInAll, RunsInAll, EarnedPerRun}, m)
}

// elementOf is the element of cost that a measure has per unit.
var elementOf = map[Measure]ledger.Element{
	FoodPerUnit: ledger.FoodCost, ElectricityPerUnit: ledger.ElectricityCost, SuppliesPerUnit: ledger.SuppliesCost,
	WearPerUnit: ledger.WearCost, LabourPerUnit: ledger.LabourCost,
}

// Measure returns a figure of the food; not given where it does not exist.
func (c *ComparedFood) Measure(m Measure) exact.Opt[exact.Ratio] {
	switch m {
	case CostPerServing:
		return c.perServing()
	case CostPer1000Kcal:
		return c.perFoodValue(c.of.Kcal, 1000)
	case CostPer100gProtein:
		return c.perFoodValue(c.of.Protein, 100)
	case FoodPerUnit, ElectricityPerUnit, SuppliesPerUnit, WearPerUnit, LabourPerUnit:
		return c.perUnit(c.Good[elementOf[m]].Ratio())
	case FoodPercent:
		return PercentOf(c.Good[ledger.FoodCost], c.Good.Total())
	case CostPerUnitWithLoss:
		return c.PerUnitWithLoss()
	case ShelfPerUnit:
		return c.Shelf
	case SavingPerUnit:
		return c.SavingPerUnit()
	case Saving:
		return c.CostRow.Saving
	case EarnedPerRun:
		return c.Earned.PerRun()
	case DeviationPerUnit:
		return deviationOf(c.PerRuns)
	}
	return c.ofRuns(m)
}

// ofRuns returns the measures that every food with packs has.
func (c *ComparedFood) ofRuns(m Measure) exact.Opt[exact.Ratio] {
	switch m {
	case MadeInAll:
		return exact.Some(exact.RatioOf(c.Made))
	case CostInAll:
		return exact.Some(c.Good.Total().Ratio())
	case RunsInAll:
		return exact.Some(wholeRatio(c.Runs))
	case LowestPerUnit:
		return exact.Some(c.PerRuns[0])
	case MedianPerUnit:
		median, _ := exact.Median(c.PerRuns)
		return exact.Some(median)
	case HighestPerUnit:
		return exact.Some(c.PerRuns[len(c.PerRuns)-1])
	case KWhPerUnit:
		return c.perUnit(c.Energy)
	}
	return c.PerUnit()
}

// PercentOf is a part in hundredths of a whole, not given where the whole is nothing.
func PercentOf(part, whole exact.Money) exact.Opt[exact.Ratio] {
	if whole.IsZero() {
		return exact.Opt[exact.Ratio]{}
	}
	return exact.Some(part.Number().Mul(exact.Int(100)).Over(whole.Number()))
}

// perServing is what one serving costs.
func (c *ComparedFood) perServing() exact.Opt[exact.Ratio] {
	serving, ok := InBasis(c.of, c.of.Serving)
	if !ok {
		return exact.Opt[exact.Ratio]{}
	}
	return exact.Some(c.Good.Total().Per(c.Made).Times(serving))
}

// perFoodValue is what so much of a food value costs, of which 100 g of the
// food have some.
func (c *ComparedFood) perFoodValue(per100g exact.Opt[exact.Number], amount int64) exact.Opt[exact.Ratio] {
	value, known := per100g.Get()
	kg, ok := c.of.Mass(c.Made)
	if !known || !ok || value.Sign() <= 0 || kg.Sign() <= 0 {
		return exact.Opt[exact.Ratio]{}
	}
	all := kg.Mul(exact.Int(10)).Mul(value)
	return exact.Some(c.Good.Total().Per(all).Times(exact.Int(amount)))
}
