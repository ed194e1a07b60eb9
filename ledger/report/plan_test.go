package report_test

import (
	"errors"
	"fmt"
	"math/big"
	"strings"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"

	"putby/ledger"
	"putby/ledger/question"
	"putby/ledger/report"
)

// planOf answers a plan from its text.
func planOf(g *ledger.Ledger, text string, common question.WorthQuery) (report.Doc, error) {
	offers, faults := question.ReadOffers("offers.csv", strings.NewReader(text))
	if faults != nil {
		return report.Doc{}, faults
	}
	return question.PlanOfFile(g, question.PlanQuery{Common: common, File: "offers.csv", Offers: offers})
}

// common are facts that hold for a whole plan.
func common(t testing.TB, f facts) question.WorthQuery { return f.query(t, "") }

// Three offers and one machine, by hand. A cycle takes 20 h and saves, at a
// full load of 4 L, 4 x (5 - price) - 4.00: sauce at 1.00 saves 12, figs by the
// piece at 0.50 and 2.00 worth 4 x 1.50 - 4 = 2. Sauce turns after 2 days, figs after 1.
func TestPlanByHand(t *testing.T) {
	const text = `item,price,size,limit,shelf,load,each,fresh_days
plum-sauce,1.00,1 L,8,5.00,4 L,1 L,2
figs,0.50,1 ea,4,2.00,4 ea,1 ea,1
plums,9.00,1 kg,4,5.00,4 kg,1 kg,1
`
	machine := facts{"cycle-hours": "20h", "kwh": "0", "rate": "0", "wear": "4", "pack-cost": "0", "start": "2025-06-02 08:00", "as-of": "2025-06-02"}
	// From 8:00 the sauce has 40 h, two cycles; the figs 16 h, none: they are left out.
	d, err := planOf(bare(t), text, common(t, machine))
	if err != nil {
		t.Fatal(err)
	}
	worthFigures(t, d, map[string]string{"saving": "24.000000000000", "busy_hours": "40"})
	tab := table(t, d, "plan")
	wants(t, tab, 0, map[string]string{"item": "plum-sauce", "buy": "8", "dried": "8", "cycles": "2", "cost": "16.000000",
		"start": "2025-06-02T08:00:00+02:00", "end": "2025-06-04T00:00:00+02:00", "turns": "2025-06-04T00:00:00+02:00"})
	wants(t, table(t, d, "left_out"), 0, map[string]string{"item": "figs", "saving_alone": "0.000000000000"})
	wants(t, table(t, d, "left_out"), 1, map[string]string{"item": "plums", "saving_alone": "0.000000000000"})
	// From midnight, with figs that keep a day, both fit only in this order and with one
	// cycle of sauce; the second cycle of sauce saves more than the figs do.
	d, err = planOf(bare(t), text, common(t, machine.with("start", "2025-06-02 00:00")))
	if err != nil {
		t.Fatal(err)
	}
	worthFigures(t, d, map[string]string{"saving": "24.000000000000"})
	// With figs worth 5.00 they go first: 14 + 12 in all, and the second load of sauce is left.
	d, err = planOf(bare(t), strings.Replace(text, "2.00,4 ea", "5.00,4 ea", 1), common(t, machine.with("start", "2025-06-02 00:00")))
	if err != nil {
		t.Fatal(err)
	}
	worthFigures(t, d, map[string]string{"saving": "26.000000000000", "busy_hours": "40"})
	wants(t, table(t, d, "plan"), 0, map[string]string{"item": "figs", "buy": "4"})
	wants(t, table(t, d, "plan"), 1, map[string]string{"item": "plum-sauce", "buy": "4", "start": "2025-06-02T20:00:00+02:00"})
	if !noted(d.Words, "Buy 4 × 1 ea of Figs (1 run) and 4 × 1 L of Plum sauce (1 run), and dry them in this order. Together that saves 26.00 EUR") {
		t.Error(d.Words)
	}
	// Nothing saves anything.
	d, err = planOf(bare(t), "item,price,size,limit,shelf,load,each,fresh_days\nplums,9,1 kg,4,5,4 kg,1 kg,1\n", common(t, machine))
	if err != nil || !noted(d.Words, "Buy none of it") {
		t.Error(d.Words, err)
	}
}

// The plan saves what the best of all combinations in all orders does.
func TestPlanAgreesWithBruteForce(t *testing.T) {
	g := bare(t)
	items := []string{"plum-sauce", "figs", "plums"}
	units := []string{" L", " ea", " kg"}
	rapid.Check(t, func(rt *rapid.T) {
		var lists [][]twinRow
		var hours, days []int
		turnaround := rapid.IntRange(0, 6).Draw(rt, "turnaround")
		text := "item,price,size,limit,shelf,load,fresh,kwh,rate,wear,yield,each,pack_cost,use,keep_months,stock,cycle_hours,fresh_days\n"
		text = strings.Replace(text, ",rate", "", 1)
		for i, item := range items {
			f, h, _, d := drawFacts(rt)
			f["limit"] = fmt.Sprint(rapid.IntRange(0, 6).Draw(rt, "few"))
			f["rate"] = "0.25"
			if item == "plums" {
				f["size"] = halfEven(mul(rat(f["size"]), rat("0.9")), 9).FloatString(9) // the edible part of what is asked below
			}
			h, d = 10+h/3, d/4
			rows, _ := twin(f, cyclesIn(h, turnaround, d))
			lists, hours, days = append(lists, rows), append(hours, h), append(days, d)
			size := f["size"]
			if item == "plums" {
				size = quo(rat(size), rat("0.9")).FloatString(3)
			}
			u := units[i]
			text += strings.Join([]string{item, f["price"], size + u, f["limit"], f["shelf"], f["load"] + u, f["fresh"] + u, f["kwh"], f["wear"],
				f["yield"], f["each"] + u, f["pack-cost"], f["use"] + u, f["keep-months"], f["stock"] + u, fmt.Sprint(h), fmt.Sprint(d)}, ",") + "\n"
		}
		d, err := planOf(g, text, common(t, facts{"rate": "0.25", "turnaround": fmt.Sprint(turnaround)}))
		if err != nil {
			rt.Fatal(err)
		}
		want := bruteForce(lists, hours, days, turnaround)
		if have := figure(t, d, "saving"); rat(have).Cmp(halfEven(want, 12)) != 0 {
			rt.Errorf("the plan saves %s, the best saves %s\n%s", have, want.FloatString(12), text)
		}
	})
}

// bruteForce tries every combination of packages in every order of the foods.
func bruteForce(lists [][]twinRow, hours, days []int, turnaround int) *big.Rat {
	best := new(big.Rat)
	for _, order := range [][]int{{0, 1, 2}, {0, 2, 1}, {1, 0, 2}, {1, 2, 0}, {2, 0, 1}, {2, 1, 0}} {
		var try func(at, busy int, saves *big.Rat)
		try = func(at, busy int, saves *big.Rat) {
			if at == len(order) {
				if saves.Cmp(best) > 0 {
					best = saves
				}
				return
			}
			food := order[at]
			for _, r := range lists[food] {
				end := busy + r.cycles*(hours[food]+turnaround)
				if r.cycles == 0 || end-turnaround <= 24*days[food] {
					try(at+1, end, add(saves, r.saves))
				}
			}
		}
		try(0, 0, new(big.Rat))
	}
	return best
}

// An offer may say how many cycles it waits; the machine is free when the
// longest of its cycles, if the last run does not say how long it was, is over.
func TestPlanTakesCyclesAndTheLatestStart(t *testing.T) {
	const text = "item,price,size,limit,shelf,load,each,cycles,cycle_hours,fresh_days\nplum-sauce,1.00,1 L,20,5.00,4 L,1 L,3,20,1\nplum-sauce,1.00,1 L,4,5.00,4 L,1 L,1,40,\n"
	machine := facts{"kwh": "0", "rate": "0", "wear": "4", "pack-cost": "0", "as-of": "2025-06-02"}
	d, err := planOf(bare(t), text, common(t, machine))
	if err != nil {
		t.Fatal(err)
	}
	worthFigures(t, d, map[string]string{"saving": "48.000000000000", "busy_hours": "100"}) // 3 x 12 and 12
	g := kilnWith(t, "-- machines.csv --\nmachine,name,load_volume,load_mass,cycles\nkiln,Kiln,6 L,6 kg,100\n-- runs.csv --\n"+
		strings.ReplaceAll(strings.Replace(kiln[strings.Index(kiln, "run,machine"):strings.Index(kiln, "-- loads.csv --")],
			"2025-01-14 08:00,2025-01-15 04:00", "2025-01-14 08:00,", 1), "old", "kiln"))
	d, err = planOf(g, "item,price,size,limit,cycle_hours\nstock,1,1 L,6,20\npeas,1,1 kg,6,40\n", common(t, facts{}))
	if err != nil {
		t.Fatal(err)
	}
	worthFigures(t, d, map[string]string{"free": "2025-01-16T00:00:00+01:00"})
}

// The electricity of a plan is that of the times it shows.
func TestPlanPricesElectricityWhenItRuns(t *testing.T) {
	g := kilnWith(t, "-- tariffs.csv --\ntariff,start,end,rate\nflat,22:00,06:00,0.10\nflat,,,0.30\n-- machines.csv --\n"+
		"machine,name,trays,load_volume,load_mass,cycles,residual,with\nkiln,Kiln,4,6 L,6 kg,100,,\n-- runs.csv --\n"+
		strings.ReplaceAll(kiln[strings.Index(kiln, "run,machine"):strings.Index(kiln, "-- loads.csv --")], "old", "kiln"))
	const text = "item;price;size;limit;kwh;wear\nstock;1;6 L;1;20;0\npeas;2;6 kg;1;20;0\n"
	d, err := planOf(g, text, common(t, facts{"start": "2025-01-15 20:00", "turnaround": "4h"}))
	if err != nil {
		t.Fatal(err)
	}
	// Peas turn first. From 20:00 12 of 20 h are dear: 20 kWh cost 12 x 0.30 + 8 x 0.10 = 4.40;
	// from 20:00 the next day the same.
	tab := table(t, d, "plan")
	wants(t, tab, 0, map[string]string{"item": "peas", "cost": "6.400000", "saving": "47.600000000000"})
	wants(t, tab, 1, map[string]string{"item": "stock", "cost": "5.400000", "start": "2025-01-16T20:00:00+01:00"})
	if noted(d.Notes, "as if the runs of each began") {
		t.Error("nothing was priced otherwise than it is shown")
	}
	d, err = planOf(g, text, common(t, facts{"start": "2025-01-15 20:00", "turnaround": "6h"}))
	if err != nil {
		t.Fatal(err)
	}
	wants(t, table(t, d, "plan"), 1, map[string]string{"start": "2025-01-16T22:00:00+01:00", "cost": "5.400000"}) // 12 of 20 h are dear again
	d, err = planOf(g, text, common(t, facts{"start": "2025-01-15 20:00", "turnaround": "8h"}))
	if err != nil {
		t.Fatal(err)
	}
	// From midnight only 6 h are cheap: 14 x 0.30 + 6 x 0.10 = 4.80.
	wants(t, table(t, d, "plan"), 1, map[string]string{"start": "2025-01-17T00:00:00+01:00", "cost": "5.800000"})
	if !noted(d.Notes, "as if the runs of each began") {
		t.Error(d.Notes)
	}
}

// A plan adds what all its choices take to pack: 3 jars for 6 L of stock at 2 L and
// 6 for the peas, of 4 free; a seal comes 5 to a strip.
func TestPlanAddsWhatIsNeededToPack(t *testing.T) {
	g := kilnWith(t, "-- machines.csv --\nmachine,name,trays,load_volume,load_mass,cycles,residual,with\nkiln,Kiln,4,6 L,6 kg,100,,\n"+
		"-- supplies.csv --\nsupply,name,kind,uses,capacity,price\njar,Preserving jar,jar,2,1 L,3.00\nstrip,,label,5,,0.50\n"+
		strings.Replace(kiln[strings.Index(kiln, "-- receipts.csv --"):strings.Index(kiln, "-- shelf.csv --")],
			"b1,2025-01-02,Brook,3", "b1,2025-01-02,Brook,4,supply,jar,4,1 ea,3.00,,,,\nb1,2025-01-02,Brook,3", 1)+
		"-- runs.csv --\n"+strings.ReplaceAll(kiln[strings.Index(kiln, "run,machine"):strings.Index(kiln, "-- loads.csv --")], "old", "kiln"))
	const text = "item,price,size,limit,with,each\nstock,1,1 L,6,1 jar,2 L\npeas,1,1 kg,6,\"1 jar, 2 strip\",1 kg\n"
	d, err := planOf(g, text, common(t, facts{"start": "2025-01-15 00:00", "kwh": "1", "wear": "0", "cycle-hours": "20"}))
	if err != nil {
		t.Fatal(err)
	}
	tab := table(t, d, "packing")
	wants(t, tab, find(t, tab, "supply", "jar"), map[string]string{"need": "9", "free": "4", "buy": "5"})
	wants(t, tab, find(t, tab, "supply", "strip"), map[string]string{"need": "2.4", "free": "0", "buy": "3"}) // 12 labels
	if !noted(d.Words, "5 × Preserving jar (9 needed, 4 free)") || !noted(d.Words, "3 × strip (2.4 needed, 0 free)") {
		t.Error(d.Words)
	}
}

// Every fault of a plan comes at once, each at its line and column.
func TestPlanFaults(t *testing.T) {
	g := bare(t)
	for _, c := range []struct{ text, want string }{
		{"", "offers.csv:1:1: the file has no rows"},
		{"item,price\n", "offers.csv:1:1: the column size is missing"},
		{"item,price,size,colour,size\n", "offers.csv:1:17: a plan has no column \"colour\"\noffers.csv:1:24: the column size is there twice"},
		{"item,price,size,machine\n", "offers.csv:1:17: a plan has no column \"machine\""},
		{"item,price,size\n\n", "offers.csv:1:1: the plan has no offer"},
		{"item,price,size\nfigs,1\n", "offers.csv:2:1: the row has 2 cells, the header 3"},
		{"item,price,size\n,-1,\n", "offers.csv:2:1: item: the cell is empty\noffers.csv:2:2: price: -1 is below 0\noffers.csv:2:5: size: the cell is empty"},
		{"item,price,size\nfigs,\"1\"2,3 ea\n", "offers.csv:2:9: there is text after the quote that closes a cell"},
		{"item,price,size\nfigs,1,\xff\n", "offers.csv:2:8: size: \"ÿ\" is not a quantity"},
		{"item,price,size\nfigs,1,\x00\n", "offers.csv:2:1: it is no text and no table, but perhaps a picture: there is a zero byte, which no text has"},
		{"item,price,size,limit,use_by\nfigs,1,1 L,x,2025-02-30\n",
			"offers.csv:2:12: limit: \"x\" is not a whole number\noffers.csv:2:14: use_by: \"2025-02-30\" is not a date: that month has no such day"},
		{"item,price,size,limit,shelf,load,each,pack_cost,kwh,cycles\nfigs,1,1 L,1,2,4 ea,1 ea,0,1,1\npears,1,1 kg,1,2,4 ea,1 ea,0,1,1\n",
			"offers.csv:2:8: size: Figs is counted in pieces, and 1 L is a volume\noffers.csv:3:1: there is no food called \"pears\""},
		{"item,price,size,shelf,load,each,pack_cost,kwh,cycles\nfigs,1,1 ea,2,4 ea,1 ea,0,1,\n", "offers.csv:2:1: limit: nothing says how many"},
		{"item,price,size,limit,shelf,load,each,pack_cost,kwh\nfigs,1,1 ea,1,2,,1 ea,0,\n",
			"offers.csv:2:1: figs: the electricity of a run is not known\noffers.csv:2:1: figs: the most that a run takes is not known"},
		{"item,price,size\n" + strings.Repeat("figs,1,1 ea\n", question.MaxOffers+1), "offers.csv:102:1: a plan has 100 offers at most"},
	} {
		_, err := planOf(g, c.text, common(t, facts{"rate": "0.1", "cycle-hours": "9"}))
		var faults ledger.Faults
		if !errors.As(err, &faults) || !strings.HasPrefix(faults.Error(), c.want) {
			t.Errorf("%.80q:\n%v\nwant\n%s", c.text, err, c.want)
		}
	}
	two := kilnWith(t, "")
	_, err := planOf(two, "item,price,size\nstock,1,1 L\n", common(t, facts{}))
	if err == nil || !strings.Contains(err.Error(), "--machine: a plan is for one machine, and there are 2") {
		t.Error(err)
	}
}

// Whatever a plan's text is, reading it ends in offers or in faults at places
// in it, never in a panic.
func FuzzReadPlan(f *testing.F) {
	f.Add("item,price,size\nfigs,1,1 ea\n")
	f.Add("\ufeffitem;price;size;use_by\r\n\"fi\"\"gs\";1.5;1 ea;2025-01-01\r\n")
	f.Fuzz(func(t *testing.T, text string) {
		offers, faults := question.ReadOffers("offers.csv", strings.NewReader(text))
		if len(offers) == 0 && len(faults) == 0 {
			t.Fatal("neither offers nor faults")
		}
		lines := strings.Count(text, "\n") + strings.Count(text, "\r") + 1
		for _, fault := range faults {
			if fault.Line < 0 || fault.Line > lines || fault.Column < 0 || !utf8.ValidString(fault.Error()) {
				t.Errorf("a fault at %d:%d of %d lines: %q", fault.Line, fault.Column, lines, fault.Error())
			}
		}
	})
}

// Whatever the text of an option is, it is read or refused by name.
func FuzzWorthOption(f *testing.F) {
	for _, o := range question.Options() {
		f.Add(o.Name, "1")
	}
	f.Add("also", "2.79x4, 3 for 8.00")
	f.Add("shelf", "3.99/454g")
	f.Add("start", "2025-02-28 18:30")
	f.Fuzz(func(t *testing.T, option, text string) {
		q := question.NewWorthQuery("figs")
		err := q.Set(option, text)
		if err != nil && (question.OptionOf(err).Field != option) {
			t.Errorf("%s %q: %v", option, text, err)
		}
		if p, ok := q.Price.Get(); ok && err == nil && p.Sign() < 0 {
			t.Errorf("the price %s was read", p)
		}
	})
}
