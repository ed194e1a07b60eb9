package report

import (
	"cmp"

	"putby/ledger"
)

// foodValue is a food: its identifier for machines, its name for people.
func foodValue(f *ledger.Food) Value { return nameValue(f.ID, f.Name) }

// itemValue is the food, supply or machine of an identifier, as [foodValue];
// what is none of these, such as a bus fare, is its own name.
func itemValue(g *ledger.Ledger, id string) Value {
	if id == "" {
		return None
	}
	if i, ok := g.FindFood(id); ok {
		return foodValue(&g.Foods[i])
	}
	if i, ok := g.FindSupply(id); ok {
		return nameValue(id, g.Supplies[i].Name)
	}
	if i, ok := g.FindMachine(id); ok {
		return nameValue(id, g.Machines[i].Name)
	}
	return TextOf(id)
}

// ItemTitle is what people call the food, supply or machine of an identifier.
func ItemTitle(g *ledger.Ledger, id string) string {
	v := itemValue(g, id)
	return cmp.Or(v.name, v.text)
}
