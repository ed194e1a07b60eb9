package ledger

import (
	"slices"

	"putby/pricing/exact"
)

// An Element is a part of what preserved food costs.
type Element uint8

// The elements of cost.
const (
	FoodCost Element = iota
	ElectricityCost
	SuppliesCost
	WearCost
	LabourCost
	elementCount
)

var elementNames = words{"food", "electricity", "supplies", "wear", "labour"}

// String returns the element's word.
func (e Element) String() string { return elementNames[e] }

// Elements returns all elements in the order of reports.
func Elements() []Element {
	return []Element{FoodCost, ElectricityCost, SuppliesCost, WearCost, LabourCost}
}

// ElementNames returns the words of the elements, in that order.
func ElementNames() []string { return slices.Clone(elementNames) }

// Costs are amounts of money by element.
type Costs [elementCount]exact.Money

// Total returns the sum of the elements.
func (c Costs) Total() exact.Money {
	var sum exact.Money
	for _, m := range c {
		sum = sum.Add(m)
	}
	return sum
}

// Add returns c + d, element by element.
func (c Costs) Add(d Costs) Costs {
	for e := range c {
		c[e] = c[e].Add(d[e])
	}
	return c
}

// Sub returns c - d, element by element.
func (c Costs) Sub(d Costs) Costs {
	for e := range c {
		c[e] = c[e].Sub(d[e])
	}
	return c
}

// Without returns c with the named elements at nothing.
func (c Costs) Without(elements ...Element) Costs {
	for _, e := range elements {
		c[e] = exact.Money{}
	}
	return c
}
