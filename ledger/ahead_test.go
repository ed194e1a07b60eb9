package ledger_test

import (
	"reflect"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"putby/ledger"
	"putby/pricing/exact"
)

// What the next uses and the next cycle would cost is what they do cost once
// they are drawn, and looking ahead draws on nothing.
func TestLookingAhead(t *testing.T) {
	const text = `-- machines.csv --
machine,cycles,residual
dryer,7,10
-- receipts.csv --
receipt,date,line,kind,item,count,size,price
m,2025-01-01,1,machine,dryer,1,,99.99
l,2025-01-01,1,supply,lid,1,3 ea,1.00
l,2025-01-01,2,supply,lid,1,3 ea,2.00
e,2025-01-01,1,food,egg,9,1 ea,0
`
	g := book(t, text)
	uses, err := ledger.ParseUses("2 lid, 1 jar")
	if err != nil {
		t.Fatal(err)
	}
	ahead, notes, err := g.NextUses(uses, exact.Int(4))
	if err != nil || len(notes) != 2 {
		t.Fatal(notes, err)
	}
	machine, _ := g.FindMachine("dryer")
	wear, ok := g.NextCycle(machine)
	if !ok {
		t.Fatal("no run is left")
	}
	prove(t, g)
	later := book(t, text+`-- packs.csv --
pack,item,date,count,each,with,cost
p,egg,2025-01-02,4,1,"2 lid, 1 jar",0
-- runs.csv --
run,machine,start,kwh
r,dryer,2025-01-02 08:00,0
-- loads.csv --
run,item,quantity
r,egg,1
`)
	figures(t, map[string]any{"uses": ahead, "drawn": pack(t, later, "p").Own, "wear": wear, "worn": run(t, later, "r").Wear},
		map[string]string{"uses": "3.6", "drawn": "3.6", "wear": "12.855714", "worn": "12.855714"}) // 3.00, 2 x 0.10 and 4 x 2.00/20
	if _, _, err := g.NextUses([]ledger.Use{{Supply: "oil", Number: exact.Int(1)}}, exact.Int(1)); err == nil {
		t.Error("oil has neither lot nor price")
	}
	if _, _, err := g.NextUses([]ledger.Use{{Supply: "x", Number: exact.Int(1)}}, exact.Int(1)); err == nil {
		t.Error("there is no x")
	}
}

// Taking a figure apart or not changes no figure.
func TestWhatIsKeptChangesNothing(t *testing.T) {
	plain := book(t, packedRun)
	for _, o := range []ledger.Options{
		{Through: exact.NoDate, PricesThrough: exact.NoDate, Itemize: true},
		{Through: exact.NoDate, PricesThrough: exact.NoDate, Brief: true},
	} {
		g := bookAt(t, packedRun, o)
		if have, want := standing(g), standing(plain); have != want {
			t.Errorf("%+v: have\n%s\nwant\n%s", o, have, want)
		}
		r := run(t, g, "r")
		var sum exact.Money
		for i, bill := range r.Phases {
			sum = sum.Add(bill.Cost)
			if !bill.Cost.Equal(r.Posted[i]) {
				t.Errorf("phase %d is billed %v and posted %v", i, bill.Cost, r.Posted[i])
			}
		}
		if o.Itemize && !sum.Equal(r.Electricity) {
			t.Errorf("the phases come to %v, the run to %v", sum, r.Electricity)
		}
		if o.Brief == (len(g.Takes) > 0) {
			t.Errorf("%+v keeps %d takes", o, len(g.Takes))
		}
	}
}

// What a record by itself cannot say.
func TestRecordsThatCannotBe(t *testing.T) {
	wantFaults(t, `-- foods.csv --
food,basis,density,water,refuse,kcal,keep_months
a,mass,0,,,,
b,mass,1,101,,,
c,mass,1,,100,,
d,mass,1,100,99.9,-1,1.5
-- runs.csv --
run,machine,start,end,kwh
r,dryer,2025-01-02 08:00,2025-01-02 07:00,1
-- loads.csv --
run,item,quantity,line,wet,dry
r,d,1 kg,1,,
r,d,1 kg,,1 kg,1001 g
r,d,1 kg,,1 L,
-- packs.csv --
pack,run,item,date,count,each,cost
p,r,d,2025-01-03,0,1 kg,
q,r,d,2025-01-03,100001,1 kg,
s,r,d,2025-01-03,1,1 kg,5.00
`,
		"foods.csv:2 density density: 0 is not above 0",
		"foods.csv:3 water water: 101 % is too much",
		"foods.csv:4 refuse refuse: 100 % is too much",
		"foods.csv:5 kcal kcal: -1 is below 0",
		`foods.csv:5 keep_months keep_months: "1.5" is not a whole number`,
		"loads.csv:2 line line: a line of no receipt",
		"loads.csv:3 dry dry: 1001 g dry is more than 1 kg wet",
		"loads.csv:4 wet wet: 1 L measures volume",
		`packs.csv:2 count count: "0" is not a whole number from 1 to 100000`,
		`packs.csv:3 count count: "100001" is not a whole number from 1 to 100000`,
		"packs.csv:4 cost cost: the cost of a pack from a run comes from the run",
		"runs.csv:2 end end: the run ends before it starts",
	)
}

// A ledger joined through all records stands on a later day as one that is joined
// through that day.
func TestOnALaterDay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rec := madeRecords(t)
		all, _ := ledger.Join(rec, whole)
		last := ledger.LastDate(rec)
		if last == exact.NoDate {
			return
		}
		if g, ok := all.On(last.AddDays(-1)); ok {
			t.Errorf("it stands at %v, before records of %v", g.AsOf, last)
		}
		day := last.AddDays(rapid.IntRange(0, 400).Draw(t, "days"))
		want, faults := ledger.Join(rec, ledger.Options{Through: day, PricesThrough: day})
		got, ok := all.On(day)
		if !ok || len(faults) > 0 {
			t.Fatalf("on %v, after the last record of %v: %v %v", day, last, ok, faults)
		}
		sameLedger(t, got, want)
		if _, ok := want.On(day.AddDays(1)); ok && day > last {
			t.Errorf("one joined through %v tells of a later day", day)
		}
	})
}

// sameLedger holds a ledger that was made of another to one that was joined, but for
// what somebody else compares.
func sameLedger(t *rapid.T, got, want *ledger.Ledger, but ...string) {
	t.Helper()
	if got.Day() != want.Day() || len(got.LeftOut()) != len(want.LeftOut()) {
		t.Errorf("it stands on %v and leaves out %d, joined on %v and %d", got.Day(), len(got.LeftOut()), want.Day(), len(want.LeftOut()))
	}
	a, b := reflect.ValueOf(got).Elem(), reflect.ValueOf(want).Elem()
	for i := range a.NumField() {
		if field := a.Type().Field(i); field.IsExported() && !slices.Contains(but, field.Name) && !reflect.DeepEqual(a.Field(i).Interface(), b.Field(i).Interface()) {
			t.Errorf("it has other %s than when it is joined", field.Name)
		}
	}
	for i := range got.Foods {
		if !reflect.DeepEqual(got.FoodStock(i), want.FoodStock(i)) {
			t.Errorf("there is other stock of %s than when it is joined", got.Foods[i].ID)
		}
	}
}
