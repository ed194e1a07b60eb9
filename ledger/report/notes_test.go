package report

import (
	"testing"

	"putby/ledger"
	"putby/pricing/exact"
)

// What the ledger notes is said with the names of what it is about.
func TestStatedWords(t *testing.T) {
	rec := &ledger.Records{
		Machines: []ledger.Machine{{ID: "dryer"}}, Supplies: []ledger.Supply{{ID: "lid"}, {ID: "jar"}},
		Foods: []ledger.Food{{ID: "peas", Basis: exact.Kg, Water: exact.Some(exact.Int(80))}},
		Packs: ledger.PackList{}.With(ledger.Pack{ID: "a", Item: "peas", Dry: exact.MustQuantity("125 g")}),
	}
	rec.Settings.Currency = exact.MustCurrency("EUR")
	g := &ledger.Ledger{Records: rec, Packs: []ledger.PackCost{{Each: exact.MustNumber("0.5")}}} // 100 g of solids
	for want, n := range map[string]ledger.Note{
		"as package energy says it":                                                                                                  {Text: "as package energy says it"},
		"no receipt has the machine dryer by then: no wear is counted":                                                               {Kind: ledger.NoReceiptOf},
		"all expected cycles of dryer are used up: no wear is counted":                                                               {Kind: ledger.CyclesUsedUp},
		"supplies: jar is charged at its list price, where no receipt covers it":                                                     {Kind: ledger.AtListPrice, At: 1},
		"the repair of dryer is spending only: no cycle of it is left in the books":                                                  {Kind: ledger.RepairOfNoCycle},
		"for jar taken back, 17.00 less was given than it still cost in the books":                                                   {Kind: ledger.TakenBackFor, At: 1, Less: exact.MustMoney("17")},
		"for lid taken back, 0.25 more was given than it still cost in the books":                                                    {Kind: ledger.TakenBackFor, Less: exact.MustMoney("-0.25")},
		"pack a was not dry: by its weights 20 % of it was still water, and 10 % is the most for food that is sealed without oxygen": {Kind: ledger.NotDry},
	} {
		if have := statedWords(g, n); have != want {
			t.Errorf("kind %d is said %q, want %q", n.Kind, have, want)
		}
	}
}
