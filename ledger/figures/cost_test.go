package figures_test

import (
	"errors"
	"slices"
	"testing"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/ledger/folder"
	"putby/pricing/exact"
)

// whole loads a ledger as figures of whole runs need it.
func whole(t testing.TB, dir string) *ledger.Ledger { return through(t, dir, exact.NoDate) }

// through loads a ledger as it was on a day.
func through(t testing.TB, dir string, day exact.Date) *ledger.Ledger {
	t.Helper()
	g, faults, err := folder.Load("../../testdata/"+dir, ledger.Options{Through: day, PricesThrough: day})
	if err != nil || len(faults) > 0 {
		t.Fatal(err, faults)
	}
	return g
}

// A query in which nothing is set asks for everything.
func TestZeroQueriesAskForEverything(t *testing.T) {
	g := whole(t, "sample")
	items := 0
	for i := range g.Runs {
		items += len(g.Runs[i].Items)
	}
	cost, err := figures.Cost(g, figures.CostQuery{})
	if err != nil || items == 0 || len(cost.Rows) != items {
		t.Errorf("%d rows of %d foods in runs (%v)", len(cost.Rows), items, err)
	}
	c, err := figures.Compare(g, figures.CompareQuery{})
	if err != nil || len(c.Foods) != len(packed(cost.Rows)) {
		t.Errorf("%d foods are compared, %d are packed (%v)", len(c.Foods), len(packed(cost.Rows)), err)
	}
}

// packed lists the foods of rows that have packs.
func packed(rows []figures.CostRow) (foods []int) {
	for i := range rows {
		if rows[i].Packed() && !slices.Contains(foods, rows[i].Food) {
			foods = append(foods, rows[i].Food)
		}
	}
	return foods
}

// However rows are summed, they come to the same totals.
func TestSumsOfCostsAgree(t *testing.T) {
	g := whole(t, "sample")
	for _, by := range []figures.By{figures.ByItem, figures.ByMonth, figures.ByMachine} {
		c, err := figures.Cost(g, figures.CostQuery{By: by})
		if err != nil {
			t.Fatal(err)
		}
		for _, total := range c.Totals {
			var good, lost exact.Money
			var made exact.Number
			for i := range c.Rows {
				if r := &c.Rows[i]; r.Unit == total.Unit {
					good, lost, made = good.Add(r.Good.Total()), lost.Add(r.Lost), made.Add(r.Made)
				}
			}
			if !good.Equal(total.Good) || !lost.Equal(total.Lost) || !made.Equal(total.Made) {
				t.Errorf("by %d: %v %v, lost %v, and the total has %v %v, lost %v", by, made, good, lost, total.Made, total.Good, total.Lost)
			}
		}
	}
}

// By hand (README works it out): the small ledger's run d1 made 3.5 L that cost
// 15.470417, and lost 2.769083.
func TestCostOfARun(t *testing.T) {
	g := whole(t, "small")
	c, err := figures.Cost(g, figures.CostQuery{Query: figures.Query{Item: "Tomato soup"}})
	if err != nil || len(c.Rows) != 1 || c.Food != c.Rows[0].Food {
		t.Fatal(err, len(c.Rows))
	}
	r := c.Rows[0]
	if !r.Made.Equal(exact.MustNumber("3.5")) || !r.Good.Total().Equal(exact.MustMoney("15.470417")) || !r.Lost.Equal(exact.MustMoney("2.769083")) {
		t.Errorf("%v L cost %v, lost %v", r.Made, r.Good.Total(), r.Lost)
	}
	each, ok := r.PerUnit().Get()
	if !ok || !each.Equal(exact.MustMoney("15.470417").Per(exact.MustNumber("3.5"))) {
		t.Errorf("a litre costs %v", each)
	}
}

func TestQueriesThatCannotBe(t *testing.T) {
	g := whole(t, "small")
	var unknown *figures.UnknownError
	if _, err := figures.Cost(g, figures.CostQuery{Query: figures.Query{Item: "pears"}}); !errors.As(err, &unknown) || unknown.Name != "pears" {
		t.Error(err)
	}
	var period *figures.FactError
	q := figures.Query{From: exact.MustDate("2025-03-02"), To: exact.MustDate("2025-03-01")}
	if _, err := figures.Compare(g, figures.CompareQuery{Query: q}); !errors.As(err, &period) || period.Fault != figures.Backwards || period.Than != q.From {
		t.Error(err)
	}
}

// A run of which less than four fifths of the usual is packed is told as such: as the other run made, 2 kg
// of plums make 1.8 kg, and 600 g of them are packed, or 1.2 kg, or 1.5 kg, which is more.
func TestCostTellsOfPacksToCome(t *testing.T) {
	for packed, short := range map[string]bool{"1,600 g": true, "2,600 g": true, "3,500 g": false} {
		g := kitchenWith(t, "2025-06-11", map[string]string{
			"runs.csv":   "run,machine,start,kwh\nr1,box,2025-06-01 08:00,12\nr2,box,2025-06-08 08:00,12\n",
			"phases.csv": "", "loads.csv": "run,item,quantity\nr1,plums,2 kg\nr2,plums,2 kg\n",
			"packs.csv": "pack,run,item,date,count,each\np1,r1,plums,2025-06-03,3,600 g\np2,r2,plums,2025-06-10," + packed + "\n",
		})
		r, err := figures.Cost(g, figures.CostQuery{})
		if err != nil || len(r.Rows) != 2 {
			t.Fatal(err)
		}
		told := slices.ContainsFunc(r.Rows[1].Notes, func(n figures.Note) bool { return n.Kind == figures.PackedInPart && n.Run == 1 })
		if told != short || slices.ContainsFunc(r.Rows[0].Notes, func(n figures.Note) bool { return n.Kind == figures.PackedInPart }) {
			t.Errorf("with %s packed it is told: %t", packed, told)
		}
	}
}

// Of the foods in store some cost less than the shelf asks, others do not, and of others nobody can tell:
// 3.6 kg of plums for 22.40 are 28.80 on the shelf at 8.00 a kg, and 14.40 at 4.00.
func TestCostCountsWhatPays(t *testing.T) {
	for shelf, want := range map[string][3]int{"8": {1, 0, 0}, "4": {0, 1, 0}, "": {0, 0, 1}} {
		files := map[string]string{}
		if shelf != "" {
			files["shelf.csv"] = "date,shop,item,size,price\n2025-06-01,Mill Lane,plums,1 kg," + shelf + "\n"
		}
		r, err := figures.Cost(kitchenWith(t, "2025-06-11", files), figures.CostQuery{})
		if a := r.Answer; err != nil || [3]int{a.Pays, a.PaysNot, a.Unpriced} != want {
			t.Errorf("at %q on the shelf: %+v (%v), want %v", shelf, a, err, want)
		}
	}
}

// Rows come in order of the runs' start, whatever their order in the records.
func TestCostIsByStart(t *testing.T) {
	g := kitchenWith(t, "2025-06-20", map[string]string{
		"runs.csv":  "run,machine,start,kwh\nr3,box,2025-06-15 08:00,12\nr1,box,2025-06-01 08:00,12\nr2,box,2025-06-11 08:00,12\n",
		"loads.csv": "run,item,quantity\nr1,plums,2 kg\nr2,plums,2 kg\nr3,plums,2 kg\n", "phases.csv": "",
	})
	r, err := figures.Cost(g, figures.CostQuery{})
	if err != nil || len(r.Rows) != 3 {
		t.Fatal(err)
	}
	for i, id := range []string{"r1", "r2", "r3"} {
		if have := g.Records.Runs[r.Rows[i].Run].ID; have != id {
			t.Errorf("row %d is of %s, want %s", i, have, id)
		}
	}
}
