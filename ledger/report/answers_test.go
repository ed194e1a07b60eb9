package report_test

import (
	"fmt"
	"math/big"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/ledger/question"
	"putby/ledger/report"
	"putby/pricing/exact"
)

// answersOf holds the sentences with which reports begin to what the tables of
// the same reports have for machines, read anew: the sums that a sentence names,
// and how many foods it says do what.
func answersOf(t testing.TB, g *ledger.Ledger) {
	t.Helper()
	costAnswered(t, g)
	compareAnswered(t, g)
	onHandAnswered(t, g)
	cardAnswered(t, g)
}

func cardAnswered(t testing.TB, g *ledger.Ledger) {
	t.Helper()
	d, err := question.Card(g, figures.CardQuery{})
	if err != nil {
		t.Fatal(err)
	}
	all, pays, first := 0, 0, new(big.Rat)
	for _, name := range []string{"rows", "made_into"} {
		tab := table(t, d.Doc, name)
		for i := range tab.Rows {
			all++
			if below, ok := figureOf(t, tab, i, "below"); ok {
				if pays++; pays == 1 {
					first = below
				}
			}
		}
	}
	switch {
	case all == 0:
		says(t, d.Words[0], "there is nothing to say")
	case pays == 0:
		says(t, d.Words[0], "no package is worth buying")
	default:
		says(t, d.Words[0], map[bool]string{true: ": worth buying to dry up to", false: fmt.Sprintf("%d of %d package", pays, all)}[all == 1])
		near(t, d.Words[0], `up to ~?([-\d.]+)`, first)
	}
}

// figureOf reads a machine figure; "" is not there.
func figureOf(t testing.TB, tab *report.Table, row int, key string) (*big.Rat, bool) {
	t.Helper()
	r, ok := new(big.Rat).SetString(cell(t, tab, row, key).Exact(euro))
	return r, ok
}

func costAnswered(t testing.TB, g *ledger.Ledger) {
	t.Helper()
	d, err := report.Cost(g, figures.CostQuery{}, false)
	if err != nil {
		t.Fatal(err)
	}
	type sum struct{ made, cost, value, bareMade, bareCost big.Rat }
	units, runs, foods, lost := map[string]*sum{}, map[string]bool{}, map[string]*big.Rat{}, new(big.Rat)
	unpriced, packed := map[string]bool{}, map[string]bool{}
	tab := table(t, d, "rows")
	for i := range tab.Rows {
		runs[cell(t, tab, i, "run").Text()] = true
		part, _ := figureOf(t, tab, i, "lost")
		lost.Add(lost, part)
		made, _ := figureOf(t, tab, i, "reconstituted")
		if made.Sign() == 0 {
			continue
		}
		packed[cell(t, tab, i, "run").Text()] = true
		unit, food := cell(t, tab, i, "unit").Text(), cell(t, tab, i, "item").Text()
		if units[unit] == nil {
			units[unit] = &sum{}
		}
		s, total := units[unit], new(big.Rat)
		total, _ = figureOf(t, tab, i, "total")
		saving, priced := figureOf(t, tab, i, "saving")
		if !priced {
			s.bareMade.Add(&s.bareMade, made)
			s.bareCost.Add(&s.bareCost, total)
			unpriced[food] = true
			continue
		}
		s.made.Add(&s.made, made)
		s.cost.Add(&s.cost, total)
		s.value.Add(&s.value, new(big.Rat).Add(total, saving))
		if foods[food] == nil {
			foods[food] = new(big.Rat)
		}
		foods[food].Add(foods[food], saving)
	}
	words := d.Words[0]
	pays, not, none := 0, 0, 0
	for food := range unpriced {
		if foods[food] == nil {
			none++
		}
	}
	for _, saving := range foods {
		if saving.Sign() > 0 {
			pays++
		} else {
			not++
		}
	}
	switch {
	case len(g.Records.Runs) == 0:
		says(t, words, "No run is recorded yet (how to record one: help recording).")
		return
	case len(runs) == 0:
		says(t, words, "No run is recorded for that.")
		return
	case len(units) == 0:
		says(t, words, "nothing is packed yet")
		return
	}
	if len(packed) < len(runs) {
		says(t, words, fmt.Sprintf("In %d packed run", len(packed)))
		says(t, words, fmt.Sprintf(" of %d: ", len(runs)))
	} else {
		says(t, words, fmt.Sprintf("%d run", len(runs)))
	}
	for unit, name := range map[string]string{"L": "a litre", "kg": "a kilogram", "ea": "apiece"} {
		s := units[unit]
		if (s != nil) != strings.Contains(words, name) {
			t.Fatalf("%q: %s", words, unit)
		}
		if s == nil {
			continue
		}
		if s.made.Sign() == 0 {
			near(t, words, `([-\d.]+)(?: EUR)? `+name, new(big.Rat).Quo(&s.bareCost, &s.bareMade))
			continue
		}
		near(t, words, `([-\d.]+)(?: EUR)? `+name+` against`, new(big.Rat).Quo(&s.cost, &s.made))
		near(t, words, name+` against ([-\d.]+)`, new(big.Rat).Quo(&s.value, &s.made))
	}
	if strings.Contains(words, "no food pays") {
		if pays > 0 || not == 0 {
			t.Fatalf("%q: %d pay, %d do not", words, pays, not)
		}
		not = 0
	}
	if said := foodsSaid(words); said != [3]int{pays, not, none} {
		t.Fatalf("%q: %d pay, %d do not, %d have no price", words, pays, not, none)
	}
}

// foodsSaid reads how many foods pay, do not, and have no shelf price.
func foodsSaid(words string) (n [3]int) {
	count := func(pattern string) int {
		if m := regexp.MustCompile(pattern).FindStringSubmatch(words); m != nil {
			n, _ := strconv.Atoi(m[1])
			return n
		}
		return 0
	}
	n = [3]int{count(`(\d+) foods? pays?\b`), count(`(\d+) (?:does|do) not`), count(`(\d+) foods? ha(?:s|ve) no shelf price`)}
	switch {
	case strings.Contains(words, "it pays"):
		n[0] = 1
	case strings.Contains(words, "it does not pay"):
		n[1] = 1
	}
	return n
}

func says(t testing.TB, words, part string) {
	t.Helper()
	if !strings.Contains(words, part) {
		t.Fatalf("%q does not say %q", words, part)
	}
}

// near finds a figure in a sentence and holds it to what it rounds.
func near(t testing.TB, words, pattern string, want *big.Rat) {
	t.Helper()
	m := regexp.MustCompile(pattern).FindStringSubmatch(words)
	if m == nil {
		t.Fatalf("%q has no %s", words, pattern)
	}
	have, _ := new(big.Rat).SetString(m[1])
	_, digits, _ := strings.Cut(m[1], ".")
	half := new(big.Rat).SetFrac(big.NewInt(1), new(big.Int).Mul(big.NewInt(2), new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(len(digits))), nil)))
	if off := new(big.Rat).Sub(have, want); off.Abs(off).Cmp(half) > 0 {
		t.Fatalf("%q: %s is not %s", words, m[1], want.FloatString(6))
	}
}

func compareAnswered(t testing.TB, g *ledger.Ledger) {
	t.Helper()
	d, err := report.Compare(g, figures.CompareQuery{})
	if err != nil {
		t.Fatal(err)
	}
	words, tab, parts, spread := d.Words[0], table(t, d, "rows"), table(t, d, "parts"), table(t, d, "spread")
	best, of, priced, loses := new(big.Rat), "", 0, 0
	side, err := figures.Compare(g, figures.CompareQuery{})
	if err != nil {
		t.Fatal(err)
	}
	filled := false // a whole run, by the food that earns most
	for i := range tab.Rows {
		title := cell(t, tab, i, "item").Shown(euro, g.Settings.Show())
		if earns, ok := figureOf(t, spread, i, "per_run"); ok && earns.Sign() > 0 {
			whole := side.Foods[i].Earned.Whole.Cmp(exact.RatioOf(exact.Int(1))) >= 0
			if whole && !filled || whole == filled && earns.Cmp(best) > 0 {
				best, of, filled = earns, title, whole
			}
		}
		saving, ok := figureOf(t, tab, i, "saving_per_unit")
		if !ok {
			continue
		}
		priced++
		if saving.Sign() >= 0 {
			continue
		}
		loses++
		wear, _ := figureOf(t, parts, i, "wear_per_unit")
		labour, _ := figureOf(t, parts, i, "labour_per_unit")
		clause := title + ": "
		if side.Foods[i].OfBatch {
			says(t, words, title+" costs ")
			says(t, words, " more than what it is made of")
			continue
		}
		if without := new(big.Rat).Add(saving, wear); without.Add(without, labour).Sign() >= 0 {
			clause = title + " by "
		}
		says(t, words, clause)
	}
	switch {
	case len(tab.Rows) == 0:
		says(t, words, "Nothing is packed yet.")
		return
	case priced == 0:
		says(t, words, "No shelf price is known")
		return
	}
	if none := strings.Contains(words, "No food costs more"); none != (loses == 0) {
		t.Fatalf("%q: %d foods lose", words, loses)
	}
	if of == "" {
		if !strings.Contains(words, ", but with all that was lost of it a run loses ") {
			says(t, strings.ToLower(words), "no food earns anything")
		}
		return
	}
	says(t, words, of+" earns most")
	near(t, words, `earns most, ([-\d.]+) EUR`, best)
	if part := strings.Contains(words, " of a run)"); part == filled {
		t.Fatalf("%q: a whole run was filled: %v", words, filled)
	}
}

func onHandAnswered(t testing.TB, g *ledger.Ledger) {
	t.Helper()
	d, err := question.OnHand(g, figures.OnHandQuery{})
	if err != nil {
		t.Fatal(err)
	}
	words, packs := d.Words[0], table(t, d, "packs")
	left, cost, foods := 0, new(big.Rat), map[string]bool{}
	for i := range packs.Rows {
		n, _ := strconv.Atoi(cell(t, packs, i, "left").Exact(euro))
		part, _ := figureOf(t, packs, i, "cost")
		left, foods[cell(t, packs, i, "item").Text()] = left+n, true
		cost.Add(cost, part)
	}
	if left > 0 {
		says(t, words, fmt.Sprintf("%d container", left))
		says(t, words, fmt.Sprintf(" of %d food", len(foods)))
		near(t, words, `at a cost of ([-\d.]+)`, cost)
	}
	waits := map[string]bool{}
	for i, tab := 0, table(t, d, "awaiting"); i < len(tab.Rows); i++ {
		waits[cell(t, tab, i, "run").Text()] = true
	}
	if strings.Contains(words, "to pack") != (len(waits) > 0) {
		t.Fatalf("%q: %d runs await packing", words, len(waits))
	}
	if fresh := len(table(t, d, "fresh").Rows); fresh > 0 {
		says(t, words, fmt.Sprintf("%d fresh food", fresh))
	}
}

// TestAnswersOnMadeUpLedgers holds the first sentences to the tables below them
// on ledgers of every kind: empty, with one run, all at a loss, without a shelf
// price, and long ones.
func TestAnswersOnMadeUpLedgers(t *testing.T) {
	const foods = "-- foods.csv --\nfood,name,basis\ntea,Tea,volume\nfigs,Figs,mass\nplum,Plums,mass\n"
	const bought = "-- receipts.csv --\nreceipt,date,shop,line,kind,item,count,size,price\nb1,2025-01-02,Brook,1,food,tea,4,1 L,1.00\nb1,2025-01-02,Brook,2,food,figs,4,1 kg,5.00\nb1,2025-01-02,Brook,3,food,plum,4,1 kg,2.00\n"
	const run = "-- machines.csv --\nmachine,cycles\nm,100\n-- runs.csv --\nrun,machine,start,kwh\nr1,m,2025-01-03 08:00,4\n-- loads.csv --\nrun,item,quantity\nr1,tea,4 L\n-- packs.csv --\npack,run,item,date,count,each\np1,r1,tea,2025-01-05,4,1 L\n"
	const shelf = "-- shelf.csv --\ndate,shop,item,size,price\n2025-01-02,Brook,tea,1 L,%s\n2025-01-02,Brook,figs,1 kg,9.00\n"
	for name, text := range map[string]string{
		"empty":          "",
		"foods alone":    foods,
		"not packed":     foods + bought + strings.Split(run, "-- packs.csv")[0],
		"no shelf price": foods + bought + run,
		"one run pays":   foods + bought + run + fmt.Sprintf(shelf, "6.00"),
		"at a loss":      foods + bought + run + fmt.Sprintf(shelf, "0.50"),
		"as dear":        foods + bought + run + fmt.Sprintf(shelf, "1.25"),
		"a hair dearer":  foods + bought + run + fmt.Sprintf(shelf, "1.2499"),
	} {
		t.Run(name, func(t *testing.T) { answersOf(t, whole(t, write(t, text), exact.NoDate)) })
	}
	for seed := range uint64(2) {
		rec := records(t, seed, 1)
		rec.Settings.Currency = euro
		g, faults := ledger.Join(rec, ledger.Options{Itemize: true})
		if len(faults) > 0 {
			t.Fatal(faults)
		}
		answersOf(t, g)
	}
	answersOf(t, whole(t, small, exact.NoDate))
}
