package figures_test

import (
	"strings"
	"testing"
	"time"

	"putby/energy"
	"putby/ledger/figures"
	"putby/pricing/exact"
)

// By hand, on 11 June: June spent 900 + 40 + 6 + 0.60 on things, 45 on food and
// 12 kWh at 0.20; May spent nothing. The six packs of plums cost 8 + 2.40 + 9 of
// wear, and each 0.20 + 0.20 + 0.10 of jar, absorber and label: 22.40, of which two
// cost 7.466668, with the two millionths that a sixth leaves over. 3 of that is
// wear. Two times 0.6 kg at 4.00 on the shelf are 4.80: -2.666668 is saved, and
// 0.333332 of 900 earned back.
func TestToday(t *testing.T) {
	g := kitchenWith(t, "2025-06-11", map[string]string{
		"draws.csv": "date,pack,quantity\n2025-06-05,p1,2\n2025-06-20,p1,1\n",
		"shelf.csv": "date,shop,item,size,price\n2025-06-01,Mill Lane,plums,1 kg,4\n",
	})
	now := moment(t, g, "2025-06-11 10:00")
	r, err := figures.Today(g, figures.TodayQuery{Now: now})
	if err != nil {
		t.Fatal(err)
	}
	if len(r.Store) != 1 || r.Store[0].Left != 4 || len(r.Fresh) != 3 || len(r.Loads) != 1 || len(r.Running)+len(r.Awaiting) != 0 {
		t.Errorf("%+v", r)
	}
	for i := range r.Fresh { // what to dry next was not asked for
		if r.NextOf(&r.Fresh[i]) != nil {
			t.Errorf("%+v has a start", r.Fresh[i])
		}
	}
	if len(r.Later) != 1 || r.Later[0].Date.String() != "2025-06-20" {
		t.Errorf("later: %+v", r.Later)
	}
	m, ok := r.Month.Get()
	if !ok || m.HasLast || !m.This.Spent.Total().Equal(exact.MustMoney("994")) || m.This.Key != "2025-06" ||
		!m.This.Saved.Equal(exact.RatioOf(exact.MustNumber("-2.666668"))) {
		t.Errorf("month: %v spent, %v saved, %+v", m.This.Spent.Total(), m.This.Saved, m)
	}
	p, ok := r.Payback.Get()
	if !ok || !p.Target.Equal(exact.MustMoney("900")) || !p.Earned.Equal(exact.RatioOf(exact.MustNumber("0.333332"))) || p.Paid || p.By.Key != "" {
		t.Errorf("payback: %+v", p)
	}
	if r, err = figures.Today(g, figures.TodayQuery{Now: now, Faulty: true}); err != nil || r.Month.Given() || r.Payback.Given() || len(r.Fresh) != 3 || r.Loads != nil {
		t.Errorf("of faulty records %+v, %v", r, err)
	}
}

// What is running is told with how long it has been, and until when the last one
// like it would have taken; of the month before, all of it is beside.
func TestTodayRunning(t *testing.T) {
	g := kitchenWith(t, "2025-07-01", map[string]string{
		"runs.csv":  "run,machine,start,kwh,outcome\nr1,box,2025-06-01 08:00,12,good\nr2,box,2025-06-30 20:00,,running\n",
		"loads.csv": "run,item,quantity\nr1,plums,4 kg\nr2,berries,5 kg\nr2,plums,1 kg\n",
	})
	r, err := figures.Today(g, figures.TodayQuery{Now: moment(t, g, "2025-07-01 06:30")})
	if err != nil || len(r.Running) != 1 {
		t.Fatal(err, r)
	}
	n := r.Running[0]
	end, ok := n.End.Get()
	if n.For != 10*time.Hour+30*time.Minute || !ok || !end.Equal(moment(t, g, "2025-07-02 02:00")) || len(n.Foods) != 2 {
		t.Errorf("%+v", n)
	}
	m, _ := r.Month.Get()
	if !m.HasLast || m.Last.Key != "2025-06" || !m.Last.Spent.Total().Equal(exact.MustMoney("994")) || !m.This.Spent.Total().IsZero() {
		t.Errorf("%+v", m)
	}
}

// What is best done with the fresh food of 11 June, by hand: onions have turned. A run of
// 5 kg of berries takes 9 of wear and 12 kWh at 0.20, which is 11.40: at 2.28 a kilogram
// they are worth just as much, and at 2.27 they would be better thrown away than dried in
// a run of their own, so they are frozen. Plums, worth less, are too late behind berries
// that are dried; those that are not leave them the machine, and 5 kg at 1.00 lose too.
// Plums are packed, and nothing is due of them. Older berries that have turned come before
// those to be frozen, since freezing takes the oldest.
func TestToDo(t *testing.T) {
	const older = "i,2025-06-02,Mill Lane,food,berries,1,1 kg,3\n"
	for _, c := range []struct{ berries, receipts, want string }{
		{"2.28", "", "dry berries, use plums, look over onions, eat plums"},
		{"2.27", "", "freeze berries at a loss, use plums at a loss, look over onions, eat plums"},
		{"2.28", older, "dry berries, use plums, look over berries, look over onions, eat plums"},
		{"2.27", older, "look over berries, freeze berries at a loss, use plums at a loss, look over onions, eat plums"},
	} {
		g := kitchenWith(t, "2025-06-11", map[string]string{
			"shelf.csv":    "date,shop,item,size,price\n2025-06-01,Mill Lane,berries,1 kg," + c.berries + "\n2025-06-01,Mill Lane,plums,1 kg,1\n",
			"receipts.csv": kitchen["receipts.csv"] + c.receipts,
		})
		q := figures.TodayQuery{Now: moment(t, g, "2025-06-11 10:00"), Start: exact.Some(energy.Window{From: 7 * 60, To: 22 * 60})}
		r, err := figures.Today(g, q)
		if err != nil {
			t.Fatal(err)
		}
		names := map[figures.Task]string{figures.LookOver: "look over ", figures.DryFresh: "dry ", figures.UseFresh: "use ", figures.EatPack: "eat "}
		var have []string
		for _, do := range r.ToDo(g) {
			words := names[do.Task]
			if do.Freeze {
				words = "freeze "
			}
			if do.Pack != nil {
				words += g.Foods[do.Pack.Food].ID
			} else {
				words += g.Foods[do.Fresh.Food].ID
			}
			if do.Loses() {
				words += " at a loss"
			}
			if have = append(have, words); do.Urgent != (do.Fresh != nil) {
				t.Errorf("%s: urgent %v", words, do.Urgent)
			}
		}
		if said := strings.Join(have, ", "); said != c.want {
			t.Errorf("berries at %s: %s", c.berries, said)
		}
	}
}

// What Next says of fresh food is of that food, of the same day, and not frozen.
func TestNextOfWhatIsInHand(t *testing.T) {
	plums := figures.Waiting{Food: 1, UseBy: exact.MustDate("2025-06-13")}
	berries := figures.Waiting{Food: 0, UseBy: exact.MustDate("2025-06-13")}
	later, frozen := plums, plums
	later.UseBy, frozen.Frozen = exact.MustDate("2025-06-15"), true
	r := figures.TodayResult{Next: []figures.NextFood{{Waiting: berries}, {Waiting: plums}}}
	if r.NextOf(&berries) != &r.Next[0] || r.NextOf(&plums) != &r.Next[1] || r.NextOf(&later) != nil || r.NextOf(&frozen) != nil {
		t.Error("Next is taken for other food")
	}
}
