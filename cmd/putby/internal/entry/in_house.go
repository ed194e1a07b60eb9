package entry

import (
	"slices"

	"putby/ledger"
)

// FreshNames names the foods that are in hand fresh, which is what can be dried,
// frozen or eaten; all foods where there is none.
func (b *Base) FreshNames() []string {
	g, err := b.Ledger()
	if err != nil {
		return nil
	}
	var ids []string
	for i := range g.Foods {
		if g.FoodStock(i).Left.Sign() > 0 {
			ids = append(ids, g.Foods[i].ID)
		}
	}
	if ids == nil {
		return ledger.Foods.In(b.Records)
	}
	return ids
}

// NamesToTake names what can be taken: foods that are in store or in hand, packs
// that hold something, and supplies.
func (b *Base) NamesToTake() []string {
	g, err := b.Ledger()
	if err != nil {
		return nil
	}
	var foods, packs []string
	for i := range g.Packs {
		if g.Packs[i].Left() > 0 {
			packs = append(packs, b.Records.Packs.At(i).ID)
			foods = append(foods, b.Records.Packs.At(i).Item)
		}
	}
	foods = append(foods, b.FreshNames()...)
	slices.Sort(foods)
	return slices.Concat(slices.Compact(foods), packs, ledger.Supplies.In(b.Records))
}
