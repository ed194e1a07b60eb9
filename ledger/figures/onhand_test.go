package figures_test

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"putby/ledger/figures"
	"putby/pricing/exact"
)

// What is in the house comes to the books' sums, food by food, whatever of it is
// asked for; of a day far off all of it is past.
func TestOnHand(t *testing.T) {
	g := whole(t, "sample")
	all, err := figures.OnHand(g, figures.OnHandQuery{})
	if err != nil || all.Day != g.AsOf || all.Food != -1 || len(all.Packs) == 0 || len(all.Supplies) == 0 || len(all.Machines) != len(g.Machines) {
		t.Fatalf("asked for everything: %+v (%v)", all, err)
	}
	var foods, waits exact.Money
	for _, s := range all.Foods {
		foods = foods.Add(s.Cost)
		one, err := figures.OnHand(g, figures.OnHandQuery{Query: figures.Query{Item: g.Foods[s.Food].ID}})
		if err != nil {
			t.Fatal(err)
		}
		if cost, _ := one.InStore(); !cost.Equal(s.Cost) || len(one.Foods) != 1 || one.Supplies != nil || !one.Concerns(s.Food) {
			t.Errorf("%s alone costs %v, among others %v", g.Foods[s.Food].ID, cost, s.Cost)
		}
	}
	for _, a := range all.Awaiting {
		waits = waits.Add(a.Cost)
	}
	if cost, _ := all.InStore(); !cost.Equal(g.InStore()) || !foods.Equal(cost) || !waits.Equal(g.AwaitingPacking()) {
		t.Errorf("packs cost %v, foods %v, in store are %v; %v awaits packing, in the books %v", cost, foods, g.InStore(), waits, g.AwaitingPacking())
	}
	later, err := figures.OnHand(g, figures.OnHandQuery{Query: figures.Query{AsOf: exact.LastDate}, Due: exact.Some(0)})
	if err != nil || later.Awaiting != nil || later.Foods != nil {
		t.Fatalf("due at the end of all days: %+v (%v)", later, err)
	}
	for i, p := range later.Packs {
		if days, ok := later.DaysTo(p.BestBy).Get(); !p.Past || !ok || days >= 0 || i > 0 && p.BestBy < later.Packs[i-1].BestBy {
			t.Errorf("pack %d, of the best-by %v: past %t, %d days", i, p.BestBy, p.Past, days)
		}
	}
}

func TestOnHandRefuses(t *testing.T) {
	g := whole(t, "small")
	var unknown *figures.UnknownError
	if _, err := figures.OnHand(g, figures.OnHandQuery{Query: figures.Query{Item: "pears"}}); !errors.As(err, &unknown) || unknown.Name != "pears" {
		t.Errorf("a food that there is none of: %v", err)
	}
	var due *figures.FactError
	if _, err := figures.OnHand(g, figures.OnHandQuery{Due: exact.Some(-1)}); !errors.As(err, &due) || due.Fact != figures.SoonFact || due.Count != -1 {
		t.Errorf("days below 0: %v", err)
	}
}

// Of 31 absorbers 12 are on six containers; 19 are enough for nine more with two each. Of two packs of
// one day it is the later one of the records that tells: one with three leaves 16, enough for five.
func TestSuppliesLastForWholeContainers(t *testing.T) {
	packs := strings.Replace(kitchen["packs.csv"], "1 absorber", "2 absorber", 1)
	for _, c := range []struct {
		packs string
		lasts int64
	}{
		{packs, 9},
		{packs + "p2,r1,plums,2025-06-03,1,400 g,3 absorber\n", 5},
	} {
		g := kitchenWith(t, "2025-06-11", map[string]string{
			"receipts.csv": strings.Replace(kitchen["receipts.csv"], "absorber,30", "absorber,31", 1), "packs.csv": c.packs,
		})
		r, err := figures.OnHand(g, figures.OnHandQuery{})
		if err != nil {
			t.Fatal(err)
		}
		i := slices.IndexFunc(r.Supplies, func(s figures.SupplyLeft) bool { return g.Supplies[s.Supply].ID == "absorber" })
		if s := r.Supplies[i]; s.For != figures.ForContainers || !s.Lasts.Or(exact.Int(-1)).Equal(exact.Int(c.lasts)) {
			t.Errorf("%+v, want %d containers", s, c.lasts)
		}
	}
}

// What the shelf asks for all that is in store is told where it is known of all: six containers of
// 600 g at 4.00 a kg.
func TestOnHandBesideTheShelf(t *testing.T) {
	const shelf = "date,shop,item,size,price\n2025-06-01,Mill Lane,plums,1 kg,4\n"
	for _, c := range []struct{ shelf, packs, asks string }{
		{shelf, kitchen["packs.csv"], "14.4"},
		{"", kitchen["packs.csv"], ""},
		{shelf, "", ""},
	} {
		g := kitchenWith(t, "2025-06-11", map[string]string{"shelf.csv": c.shelf, "packs.csv": c.packs})
		r, err := figures.OnHand(g, figures.OnHandQuery{})
		if err != nil {
			t.Fatal(err)
		}
		asks, ok := r.Answer(g).Shelf.Get()
		if ok != (c.asks != "") || ok && !asks.Equal(ratioOf(c.asks)) {
			t.Errorf("the shelf asks %v (%t), want %q", asks, ok, c.asks)
		}
	}
}

// What a machine draws is for its cycles, whatever kind of supply it is: of 9 pieces two are drawn by the
// run there was, and 7 are enough for three more of two each.
func TestSuppliesOfCycles(t *testing.T) {
	g := kitchenWith(t, "2025-06-11", map[string]string{
		"machines.csv": "machine,load_mass,cycles,with\nbox,5 kg,100,2 cloth\n",
		"supplies.csv": kitchen["supplies.csv"] + "cloth,other,1,\n",
		"receipts.csv": kitchen["receipts.csv"] + "k,2025-06-01,Mill Lane,supply,cloth,9,,0.5\n",
	})
	r, err := figures.OnHand(g, figures.OnHandQuery{})
	if err != nil {
		t.Fatal(err)
	}
	i := slices.IndexFunc(r.Supplies, func(s figures.SupplyLeft) bool { return g.Supplies[s.Supply].ID == "cloth" })
	if s := r.Supplies[i]; s.For != figures.ForCycles || !s.Lasts.Or(exact.Int(-1)).Equal(exact.Int(3)) {
		t.Errorf("%+v, want three cycles", s)
	}
}
