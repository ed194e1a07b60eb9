package figures_test

import (
	"errors"
	"testing"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/pricing/exact"
)

// What was taken from lots comes to what the books have on each run and pack, to
// the last digit.
func TestExplainedSums(t *testing.T) {
	g := whole(t, "sample")
	sum := func(list []figures.Taken) (cost exact.Money) {
		for i := range list {
			cost = cost.Add(list[i].Cost)
			n := &list[i]
			if (n.For == figures.InFood) != (n.Food >= 0) || n.For == figures.OfTheMachine && n.Supply >= 0 || (n.For == figures.InCycle || n.For == figures.OnPack) != (n.Supply >= 0) {
				t.Errorf("%+v is no one thing", n)
			}
			if n.Supply >= 0 && n.Lot != ledger.ListPrice && g.Lots[n.Lot].Item() != g.Supplies[n.Supply].ID {
				t.Errorf("of %s a part is drawn from a lot of %s", g.Supplies[n.Supply].ID, g.Lots[n.Lot].Item())
			}
		}
		return cost
	}
	for i := range g.Runs {
		r := explained(t, g, g.Records.Runs[i].ID)
		var food exact.Money
		for _, load := range g.Runs[i].Loads {
			food = food.Add(load.Costs[ledger.FoodCost])
		}
		sum(r.Common)
		if r.Run != i || r.Pack != -1 || !sum(r.Food).Equal(food) || len(r.Costs) != len(g.Runs[i].Items) {
			t.Errorf("run %s took food of %v, the books have %v", g.Records.Runs[i].ID, sum(r.Food), food)
		}
	}
	for i := range g.Packs {
		pack := g.Records.Packs.At(i)
		r := explained(t, g, pack.ID)
		var all exact.Money
		last := 0
		for _, c := range r.Containers {
			all = all.Add(exact.MoneyOf(c.Each.Number().Mul(exact.Int(int64(c.Last - c.First + 1)))))
			if c.First != last+1 || c.Drawn != (c.Last <= int(g.Packs[i].Taken)) {
				t.Errorf("containers %d to %d of pack %s follow %d", c.First, c.Last, pack.ID, last)
			}
			last = c.Last
		}
		if last != pack.Count || !all.Equal(g.Packs[i].Total()) || !sum(r.Supplies).Equal(g.Packs[i].Own) || (r.Run < 0) != (pack.Run == "") {
			t.Errorf("pack %s: %d containers cost %v, its supplies %v; the books have %v and %v", pack.ID, last, all, sum(r.Supplies), g.Packs[i].Total(), g.Packs[i].Own)
		}
	}
	var unknown *figures.UnknownError
	if _, err := figures.Explain(g, "nothing"); !errors.As(err, &unknown) {
		t.Errorf("what there is none of: %v", err)
	}
}

func explained(t *testing.T, g *ledger.Ledger, name string) *figures.ExplainResult {
	t.Helper()
	r, err := figures.Explain(g, name)
	if err != nil {
		t.Fatal(err)
	}
	return r
}
