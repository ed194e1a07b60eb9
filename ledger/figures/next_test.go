package figures_test

import (
	"testing"
	"time"

	"putby/energy"
	"putby/ledger/figures"
	"putby/pricing/exact"
)

// By hand: at 18:00 nobody is there to load until 7:00 of the 12th, the last day of the berries; the plums
// can begin until 17:30 of the 13th. A run of 30 hours costs least from 17:30, with 19 hours at the
// lower price, but then the plums are too late: so the berries begin by 11:30.
func TestNextLeavesTimeWhileSomebodyIsThere(t *testing.T) {
	g := kitchenWith(t, "2025-06-11", map[string]string{
		"tariffs.csv": "tariff,start,end,rate\nhome,17:00,06:00,0.10\nhome,,,0.20\n",
		"receipts.csv": "receipt,date,shop,kind,item,count,size,price\na,2025-06-01,Mill Lane,machine,box,,,900\nb,2025-06-01,Mill Lane,supply,jar,20,,2\n" +
			"c,2025-06-01,Mill Lane,supply,absorber,30,,0.2\nd,2025-06-01,Mill Lane,supply,label,6,,0.1\ne,2025-06-01,Mill Lane,food,plums,4,1 kg,2\n" +
			"f,2025-06-08,Mill Lane,food,plums,5,1 kg,2\ng,2025-06-09,Mill Lane,food,berries,5,1 kg,3\n",
	})
	q := figures.WhenQuery{From: moment(t, g, "2025-06-11 18:00"), Days: 7, Step: 15 * time.Minute, Start: exact.Some(energy.Window{From: 7 * 60, To: 17*60 + 30})}
	list, err := figures.Next(g, q)
	if err != nil || len(list) != 2 {
		t.Fatalf("%+v (%v)", list, err)
	}
	for i, want := range []string{"2025-06-12 11:30", "2025-06-13 17:30"} {
		if n := list[i]; n.Runs != 1 || !n.Best.At.Equal(moment(t, g, want)) {
			t.Errorf("%s: %d runs from %v, want one from %s", g.Foods[n.Food].ID, n.Runs, n.Best.At, want)
		}
	}
	// While nobody ever is there, nothing is in time.
	q.Start, q.Finish = exact.Some(energy.Window{From: 60, To: 60 + 1}), exact.Some(energy.Window{From: 60, To: 60 + 1})
	if list, err = figures.Next(g, q); err != nil || list[0].Runs+list[1].Runs != 0 {
		t.Errorf("%+v (%v)", list, err)
	}
}

// By hand: the 8 kg of berries are two runs of 30 hours. Of those the first begins at once, at 10:00, and ends at
// 16:00 of the 12th, when nobody is there: so the second begins at 18:00 and ends at midnight of the 14th, when
// the plums begin. These can wait until the 14th is over; for that the second run of the berries has to begin by
// 10:30 of the 13th, before nobody is there again, and the first 30 hours before that.
func TestNextBeginsEachRunWhileSomebodyIsThere(t *testing.T) {
	g := kitchenWith(t, "2025-06-11", map[string]string{
		"receipts.csv": "receipt,date,shop,kind,item,count,size,price\na,2025-06-01,Mill Lane,machine,box,,,900\nb,2025-06-01,Mill Lane,supply,jar,20,,2\n" +
			"c,2025-06-01,Mill Lane,supply,absorber,30,,0.2\nd,2025-06-01,Mill Lane,supply,label,6,,0.1\ne,2025-06-01,Mill Lane,food,plums,4,1 kg,2\n" +
			"f,2025-06-09,Mill Lane,food,plums,5,1 kg,2\ng,2025-06-10,Mill Lane,food,berries,8,1 kg,3\n",
	})
	q := figures.WhenQuery{From: moment(t, g, "2025-06-11 10:00"), Days: 7, Step: 15 * time.Minute, Start: exact.Some(energy.Window{From: 18 * 60, To: 10*60 + 30})}
	list, err := figures.Next(g, q)
	if err != nil || len(list) != 2 {
		t.Fatalf("%+v (%v)", list, err)
	}
	for i, want := range []struct {
		runs               int
		best, ends, latest string
	}{{2, "2025-06-11 10:00", "2025-06-14 00:00", "2025-06-12 04:30"}, {1, "2025-06-14 00:00", "2025-06-15 06:00", "2025-06-14 23:59:59"}} {
		n := list[i]
		if n.Runs != want.runs || !n.Best.At.Equal(moment(t, g, want.best)) || !n.Ends.Equal(moment(t, g, want.ends)) || !n.Latest.Equal(moment(t, g, want.latest)) {
			t.Errorf("%s: %d runs from %v to %v, by %v; want %+v", g.Foods[n.Food].ID, n.Runs, n.Best.At, n.Ends, n.Latest, want)
		}
	}
}
