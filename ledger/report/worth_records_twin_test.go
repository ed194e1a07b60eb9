package report_test

import (
	"fmt"
	"math/big"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"putby/ledger"
	"putby/ledger/ledgertest"
	"putby/ledger/question"
	"putby/ledger/report"
	"putby/pricing/exact"
)

// A larder is a household made up for a question that its records answer: a
// machine with two limits, jars and seals, and peas in hand. Amounts are
// decimals as they are written; an empty one is not recorded.
type larder struct {
	volume, mass           string // the machine's limits
	density, peasDensity   string
	wear, rate             string
	kwh, more, peasKWh     string // of two runs of stock, and of one of peas
	peas                   string // kg in hand
	jars, full             int    // bought, in store
	seals                  int    // bought; one is on each full jar
	size, price, limit     string
	each, cycles, sealsPer string
}

func drawLarder(t *rapid.T) larder {
	number := func(label string, lo, hi, places int) string {
		return exactString(rapid.IntRange(lo, hi).Draw(t, label), places)
	}
	maybe := func(label string, lo, hi, places int) string {
		if rapid.IntRange(0, 3).Draw(t, label+" known") == 3 {
			return ""
		}
		return number(label, lo, hi, places)
	}
	l := larder{
		volume: number("volume", 20, 60, 1), mass: maybe("mass", 10, 70, 1),
		density: maybe("density", 80, 140, 2), peasDensity: maybe("peas' density", 40, 90, 2),
		wear: number("wear", 0, 300, 2), rate: number("rate", 1, 5000, 4),
		kwh: number("kwh", 1, 20000, 3), more: number("more", 1, 20000, 3), peasKWh: number("peas' kwh", 1, 20000, 3),
		peas: number("peas", 0, 40, 1), jars: rapid.IntRange(0, 12).Draw(t, "jars"),
		size: number("size", 1, 15, 1), price: number("price", 0, 200, 2), limit: number("limit", 0, 15, 0),
		each: number("each", 2, 15, 1), cycles: number("cycles", 0, 4, 0), sealsPer: number("seals", 1, 2, 0),
	}
	l.full = rapid.IntRange(0, min(2, l.jars)).Draw(t, "full")
	l.seals = l.full + rapid.IntRange(0, 9).Draw(t, "more seals")
	return l
}

// ledger joins the household's records.
func (l larder) ledger(t rapid.TB) *ledger.Ledger {
	files := map[string]string{
		"settings.csv": "setting,value\nformat,1\ncurrency,EUR\nzone,UTC\ntariff,flat\n",
		"tariffs.csv":  "tariff,rate\nflat," + l.rate + "\n",
		"foods.csv":    "food,basis,density,fresh_days\nstock,volume," + l.density + ",9\npeas,mass," + l.peasDensity + ",9\n",
		"machines.csv": "machine,load_volume,load_mass,cycles\nkiln," + amountOrNone(l.volume, "L") + "," + amountOrNone(l.mass, "kg") + ",100\n",
		"supplies.csv": "supply,kind,uses,price\njar,jar,9,0\nseal,absorber,1,0\n",
		"receipts.csv": "receipt,date,line,kind,item,count,size,price\na,2025-01-01,1,food,stock,1,4 L,0\na,2025-01-01,2,food,peas,1,1 kg,0\n" +
			"a,2025-01-01,3,machine,kiln,1,," + mul(rat(l.wear), count(100)).FloatString(2) + "\n",
		"runs.csv": "run,machine,start,end,kwh\nr1,kiln,2025-01-02 08:00,2025-01-03 04:00," + l.kwh + "\nr2,kiln,2025-01-04 08:00,2025-01-05 04:00," + l.more +
			"\nr3,kiln,2025-01-06 08:00,2025-01-07 04:00," + l.peasKWh + "\n",
		"loads.csv": "run,item,quantity\nr1,stock,2 L\nr2,stock,2 L\nr3,peas,1 kg\n",
	}
	line := 4
	buy := func(kind, item string, n string, unit string) {
		if rat(n).Sign() > 0 {
			files["receipts.csv"] += fmt.Sprintf("a,2025-01-01,%d,%s,%s,1,%s %s,0\n", line, kind, item, n, unit)
			line++
		}
	}
	buy("supply", "jar", fmt.Sprint(l.jars), "ea")
	buy("supply", "seal", fmt.Sprint(l.seals), "ea")
	if rat(l.peas).Sign() > 0 {
		files["receipts.csv"] += "b,2025-01-08,1,food,peas,1," + l.peas + " kg,0\n"
	}
	if l.full > 0 {
		files["packs.csv"] = fmt.Sprintf("pack,run,item,date,count,each,with\np,r1,stock,2025-01-03,%d,1 L,\"1 jar, 1 seal\"\n", l.full)
	}
	rec, faults, err := ledgertest.Read(files)
	if err != nil || len(faults) > 0 {
		t.Fatal(err, faults)
	}
	day := date("2025-01-08")
	g, faults := ledger.Join(rec, ledger.Options{Through: day, PricesThrough: exact.NoDate})
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	return g
}

func amountOrNone(n, unit string) string {
	if n == "" {
		return ""
	}
	return n + " " + unit
}

// load is the lesser of the two limits in the unit of a food, at 12 decimals.
func (l larder) load(inVolume bool, density string) *big.Rat {
	first, second := l.volume, l.mass
	if !inVolume {
		first, second = second, first
	}
	var least *big.Rat
	if first != "" {
		least = rat(first)
	}
	if second != "" && density != "" {
		other := quo(rat(second), rat(density)) // kg to L
		if !inVolume {
			other = mul(rat(second), rat(density))
		}
		if other = halfEven(other, 12); least == nil || other.Cmp(least) < 0 {
			least = other
		}
	}
	return least
}

// Both limits of the machine, what is lacking to pack, and what a second food
// saves in the last cycle are worked out a second time: of one household that has
// room for its peas and no jar, of one whose peas are 2 g more than three loads, and of households as they are drawn.
func TestWorthOfRecordsAgreesWithItsTwin(t *testing.T) {
	roomy := larder{
		volume: "6.0", density: "1.00", peasDensity: "0.50", wear: "1.00", rate: "0.2500", kwh: "8.000", more: "9.000", peasKWh: "7.000",
		peas: "0.5", size: "1.0", price: "0.10", limit: "7", each: "1.0", cycles: "2", sealsPer: "1",
	}
	if second, short := roomy.check(t, t); !second || short != 2 {
		t.Errorf("the peas fit: %v; %d supplies are too few, want 2", second, short)
	}
	crumb := roomy
	crumb.volume, crumb.mass, crumb.density, crumb.peasDensity, crumb.peas = "2.6", "1.1", "0.80", "0.41", "3.2"
	if second, _ := crumb.check(t, t); second {
		t.Error("a whole load of peas fits into room that is less")
	}
	rapid.Check(t, func(rt *rapid.T) { drawLarder(rt).check(rt, t) })
}

// check holds a household's answer to its twin. It reports whether the peas fit
// into the last cycle, and how many supplies are too few.
func (l larder) check(rt rapid.TB, t *testing.T) (second bool, short int) {
	told, err := question.Worth(l.ledger(rt), facts{
		"price": l.price, "size": l.size + " L", "limit": l.limit, "cycles": l.cycles, "shelf": "7", "yield": "1",
		"each": l.each + " L", "with": "1 jar, " + l.sealsPer + " seal",
	}.query(t, "stock"))
	if err != nil {
		rt.Fatal(err)
	}
	d := told.Doc
	load := l.load(true, l.density)
	bestN, bestK := l.checkBest(rt, t, d, load)
	dried := mul(count(bestN), rat(l.size))
	short = l.checkPacking(rt, t, d, ceil(quo(dried, rat(l.each))))
	return l.checkSecond(rt, t, d, load, dried, bestK), short
}

// checkBest holds how many to buy, in how many cycles, and what that saves to a
// count of every number. It returns the first two.
func (l larder) checkBest(rt rapid.TB, t *testing.T, d report.Doc, load *big.Rat) (bestN, bestK int) {
	cycle := add(halfEven(mul(halfEven(quo(add(rat(l.kwh), rat(l.more)), count(2)), 3), rat(l.rate)), 6), rat(l.wear))
	saving, most := new(big.Rat), 0
	for n := 0; n <= floor(rat(l.limit)); n++ {
		dried := mul(count(n), rat(l.size))
		k := ceil(quo(dried, load))
		if k > floor(rat(l.cycles)) {
			break
		}
		most = n
		if s := sub(sub(mul(dried, rat("7")), mul(count(n), rat(l.price))), mul(count(k), cycle)); s.Cmp(saving) > 0 {
			bestN, bestK, saving = n, k, s
		}
	}
	for key, want := range map[string]string{"buy": fmt.Sprint(bestN), "cycles": fmt.Sprint(bestK), "saving": halfEven(saving, 12).FloatString(12)} {
		if have := figure(t, d, key); have != want {
			rt.Errorf("%s is %s, want %s of %d", key, have, want, most)
		}
	}
	return bestN, bestK
}

// checkPacking holds what so many containers need to what is in hand, and returns
// how many supplies are too few.
func (l larder) checkPacking(rt rapid.TB, t *testing.T, d report.Doc, containers int) (short int) {
	var packing []string
	for _, s := range []struct {
		name       string
		need, free int
	}{{"jar", containers, l.jars - l.full}, {"seal", containers * floor(rat(l.sealsPer)), l.seals - l.full}} {
		if s.need > 0 {
			packing = append(packing, fmt.Sprintf("%s %d %d %d", s.name, s.need, s.free, max(s.need-s.free, 0)))
			if s.need > s.free {
				short++
				if said := fmt.Sprintf("%d × %s (%d needed, %d free)", s.need-s.free, s.name, s.need, s.free); !noted(d.Words, said) {
					rt.Errorf("%q is not said: %q", said, d.Words)
				}
			}
		}
	}
	var have []string
	tab := table(t, d, "packing")
	for i := range tab.Rows {
		var cells []string
		for _, key := range []string{"supply", "need", "free", "buy"} {
			cells = append(cells, cell(t, tab, i, key).Exact(euro))
		}
		have = append(have, strings.Join(cells, " "))
	}
	if fmt.Sprint(have) != fmt.Sprint(packing) {
		rt.Errorf("packing is %q, want %q", have, packing)
	}
	return short
}

// checkSecond holds what the peas in hand would save in the last cycle to their
// own run, whose kWh they use whatever their amount. It reports whether they fit.
func (l larder) checkSecond(rt rapid.TB, t *testing.T, d report.Doc, load, dried *big.Rat, cycles int) bool {
	if cycles == 0 {
		return false
	}
	spare := sub(mul(count(cycles), load), dried)
	peasLoad := l.load(false, l.peasDensity)
	if spare.Sign() == 0 || peasLoad == nil || rat(l.peas).Sign() == 0 {
		return false
	}
	own := max(ceil(sub(quo(rat(l.peas), peasLoad), rat("0.01"))), 1) // nobody begins a run for under 1 % of a load
	rest := sub(rat(l.peas), mul(count(own-1), peasLoad))
	if halfEven(mul(quo(rest, peasLoad), load), 12).Cmp(spare) > 0 {
		if with := figure(t, d, "part_load.with"); with != "" {
			rt.Errorf("%s does not fit", with)
		}
		return false
	}
	saves := add(halfEven(mul(rat(l.peasKWh), rat(l.rate)), 6), rat(l.wear)) // the stock's own kWh stay the same
	for key, want := range map[string]string{"with": "peas", "with_amount": "", "saves": halfEven(saves, 6).FloatString(6)} {
		have := figure(t, d, "part_load."+key)
		if key == "with_amount" {
			if rat(have).Cmp(rest) != 0 {
				rt.Errorf("%s kg of peas fill the room, want %s", have, rest.FloatString(12))
			}
		} else if have != want {
			rt.Errorf("part_load.%s is %s, want %s", key, have, want)
		}
	}
	return true
}
