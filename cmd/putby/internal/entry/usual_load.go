package entry

import (
	"putby/ledger"
	"putby/pricing/exact"
)

// UsualLoad offers what is to be dried next: of the foods in hand that the
// machine has dried before, what came in last, up to what the machine takes;
// "" where there is nothing.
func UsualLoad(g *ledger.Ledger, machine string) string {
	var last *ledger.Lot
	food := -1
	for i := range g.Foods {
		if !driedBefore(g.Records, g.Foods[i].ID) {
			continue
		}
		for _, at := range g.FoodStock(i).Lots() {
			if lot := &g.Lots[at]; lot.Left.Sign() > 0 && (last == nil || lot.Date >= last.Date) {
				last, food = lot, i
			}
		}
	}
	if last == nil {
		return ""
	}
	f := &g.Foods[food]
	return typedAmount(g.Settings.Locale, f.Basis.Of(last.Left.Min(most(g, machine, f, last.Left))).String()) + " " + f.ID
}

func driedBefore(rec *ledger.Records, food string) bool {
	for i := range rec.Loads.Len() {
		if rec.Loads.At(i).Item == food {
			return true
		}
	}
	return false
}

// most is how much of a food a machine takes, in the food's basis unit, or all
// where nobody knows.
func most(g *ledger.Ledger, machine string, f *ledger.Food, all exact.Number) exact.Number {
	m, ok := g.FindMachine(machine)
	if !ok {
		return all
	}
	return g.Machines[m].Capacity(f).Most.Or(all)
}
