package figures_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"putby/energy"
	"putby/ledger"
	"putby/ledger/figures"
	"putby/pricing/exact"
)

// A lot is fresh food of the twin: how many loads of it there are, and how many
// days it keeps yet.
type lot struct{ loads, days, worth int }

// What the machine takes is worked out a second time, back to back against the
// days on which foods turn: by the rule, what turns first and of one day what is
// worth more, each where it still fits; and by every order of every set. Of foods
// of one load each no order takes more than [figures.Next]; of larger ones some
// may, since it does not give up what turns first for two that turn later. Each of
// its starts leaves all behind it in time. A run takes 9 of wear and 12 kWh at 0.20,
// which is more than 5 kg at 2 are worth: such food keeps no place.
func TestNextIsBruteForce(t *testing.T) {
	const hours = 20 // of a run
	rapid.Check(t, func(rt *rapid.T) {
		lots := rapid.SliceOfN(rapid.Custom(func(rt *rapid.T) lot {
			return lot{rapid.IntRange(1, 2).Draw(rt, "loads"), rapid.IntRange(0, 3).Draw(rt, "days"), rapid.IntRange(1, 4).Draw(rt, "worth")}
		}), 1, 4).Draw(rt, "lots")
		g := kitchenOf(t, lots)
		from := moment(t, g, "2025-06-11 10:00")
		list, err := figures.Next(g, figures.WhenQuery{From: from, Days: 7, Step: time.Hour})
		if err != nil || len(list) != len(lots) {
			rt.Fatal(err, len(list))
		}
		lotOf := func(n *figures.NextFood) (l lot) {
			_, err := fmt.Sscanf(g.Foods[n.Food].ID, "f%d", &l.loads)
			if err != nil {
				rt.Fatal(err)
			}
			return lots[l.loads]
		}
		last := func(l lot) time.Time { // the last second at which its last run begins
			return exact.MustDate("2025-06-11").AddDays(l.days + 1).Midnight(g.Settings.Zone).Add(-time.Second)
		}
		// The rule: what turns first, then what is worth more, each where it still fits.
		free, taken := from, 0
		for i := range list {
			n, l := &list[i], lotOf(&list[i])
			if i > 0 {
				b := lotOf(&list[i-1])
				if b.days > l.days || b.days == l.days && b.worth*b.loads < l.worth*l.loads {
					rt.Fatalf("%+v stands before %+v", b, l)
				}
			}
			begins := free.Add(time.Duration(l.loads-1) * hours * time.Hour)
			fits := !begins.After(last(l))
			if l.loses() {
				if fits && !n.Loses() {
					rt.Fatalf("%+v is in time and does not lose", l)
				}
				continue
			}
			if fits {
				free = begins.Add(hours * time.Hour)
				taken++
			}
			if fits != (n.Runs > 0) || fits && n.Runs != l.loads {
				rt.Fatalf("%+v fits: %v; %d runs", l, fits, n.Runs)
			}
		}
		pay := slices.DeleteFunc(slices.Clone(lots), lot.loses)
		if most := mostInTime(from, pay, last, hours*time.Hour); taken > most || single(pay) && taken < most {
			rt.Fatalf("%d are taken, and any order takes at most %d of %+v", taken, most, pay)
		}
		// Its starts follow each other, and none is so late that one behind it is.
		free = from
		for i := range list {
			n, l := &list[i], lotOf(&list[i])
			if n.Runs == 0 || l.loses() {
				continue
			}
			if n.Best.At.Before(free) || n.Best.At.After(n.Latest) || n.Best.At.Add(time.Duration(l.loads-1)*hours*time.Hour).After(last(l)) {
				rt.Fatalf("%+v starts at %v; free at %v, latest %v", l, n.Best.At, free, n.Latest)
			}
			free = n.Best.At.Add(time.Duration(l.loads) * hours * time.Hour)
		}
		// As late as may be: its last run begins while it is good, and all its runs end before the next food is due.
		var due time.Time
		for i := len(list) - 1; i >= 0; i-- {
			n, l := &list[i], lotOf(&list[i])
			if n.Runs == 0 || l.loses() {
				continue
			}
			late := last(l).Add(-time.Duration(l.loads-1) * hours * time.Hour)
			if first := due.Add(-time.Duration(l.loads) * hours * time.Hour); !due.IsZero() && first.Before(late) {
				late = first
			}
			if due = late; !n.Latest.Equal(late) {
				rt.Fatalf("%+v can wait until %v, want %v", l, n.Latest, late)
			}
		}
	})
}

// The same while somebody is there for some hours of the day alone, to load and to
// unload: the starts of all runs are found minute by minute. What is said to be in time
// is so with each of its runs begun once somebody is there, after all that is before it.
func TestNextHoursAreBruteForce(t *testing.T) {
	const hours = 20 // of a run
	rapid.Check(t, func(rt *rapid.T) {
		lots := rapid.SliceOfN(rapid.Custom(func(rt *rapid.T) lot {
			return lot{rapid.IntRange(1, 3).Draw(rt, "loads"), rapid.IntRange(0, 6).Draw(rt, "days"), 4}
		}), 1, 3).Draw(rt, "lots")
		g := kitchenOf(t, lots)
		from := moment(t, g, "2025-06-11 10:00")
		hour := func(least, most int, name string) energy.Clock {
			return energy.Clock(60 * rapid.IntRange(least, most).Draw(rt, name))
		}
		load := energy.Window{From: hour(0, 8, "from"), To: hour(9, 23, "to") + 7}
		unload := energy.Window{From: hour(0, 4, "awake"), To: 23*60 + 30}
		list, err := figures.Next(g, figures.WhenQuery{From: from, Days: 7, Step: time.Hour, Start: exact.Some(load), Finish: exact.Some(unload)})
		if err != nil {
			rt.Fatal(err)
		}
		clock := func(at time.Time) energy.Clock { return energy.Clock(at.Hour()*60 + at.Minute()) }
		within := func(w energy.Window, at time.Time) bool { return w.From <= clock(at) && clock(at) <= w.To }
		there := func(at time.Time) bool { return within(load, at) && within(unload, at.Add(hours*time.Hour)) }
		soonest := func(at time.Time) time.Time {
			for !there(at) {
				at = at.Add(time.Minute)
			}
			return at
		}
		// runs are the start and the end of so many, the first begun at a time.
		last := func(at time.Time, runs int) time.Time {
			for range runs - 1 {
				at = soonest(at.Add(hours * time.Hour))
			}
			return at
		}
		free, soon := from, from
		for i := range list {
			n := &list[i]
			s, _ := n.Slot.Get()
			turns := n.UseBy.AddDays(1).Midnight(g.Settings.Zone)
			begins := last(soonest(soon), s.Cycles) // on the hour, as steps are
			if fits := begins.Before(turns); fits != (n.Runs > 0) {
				rt.Fatalf("food %d fits: %v; %d runs", i, fits, n.Runs)
			}
			if n.Runs == 0 {
				continue
			}
			soon = begins.Add(hours * time.Hour)
			if at := last(n.Best.At, n.Runs); !there(n.Best.At) || n.Best.At.Before(free) || !at.Before(turns) || !n.Ends.Equal(at.Add(hours*time.Hour)) {
				rt.Fatalf("food %d starts at %v, its last run at %v, and ends at %v; free at %v, turns at %v", i, n.Best.At, at, n.Ends, free, turns)
			}
			if at := last(n.Latest, n.Runs); !there(n.Latest) || !at.Before(turns) {
				rt.Fatalf("food %d can wait until %v", i, n.Latest)
			}
			free = n.Ends
		}
	})
}

// kitchenOf is a kitchen with such food in hand, bought the day before, and one machine.
func kitchenOf(t *testing.T, lots []lot) *ledger.Ledger {
	t.Helper()
	var foods, receipts, shelf strings.Builder
	for i, l := range lots {
		fmt.Fprintf(&foods, "f%d,mass,%d,24\n", i, l.days+1)
		fmt.Fprintf(&receipts, "r%d,2025-06-10,Mill Lane,food,f%d,%d,5 kg,2\n", i, i, l.loads)
		fmt.Fprintf(&shelf, "2025-06-01,Mill Lane,f%d,1 kg,%d\n", i, l.worth)
	}
	return kitchenWith(t, "2025-06-11", map[string]string{
		"foods.csv":    "food,basis,fresh_days,keep_months\nplums,mass,30,24\n" + foods.String(),
		"receipts.csv": "receipt,date,shop,kind,item,count,size,price\na,2025-06-01,Mill Lane,machine,box,1,,900\nb,2025-06-01,Mill Lane,food,plums,1,4 kg,2\n" + receipts.String(),
		"runs.csv":     "run,machine,start,end,kwh\nr1,box,2025-06-01 08:00,2025-06-02 04:00,12\n",
		"shelf.csv":    "date,shop,item,size,price\n" + shelf.String(),
		"phases.csv":   "run,step,phase,duration,watts\n", "supplies.csv": "supply,kind\n", "packs.csv": "pack,run,item,date,count,each\n",
	})
}

// loses reports whether a run of it costs more than it is worth: 11.40 a load.
func (l lot) loses() bool { return 5*l.worth < 11 }

// single reports whether all foods are of one load.
func single(lots []lot) bool {
	for _, l := range lots {
		if l.loads > 1 {
			return false
		}
	}
	return true
}

// mostInTime tries every order of every set.
func mostInTime(from time.Time, rest []lot, last func(lot) time.Time, run time.Duration) (most int) {
	for i, l := range rest {
		begins := from.Add(time.Duration(l.loads-1) * run)
		if begins.After(last(l)) {
			continue
		}
		others := append(append([]lot{}, rest[:i]...), rest[i+1:]...)
		most = max(most, 1+mostInTime(begins.Add(run), others, last, run))
	}
	return most
}
