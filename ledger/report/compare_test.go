package report_test

import (
	"strings"
	"testing"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/ledger/question"
	"putby/ledger/report"
	"putby/pricing/exact"
)

func compared(t testing.TB, g *ledger.Ledger, change func(*figures.CompareQuery)) report.Doc {
	t.Helper()
	return asked(t, g, change, report.Compare)
}

// rank is the measure of a column.
func rank(t testing.TB, key string) figures.Measure {
	t.Helper()
	m, err := question.ParseRank(key)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// order lists the foods of a table.
func order(t testing.TB, tab *report.Table) string {
	t.Helper()
	var names []string
	for i := range tab.Rows {
		names = append(names, cell(t, tab, i, "item").Text())
	}
	return strings.Join(names, " ")
}

func TestCompareKeys(t *testing.T) {
	want := "item,unit,reconstituted,total,per_unit,per_serving,per_1000_kcal,per_100g_protein,shelf_per_unit,saving_per_unit,notes"
	if have := strings.Join(keys(table(t, compared(t, whole(t, small, exact.NoDate), nil), "rows")), ","); have != want {
		t.Errorf("keys are %s", have)
	}
}

// The small ledger, by hand: 3.5 L for 15.470417. A serving is 0.35 L. At
// 1.0482 kg/L they weigh 3.6687 kg, of 32 kcal and 0.71 g of protein in 100 g.
func TestCompareSmall(t *testing.T) {
	d := compared(t, whole(t, small, exact.NoDate), nil)
	rows := table(t, d, "rows")
	wants(t, rows, 0, map[string]string{"item": "tomato-soup", "unit": "L", "reconstituted": "3.5", "total": "15.470417",
		"per_unit": "4.420119142857", "shelf_per_unit": "5.000000000000", "saving_per_unit": "0.579880857143"})
	total := ratio("15.470417")
	for key, want := range map[string]exact.Ratio{
		"per_serving":      total.Quo(ratio("10")),
		"per_1000_kcal":    total.Times(exact.Int(1000)).Quo(ratio("1173.984")),
		"per_100g_protein": total.Times(exact.Int(100)).Quo(ratio("26.04777")),
	} {
		if have := cell(t, rows, 0, key).Ratio(); !have.Equal(want) {
			t.Errorf("%s is %v, want %v", key, have, want)
		}
	}
	parts := table(t, d, "parts")
	wants(t, parts, 0, map[string]string{"food_per_unit": "2.333928571429", "labour_per_unit": "0.357142857143", "per_unit_with_loss": "5.211285714286"})
	sum := exact.Ratio{}
	for _, e := range ledger.Elements() {
		sum = sum.Add(cell(t, parts, 0, e.String()+"_per_unit").Ratio())
	}
	if have := cell(t, rows, 0, "per_unit").Ratio(); !have.Equal(sum) {
		t.Errorf("the elements sum to %v, not %v", sum, have)
	}
	wants(t, table(t, d, "spread"), 0, map[string]string{"runs": "1", "deviation": "", "saving": "2.029583000000"})
	if !noted(d.Foot(), "Bring to the boil") {
		t.Error("the caution is not printed")
	}
}

// By hand: 1 qt (0.946352946 L) at 1.0482 kg/L weighs 0.9919671579972 kg, of 13
// decimals, and is divided by as it is: 6.13 for 12.8955730539636 kcal in all,
// and for 7.04296682178012 g of protein.
func TestCompareDividesByUnroundedMass(t *testing.T) {
	text := strings.NewReplacer("milk,volume,1.03,,250 mL,64,3.3", "milk,volume,1.0482,,250 mL,1.3,0.71", "1 L", "1 qt").Replace(threeUnits)
	text = strings.Replace(text, "milk,1,1 qt,1.00", "milk,1,1 qt,6.13", 1)
	d := compared(t, whole(t, write(t, text), exact.NoDate), func(q *figures.CompareQuery) { q.Item, q.To = "milk", date("2025-01-02") })
	wants(t, table(t, d, "rows"), 0, map[string]string{"total": "6.130000", "per_1000_kcal": "475.356928641172", "per_100g_protein": "87.037184117398"})
}

// Three foods counted in three units: what is bought costs what is put by, as
// the machine has no receipt and uses no electricity.
const threeUnits = `-- foods.csv --
food,basis,density,piece_kg,serving,kcal,protein
milk,volume,1.03,,250 mL,64,3.3
rice,mass,,,,,0
lemons,count,,0.1,150 g,29,1.1
-- machines.csv --
machine,cycles
m,10
-- receipts.csv --
receipt,date,line,kind,item,count,size,price
a,2025-01-01,1,food,milk,1,1 L,1.00
a,2025-01-01,2,food,milk,1,1 L,3.00
a,2025-01-01,3,food,milk,1,1 L,2.00
a,2025-01-01,4,food,rice,1,2 kg,3.00
a,2025-01-01,5,food,lemons,1,10 ea,4.00
a,2025-01-01,6,food,milk,1,1 L,7.00
-- shelf.csv --
date,shop,item,size,price
2025-01-01,Mill,milk,1 L,2.50
-- runs.csv --
run,machine,start,end,kwh,outcome
1,m,2025-01-02 10:00,2025-01-02 12:00,0,
2,m,2025-01-03 10:00,2025-01-03 12:00,0,
3,m,2025-01-04 10:00,2025-01-04 12:00,0,
4,m,2025-01-05 10:00,2025-01-05 12:00,0,
5,m,2025-01-06 10:00,2025-01-06 12:00,0,
6,m,2025-01-07 10:00,2025-01-07 12:00,0,
-- loads.csv --
run,item,quantity
1,milk,1 L
2,milk,1 L
3,milk,1 L
4,rice,2 kg
5,lemons,10 ea
6,milk,1 L
-- packs.csv --
pack,run,item,date,count,each
p1,1,milk,2025-01-03,1,1 L
p2,2,milk,2025-01-04,1,1 L
p3,3,milk,2025-01-05,1,1 L
p4,4,rice,2025-01-06,2,1 kg
p5,5,lemons,2025-01-07,5,2 ea
`

// Runs that cost 1, 3 and 2 a litre have the median 2 and the standard
// deviation 1: NIST StRD, NumAcc1 (10000001, 10000003, 10000002; memory), less
// its 10000000.
func TestCompareSpread(t *testing.T) {
	d := compared(t, whole(t, write(t, threeUnits), exact.NoDate), nil)
	spread := table(t, d, "spread")
	at := find(t, spread, "item", "milk")
	wants(t, spread, at, map[string]string{"runs": "3", "lowest": "1.000000000000", "median": "2.000000000000",
		"highest": "3.000000000000", "deviation": "1.000000000000"})
	if !cell(t, spread, at, "deviation").IsEstimate() || cell(t, spread, at, "median").IsEstimate() {
		t.Error("the deviation is an estimate, the median none")
	}
	if !noted(d.Notes, "milk of run 6 awaits packing") {
		t.Errorf("nothing says that run 6 is left out: %q", d.Notes)
	}
}

// All that is left out is said, and nothing else: run 6 awaits packing, run 7
// spoiled, and of the salt nothing but that run's loss is known.
func TestCompareSaysWhatIsLeftOut(t *testing.T) {
	text := strings.NewReplacer("6,m,2025-01-07 10:00,2025-01-07 12:00,0,\n", "6,m,2025-01-07 10:00,2025-01-07 12:00,0,\n7,m,2025-01-08 10:00,2025-01-08 12:00,0,spoiled\n",
		"6,milk,1 L\n", "6,milk,1 L\n7,milk,1 L\n7,salt,1 kg\n", "rice,mass,,,,,0\n", "rice,mass,,,,,0\nsalt,mass,,,,,\n",
		"6,food,milk,1,1 L,7.00\n", "6,food,milk,2,1 L,7.00\na,2025-01-01,7,food,salt,1,1 kg,1.00\n").Replace(threeUnits)
	d := compared(t, whole(t, write(t, text), exact.NoDate), nil)
	sameNotes(t, d.Notes, "milk of run 6 awaits packing and is left out", "salt has no pack, only losses, and is left out",
		"L, kg and ea are not alike: foods of different units compare per serving, per 1000 kcal or per 100 g of protein", "L, kg and ea are ranked apart")
	d = compared(t, whole(t, write(t, text), exact.NoDate), func(q *figures.CompareQuery) { q.Item = "rice" })
	sameNotes(t, d.Notes)
}

func TestCompareFoodValues(t *testing.T) {
	d := compared(t, whole(t, write(t, threeUnits), exact.NoDate), nil)
	rows := table(t, d, "rows")
	milk, rice, lemons := find(t, rows, "item", "milk"), find(t, rows, "item", "rice"), find(t, rows, "item", "lemons")
	// 3 L for 6.00: 250 mL are 0.50; 3 L weigh 3.09 kg, so 1977.6 kcal.
	wants(t, rows, milk, map[string]string{"per_serving": "0.500000000000", "per_1000_kcal": "3.033980582524", "saving_per_unit": "0.500000000000"})
	// 10 pieces of 100 g for 4.00: 150 g are 1.5 pieces; 1 kg is 290 kcal and 11 g.
	wants(t, rows, lemons, map[string]string{"per_serving": "0.600000000000", "per_1000_kcal": "13.793103448276", "per_100g_protein": "36.363636363636", "shelf_per_unit": ""})
	// Its record has neither serving nor kcal, and no protein to pay for.
	wants(t, rows, rice, map[string]string{"per_unit": "1.500000000000", "per_serving": "", "per_1000_kcal": "", "per_100g_protein": ""})
	if !noted(rows.Rows[rice].Notes, "no serving, no kcal") {
		t.Errorf("notes of rice: %q", rows.Rows[rice].Notes)
	}
}

func TestCompareRanks(t *testing.T) {
	g := whole(t, write(t, threeUnits), exact.NoDate)
	for _, c := range []struct {
		rank  string
		worst bool
		want  string
	}{
		{"", false, "milk rice lemons"}, // each unit by itself
		{"per_serving", false, "milk lemons rice"},
		{"per_serving", true, "lemons milk rice"}, // what has no figure is last
		{"per_1000_kcal", true, "lemons milk rice"},
		{"total", false, "rice lemons milk"},
		{"reconstituted", false, "milk rice lemons"}, // 3 L, 2 kg and 10 pieces
		{"reconstituted", true, "milk rice lemons"},
		{"saving_per_unit", true, "milk rice lemons"},
		{"runs", false, "milk rice lemons"},
	} {
		d := compared(t, g, func(q *figures.CompareQuery) { q.Rank, q.Worst = rank(t, c.rank), c.worst })
		for _, key := range []string{"rows", "parts", "spread"} {
			if have := order(t, table(t, d, key)); have != c.want {
				t.Errorf("%s by %q, worst %v: %s, want %s", key, c.rank, c.worst, have, c.want)
			}
		}
	}
	d := compared(t, g, nil)
	if !noted(d.Notes, "L, kg and ea are not alike") || !noted(d.Notes, "L, kg and ea are ranked apart") {
		t.Errorf("nothing says what does not compare: %q", d.Notes)
	}
	if d = compared(t, g, func(q *figures.CompareQuery) { q.Item = "milk" }); noted(d.Notes, "not alike") {
		t.Error("one food is compared with itself")
	}
}

// Every column ranks: best first is worst first turned round, but for ties and
// for what has no figure.
func TestCompareRanksAll(t *testing.T) {
	g := whole(t, sample, exact.NoDate)
	for _, key := range report.RankKeys() {
		for _, worst := range []bool{false, true} {
			d := compared(t, g, func(q *figures.CompareQuery) { q.Rank, q.Worst = rank(t, key), worst })
			if rows := table(t, d, "rows"); len(rows.Rows) != 11 {
				t.Fatalf("%s: %d rows", key, len(rows.Rows))
			}
			checkOrder(t, d, key)
		}
	}
}

// checkOrder holds that the figures go one way within each unit.
func checkOrder(t *testing.T, d report.Doc, key string) {
	t.Helper()
	for _, f := range d.Fields {
		tab := f.Node.(*report.Table)
		i := 0
		for ; i < len(tab.Columns) && tab.Columns[i].Key != key; i++ {
		}
		if i == len(tab.Columns) {
			continue
		}
		way := map[string]int{}
		for r := 1; r < len(tab.Rows); r++ {
			a, b := tab.Rows[r-1].Cells[i], tab.Rows[r].Cells[i]
			unit := cell(t, tab, r, "unit").Text()
			if cell(t, tab, r-1, "unit").Text() != unit || a.IsNull() || b.IsNull() {
				continue
			}
			step := a.Ratio().Cmp(b.Ratio())
			if step*way[unit] < 0 {
				t.Errorf("%s goes up and down", key)
			}
			way[unit] += step
		}
	}
}

// A comparison says what cost --by item says.
func TestCompareIsCost(t *testing.T) {
	for _, asOf := range monthEnds(t) {
		g := whole(t, sample, asOf)
		q := figures.Query{}
		q.AsOf = asOf
		without := []ledger.Element{ledger.WearCost}
		cost, err := report.Cost(g, figures.CostQuery{Query: q, By: figures.ByItem, Without: without}, false)
		if err != nil {
			t.Fatal(err)
		}
		rows := table(t, compared(t, g, func(c *figures.CompareQuery) { c.Query, c.Without = q, without }), "rows")
		costs := table(t, cost, "rows")
		for i := range rows.Rows {
			at := find(t, costs, "item", cell(t, rows, i, "item").Text())
			for _, key := range []string{"reconstituted", "total", "per_unit", "shelf_per_unit", "saving_per_unit"} {
				if have, want := cell(t, rows, i, key), cell(t, costs, at, key); have.Exact(euro) != want.Exact(euro) {
					t.Errorf("as of %v: %s of row %d is %s, cost has %s", asOf, key, i, have.Exact(euro), want.Exact(euro))
				}
			}
		}
	}
}

func TestCompareRefuses(t *testing.T) {
	g := whole(t, small, exact.NoDate)
	for option, change := range map[string]func(*figures.CompareQuery){
		"item": func(q *figures.CompareQuery) { q.Item = "pears" },
		"to":   func(q *figures.CompareQuery) { q.From, q.To = date("2025-03-02"), date("2025-03-01") },
	} {
		var q figures.CompareQuery
		change(&q)
		if _, err := question.Asked(report.Compare)(g, q); question.OptionOf(err).Field != option {
			t.Errorf("%s: %v", option, err)
		}
	}
	if _, err := question.ParseRank("colour"); question.OptionOf(err).Field != "rank" {
		t.Errorf("rank: %v", err)
	}
}

func TestCompareOfNothing(t *testing.T) {
	d := compared(t, whole(t, write(t, ""), exact.NoDate), nil)
	if rows := table(t, d, "rows"); len(rows.Rows) != 0 || d.Words[0] != "Nothing is packed yet." || d.Title != "" {
		t.Errorf("an empty ledger has rows, or says %q", d.Words)
	}
}
