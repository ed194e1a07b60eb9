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
	var missing *figures.MissingError
	if !errors.As(err, &offers) || !errors.As(offers[0], &missing) || missing.Facts[0].Fact != figures.LengthFact {
		t.Errorf("without a length of cycles: %v", err)
	}
}

// What waits goes first: 6 kg of plums take two cycles of 30 hours, each with 2 hours
// between it and the next, so from midnight of the 11th until 16:00 of the 13th.
func TestQueueWaitsForWhatIsInHand(t *testing.T) {
	g := kitchenWith(t, "2025-06-11", nil)
	q := figures.WorthQuery{Item: "berries", Price: exact.Some(num("1")), Size: amount("1 kg"), Limit: exact.Some(5), Shelf: exact.Some(num("20")),
		Turnaround: 2 * time.Hour, FreshDays: exact.Some(9), Each: amount("1 kg"), PackCost: exact.Some(money("0"))}
	w, err := figures.Worth(g, q)
	if err != nil {
		t.Fatal(err)
	}
	if want := moment(t, g, "2025-06-13 16:00"); !w.Queue.Free.Equal(want) || len(w.Queue.First) != 1 || w.Queue.First[0].Cycles != 2 {
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
