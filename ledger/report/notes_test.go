package report

import (
	"testing"
	"time"

	"putby/energy"
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
		"nothing is recorded yet of its electricity: none is counted":                                                                {Power: energy.Note{Kind: energy.NothingYet}},
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

// What the meter tells of a run is said with its figures, in whole seconds and in
// as many decimals as tell two energies apart.
func TestPowerWords(t *testing.T) {
	kwh := func(text string) exact.Ratio { return exact.RatioOf(exact.MustNumber(text)) }
	least := energy.LatentHeat().Times(exact.Int(4)) // 3.1488888... kWh
	for want, n := range map[string]energy.Note{
		"no end is given: all of its electricity is priced at the hour of its start":                         {Kind: energy.AtStart},
		"its phases sum to no energy: the metered kWh is spread by duration":                                 {Kind: energy.SpreadPhases},
		"nothing tells its phases apart: the metered kWh is spread by duration":                              {Kind: energy.PhasesUntold},
		"the meter log has no samples during the run: nothing is drawn":                                      {Kind: energy.LogOutside},
		"the meter log shows no energy during the run: the metered kWh is spread evenly":                     {Kind: energy.LogShowsNone},
		"the meter log begins 1m after the run's start: nothing is drawn before":                             {Kind: energy.LogLate, Length: 59*time.Second + 1},
		"the meter log ends 1h before the run's end: nothing is drawn after":                                 {Kind: energy.LogEarly, Length: time.Hour},
		"nothing is recorded yet of the electricity of some of its phases: none is counted for them":         {Kind: energy.PhasesYet},
		"phase 2 (primary) draws nothing in 1h30m: a machine that runs draws something":                      {Kind: energy.PhaseAtRest, Phase: 2, Name: "primary", Length: 90 * time.Minute},
		"45 kWh are 4.5 times the usual 10 kWh: is it one run, and is the decimal point in place?":           {Kind: energy.FarAbove, KWh: kwh("45"), Usual: kwh("10")},
		"the metered 3.14 kWh are less than the 3.149 kWh that it takes to turn the 4 kg" + ofWater:          {Kind: energy.TooLittle, KWh: kwh("3.14"), Least: least, Water: exact.Int(4)},
		"the metered 3.1485 kWh are less than the 3.1489 kWh that it takes to turn the 4 kg" + ofWater:       {Kind: energy.TooLittle, KWh: kwh("3.1485"), Least: least, Water: exact.Int(4)},
		"the metered 3.1488885 kWh are less than the 3.1488889 kWh that it takes to turn the 4 kg" + ofWater: {Kind: energy.TooLittle, KWh: kwh("3.1488885"), Least: least, Water: exact.Int(4)},
	} {
		if have := powerWords(n); have != want {
			t.Errorf("kind %d is said %q, want %q", n.Kind, have, want)
		}
	}
}

const ofWater = " of water removed from ice to vapour: does the meter see the whole machine, and are the weights right?"
