package ledger_test

import (
	"fmt"
	"strings"
	"testing"

	"putby/ledger"
	"putby/pricing/exact"
)

// packedRun is a run with labour and electricity whose eggs are packed on two
// days, by count x each in the ratio 2 to 1.
const packedRun = `-- settings.csv --
setting,value
format,1
currency,EUR
zone,UTC
tariff,flat
hour_value,10
-- receipts.csv --
receipt,date,line,kind,item,count,size,price
e,2025-01-01,1,food,egg,1,12 ea,1.00
-- runs.csv --
run,machine,start,kwh,hands
r,dryer,2025-01-02 08:00,4,30m
-- loads.csv --
run,item,quantity
r,egg,12
-- packs.csv --
pack,run,item,date,count,each,with
p,r,egg,2025-01-03,2,4,1 lid
q,r,egg,2025-01-10,1,4,1 lid
-- draws.csv --
date,pack,item,quantity,reason
2025-01-05,p,,1,used
2025-01-12,q,,1,given
2025-01-12,p,,1,spoiled
`

// A run's good cost is split over all its packs, whatever their date; before a
// pack's date its share awaits packing.
func TestPacksOnTwoDays(t *testing.T) {
	for _, c := range []struct{ date, awaiting, store, used, gone string }{
		{"2025-01-02", "7", "0", "0", "0"},
		{"2025-01-03", "2.333333", "4.866667", "0", "0"},
		{"2025-01-05", "2.333333", "2.433333", "2.433334", "0"},
		{"2025-01-10", "0", "4.866666", "2.433334", "0"},
		{"2025-01-12", "0", "0", "2.433334", "4.866666"},
		{"2030-01-01", "0", "0", "2.433334", "4.866666"},
	} {
		g := bookAt(t, packedRun, asOf(c.date))
		figures(t, map[string]any{
			"as of": g.AsOf, "awaiting": g.AwaitingPacking(), "store": g.InStore(), "used": g.Flows.Out[ledger.Used],
			"gone": g.Flows.Out[ledger.Given].Add(g.Flows.Out[ledger.Spoiled]),
		}, map[string]string{"as of": c.date, "awaiting": c.awaiting, "store": c.store, "used": c.used, "gone": c.gone})
	}
}

// Elements sum to the total of a row, the totals of an item's packs to its good
// cost and their own supplies, and containers to their pack.
func TestSumsOfPacks(t *testing.T) {
	g := book(t, packedRun)
	item := run(t, g, "r").Items[0]
	var packs, own exact.Money
	for _, i := range item.Packs {
		p := &g.Packs[i]
		packs, own = packs.Add(p.Total()), own.Add(p.Own)
		if !p.Total().Equal(p.Costs().Total()) || !p.Total().Equal(p.Share.Total().Add(p.Own)) {
			t.Errorf("pack %d: %v is not the sum of %v", i, p.Total(), p.Costs())
		}
	}
	if want := item.Good.Total().Add(own); !packs.Equal(want) {
		t.Errorf("packs come to %v, want %v", packs, want)
	}
	if have := fmt.Sprint(item.Made, item.Good); have != "12 [1 1 0 0 5]" {
		t.Errorf("made and good: %s", have)
	}
	if have, want := moved(g), "used 1 for 2.433334, given 1 for 2.433333, spoiled 1 for 2.433333"; have != want {
		t.Errorf("have %s, want %s", have, want)
	}
}

// The wear inside what was drawn leaves with it.
func TestWearInMoves(t *testing.T) {
	g := book(t, strings.Replace(packedRun, "-- runs.csv", "m,2025-01-01,1,machine,dryer,1,,100\n-- runs.csv", 1))
	var list []string
	for _, m := range g.Moves {
		list = append(list, m.Wear.String())
	}
	if have := fmt.Sprint(list); have != "[0.333334 0.333333 0.333333]" { // of 1.00 a cycle, two thirds and one third
		t.Errorf("wear %s", have)
	}
}

// A pack without a run is opening stock at its stated cost, which its own
// supplies come on top of.
func TestOpeningStock(t *testing.T) {
	g := book(t, `-- packs.csv --
pack,run,item,date,count,each,with,cost
p,,soup,2025-01-03,3,500 mL,1 lid,10.00
`)
	p := pack(t, g, "p")
	figures(t, map[string]any{
		"opening": g.Flows.Opening, "own": p.Own, "total": p.Total(), "costs": p.Costs(), "made": p.Made(), "one": p.First(1), "store": g.InStore(),
	}, map[string]string{
		"opening": "10", "own": "0.3", "total": "10.3", "costs": "[10 0 0.3 0 0]", "made": "1.5", "one": "3.433334", "store": "10.3",
	})
}

// Best-by is as given, else the pack's date and the food's keep_months, clamped
// to the month's end.
func TestBestBy(t *testing.T) {
	g := book(t, `-- foods.csv --
food,basis,keep_months
soup,volume,18
tea,volume,
-- packs.csv --
pack,run,item,date,count,each,best_by
given,,soup,2024-08-31,1,1 L,2025-01-01
kept,,soup,2024-08-31,1,1 L,
unknown,,tea,2024-08-31,1,1 L,
`)
	figures(t, map[string]any{"given": pack(t, g, "given").BestBy, "kept": pack(t, g, "kept").BestBy, "unknown": pack(t, g, "unknown").BestBy},
		map[string]string{"given": "2025-01-01", "kept": "2026-02-28", "unknown": ""})
}

func TestPackFaults(t *testing.T) {
	with := func(from, to string) string { return strings.Replace(packedRun, from, to, 1) }
	wantFaults(t, with("q,r,egg,2025-01-10", "q,r,egg,2025-01-01"), "packs.csv:3 date pack q is of 2025-01-01, before its run r began on 2025-01-02")
	wantFaults(t, with("q,r,egg", "q,r,leek"), "packs.csv:3 each each: 4 has no unit; leek is counted by mass", "packs.csv:3 item pack q: run r was not loaded with leek")
	wantFaults(t, with("1 lid\nq", "1 cap\nq"), `packs.csv:2 with with: no supply is called "cap"`)
	wantFaults(t, with("2025-01-05,p,,1", "2025-01-05,p,,3"),
		"draws.csv:2 quantity 3 of pack p are drawn on 2025-01-05, but 2 of its 2 containers are left")
	wantFaults(t, with("2025-01-12,p,,1", "2025-01-12,p,,2"),
		"draws.csv:4 quantity 2 of pack p are drawn on 2025-01-12, but 1 of its 2 containers are left")
	wantFaults(t, with("2025-01-05,p,,1", "2025-01-02,p,,1"), "draws.csv:2 date pack p was packed on 2025-01-03, after this draw of 2025-01-02")
	wantFaults(t, with("2025-01-05,p,,1", "2025-01-05,z,,1"), `draws.csv:2 pack pack: no pack is called "z"`)
	wantFaults(t, with("2025-01-05,p,,1", "2025-01-05,p,,0.5"), "draws.csv:2 quantity quantity: 0.5 is not a whole number of containers")
	wantFaults(t, with("2025-01-05,p,,1", "2025-01-05,p,egg,1"), "draws.csv:2 item item: both a pack and a food or supply")
	wantFaults(t, with("2025-01-05,p,,1", "2025-01-05,,,1"), "draws.csv:2 pack pack: neither a pack nor a food or supply")
	wantFaults(t, with("2025-01-05,p,,1", "2025-01-05,p,,0"), "draws.csv:2 quantity quantity: 0 is not above 0")
}

// A load that cannot be read may have been of the food that a pack is of: its own
// fault is told, and none of the pack.
func TestPackOfUnreadLoad(t *testing.T) {
	const text = `-- receipts.csv --
receipt,date,line,kind,item,count,size,price
a,2025-01-01,1,food,stock,1,6 L,6.00
a,2025-01-01,2,food,leek,1,6 kg,6.00
-- runs.csv --
run,machine,start,kwh
r,dryer,2025-01-02 08:00,0
-- loads.csv --
run,item,quantity,trays
r,stock,2 L,1
r,LEEK,2 kg,1
-- packs.csv --
pack,run,item,date,count,each
p,r,leek,2025-01-04,1,1 kg
`
	wantFaults(t, strings.Replace(text, "LEEK,", ",", 1), "loads.csv:3 item ")
	wantFaults(t, strings.Replace(text, "LEEK,", "stock,", 1), "packs.csv:2 item pack p: run r was not loaded with leek")
}
