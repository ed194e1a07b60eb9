package figures_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"
	"time"

	"putby/ledger/figures"
	"putby/pricing"
	"putby/pricing/exact"
)

// hours are prices of the first days of June, hour by hour, until midnight of a day.
func hours(until int) string {
	var b strings.Builder
	b.WriteString("time,rate\n")
	for day := 1; day < until; day++ {
		for hour := range 24 {
			fmt.Fprintf(&b, "2025-06-%02d %02d:00,0.20\n", day, hour)
		}
	}
	return b.String()
}

// Prices are known until midnight of the 13th. Two cycles of 30 hours from midnight of the
// 11th end at noon of that day, the second in hours that are a guess; one does not. So it is
// for one food after another: who comes first is not marked.
func TestPlanMarksGuessedHours(t *testing.T) {
	g := kitchenWith(t, "2025-06-11", map[string]string{
		"tariffs.csv": "tariff,rate,hourly\nhome,0,yes\n", "rates/home.csv": hours(13),
	})
	if w, err := figures.WeekOf(g.Records, figures.TariffQuery{Date: g.AsOf}); err != nil || !w.IsHourly() {
		t.Errorf("the tariff is not by the hour (%v)", err)
	}
	// The prices of the 12th hold three hours at most after its last: until 2:00 of the 13th.
	for _, c := range []struct {
		date   string
		latest bool
		want   string
	}{{"2025-06-05", true, "2025-06-05"}, {"2025-07-01", true, "2025-06-13"}, {"2025-07-01", false, "2025-07-01"}} {
		if w, err := figures.WeekOf(g.Records, figures.TariffQuery{Date: exact.MustDate(c.date), Latest: c.latest}); err != nil || w.Week.Date.String() != c.want {
			t.Errorf("of %s, the latest: %t, the week of %v is drawn (%v), want %s", c.date, c.latest, w.Week.Date, err, c.want)
		}
	}
	offer := func(item string, limit int) figures.WorthQuery {
		return figures.WorthQuery{Item: item, Price: exact.Some(num("1")), Size: amount("1 kg"), Limit: exact.Some(limit), Shelf: exact.Some(num("20")),
			Start: exact.Some(moment(t, g, "2025-06-11 00:00")), FreshDays: exact.Some(5), Each: amount("1 kg"), PackCost: exact.Some(money("0"))}
	}
	later := offer("berries", 1)
	later.Start = exact.Some(moment(t, g, "2025-06-13 12:00"))
	if w, err := figures.Worth(g, later); err != nil || w.HoursGuessed(w.Row(0)) || !w.HoursGuessed(w.Row(1)) {
		t.Errorf("a row without a cycle is marked, or one with a cycle is not (%v)", err)
	}
	for limit, marked := range map[int]bool{5: false, 10: true} {
		if w, err := figures.Worth(g, offer("berries", limit)); err != nil || w.Best.Packages != limit || w.HoursGuessed(w.Best) != marked {
			t.Errorf("an answer of %d packages is marked: %t (%v)", w.Best.Packages, w.HoursGuessed(w.Best), err)
		}
	}
	for _, c := range []struct {
		offers []figures.WorthQuery
		marked []bool // stretches, in their order
	}{
		{[]figures.WorthQuery{offer("berries", 10)}, []bool{true}},
		{[]figures.WorthQuery{offer("berries", 5)}, []bool{false}},
		{[]figures.WorthQuery{offer("berries", 5), offer("plums", 5)}, []bool{false, true}},
	} {
		p, err := figures.Plan(g, c.offers, exact.Opt[exact.Money]{})
		if err != nil || len(p.Order) != len(c.marked) {
			t.Fatalf("%d stretches (%v), want %d", len(p.Order), err, len(c.marked))
		}
		for i, s := range p.Order {
			if s.PricesGuessed != c.marked[i] {
				t.Errorf("stretch %d, from %v to %v, is marked: %t", i, s.Start.Format(time.DateTime), s.End.Format(time.DateTime), s.PricesGuessed)
			}
		}
	}
}

// A plan lays cycles out on the clock, so it cannot do without their length, even where
// an answer to each offer alone can.
func TestPlanNeedsALength(t *testing.T) {
	g := kitchenWith(t, "2025-06-11", map[string]string{"runs.csv": "", "phases.csv": "", "loads.csv": "", "packs.csv": ""})
	q := figures.WorthQuery{Item: "berries", Price: exact.Some(num("1")), Size: amount("1 kg"), Limit: exact.Some(5), Shelf: exact.Some(num("20")),
		Cycles: exact.Some(1), KWh: exact.Some(num("12")), Each: amount("1 kg"), PackCost: exact.Some(money("0"))}
	if _, err := figures.Worth(g, q); err != nil {
		t.Fatal(err)
	}
	_, err := figures.Plan(g, []figures.WorthQuery{q}, exact.Opt[exact.Money]{})
	var offers figures.OfferErrors
	var missing *figures.FactError
	if !errors.As(err, &offers) || !errors.As(offers[0], &missing) || len(missing.Missing) == 0 || missing.Missing[0].Fact != figures.LengthFact {
		t.Errorf("without a length of cycles: %v", err)
	}
}

// What waits goes first: 8 kg of berries and 6 kg of plums, which both turn on the 13th, take
// two cycles of 30 hours each, with 2 hours between one and the next: 128 hours from midnight
// of the 11th, until 8:00 of the 16th. That the berries were never dried does not count: what
// is known to keep once it is packed is meant to be, as for the day's list.
func TestQueueWaitsForWhatIsInHand(t *testing.T) {
	g := kitchenWith(t, "2025-06-11", nil)
	q := figures.WorthQuery{Item: "berries", Price: exact.Some(num("1")), Size: amount("1 kg"), Limit: exact.Some(5), Shelf: exact.Some(num("20")),
		Turnaround: 2 * time.Hour, FreshDays: exact.Some(9), Each: amount("1 kg"), PackCost: exact.Some(money("0"))}
	w, err := figures.Worth(g, q)
	if err != nil {
		t.Fatal(err)
	}
	if want := moment(t, g, "2025-06-16 08:00"); !w.Queue.Free.Equal(want) || len(w.Queue.First) != 2 || w.Queue.First[1].Slot.Or(figures.Slot{}).Cycles != 2 {
		t.Errorf("the machine is free at %v, after %+v, want %v", w.Queue.Free, w.Queue.First, want)
	}
}

// By hand: 28 kg are six cycles of 5 kg, the last of 3 kg. Three end before it turns after four
// days; the rest waits frozen, and what the cycles dry is all of it.
func TestPlanDriesAllThatItFreezes(t *testing.T) {
	g := kitchenWith(t, "2025-06-11", map[string]string{
		"settings.csv": kitchen["settings.csv"] + "freezer_volume,200 L\n",
		"foods.csv":    "food,name,basis,density,fresh_days,frozen_days\nberries,Berries,mass,1,4,270\nplums,Plums,mass,,5,\nonions,Onions,mass,,1,\n",
	})
	p, err := figures.Plan(g, []figures.WorthQuery{{Item: "berries", Price: exact.Some(num("1")), Size: amount("1 kg"), Limit: exact.Some(28), Shelf: exact.Some(num("20")),
		Start: exact.Some(moment(t, g, "2025-06-11 00:00")), Each: amount("1 kg"), PackCost: exact.Some(money("0"))}}, exact.Opt[exact.Money]{})
	if err != nil || len(p.Rows) != 1 || len(p.Order) != 2 {
		t.Fatalf("%+v (%v)", p, err)
	}
	if fresh, frozen := p.Order[0], p.Order[1]; fresh.Frozen || !frozen.Frozen || fresh.Cycles != 3 || frozen.Cycles != 3 ||
		!fresh.Amount.Equal(num("15")) || !frozen.Amount.Equal(num("13")) || !p.Frozen.Equal(num("13")) || !p.Rows[0].Row.Dried.Equal(num("28")) {
		t.Errorf("%d cycles dry %v fresh, and %d dry %v of %v frozen", fresh.Cycles, fresh.Amount, frozen.Cycles, frozen.Amount, p.Frozen)
	}
}

// By hand: nothing is dried within a day, and the freezer holds 5 kg of the dearer food. The other
// alone would be frozen in its place: 5 kg at 10, less 5 for it and 11.40 for its run, are 33.60.
func TestPlanLeavesOutWhatTheFreezerCannotHold(t *testing.T) {
	g := kitchenWith(t, "2025-06-11", map[string]string{
		"settings.csv": kitchen["settings.csv"] + "freezer_volume,5 L\n",
		"foods.csv":    "food,name,basis,density,fresh_days,frozen_days\nberries,Berries,mass,1,1,270\nplums,Plums,mass,1,1,270\nonions,Onions,mass,,1,\n",
	})
	offer := func(item, shelf string) figures.WorthQuery {
		return figures.WorthQuery{Item: item, Price: exact.Some(num("1")), Size: amount("1 kg"), Limit: exact.Some(5), Shelf: exact.Some(num(shelf)),
			Start: exact.Some(moment(t, g, "2025-06-11 00:00")), Each: amount("1 kg"), PackCost: exact.Some(money("0"))}
	}
	p, err := figures.Plan(g, []figures.WorthQuery{offer("plums", "20"), offer("berries", "10")}, exact.Opt[exact.Money]{})
	if err != nil || len(p.Rows) != 1 || len(p.Left) != 1 || p.Rows[0].Query.Item != "plums" {
		t.Fatalf("%+v (%v), want plums alone", p, err)
	}
	if l := p.Left[0]; l.Alone.Packages != 5 || l.Alone.Saving.Cmp(num("33.6").Over(num("1"))) != 0 || !l.Frozen {
		t.Errorf("alone %d packages of berries would save %v, frozen: %t", l.Alone.Packages, l.Alone.Saving.Round(2, exact.HalfEven), l.Frozen)
	}
}

// What packages cost under an offer is known up to a number, and a plan buys no more, though the
// freezer would take them: three cycles of 5 kg before it turns are 1500 packages of 10 g.
func TestPlanBuysWhatHasAPrice(t *testing.T) {
	g := kitchenWith(t, "2025-06-11", map[string]string{
		"settings.csv": kitchen["settings.csv"] + "freezer_volume,200 L\n",
		"foods.csv":    "food,name,basis,density,fresh_days,frozen_days\nberries,Berries,mass,1,4,270\nplums,Plums,mass,,5,\nonions,Onions,mass,,1,\n",
	})
	offer, err := pricing.ParseOffer("3 for 2")
	if err != nil {
		t.Fatal(err)
	}
	p, err := figures.Plan(g, []figures.WorthQuery{{Item: "berries", Price: exact.Some(num("0.01")), Size: amount("10 g"), Limit: exact.Some(3000), Offer: offer, Shelf: exact.Some(num("20")),
		Start: exact.Some(moment(t, g, "2025-06-11 00:00")), Each: amount("1 kg"), PackCost: exact.Some(money("0"))}}, exact.Opt[exact.Money]{})
	if err != nil || len(p.Rows) != 1 || p.Rows[0].Row.Packages != 1500 {
		t.Errorf("%+v (%v), want 1500 packages", p, err)
	}
}

// behind is an offer of berries at 1 a kg, which turn after so many days, with nothing else in
// hand but plums that turn on a day.
func behind(t *testing.T, plumDays, days int) *figures.WorthResult {
	t.Helper()
	g := kitchenWith(t, "2025-06-11", map[string]string{
		"foods.csv": strings.Replace(kitchen["foods.csv"], "plums,Plums,mass,5", fmt.Sprintf("plums,Plums,mass,%d", plumDays), 1),
		"receipts.csv": "receipt,date,shop,kind,item,count,size,price\na,2025-06-01,Mill Lane,machine,box,,,900\n" +
			"e,2025-06-01,Mill Lane,food,plums,4,1 kg,2\nf,2025-06-08,Mill Lane,food,plums,6,1 kg,2\n",
		"supplies.csv": "", "packs.csv": "",
	})
	w, err := figures.Worth(g, figures.WorthQuery{Item: "berries", Price: exact.Some(num("1")), Size: amount("1 kg"), Limit: exact.Some(99), Shelf: exact.Some(num("20")),
		Turnaround: 2 * time.Hour, FreshDays: exact.Some(days), Each: amount("1 kg"), PackCost: exact.Some(money("0"))})
	if err != nil {
		t.Fatal(err)
	}
	return w
}

// By hand: 6 kg of plums are two cycles of 30 hours. Where they turn on the 17th and the berries
// on the 20th they go first, so the machine is free 64 hours after midnight of the 11th, and of the
// 216 hours until the 20th 152 are left: four cycles of 32. Where they keep until the 21st
// they wait: 216 hours are six cycles, of 30 kg, and the plums' last cycle can begin 6 and one more
// cycles of 32 hours later, on the 20th at 8:00.
func TestWhatKeepsLongerWaits(t *testing.T) {
	for _, c := range []struct {
		plumDays      int
		first, behind int
		free          string
		most          int
	}{{9, 1, 0, "2025-06-13 16:00", 20}, {12, 1, 0, "2025-06-13 16:00", 20}, {13, 0, 1, "2025-06-11 00:00", 30}} {
		w := behind(t, c.plumDays, 9)
		free := w.Queue.Free.Format("2006-01-02 15:04")
		if len(w.Queue.First) != c.first || len(w.Queue.Behind) != c.behind || free != c.free || w.Most != c.most {
			t.Errorf("plums of %d days: %d foods go first, %d wait, from %s on %d packages are in time, want %+v", c.plumDays, len(w.Queue.First), len(w.Queue.Behind), free, w.Most, c)
		}
	}
	w := behind(t, 13, 9)
	if s := w.BehindAfter(6)[0].Slot.Or(figures.Slot{}); s.Last.Format("2006-01-02 15:04") != "2025-06-20 08:00" || !s.InTime {
		t.Errorf("behind six cycles the plums' last begins at %v", s.Last)
	}
	if s := w.BehindAfter(8)[0].Slot.Or(figures.Slot{}); s.InTime {
		t.Errorf("behind eight cycles the plums' last, at %v, is in time", s.Last)
	}
}

// By hand: of plums that turn after 4 days 6 kg were bought on the 8th and 5 kg on the
// 11th. Their cycles begin on the 11th at 0:00, the 12th at 8:00 and the 13th at 16:00:
// the third holds what turns on the 15th alone, so all are in time, though the first
// of them turn on the 12th. How much broth a cycle takes nothing tells, since that is
// counted in litres, and the machine takes kilograms.
func TestWhatGoesFirst(t *testing.T) {
	g := kitchenWith(t, "2025-06-11", map[string]string{
		"foods.csv": strings.Replace(kitchen["foods.csv"], "plums,Plums,mass,5", "broth,Broth,volume,6,,\nplums,Plums,mass,4", 1),
		"receipts.csv": "receipt,date,shop,kind,item,count,size,price\na,2025-06-01,Mill Lane,machine,box,,,900\n" +
			"e,2025-06-01,Mill Lane,food,plums,4,1 kg,2\nf,2025-06-08,Mill Lane,food,plums,6,1 kg,2\ng,2025-06-11,Mill Lane,food,plums,5,1 kg,2\n" +
			"h,2025-06-05,Mill Lane,food,broth,4,1 L,2\ni,2025-06-10,Mill Lane,food,broth,3,1 L,2\n",
		"runs.csv":     "run,machine,start,kwh\nr1,box,2025-06-01 08:00,12\nr2,box,2025-06-06 08:00,12\n",
		"phases.csv":   "run,step,phase,duration,watts\nr1,1,primary,30h,400\nr2,1,primary,30h,400\n",
		"loads.csv":    "run,item,quantity\nr1,plums,4 kg\nr2,broth,4 L\n",
		"supplies.csv": "", "packs.csv": "",
	})
	w, err := figures.Worth(g, figures.WorthQuery{Item: "berries", Price: exact.Some(num("1")), Size: amount("1 kg"), Limit: exact.Some(99), Shelf: exact.Some(num("20")),
		Turnaround: 2 * time.Hour, FreshDays: exact.Some(9), Each: amount("1 kg"), PackCost: exact.Some(money("0"))})
	if err != nil {
		t.Fatal(err)
	}
	q := &w.Queue
	if len(q.First) != 1 || len(q.Unknown) != 1 || g.Foods[q.Unknown[0].Food].ID != "broth" || !q.Unknown[0].Quantity.Equal(num("3")) {
		t.Fatalf("first %+v, unknown %+v", q.First, q.Unknown)
	}
	s := q.First[0].Slot.Or(figures.Slot{})
	if s.Cycles != 3 || s.Last.Format("2006-01-02 15:04") != "2025-06-13 16:00" || !s.InTime || q.First[0].UseBy.String() != "2025-06-12" {
		t.Errorf("plums by %v: %+v", q.First[0].UseBy, s)
	}
}

// The machine of a plan takes food in hand between two offers: 10 kg of berries that turn on the
// 14th go before the plums in hand, which keep until the 17th, and onions that keep until the
// 25th go behind them. Cycles of 30 hours, two of each: from midnight of the 11th the berries
// end on the 13th at noon, the plums would on the 16th at 0:00, where the onions begin.
func TestPlanTakesFoodInHandBetweenOffers(t *testing.T) {
	g := kitchenWith(t, "2025-06-11", map[string]string{
		"foods.csv": "food,name,basis,fresh_days\nberries,Berries,mass,3\nplums,Plums,mass,9\nonions,Onions,mass,14\n",
		"receipts.csv": "receipt,date,shop,kind,item,count,size,price\na,2025-06-01,Mill Lane,machine,box,,,900\n" +
			"e,2025-06-01,Mill Lane,food,plums,4,1 kg,2\nf,2025-06-08,Mill Lane,food,plums,6,1 kg,2\n",
		"supplies.csv": "", "packs.csv": "",
	})
	offer := func(item string) figures.WorthQuery {
		return figures.WorthQuery{Item: item, Price: exact.Some(num("1")), Size: amount("1 kg"), Limit: exact.Some(10), Shelf: exact.Some(num("20")), Each: amount("1 kg"), PackCost: exact.Some(money("0"))}
	}
	for _, items := range [][]string{{"berries", "onions"}, {"onions", "berries"}} {
		p, err := figures.Plan(g, []figures.WorthQuery{offer(items[0]), offer(items[1])}, exact.Opt[exact.Money]{})
		if err != nil || len(p.Order) != 2 {
			t.Fatalf("%+v (%v)", p, err)
		}
		if p.Free.Format("02 15:04") != "11 00:00" || p.Busy != 180*time.Hour {
			t.Errorf("free from %v, busy for %v", p.Free, p.Busy)
		}
		for i, want := range []string{"berries 11 00:00 13 12:00", "onions 16 00:00 18 12:00"} {
			s := p.Order[i]
			if have := fmt.Sprint(g.Foods[s.Bought].ID, s.Start.Format(" 02 15:04"), s.End.Format(" 02 15:04")); have != want {
				t.Errorf("%s, want %s", have, want)
			}
			if r := p.Rows[i]; !r.Start.Equal(s.Start) || !r.End.Equal(s.End) || r.Row.Packages != 10 {
				t.Errorf("%d packages from %v to %v", r.Row.Packages, r.Start, r.End)
			}
		}
	}
}

// Between the 14th and the 15th lies a day, and the 6 kg of plums in hand that turn on the 15th
// take 60 hours: of the 96 until then 36 are left for offers, one cycle of 30. So no plan has one
// of each, and the food that turns sooner does not take what the later one needs.
func TestPlanLeavesTimeBehindFoodInHand(t *testing.T) {
	g := kitchenWith(t, "2025-06-11", map[string]string{
		"foods.csv": "food,name,basis,fresh_days\nberries,Berries,mass,3\nplums,Plums,mass,7\nonions,Onions,mass,4\n",
		"receipts.csv": "receipt,date,shop,kind,item,count,size,price\na,2025-06-01,Mill Lane,machine,box,,,900\n" +
			"e,2025-06-01,Mill Lane,food,plums,4,1 kg,2\nf,2025-06-08,Mill Lane,food,plums,6,1 kg,2\n",
		"supplies.csv": "", "packs.csv": "",
	})
	offer := func(item, shelf string) figures.WorthQuery {
		return figures.WorthQuery{Item: item, Price: exact.Some(num("1")), Size: amount("1 kg"), Limit: exact.Some(10), Shelf: exact.Some(num(shelf)), Each: amount("1 kg"), PackCost: exact.Some(money("0"))}
	}
	p, err := figures.Plan(g, []figures.WorthQuery{offer("onions", "30"), offer("berries", "20")}, exact.Opt[exact.Money]{})
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range p.Order {
		if by, ok := s.By.Get(); ok && s.End.After(by) {
			t.Errorf("%s turns at %v, and its last cycle ends at %v", g.Foods[s.Bought].ID, by, s.End)
		}
	}
	if len(p.Order) != 1 || g.Foods[p.Order[0].Bought].ID != "onions" {
		t.Errorf("%d stretches: %+v", len(p.Order), p.Order)
	}
}
