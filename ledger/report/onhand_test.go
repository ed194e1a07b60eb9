package report_test

import (
	"testing"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/ledger/question"
	"putby/ledger/report"
	"putby/pricing/exact"
)

func onHand(t testing.TB, g *ledger.Ledger, change func(*figures.OnHandQuery)) report.Doc {
	t.Helper()
	q := figures.OnHandQuery{}
	if change != nil {
		change(&q)
	}
	d, err := question.OnHand(g, q)
	if err != nil {
		t.Fatal(err)
	}
	if err := d.Check(); err != nil {
		t.Fatal(err)
	}
	return d
}

// The small ledger, by hand: one container of five is gone; 4 x 0.7 L at 5.00 a
// litre are 14.00 on the shelf; 2025-03-04 and 18 months is 2026-09-04. Of 6
// jars of 20 uses 5 were filled once, and 4 are still on a pack. The machine
// wears off (2400 - 400) / 1000 a cycle.
func TestOnHandSmall(t *testing.T) {
	d := onHand(t, join(t, small, exact.NoDate), nil)
	wants(t, table(t, d, "packs"), 0, map[string]string{"pack": "d1-a", "item": "tomato-soup", "count": "5", "left": "4", "each": "0.7", "unit": "L",
		"cost": "12.376333", "best_by": "2026-09-04", "days_left": "533", "shelf_value": "14.000000000000", "place": "shelf"})
	if n := len(table(t, d, "fresh").Rows) + len(table(t, d, "awaiting").Rows); n != 0 {
		t.Errorf("%d rows of fresh food and of what awaits packing", n)
	}
	supplies := table(t, d, "supplies")
	wants(t, supplies, find(t, supplies, "supply", "jar"), map[string]string{"uses_left": "115", "owned": "6", "in_store": "4", "free": "2", "lasts": "2", "of": "containers"})
	wants(t, supplies, find(t, supplies, "supply", "absorber"), map[string]string{"uses_left": "5", "owned": "5", "in_store": "", "free": "5", "lasts": "5", "of": "containers", "cost": "1.250000"})
	wants(t, supplies, find(t, supplies, "supply", "oil"), map[string]string{"uses_left": "24", "owned": "0.96", "free": "0.96", "lasts": "24", "of": "cycles"})
	wants(t, table(t, d, "machines"), 0, map[string]string{"cycles_done": "1", "cycles_left": "999", "cost_left": "1998.000000", "residual": "400.000000"})
}

// On the day of the run its good cost awaits packing: 15.470417 less five jar
// fillings (0.375) and five absorbers (1.25).
func TestOnHandAwaiting(t *testing.T) {
	d := onHand(t, join(t, small, date("2025-03-03")), func(q *figures.OnHandQuery) { q.AsOf = date("2025-03-03") })
	wants(t, table(t, d, "awaiting"), 0, map[string]string{"run": "d1", "item": "tomato-soup", "loaded": "4.2", "cost": "13.845417"})
	if n := len(table(t, d, "packs").Rows); n != 0 {
		t.Errorf("%d packs before the packing", n)
	}
	if !noted(d.Foot(), "Bring to the boil") {
		t.Error("the caution is not printed")
	}
}

func TestOnHandFresh(t *testing.T) {
	d := onHand(t, join(t, small, date("2025-03-02")), func(q *figures.OnHandQuery) { q.AsOf = date("2025-03-02") })
	fresh := table(t, d, "fresh")
	wants(t, table(t, d, "fresh_lots"), 0, map[string]string{"item": "tomato-soup", "receipt": "r2", "line": "1", "date": "2025-03-01", "frozen": "no"})
	wants(t, fresh, 0, map[string]string{"item": "tomato-soup", "unit": "L", "quantity": "4.2", "cost": "9.802500", "use_by": "2025-03-06", "days_left": "4", "frozen_by": "2025-05-30"})
	late := onHand(t, join(t, write(t, `-- foods.csv --
food,basis,fresh_days
salt,mass,
milk,volume,5
kale,mass,2
-- receipts.csv --
receipt,date,line,kind,item,count,size,price
a,2025-01-01,1,food,salt,1,1 kg,1.00
a,2025-01-01,2,food,milk,1,1 L,1.00
a,2025-01-01,3,food,kale,1,1 kg,1.00
`), exact.NoDate), func(q *figures.OnHandQuery) { q.AsOf = date("2025-01-05") })
	if have := order(t, table(t, late, "fresh")); have != "kale milk salt" {
		t.Errorf("in order of days left: %s", have)
	}
	wants(t, table(t, late, "fresh"), 0, map[string]string{"days_left": "-2"}) // counted from the day asked for, not the last record's
	if !noted(table(t, late, "fresh").Rows[0].Notes, "past its time") {
		t.Error("nothing says that the kale is past its time")
	}
}

// Jars: 12 bought, each good for 20 fillings. Four went on a pack of which two
// are used and one given away; one broke: a twelfth of the 236 uses left.
const jars = `-- foods.csv --
food,basis,keep_months
milk,volume,1
-- supplies.csv --
supply,kind,uses,price
jar,jar,20,
absorber,absorber,1,0.20
label,label,1,
-- machines.csv --
machine,cycles
m,10
-- receipts.csv --
receipt,date,line,kind,item,count,size,price
a,2025-01-01,1,food,milk,4,1 L,1.00
a,2025-01-01,2,supply,jar,1,12 ea,24.00
a,2025-01-01,3,supply,label,1,4 ea,0.40
-- runs.csv --
run,machine,start,end,kwh
1,m,2025-01-02 10:00,2025-01-02 12:00,0
-- loads.csv --
run,item,quantity
1,milk,4 L
-- packs.csv --
pack,run,item,date,count,each,with
p,1,milk,2025-01-31,4,1 L,"1 jar, 2 absorber, 1 label"
-- draws.csv --
date,pack,item,quantity,reason
2025-02-01,p,,2,used
2025-02-02,p,,1,given
2025-02-03,,jar,1,spoiled
`

func TestOnHandJars(t *testing.T) {
	d := onHand(t, join(t, write(t, jars), exact.NoDate), nil)
	supplies := table(t, d, "supplies")
	jar := find(t, supplies, "supply", "jar")
	wants(t, supplies, jar, map[string]string{"uses_left": "216.333333333333", "owned": "11", "in_store": "1", "free": "10", "lasts": "10"})
	if !noted(supplies.Rows[jar].Notes, "counted as returned: 1 given away with packs. Record those that are not: draw add item jar quantity 1 reason given") {
		t.Errorf("notes of jars: %q", supplies.Rows[jar].Notes)
	}
	absorber := find(t, supplies, "supply", "absorber")
	wants(t, supplies, absorber, map[string]string{"uses_left": "0", "lasts": "0", "of": "containers"})
	if !noted(supplies.Rows[absorber].Notes, "charged at its list price") {
		t.Errorf("notes of absorbers: %q", supplies.Rows[absorber].Notes)
	}
	label := find(t, supplies, "supply", "label")
	if !noted(supplies.Rows[label].Notes, "its next use needs a receipt first") {
		t.Errorf("notes of labels: %q", supplies.Rows[label].Notes)
	}
	wants(t, table(t, d, "machines"), 0, map[string]string{"cycles_done": "1", "cycles_left": ""})
}

// Once the jar is said to stay with a neighbour it is no longer owned.
func TestOnHandJarsThatStayAway(t *testing.T) {
	files := write(t, jars+"2025-02-04,,jar,1,given\n")
	supplies := table(t, onHand(t, join(t, files, exact.NoDate), nil), "supplies")
	jar := find(t, supplies, "supply", "jar")
	wants(t, supplies, jar, map[string]string{"owned": "10", "in_store": "1", "free": "9"})
	if noted(supplies.Rows[jar].Notes, "given away") {
		t.Errorf("notes of jars: %q", supplies.Rows[jar].Notes)
	}
}

// Two purchases of broth, of the older of which 2 mL of 1 L are left, and kale
// of which 1 kg of 2 is frozen.
const lots = `-- foods.csv --
food,basis,fresh_days,frozen_days
broth,volume,4,90
kale,mass,2,60
-- receipts.csv --
receipt,date,line,kind,item,count,size,price
a,2025-01-01,1,food,broth,1,1 L,3.00
b,2025-02-10,2,food,broth,2,1 L,4.00
b,2025-02-10,3,food,kale,1,2 kg,5.00
-- draws.csv --
date,item,quantity
2025-01-02,broth,0.998 L
-- frozen.csv --
date,item,quantity
2025-02-11,kale,1 kg
`

// A crumb of an old lot hides no purchase: the food's use-by is that of the
// newer lot. Each lot has its row, one that is partly frozen two; the crumb's is
// for machines only.
func TestOnHandLotByLot(t *testing.T) {
	d := onHand(t, join(t, write(t, lots), exact.NoDate), func(q *figures.OnHandQuery) { q.AsOf = date("2025-02-15") })
	fresh := table(t, d, "fresh")
	wants(t, fresh, find(t, fresh, "item", "broth"), map[string]string{"quantity": "2.002", "cost": "8.006000", "use_by": "2025-02-14", "days_left": "-1", "frozen_by": "2025-05-11"})
	wants(t, fresh, find(t, fresh, "item", "kale"), map[string]string{"quantity": "2", "use_by": "2025-02-12", "days_left": "-3"})
	each := table(t, d, "fresh_lots")
	for i, want := range []map[string]string{
		{"item": "broth", "receipt": "a", "line": "1", "date": "2025-01-01", "quantity": "0.002", "cost": "0.006000", "use_by": "2025-01-05", "frozen": "no"},
		{"item": "kale", "quantity": "1", "cost": "2.500000", "use_by": "2025-02-12", "frozen": "no", "frozen_by": "2025-04-11"},
		{"item": "broth", "receipt": "b", "line": "2", "quantity": "2", "cost": "8.000000", "use_by": "2025-02-14", "days_left": "-1"},
		{"item": "kale", "quantity": "1", "cost": "2.500000", "use_by": "2025-04-11", "days_left": "55", "frozen": "yes", "frozen_by": ""},
	} {
		wants(t, each, i, want)
		if minor, warned := each.Rows[i].Minor, noted(each.Rows[i].Notes, "past its time"); minor != (i == 0) || warned != (i == 1 || i == 2) {
			t.Errorf("row %d: spared %t, warned %t", i, minor, warned)
		}
	}
	if len(each.Rows) != 4 {
		t.Errorf("%d rows of lots", len(each.Rows))
	}
	due := onHand(t, join(t, write(t, lots), exact.NoDate), func(q *figures.OnHandQuery) { q.AsOf, q.Due = date("2025-02-11"), exact.Some(2) })
	if have := order(t, table(t, due, "fresh")); have != "kale" {
		t.Errorf("due within 2 days: %s", have)
	}
}

// 2025-01-31 and a month is 2025-02-28: a month's end is not passed.
func TestOnHandDue(t *testing.T) {
	g := join(t, write(t, jars), exact.NoDate)
	for _, c := range []struct {
		asOf string
		days int
		rows int
	}{{"2025-02-03", 24, 0}, {"2025-02-03", 25, 1}, {"2025-03-02", 0, 1}} {
		d := onHand(t, g, func(q *figures.OnHandQuery) { q.AsOf, q.Due = date(c.asOf), exact.Some(c.days) })
		packs := table(t, d, "packs")
		if len(packs.Rows) != c.rows {
			t.Fatalf("%d packs are due within %d days of %s", len(packs.Rows), c.days, c.asOf)
		}
		if c.asOf == "2025-03-02" {
			wants(t, packs, 0, map[string]string{"best_by": "2025-02-28", "days_left": "-2"})
			if !noted(packs.Rows[0].Notes, "past its best-by date") {
				t.Error("nothing says that it is past its best-by date")
			}
		}
	}
}

// What is on hand is opening + in - out at any date, in all and food by food,
// and what the packs and lots carry.
func TestOnHandIsWhatIsLeft(t *testing.T) {
	for _, asOf := range monthEnds(t) {
		g := join(t, sample, asOf)
		d := onHand(t, g, nil)
		packs, foods := table(t, d, "packs"), table(t, d, "foods")
		sum := exact.Ratio{}
		for i := range packs.Rows {
			sum = sum.Add(cell(t, packs, i, "cost").Ratio())
		}
		if want := exact.RatioOf(g.InStore().Number()); !sum.Equal(want) {
			t.Errorf("as of %v: packs cost %v, in store are %v", asOf, sum, want)
		}
		for i := range foods.Rows {
			item := cell(t, foods, i, "item").Text()
			month := monthly(t, g, func(q *figures.MonthQuery) { q.Item = item })
			have, want := cell(t, foods, i, "cost"), value(t, part[report.Object](t, month, "totals"), "closing")
			if !have.Ratio().Equal(want.Ratio()) {
				t.Errorf("as of %v: %s costs %s, its months close with %s", asOf, item, have.Exact(euro), want.Exact(euro))
			}
		}
		var awaiting exact.Ratio
		for i, tab := 0, table(t, d, "awaiting"); i < len(tab.Rows); i++ {
			awaiting = awaiting.Add(cell(t, tab, i, "cost").Ratio())
		}
		if want := exact.RatioOf(g.AwaitingPacking().Number()); !awaiting.Equal(want) {
			t.Errorf("as of %v: %v awaits packing, want %v", asOf, awaiting, want)
		}
	}
}

// Each pack costs what explain derives for the containers still in store.
func TestOnHandIsExplained(t *testing.T) {
	g := whole(t, sample, exact.NoDate)
	packs := table(t, onHand(t, g, nil), "packs")
	for i := range packs.Rows {
		name := cell(t, packs, i, "pack").Text()
		at, _ := g.FindPack(name)
		explained, err := report.Explain(g, name)
		if err != nil {
			t.Fatal(err)
		}
		containers, sum := table(t, explained, "containers"), exact.Ratio{}
		for c := range containers.Rows {
			if cell(t, containers, c, "state").Text() != "in store" {
				continue
			}
			first, last := span(t, cell(t, containers, c, "containers").Text())
			sum = sum.Add(cell(t, containers, c, "each").Ratio().Times(exact.Int(int64(last - first + 1))))
		}
		if have := cell(t, packs, i, "cost").Ratio(); !have.Equal(sum) {
			t.Errorf("%s costs %v, its %d containers %v", name, have, g.Packs[at].Left(), sum)
		}
	}
}

// What is on hand is of one day: a span is no error, but is said to do nothing.
func TestOnHandOfASpan(t *testing.T) {
	d := onHand(t, join(t, small, exact.NoDate), func(q *figures.OnHandQuery) { q.From, q.To = date("2030-01-01"), date("2030-12-31") })
	if len(table(t, d, "packs").Rows) != 1 || !noted(d.Notes, "--from and --to change nothing") {
		t.Errorf("notes of a span: %q", d.Notes)
	}
}

func TestOnHandRefuses(t *testing.T) {
	g := join(t, small, exact.NoDate)
	if _, err := question.OnHand(g, figures.OnHandQuery{Query: figures.Query{Item: "pears"}}); question.OptionOf(err).Field != "item" {
		t.Errorf("an unknown food: %v", err)
	}
	q := figures.OnHandQuery{Due: exact.Some(-1)}
	if _, err := question.OnHand(g, q); question.OptionOf(err).Field != "soon" {
		t.Errorf("days below 0: %v", err)
	}
}
