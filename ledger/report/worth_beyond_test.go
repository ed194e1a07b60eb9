package report_test

import (
	"strings"
	"testing"

	"putby/ledger/report"
)

// If things turn out otherwise: each case is decided again, and what the answer
// would then save is said beside it.
func TestWorthUnderOtherFacts(t *testing.T) {
	g := bare(t)
	d := ask(t, g, "plum-sauce", given)
	tab := table(t, d, "range")
	// At 5.31 per L 7 packages are worth 4.725 x 5.31 = 25.08975.
	wants(t, tab, find(t, tab, "case", "shelf 10 % lower"), map[string]string{"value": "5.310000000000", "buy": "7",
		"saving": "6.314750000000", "saving_as_answered": "6.314750000000"})
	// 1.5 x 18 - 5 = 22 L: more than enough.
	wants(t, tab, find(t, tab, "case", "half the use"), map[string]string{"value": "1.5", "buy": "7", "saving": "9.102500000000"})
	if len(tab.Rows) != 3 {
		t.Errorf("%d cases: a given kWh has no spread", len(tab.Rows))
	}
	// With 50 L in store, of 54 that are used in time, half the use leaves no room: the 3.325 L that are made
	// would go to waste, worth 19.6175, and the 2 eaten fresh alone save 5.28.
	d = ask(t, g, "plum-sauce", given.with("stock", "50 L"))
	tab = table(t, d, "range")
	wants(t, tab, find(t, tab, "case", "half the use"), map[string]string{"buy": "2", "saving": "5.280000000000", "saving_as_answered": "-10.515000000000"})
	// The electricity of a mean has a spread, and the answer is held under it.
	k := kilnWith(t, "")
	d = ask(t, k, "peas", facts{"price": "2", "size": "1 kg", "limit": "5"})
	tab = table(t, d, "range")
	// 5 kg at 9.00 less 10.00, 12 kWh at 0.25 and 5.00 of wear: 27.00.
	wants(t, tab, 0, map[string]string{"case": "as expected", "buy": "5", "saving": "27.000000000000"})
	wants(t, tab, find(t, tab, "case", "little electricity"), map[string]string{"value": "1.064", "saving": "29.734000000000"})
	wants(t, tab, find(t, tab, "case", "much electricity"), map[string]string{"value": "22.936", "saving": "24.266000000000"})
}

// Between the values said the answer holds, and beyond them it is the one said.
func TestWorthFlipsWhereItSays(t *testing.T) {
	g := bare(t)
	d := ask(t, g, "plum-sauce", given)
	tab := table(t, d, "flips")
	// 10 packages overtake 7 at a shelf price of (30.89 - 18.775) / (6.72 - 4.725),
	// and 2 do at (18.775 - 2.98) / (4.725 - 1.4).
	shelf := find(t, tab, "figure", "shelf price")
	wants(t, tab, shelf, map[string]string{"now": "5.900000000000", "below": "4.750375939850", "buy_below": "2", "above": "6.072681704261", "buy_above": "10"})
	price := find(t, tab, "figure", "price of a package")
	use := find(t, tab, "figure", "used a month")
	// 3.325 L made and 5 in store over 18 months.
	wants(t, tab, use, map[string]string{"now": "3", "below": "0.4625", "buy_below": "6"})
	for _, c := range []struct {
		option, unit string
		row          int
	}{{"shelf", "", shelf}, {"price", "", price}, {"use", " L", use}} {
		for _, side := range []string{"below", "above"} {
			at := cell(t, tab, c.row, side)
			if at.IsNull() {
				continue
			}
			step := rat("0.0001")
			if side == "below" {
				step = rat("-0.0001")
			}
			beyond := ask(t, g, "plum-sauce", given.with(c.option, halfEven(add(rat(at.Exact(euro)), step), 9).FloatString(9)+c.unit))
			if have, want := figure(t, beyond, "buy"), cell(t, tab, c.row, "buy_"+side).Exact(euro); have != want {
				t.Errorf("%s %s %s: buy %s, want %s", c.option, side, at.Exact(euro), have, want)
			}
			within := ask(t, g, "plum-sauce", given.with(c.option, halfEven(sub(rat(at.Exact(euro)), step), 9).FloatString(9)+c.unit))
			if have := figure(t, within, "buy"); have != "7" {
				t.Errorf("%s within %s %s: buy %s", c.option, side, at.Exact(euro), have)
			}
		}
	}
	// With stock 20 of 54 L: less than 1.296 L a month would still hold it.
	if have := figure(t, ask(t, g, "plum-sauce", given.with("use", "0.4625 L")), "buy"); have != "7" {
		t.Errorf("at the least use: buy %s", have)
	}
}

// Other ways to what the answer gives to eat.
func TestWorthOtherWays(t *testing.T) {
	d := ask(t, kilnWith(t, ""), "stock", offer.with("limit", "6", "fresh", "2 L"))
	// 6 L: at 6.00; preserved at 1.40 / 0.2 = 7.00; 2 fresh on offer at 2.00 and 4 at 6.00;
	// dried: 12.00 + wear 5.00 + (8 + 2 x 4) kWh at 0.25.
	tab := table(t, d, "ways")
	for way, want := range map[string]string{
		"fresh, at the shelf price": "36.000000000000", "the shop's preserved equivalent": "42.000000000000",
		"on offer for fresh use, the rest at the shelf price": "28.000000000000", "on offer, and dried": "21.000000000000",
	} {
		wants(t, tab, find(t, tab, "way", way), map[string]string{"cost": want})
	}
	wants(t, tab, 0, map[string]string{"per_unit": "6.000000000000"})
}

// The room in the last cycle, for food in hand that would need its own.
func TestWorthFillsTheLastCycle(t *testing.T) {
	more := "-- draws.csv --\ndate,item,quantity,reason\n2025-01-14,peas,10 kg,used\n2025-01-14,stock,10 L,used\n" +
		strings.Replace(kiln[strings.Index(kiln, "-- receipts.csv --"):strings.Index(kiln, "-- shelf.csv --")],
			"b1,2025-01-02,Brook,3", "b2,2025-01-14,Brook,1,food,peas,2,1 kg,2.00,,,,\nb1,2025-01-02,Brook,3", 1)
	d := ask(t, kilnWith(t, more), "stock", offer.with("limit", "3"))
	// 3 of 6 L: 2 kg of peas stand for 2 L, so that the cycle uses 18 instead of 14 kWh.
	// A cycle of their own, by the mean of their runs: 12 x 0.25 + 5.00 = 8.00, less 4 x 0.25 = 1.00.
	worthFigures(t, d, map[string]string{"part_load.cycle": "1", "part_load.load": "3", "part_load.spare": "3",
		"part_load.with": "peas", "part_load.with_amount": "2", "part_load.saves": "7.000000"})
	if !noted(d.Words, "room for 3 L more: filling it with the 2 kg of Peas in hand") {
		t.Error(d.Words)
	}
	// Four packages leave room for 2 L, and 7 kg of peas, a cycle and 1 kg: that 1 kg moves in.
	d = ask(t, kilnWith(t, strings.Replace(more, "peas,2,1 kg", "peas,7,1 kg", 1)), "stock", offer.with("limit", "4"))
	worthFigures(t, d, map[string]string{"part_load.with_amount": "1", "part_load.saves": "7.500000"}) // 12 kWh and wear, less 2 kWh
	// Three kilograms do not fit: then it is any food that fills the room.
	d = ask(t, kilnWith(t, strings.Replace(more, "peas,2,1 kg", "peas,3,1 kg", 1)), "stock", offer.with("limit", "4"))
	worthFigures(t, d, map[string]string{"part_load.with": "", "part_load.spare": "2", "part_load.saves": "7.000000"}) // 12 kWh and wear, less 4
	d = ask(t, kilnWith(t, ""), "stock", offer.with("limit", "6"))
	if !part[report.Value](t, d, "part_load").IsNull() {
		t.Error("a full run has room")
	}
}

// The second food's own cycle is priced by its own runs, their length and their
// hands-on time, when it would begin: before the offer's cycles, or after them
// where the first of these is timed.
func TestWorthPricesTheSecondFoodByItsOwnRuns(t *testing.T) {
	g := kilnWith(t, "-- settings.csv --\nsetting,value\nformat,1\ncurrency,EUR\nzone,Europe/Ljubljana\ntariff,flat\nhour_value,10\n"+
		"-- tariffs.csv --\ntariff,start,end,rate\nflat,22:00,06:00,0.10\nflat,,,0.30\n"+
		"-- draws.csv --\ndate,item,quantity,reason\n2025-01-14,peas,10 kg,used\n2025-01-14,stock,10 L,used\n"+
		strings.Replace(kiln[strings.Index(kiln, "-- receipts.csv --"):strings.Index(kiln, "-- shelf.csv --")],
			"b1,2025-01-02,Brook,3", "b2,2025-01-14,Brook,1,food,peas,2,1 kg,2.00,,,,\nb1,2025-01-02,Brook,3", 1)+
		strings.NewReplacer("11,,,", "11,30m,,", "13,,,", "13,30m,,").Replace(kiln[strings.Index(kiln, "-- runs.csv --"):strings.Index(kiln, "-- loads.csv --")]))
	// From 4:00 on the 15th the peas' 12 kWh lie 4 h cheap and 16 h dear: 0.24 + 2.88, wear 5.00 and half an hour
	// 5.00; from midnight 4 kWh more for the stock's cycle lie 6 h cheap and 14 h dear: 0.12 + 0.84.
	d := ask(t, g, "stock", offer.with("limit", "3"))
	worthFigures(t, d, map[string]string{"part_load.with": "peas", "part_load.saves": "12.160000"})
	// Begun at 20:00 the stock's 4 kWh lie 8 h cheap and 12 h dear: 0.16 + 0.72. Then the peas', from 16:00 on: 0.48 + 2.16.
	d = ask(t, g, "stock", offer.with("limit", "3", "start", "2025-01-15 20:00"))
	worthFigures(t, d, map[string]string{"part_load.with": "peas", "part_load.saves": "11.760000"})
	// A given rate holds for both: 12 x 0.50 and 10.00, less 4 x 0.50.
	d = ask(t, g, "stock", offer.with("limit", "3", "rate", "0.50"))
	worthFigures(t, d, map[string]string{"part_load.saves": "14.000000"})
	d = ask(t, g, "stock", offer.with("limit", "3", "without", "electricity, wear"))
	worthFigures(t, d, map[string]string{"part_load.saves": "5.000000"})
}

// How the offer ranks is said in one line, from shelf prices and receipts.
func TestWorthRanksTheOffer(t *testing.T) {
	g := kilnWith(t, `-- shelf.csv --
date,shop,item,size,price,terms,form,makes,note
2024-12-01,Brook,stock,1 L,6.00,,,,
2024-12-20,Brook,stock,500 mL,1.50,offer,,,
2024-12-22,Mill,stock,1 L,2.50,offer,,,
2025-01-02,Brook,peas,1 kg,9.00,,,,
`)
	d := ask(t, g, "stock", offer)
	// Of the 30 days before 15 January the lowest is the 1.00 paid on 2 January; the year
	// knows 6.00, 3.00, 2.50 and 1.00: median 2.75.
	worthFigures(t, d, map[string]string{"offer_rank.per_unit": "2.000000000000", "offer_rank.prices_lower": "1", "offer_rank.prices_equal": "0", "offer_rank.prices_higher": "3",
		"offer_rank.lowest_of_year": "1.000000000000", "offer_rank.lowest_date": "2025-01-02", "offer_rank.lowest_kind": "paid",
		"offer_rank.reference": "1.000000000000", "offer_rank.reference_date": "2025-01-02", "offer_rank.reduction": "-1.000000000000",
		"offer_rank.median_of_year": "2.750000000000"})
	if !noted(d.Words, "100 % over the lowest price of the 30 days before (1.0000 EUR per L at Brook, 2025-01-02), "+
		"1 of the year's 4 prices, asked or paid, is lower, down to 1.0000 EUR per L (paid at Brook, 2025-01-02) and the year's median price is 2.7500 EUR per L.") {
		t.Error(d.Words)
	}
	d = ask(t, g, "stock", offer.with("price", "1.00"))
	if !noted(d.Words, "the same as the lowest price of the 30 days before (1.0000 EUR per L at Brook, 2025-01-02)") {
		t.Error(d.Words)
	}
	d = ask(t, g, "stock", offer.with("price", "0.99"))
	if !noted(d.Words, "none of the year's 4 prices, asked or paid, is lower") {
		t.Error(d.Words)
	}
	d = ask(t, g, "stock", offer.with("as-of", "2025-02-20", "start", "2025-02-20 00:00"))
	if !noted(d.Words, "67 % under the last regular price before (6.0000 EUR per L at Brook, 2024-12-01)") {
		t.Error(d.Words)
	}
	// With 3 for the price of 2, 12 packages cost 16.00: 1.333 a litre.
	d = ask(t, g, "stock", offer.with("offer", "3 for 2"))
	worthFigures(t, d, map[string]string{"offer.per_unit": "2.000000000000", "offer.paid_per_unit": "1.333333333333", "offer_rank.per_unit": "1.333333333333"})
	d = ask(t, bare(t), "plum-sauce", given)
	if !noted(d.Words, "no other price is recorded to compare it with") {
		t.Error(d.Words)
	}
}
