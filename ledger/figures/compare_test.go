package figures_test

import (
	"slices"
	"testing"

	"putby/ledger/figures"
	"putby/pricing/exact"
)

// What is left out is told: a run that awaits packing, and a food of which nothing but
// losses is known, which a food without a loss is not.
func TestCompareTellsWhatItLeavesOut(t *testing.T) {
	awaits := figures.Note{Kind: figures.AwaitsPacking, Food: 1, Run: 0}
	losses := figures.Note{Kind: figures.OnlyLosses, Food: 1}
	for _, c := range []struct {
		loads string
		want  []figures.Note
	}{
		{"run,item,quantity,lost\nr1,plums,4 kg,\n", []figures.Note{awaits}},
		{"run,item,quantity,lost\nr1,plums,4 kg,1 kg\n", []figures.Note{awaits, losses}},
	} {
		g := kitchenWith(t, "2025-06-11", map[string]string{"packs.csv": "", "loads.csv": c.loads})
		r, err := figures.Compare(g, figures.CompareQuery{})
		if err != nil || len(r.Foods) != 0 || !slices.Equal(r.Notes, c.want) {
			t.Errorf("%+v (%v), want the notes %+v", r, err, c.want)
		}
	}
}

// Foods come in order by each measure, litres, kilograms and pieces apart where it is of a
// unit: the most first of what is earned, made or saved, and of the part that the food itself
// costs; the least first of what is paid. Foods without the figure are last.
func TestCompareRanksByEveryMeasure(t *testing.T) {
	g := whole(t, "sample")
	most := map[figures.Measure]bool{figures.FoodPercent: true, figures.SavingPerUnit: true, figures.Saving: true,
		figures.MadeInAll: true, figures.RunsInAll: true, figures.EarnedPerRun: true}
	across := map[figures.Measure]bool{figures.CostPerServing: true, figures.CostPer1000Kcal: true, figures.CostPer100gProtein: true, figures.FoodPercent: true,
		figures.Saving: true, figures.CostInAll: true, figures.RunsInAll: true, figures.EarnedPerRun: true}
	for m := figures.CostPerUnit; m <= figures.EarnedPerRun; m++ {
		for _, worst := range []bool{false, true} {
			r, err := figures.Compare(g, figures.CompareQuery{Rank: m, Worst: worst})
			if err != nil || len(r.Foods) < 3 {
				t.Fatal(err)
			}
			for i := 1; i < len(r.Foods); i++ {
				a, b := &r.Foods[i-1], &r.Foods[i]
				if !across[m] && a.Unit != b.Unit {
					if a.Unit > b.Unit {
						t.Errorf("measure %d: a food in %v stands before one in %v", m, a.Unit, b.Unit)
					}
					continue
				}
				x, known := a.Measure(m).Get()
				y, too := b.Measure(m).Get()
				if !known && too || known && too && (most[m] != worst && x.Cmp(y) < 0 || most[m] == worst && x.Cmp(y) > 0) {
					t.Errorf("measure %d, the worst first: %t: %v stands before %v", m, worst, x, y)
				}
			}
		}
	}
}

// By hand (own numbers): 4 kg of plums at 2.00 made six containers of 600 g, 3.6 kg, for 8.00
// of food, 2.40 of electricity, 9.00 of wear and 6 x 0.50 of supplies: 22.40. A serving of 120 g
// is a thirtieth of it. 100 g of plums as eaten have 46 kcal and 0.7 g of protein (USDA SR28
// 09279), so 3.6 kg have 1656 kcal and 25.2 g.
func TestMeasuresByHand(t *testing.T) {
	g := kitchenWith(t, "2025-06-11", map[string]string{
		"foods.csv": "food,name,basis,fresh_days,serving,kcal,protein\nberries,Berries,mass,3,,,\nplums,Plums,mass,5,120 g,46,0.7\nonions,Onions,mass,1,,,\n",
		"shelf.csv": "date,shop,item,size,price\n2025-06-01,Mill Lane,plums,1 kg,8\n",
	})
	r, err := figures.Compare(g, figures.CompareQuery{})
	if err != nil || len(r.Foods) != 1 {
		t.Fatal(err, r.Foods)
	}
	over := func(a, b string) exact.Ratio { return num(a).Over(num(b)) }
	for m, want := range map[figures.Measure]exact.Ratio{
		figures.CostPerUnit: over("22.4", "3.6"), figures.CostPerServing: over("22.4", "30"),
		figures.CostPer1000Kcal: over("22400", "1656"), figures.CostPer100gProtein: over("2240", "25.2"),
		figures.FoodPerUnit: over("8", "3.6"), figures.ElectricityPerUnit: over("2.4", "3.6"), figures.SuppliesPerUnit: over("3", "3.6"),
		figures.WearPerUnit: over("9", "3.6"), figures.LabourPerUnit: over("0", "1"), figures.FoodPercent: over("800", "22.4"),
		figures.CostPerUnitWithLoss: over("22.4", "3.6"), figures.ShelfPerUnit: over("8", "1"), figures.SavingPerUnit: over("6.4", "3.6"), // 28.80 - 22.40
		figures.Saving: over("6.4", "1"), figures.MadeInAll: over("3.6", "1"), figures.CostInAll: over("22.4", "1"), figures.RunsInAll: over("1", "1"),
		figures.LowestPerUnit: over("22.4", "3.6"), figures.MedianPerUnit: over("22.4", "3.6"), figures.HighestPerUnit: over("22.4", "3.6"),
		figures.KWhPerUnit: over("12", "3.6"), figures.EarnedPerRun: over("15.4", "1"), // before wear
	} {
		if have, ok := r.Foods[0].Measure(m).Get(); !ok || !have.Equal(want) {
			t.Errorf("measure %d is %v, want %v", m, have, want)
		}
	}
	if r.Foods[0].Measure(figures.DeviationPerUnit).Given() {
		t.Error("one run has a deviation")
	}
}

// What earns most is the first where the foods are ranked so, and the last where the
// worst is first, of those that filled a run.
func TestCompareAnswersWhatEarnsMost(t *testing.T) {
	for _, worst := range []bool{false, true} {
		r, err := figures.Compare(whole(t, "sample"), figures.CompareQuery{Rank: figures.EarnedPerRun, Worst: worst})
		if err != nil || len(r.Foods) < 3 {
			t.Fatal(err)
		}
		want := -1
		for i := range r.Foods {
			f := &r.Foods[i]
			if f.Measure(figures.EarnedPerRun).Given() && f.Earned.Whole.Cmp(num("1").Over(num("1"))) >= 0 && (worst || want < 0) {
				want = i
			}
		}
		most, _ := r.Foods[want].Measure(figures.EarnedPerRun).Get()
		if a := r.Answer(); a.Best != want || !a.PerRun.Equal(most) || most.Sign() <= 0 {
			t.Errorf("food %d is said to earn most, %v, want %d", a.Best, a.PerRun, want)
		}
	}
}
