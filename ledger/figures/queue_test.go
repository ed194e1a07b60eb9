package figures_test

import (
	"errors"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/ledger/folder"
	"putby/pricing/exact"
)

// kitchen is a household with a machine that takes 5 kg in 30 hours, and with
// fresh food in hand on 11 June.
var kitchen = map[string]string{
	"settings.csv": "setting,value\nformat,1\ncurrency,EUR\nzone,Europe/Vienna\ntariff,home\n",
	"tariffs.csv":  "tariff,rate\nhome,0.20\n",
	"foods.csv": "food,name,basis,fresh_days,frozen_days,keep_months\n" +
		"berries,Berries,mass,3,270,24\nplums,Plums,mass,5,,18\nonions,Onions,mass,1,,\n",
	"machines.csv": "machine,load_mass,cycles\nbox,5 kg,100\n",
	"supplies.csv": "supply,kind,uses,capacity\njar,jar,10,1 L\nabsorber,absorber,1,300 cc\nlabel,label,1,\n",
	"receipts.csv": "receipt,date,shop,kind,item,count,size,price\n" +
		"a,2025-06-01,Mill Lane,machine,box,,,900\nb,2025-06-01,Mill Lane,supply,jar,20,,2\nc,2025-06-01,Mill Lane,supply,absorber,30,,0.2\nd,2025-06-01,Mill Lane,supply,label,6,,0.1\n" +
		"e,2025-06-01,Mill Lane,food,plums,4,1 kg,2\nf,2025-06-08,Mill Lane,food,plums,6,1 kg,2\ng,2025-06-10,Mill Lane,food,berries,8,1 kg,3\nh,2025-06-09,Mill Lane,food,onions,1,1 kg,1\n",
	"runs.csv":   "run,machine,start,kwh\nr1,box,2025-06-01 08:00,12\n",
	"phases.csv": "run,step,phase,duration,watts\nr1,1,primary,30h,400\n",
	"loads.csv":  "run,item,quantity\nr1,plums,4 kg\n",
	"packs.csv":  "pack,run,item,date,count,each,with\np1,r1,plums,2025-06-03,6,600 g,\"1 jar, 1 absorber, 1 label\"\n",
}

// kitchenWith is the kitchen by a day, with other files in place of its own.
func kitchenWith(t *testing.T, by string, files map[string]string) *ledger.Ledger {
	t.Helper()
	dir, all := t.TempDir(), maps.Clone(kitchen)
	maps.Copy(all, files)
	for name, text := range all {
		path := filepath.Join(dir, name)
		if err := errors.Join(os.MkdirAll(filepath.Dir(path), 0o700), os.WriteFile(path, []byte(text), 0o600)); err != nil {
			t.Fatal(err)
		}
	}
	g, faults, err := folder.Load(dir, ledger.Options{Through: exact.MustDate(by), PricesThrough: exact.MustDate(by), Itemize: true})
	if err != nil || len(faults) > 0 {
		t.Fatal(err, faults)
	}
	return g
}

// moment is a time of the kitchen's clock.
func moment(t *testing.T, g *ledger.Ledger, text string) time.Time {
	t.Helper()
	at, err := exact.ParseMoment(text, g.Settings.Zone)
	if err != nil {
		t.Fatal(err)
	}
	return at
}

// By hand: berries and plums both turn after 13 June. 8 kg of berries are two
// cycles, at 10:00 and 30 hours later, which is in time. The 6 kg of plums then
// begin on the 13th at 22:00, and their second cycle on the 15th, too late. The
// onions, which nobody dries, have turned.
func TestWaitingFood(t *testing.T) {
	g := kitchenWith(t, "2025-06-11", nil)
	now := moment(t, g, "2025-06-11 10:00")
	list := figures.WaitingFood(g, now)
	if len(list) != 3 {
		t.Fatalf("%d foods wait", len(list))
	}
	if o := list[0]; g.Foods[o.Food].ID != "onions" || !o.Turned(g.AsOf) || o.Slot.Given() || o.Freezable {
		t.Errorf("first %+v", o)
	}
	for i, want := range []struct {
		food        string
		freezable   bool
		first, last string
		inTime      bool
	}{
		{"berries", true, "2025-06-11 10:00", "2025-06-12 16:00", true},
		{"plums", false, "2025-06-13 22:00", "2025-06-15 04:00", false},
	} {
		w := list[i+1]
		s, ok := w.Slot.Get()
		if !ok || g.Foods[w.Food].ID != want.food || w.UseBy.String() != "2025-06-13" || w.Freezable != want.freezable || w.Turned(g.AsOf) {
			t.Fatalf("%d: %+v", i, w)
		}
		if s.Cycles != 2 || !s.First.Equal(moment(t, g, want.first)) || !s.Last.Equal(moment(t, g, want.last)) || s.InTime != want.inTime {
			t.Errorf("%s: %+v", want.food, s)
		}
	}
}

// A run that is not over keeps the machine, and what is frozen waits behind what
// is not.
func TestWaitingFoodBehindARun(t *testing.T) {
	g := kitchenWith(t, "2025-06-11", map[string]string{
		"runs.csv":   "run,machine,start,kwh\nr1,box,2025-06-01 08:00,12\nr2,box,2025-06-10 12:00,12\n",
		"phases.csv": "run,step,phase,duration,watts\nr1,1,primary,30h,400\nr2,1,primary,30h,400\n",
		"loads.csv":  "run,item,quantity\nr1,plums,4 kg\nr2,plums,5 kg\n",
		"frozen.csv": "date,item,quantity\n2025-06-10,berries,6 kg\n",
	})
	list := figures.WaitingFood(g, moment(t, g, "2025-06-11 10:00"))
	var last time.Time
	for i, want := range []struct {
		food, amount string
		frozen       bool
		first        string
	}{
		{"onions", "1", false, ""}, {"berries", "2", false, "2025-06-11 18:00"}, {"plums", "1", false, "2025-06-13 00:00"},
		{"berries", "6", true, "2025-06-14 06:00"},
	} {
		w := list[i]
		if g.Foods[w.Food].ID != want.food || !w.Quantity.Equal(exact.MustNumber(want.amount)) || w.Frozen != want.frozen {
			t.Fatalf("%d: %+v", i, w)
		}
		s, ok := w.Slot.Get()
		if ok != (want.first != "") || ok && !s.First.Equal(moment(t, g, want.first)) {
			t.Errorf("%s: %+v", want.food, s)
		}
		if ok && s.First.Before(last) {
			t.Errorf("%s begins before what turns sooner", want.food)
		}
		last = s.Last
	}
}

// By hand: 6 packs of 0.6 kg of 4 kg are a yield of 0.9, so 5 kg fill 7.5, that is
// 8 containers. Of 20 jars 14 are free: one load. Absorbers would do for three,
// and labels limit nothing.
func TestRoomForLoads(t *testing.T) {
	g := kitchenWith(t, "2025-06-11", nil)
	list := figures.RoomForLoads(g, figures.WaitingFood(g, moment(t, g, "2025-06-11 10:00")))
	if len(list) != 1 {
		t.Fatalf("%+v", list)
	}
	l := list[0]
	if g.Foods[l.Food].ID != "plums" || l.Containers != 8 || l.Loads != 1 || g.Supplies[l.Short].ID != "jar" {
		t.Errorf("%+v", l)
	}
}

// Where a load lacks jars and absorbers, what runs out first is what is left for the smaller part
// of one: of 8 containers 6 jars, but 2 absorbers.
func TestRoomForPartOfALoad(t *testing.T) {
	receipts := strings.NewReplacer("jar,20", "jar,12", "absorber,30", "absorber,8").Replace(kitchen["receipts.csv"])
	g := kitchenWith(t, "2025-06-11", map[string]string{"receipts.csv": receipts})
	list := figures.RoomForLoads(g, nil)
	if len(list) != 1 || list[0].Loads != 0 || g.Supplies[list[0].Short].ID != "absorber" {
		t.Errorf("%+v, want absorbers to run out first", list)
	}
}

// What was bought on one day in several lots waits as one amount: 3 and 4 kg of
// berries are two cycles of 5 kg.
func TestWaitingFoodOfOneDayIsOne(t *testing.T) {
	g := kitchenWith(t, "2025-06-11", map[string]string{
		"receipts.csv": "receipt,date,shop,line,kind,item,count,size,price\n" +
			"e,2025-06-01,Mill Lane,1,food,plums,4,1 kg,2\ng,2025-06-10,Mill Lane,1,food,berries,3,1 kg,3\ng,2025-06-10,Mill Lane,2,food,berries,4,1 kg,3\n",
		"packs.csv": "",
	})
	list := figures.WaitingFood(g, moment(t, g, "2025-06-11 10:00"))
	if len(list) != 1 || !list[0].Quantity.Equal(num("7")) || list[0].Slot.Or(figures.Slot{}).Cycles != 2 {
		t.Errorf("%+v, want 7 kg in 2 cycles", list)
	}
}

// The last pack is the newest, wherever it stands in the records. With 400 g more the yield is
// 1, so 5 kg fill 8.3 containers of 600 g, that is 9; 13 of 20 jars are free.
func TestRoomForLoadsIsByTheNewestPack(t *testing.T) {
	packs := strings.Replace(kitchen["packs.csv"], "2025-06-03", "2025-06-05", 1)
	g := kitchenWith(t, "2025-06-11", map[string]string{"packs.csv": packs + "p2,r1,plums,2025-06-03,1,400 g,1 jar\n"})
	list := figures.RoomForLoads(g, nil)
	if len(list) != 1 || list[0].Containers != 9 || list[0].Loads != 1 {
		t.Errorf("%+v, want one load of 9 containers", list)
	}
}

// Food can be frozen where that is known to keep it longer than it keeps fresh.
func TestWaitingFoodIsFreezable(t *testing.T) {
	for days, freezable := range map[string]bool{"3,270": true, "3,4": true, "3,3": false, "3,2": false, ",270": false, "3,": false} {
		g := kitchenWith(t, "2025-06-11", map[string]string{
			"foods.csv":    "food,basis,fresh_days,frozen_days\nplums,mass,9,\nberries,mass," + days + "\n",
			"receipts.csv": "receipt,date,shop,kind,item,count,size,price\ne,2025-06-01,Mill Lane,food,plums,4,1 kg,2\ng,2025-06-10,Mill Lane,food,berries,8,1 kg,3\n",
			"packs.csv":    "", "supplies.csv": "", "machines.csv": kitchen["machines.csv"],
		})
		list := figures.WaitingFood(g, moment(t, g, "2025-06-11 10:00"))
		if len(list) != 1 || list[0].Freezable != freezable {
			t.Errorf("of %q days fresh and frozen: %+v, want %t", days, list, freezable)
		}
	}
}

// What was in a machine waits for it again, though nobody knows how long it keeps once packed; of
// what never was, that is needed.
func TestWaitingFoodThatWasDriedBefore(t *testing.T) {
	g := kitchenWith(t, "2025-06-11", map[string]string{
		"foods.csv": "food,name,basis,fresh_days,frozen_days,keep_months\nberries,Berries,mass,3,270,\nplums,Plums,mass,5,,\nonions,Onions,mass,1,,\n",
	})
	for _, w := range figures.WaitingFood(g, moment(t, g, "2025-06-11 10:00")) {
		if id := g.Foods[w.Food].ID; w.Slot.Given() != (id == "plums") {
			t.Errorf("%s has a place in the queue: %t", id, w.Slot.Given())
		}
	}
}

// Of what was packed on the last day the row of the most containers says how a food is packed, and
// not what was left over. By hand: 6 of 600 g and then one of 400 g are a yield of 1, so 5 kg fill
// 8.3 of 600 g, that is 9, and of 20 jars 13 are free; of as many containers it is the last row: 6 kg of
// 4 are packed over and tell no yield, so 5 kg fill 12.5 of 400 g, that is 13. A row of another day is older, however many it has.
func TestPackedAsTheMainRow(t *testing.T) {
	for _, c := range []struct {
		rows       string
		each       string
		containers int
	}{
		{"p2,r1,plums,2025-06-03,1,400 g,1 jar\n", "0.6", 9},
		{"p2,r1,plums,2025-06-03,6,400 g,1 jar\n", "0.4", 13},
		{"p2,r1,plums,2025-06-04,1,400 g,1 jar\n", "0.4", 13},
	} {
		g := kitchenWith(t, "2025-06-11", map[string]string{"packs.csv": kitchen["packs.csv"] + c.rows})
		if list := figures.RoomForLoads(g, nil); len(list) != 1 || list[0].Containers != c.containers {
			t.Errorf("after %q a load fills %+v, want %d", c.rows, list, c.containers)
		}
		w, err := figures.Worth(g, figures.WorthQuery{Item: "plums", Price: exact.Some(num("1")), Size: amount("1 kg"), Limit: exact.Some(2), Shelf: exact.Some(num("20"))})
		if err != nil || !w.Packing.Each.Equal(num(c.each)) {
			t.Errorf("after %q a container gives %+v (%v), want %s", c.rows, w, err, c.each)
		}
	}
}

// A load is 5 kg: 10.04 kg are two cycles, since nobody begins another for 40 g, and 10.06 kg three.
func TestCyclesOfACrumb(t *testing.T) {
	for kg, cycles := range map[string]int{"0.01": 1, "5.00": 1, "5.05": 1, "5.06": 2, "10.04": 2, "10.06": 3} {
		g := kitchenWith(t, "2025-06-11", map[string]string{
			"receipts.csv": "receipt,date,shop,kind,item,count,size,price\ne,2025-06-01,Mill Lane,food,plums,4,1 kg,2\ng,2025-06-10,Mill Lane,food,berries,1," + kg + " kg,3\n",
			"packs.csv":    "",
		})
		list := figures.WaitingFood(g, moment(t, g, "2025-06-11 10:00"))
		if len(list) != 1 || list[0].Slot.Or(figures.Slot{}).Cycles != cycles {
			t.Errorf("%s kg: %+v, want %d cycles", kg, list, cycles)
		}
	}
}

// Runs that took no time, or less than a tenth of the machine's median, tell nothing of
// what is usual, by hand: three took 30 h and 12 kWh; of 0 min and 9 kWh, 2 h 59 min and
// 1 kWh, and 3 h and 3 kWh the last alone counts, since a tenth of 30 h is 3 h.
func TestBrokenOffRunsAreNotUsual(t *testing.T) {
	const (
		runs = "run,machine,start,end,kwh,outcome\nr1,box,2025-06-01 08:00,2025-06-02 14:00,12,\nr2,box,2025-06-03 08:00,2025-06-03 08:00,9,\n" +
			"r3,box,2025-06-04 08:00,2025-06-04 10:59,1,\nr4,box,2025-06-05 08:00,2025-06-06 14:00,12,\nr5,box,2025-06-07 08:00,2025-06-07 11:00,3,\n" +
			"r6,box,2025-06-08 08:00,2025-06-09 14:00,12,\n"
		loads = "run,item,quantity\nr1,plums,500 g\nr2,plums,500 g\nr3,plums,500 g\nr4,plums,500 g\nr5,plums,500 g\nr6,plums,500 g\n"
	)
	joined := func(runs, loads string) *ledger.Ledger {
		return kitchenWith(t, "2025-06-11", map[string]string{"runs.csv": runs, "loads.csv": loads,
			"phases.csv": "run,step,phase,duration,watts\n", "packs.csv": "pack,run,item,date,count,each\n"})
	}
	g := joined(runs, loads)
	plums, _ := g.FindFood("plums")
	d, err := figures.DryerOf(g, "box", plums)
	if have := d.RunsOf(plums); err != nil || !slices.Equal(have, []int{0, 3, 4, 5}) {
		t.Errorf("runs %v tell what is usual (%v)", have, err)
	}
	if length, ok := figures.UsualLength(g, 0, plums); !ok || length != 30*time.Hour {
		t.Errorf("a cycle takes %v", length)
	}
	e, err := d.Energy(exact.Opt[exact.Number]{}, exact.Int(1), 30*time.Hour)
	if kwh := e.KWh(exact.Int(1)); err != nil || e.Runs != 4 || kwh.String() != "9.75" { // (3 x 12 + 3) / 4
		t.Errorf("a cycle uses %v kWh, by %d runs (%v)", kwh, e.Runs, err)
	}
	g = joined(runs+"r7,box,2025-06-11 08:00,,,running\n", loads+"r7,plums,500 g\n")
	if end, ok := figures.UsualEnd(g, 6).Get(); !ok || !end.Equal(moment(t, g, "2025-06-12 14:00")) {
		t.Errorf("it ends at %v", end)
	}
	// Where nothing longer is known the short one is what there is.
	g = joined("run,machine,start,end,kwh\nr1,box,2025-06-01 08:00,2025-06-01 08:05,1\n", "run,item,quantity\nr1,plums,500 g\n")
	if length, ok := figures.UsualLength(g, 0, plums); !ok || length != 5*time.Minute {
		t.Errorf("a cycle takes %v", length)
	}
}

// By hand: berries keep 72 hours from when they are bought, at whatever hour: two runs of 30 hours. At 23:00 the
// first begins no sooner; of another day, as of none, the day of purchase begins at 0:00. Where the day is told by
// which they are used, it is 0:00 of that: at 23:00 only 49 hours are left, for one run.
func TestWorthCountsFromNow(t *testing.T) {
	g := kitchenWith(t, "2025-06-11", map[string]string{
		"receipts.csv": "receipt,date,shop,kind,item,count,size,price\na,2025-06-01,Mill Lane,machine,box,,,900\ne,2025-06-01,Mill Lane,food,plums,4,1 kg,2\n",
		"packs.csv":    "",
	})
	for now, want := range map[string]struct {
		cycles, told int
		free         string
	}{"": {2, 2, "2025-06-11 00:00"}, "2025-06-11 23:00": {2, 1, "2025-06-11 23:00"}, "2025-06-12 00:00": {2, 2, "2025-06-11 00:00"}} {
		q := figures.WorthQuery{Item: "berries", Price: exact.Some(num("1")), Size: amount("1 kg"), Limit: exact.Some(20),
			Shelf: exact.Some(num("20")), Each: amount("600 g"), PackCost: exact.Some(exact.Money{})}
		if now != "" {
			q.Now = moment(t, g, now)
		}
		f, _, err := figures.Answer(g, q)
		if err != nil {
			t.Fatal(err)
		}
		if cycles := f.Sale.MaxCycles.Or(0); cycles != want.cycles || !f.Queue.Free.Equal(moment(t, g, want.free)) {
			t.Errorf("at %q: %d runs from %v, want %+v", now, cycles, f.Queue.Free, want)
		}
		q.UseBy = exact.Some(exact.MustDate("2025-06-14"))
		if f, _, err = figures.Answer(g, q); err != nil || f.Sale.MaxCycles.Or(0) != want.told {
			t.Errorf("at %q, to be used by a day: %d runs, %v, want %+v", now, f.Sale.MaxCycles.Or(0), err, want)
		}
	}
}
