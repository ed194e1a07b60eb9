package ledger_test

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"putby/ledger"
	"putby/pricing/exact"
)

// berries are two purchases of strawberries, which keep 3 days, frozen 90.
const berries = `-- foods.csv --
food,basis,fresh_days,frozen_days
berry,mass,3,90
salt,mass,,
-- receipts.csv --
receipt,date,line,kind,item,count,size,price
a,2025-06-01,1,food,berry,1,5 kg,10.00
b,2025-06-03,1,food,berry,1,2 kg,6.00
c,2025-06-03,1,food,salt,1,1 kg,1.00
`

// inFridge writes down the parts of a food's lots.
func inFridge(t testing.TB, g *ledger.Ledger, food string) string {
	t.Helper()
	i, ok := g.FindFood(food)
	if !ok {
		t.Fatalf("no food %s", food)
	}
	var list []string
	for _, p := range g.FreshParts(i) {
		text := fmt.Sprintf("%s %v for %v", g.Lots[p.Lot].Receipt(), p.Quantity, p.Cost)
		if p.Frozen {
			text += " frozen"
		}
		if p.Crumb {
			text += " crumb"
		}
		list = append(list, strings.TrimSpace(text+" by "+p.UseBy.String()))
	}
	return strings.Join(list, "; ")
}

// Six kilograms of seven go into the freezer: all of the older five, and one of
// the newer two. Each part keeps as long as it does, and costs its part.
func TestFrozenOldestFirst(t *testing.T) {
	g := book(t, berries+"-- frozen.csv --\ndate,item,quantity\n2025-06-03,berry,6 kg\n")
	if have, want := inFridge(t, g, "berry"), "a 5 for 10 frozen by 2025-08-30; b 1 for 3 by 2025-06-06; b 1 for 3 frozen by 2025-09-01"; have != want {
		t.Errorf("have %s\nwant %s", have, want)
	}
	if have, want := inFridge(t, g, "salt"), "c 1 for 1 by"; have != want {
		t.Errorf("have %s\nwant %s", have, want)
	}
}

// Of a lot that is partly frozen a meal takes what is in the fridge, and the
// machine what is in the freezer.
func TestFrozenWaitsForTheMachine(t *testing.T) {
	const frozen = "-- frozen.csv --\ndate,item,quantity\n2025-06-02,berry,3 kg\n"
	g := book(t, berries+frozen+"-- draws.csv --\ndate,item,quantity\n2025-06-03,berry,2 kg\n")
	if have, want := inFridge(t, g, "berry"), "a 3 for 6 frozen by 2025-08-30; b 2 for 6 by 2025-06-06"; have != want {
		t.Errorf("eaten: have %s\nwant %s", have, want)
	}
	// In the books a meal is of the oldest purchase; the freezer holds as much as before,
	// for as long as the oldest in it keeps.
	const all = "-- frozen.csv --\ndate,item,quantity\n2025-06-02,berry,5 kg\n-- draws.csv --\ndate,item,quantity\n2025-06-03,berry,"
	for eaten, want := range map[string]string{
		"2 kg":   "a 3 for 6 frozen by 2025-08-30; b 2 for 6 frozen by 2025-08-30",
		"1.5 kg": "a 3.5 for 7 frozen by 2025-08-30; b 0.5 for 1.5 by 2025-06-06; b 1.5 for 4.5 frozen by 2025-08-30",
		"6 kg":   "b 1 for 3 frozen by 2025-08-30",
	} {
		if have := inFridge(t, book(t, berries+all+eaten+"\n"), "berry"); have != want {
			t.Errorf("%s eaten: have %s\nwant %s", eaten, have, want)
		}
	}
	// What was frozen in time stays so beside what was frozen later, and is not taken for it.
	const later = "-- frozen.csv --\ndate,item,quantity\n2025-06-02,berry,5 kg\n2025-06-05,berry,1 kg\n-- draws.csv --\ndate,item,quantity\n2025-06-06,berry,0.5 kg\n"
	if have, want := inFridge(t, book(t, berries+later), "berry"), "a 4.5 for 9 frozen by 2025-08-30; b 0.5 for 1.5 by 2025-06-06; b 1.5 for 4.5 frozen by 2025-08-30"; have != want {
		t.Errorf("have %s\nwant %s", have, want)
	}
	g = book(t, berries+frozen+"-- runs.csv --\nrun,machine,start,kwh\nr,dryer,2025-06-03 08:00,0\n-- loads.csv --\nrun,item,quantity\nr,berry,3.5 kg\n")
	if have, want := inFridge(t, g, "berry"), "a 1.5 for 3 by 2025-06-04; b 2 for 6 by 2025-06-06"; have != want {
		t.Errorf("dried: have %s\nwant %s", have, want)
	}
}

// The rest of a purchase is frozen on the day on which some of it is dried: a
// freezing counts at the end of its day, and more than is left then is refused.
func TestFrozenAtTheEndOfItsDay(t *testing.T) {
	const run = "-- runs.csv --\nrun,machine,start,kwh\nr,dryer,2025-06-01 20:00,0\n-- loads.csv --\nrun,item,quantity\nr,berry,2 kg\n-- frozen.csv --\ndate,item,quantity\n"
	g := book(t, berries+run+"2025-06-01,berry,3 kg\n")
	if have, want := inFridge(t, g, "berry"), "a 3 for 6 frozen by 2025-08-30; b 2 for 6 by 2025-06-06"; have != want {
		t.Errorf("have %s\nwant %s", have, want)
	}
	wantFaults(t, berries+run+"2025-06-01,berry,3 kg\n2025-06-02,berry,1 g\n2025-06-02,cherry,1 kg\n2025-06-02,salt,1 L\n",
		"frozen.csv:3 quantity 0.001 kg of berry are frozen on 2025-06-02, but only 0 kg that is not frozen is in hand at the end of that day",
		`frozen.csv:4 item item: no food is called "cherry"`,
		"frozen.csv:5 quantity")
	// 5 kg are 11.023 lb: a household in pounds reads pounds.
	wantFaults(t, "-- settings.csv --\nsetting,value\nformat,1\ncurrency,EUR\nzone,UTC\nshow_mass,lb\n"+berries+"-- frozen.csv --\ndate,item,quantity\n2025-06-02,berry,20 lb\n",
		"frozen.csv:2 quantity 20 lb of berry are frozen on 2025-06-02, but only 11.023 lb that is not frozen is in hand at the end of that day")
}

// What was frozen after it had turned keeps no longer for it.
func TestFrozenTooLate(t *testing.T) {
	g := book(t, berries+"-- frozen.csv --\ndate,item,quantity\n2025-06-05,berry,7 kg\n")
	if have, want := inFridge(t, g, "berry"), "a 5 for 10 frozen by 2025-06-04; b 2 for 6 frozen by 2025-09-01"; have != want {
		t.Errorf("have %s\nwant %s", have, want)
	}
}

// A crumb, under 1 % of a lot as bought, hides nothing: the soonest to turn is
// the newer purchase. Just 1 % is no crumb; where all are crumbs, it is the
// oldest of them.
func TestCrumbs(t *testing.T) {
	for eaten, want := range map[string]string{"4.951 kg": "2025-06-06", "4.95 kg": "2025-06-04", "6.99 kg": "2025-06-06", "0.1 kg": "2025-06-04"} {
		g := book(t, berries+"-- draws.csv --\ndate,item,quantity\n2025-06-03,berry,"+eaten+"\n")
		i, _ := g.FindFood("berry")
		if p, ok := ledger.SoonestToTurn(g.FreshParts(i)); !ok || p.UseBy.String() != want {
			t.Errorf("%s eaten: by %v, %t, want %s", eaten, p.UseBy, ok, want)
		}
	}
	if _, ok := ledger.SoonestToTurn(nil); ok {
		t.Error("something turns where nothing is in hand")
	}
	day := exact.MustDate("2025-06-04")
	first := ledger.FreshPart{Lot: 1, UseBy: day, Crumb: true}
	if p, _ := ledger.SoonestToTurn([]ledger.FreshPart{first, {Lot: 2, UseBy: day - 1, Crumb: true}}); p != first {
		t.Errorf("of crumbs alone it is %v", p)
	}
	unknown, late := ledger.FreshPart{Lot: 1, UseBy: exact.NoDate}, ledger.FreshPart{Lot: 2, UseBy: day}
	if p, _ := ledger.SoonestToTurn([]ledger.FreshPart{unknown, first, late}); p != late {
		t.Errorf("a known day comes before one nobody knows: %v", p)
	}
}

// Freezing moves no money, and the parts of a food's lots sum to its stock.
func TestFreezingMovesNoMoney(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := made(t, madeLedgers().Draw(t, "ledger"), whole)
		for i := range g.Foods {
			var amount exact.Number
			var cost exact.Money
			for _, p := range g.FreshParts(i) {
				amount, cost = amount.Add(p.Quantity), cost.Add(p.Cost)
			}
			if s := g.FoodStock(i); !amount.Equal(s.Left) || !cost.Equal(s.Cost) {
				t.Fatalf("the parts of %s come to %v for %v, its stock to %v for %v", g.Foods[i].ID, amount, cost, s.Left, s.Cost)
			}
		}
		rec := *g.Records
		rec.Freezes = nil
		warm, faults := ledger.Join(&rec, whole)
		if len(faults) > 0 {
			t.Fatalf("without a freezer: %v", faults)
		}
		if have, want := standing(g), standing(warm); have != want {
			t.Fatalf("with the freezer\n%s\nwithout\n%s", have, want)
		}
	})
}
