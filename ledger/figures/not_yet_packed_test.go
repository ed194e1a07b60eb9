package figures_test

import (
	"slices"
	"testing"
	"time"

	"putby/ledger/figures"
	"putby/pricing"
	"putby/pricing/exact"
)

// morePlums is the kitchen with 3 kg of plums that are dried and in no pack, 2 kg
// that are in the machine, and berries too, which are another food.
var morePlums = map[string]string{
	"receipts.csv": kitchen["receipts.csv"] + "i,2025-06-01,Mill Lane,food,plums,5,1 kg,2\n",
	"runs.csv": "run,machine,start,kwh,outcome\nr1,box,2025-06-01 08:00,12,\nr2,box,2025-06-04 08:00,12,\n" +
		"r3,box,2025-06-11 06:00,,running\n",
	"phases.csv": kitchen["phases.csv"] + "r2,1,primary,30h,400\n",
	"loads.csv":  kitchen["loads.csv"] + "r2,plums,3 kg\nr3,plums,2 kg\nr3,berries,1 kg\n",
}

// plumsOffer asks about plums that turn after the 16th, of which 3 kg are used a
// month.
func plumsOffer() figures.WorthQuery {
	return figures.WorthQuery{
		Item: "plums", AsOf: exact.MustDate("2025-06-11"), Price: exact.Some(num("1")), Size: amount("1 kg"),
		Limit: exact.Some(90), Cycles: exact.Some(60), Shelf: exact.Some(num("4")), Use: amount("3 kg"),
	}
}

// By hand. 4 kg of plums gave 6 packs of 600 g, 3.6 kg or 0.9 of them; so the 3 kg that
// await packing give 2.7 kg, the 2 kg in the machine 1.8, and the 6 kg in hand, which turn
// sooner and go first, 5.4. In 18 months 54 kg are used, and there is room for
// 54 - 3.6 - 2.7 - 1.8 - 5.4 = 40.5 kg, of floor(40.5 / 0.9) = 45 packages; of half the use for 27 - 13.5 =
// 13.5 kg, and of a sixth for none.
func TestRoomIsLessWhatWillBePacked(t *testing.T) {
	g := kitchenWith(t, "2025-06-11", morePlums)
	given := func(change func(*figures.WorthQuery)) figures.WorthQuery {
		q := plumsOffer()
		change(&q)
		return q
	}
	dried, machine := figures.NotYetPacked{From: figures.FromDried, Amount: num("2.7")}, figures.NotYetPacked{From: figures.FromMachine, Amount: num("1.8")}
	for _, c := range []struct {
		what        string
		q           figures.WorthQuery
		coming      []figures.NotYetPacked
		stock, room string
		packages    int
	}{
		{"as recorded", plumsOffer(), []figures.NotYetPacked{dried, machine, {From: figures.FromHand, Amount: num("5.4")}}, "3.6", "40.5", 45},
		{"a stock that is given is what the packs are", given(func(q *figures.WorthQuery) { q.Stock = amount("1 kg") }),
			[]figures.NotYetPacked{dried, machine, {From: figures.FromHand, Amount: num("5.4")}}, "1", "43.1", 47},
		{"a yield that is given is of what is fresh", given(func(q *figures.WorthQuery) { q.Yield = exact.Some(num("0.5")) }),
			[]figures.NotYetPacked{dried, machine, {From: figures.FromHand, Amount: num("3")}}, "3.6", "42.9", 85},
		{"where the time is given, all in hand waits", given(func(q *figures.WorthQuery) {
			q.Start = exact.Some(time.Date(2025, 6, 13, 8, 0, 0, 0, time.UTC))
		}), []figures.NotYetPacked{dried, machine}, "3.6", "45.9", 51},
		{"what turns sooner goes before what is in hand", given(func(q *figures.WorthQuery) { q.FreshDays = exact.Some(1) }),
			[]figures.NotYetPacked{dried, machine}, "3.6", "45.9", 51},
	} {
		f, _, err := figures.Answer(g, c.q)
		if err != nil {
			t.Fatalf("%s: %v", c.what, err)
		}
		same := slices.EqualFunc(f.Use.NotYetPacked, c.coming, func(a, b figures.NotYetPacked) bool { return a.From == b.From && a.Amount.Equal(b.Amount) })
		if room := f.Use.Room(exact.RatioOf(num("3"))); !same || !f.Use.Stock.Equal(num(c.stock)) || !room.Equal(num(c.room)) {
			t.Errorf("%s: %v in packs, %v to come and room for %v, want %s, %v and %s", c.what, f.Use.Stock, f.Use.NotYetPacked, room, c.stock, c.coming, c.room)
		}
		if b := (pricing.Bound{Limit: pricing.UseLimit, Packages: c.packages}); !slices.Contains(f.Sale.Bounds(), b) {
			t.Errorf("%s: the bounds are %v, want %v", c.what, f.Sale.Bounds(), b)
		}
	}
	f, _, err := figures.Answer(g, plumsOffer())
	if err != nil || !f.Use.Room(ratioOf("1.5")).Equal(num("13.5")) || !f.Use.Room(ratioOf("0.5")).IsZero() {
		t.Errorf("of half the use there is room for %v (%v)", f.Use.Room(ratioOf("1.5")), err)
	}
}

// What is packed, or in hand and turns later, is no more counted than another food.
func TestNothingComesOfWhatIsPacked(t *testing.T) {
	g := kitchenWith(t, "2025-06-11", nil)
	q := plumsOffer()
	q.FreshDays = exact.Some(1)
	if f, _, err := figures.Answer(g, q); err != nil || len(f.Use.NotYetPacked) > 0 || !f.Use.Held().Equal(num("3.6")) {
		t.Errorf("%+v (%v)", f.Use, err)
	}
}

// A run of which more is packed than comes out of one says nothing of the yield: 4 kg of
// plums gave 3.6, and 3 kg that are in packs as 4.2 do not make that 7.8 of 7.
func TestYieldIsNotOfWhatIsPackedOver(t *testing.T) {
	files := map[string]string{"runs.csv": "run,machine,start,kwh\nr1,box,2025-06-01 08:00,12\nr2,box,2025-06-04 08:00,12\n",
		"loads.csv": kitchen["loads.csv"] + "r2,plums,3 kg\n", "packs.csv": kitchen["packs.csv"] + "p2,r2,plums,2025-06-06,7,600 g,\n"}
	files["receipts.csv"] = kitchen["receipts.csv"] + "i,2025-06-01,Mill Lane,food,plums,3,1 kg,2\n"
	g := kitchenWith(t, "2025-06-11", files)
	plums, _ := g.FindFood("plums")
	if y := figures.YieldOf(g, plums); !y.Ratio.Equal(ratioOf("0.9")) || len(y.Runs) != 1 {
		t.Errorf("the yield is %v, of runs %v", y.Ratio, y.Runs)
	}
}
