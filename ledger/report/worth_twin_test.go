package report_test

import (
	"fmt"
	"math/big"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"putby/ledger/question"
	"putby/ledger/report"
)

// A twin of the sale decision in the standard library's rationals, written from
// its rules alone: no package of ours but for what asks the question.

// rat reads a decimal number.
func rat(s string) *big.Rat {
	r, ok := new(big.Rat).SetString(s)
	if !ok {
		panic("not a number: " + s)
	}
	return r
}

func mul(a, b *big.Rat) *big.Rat { return new(big.Rat).Mul(a, b) }
func add(a, b *big.Rat) *big.Rat { return new(big.Rat).Add(a, b) }
func sub(a, b *big.Rat) *big.Rat { return new(big.Rat).Sub(a, b) }
func quo(a, b *big.Rat) *big.Rat { return new(big.Rat).Quo(a, b) }
func count(n int) *big.Rat       { return big.NewRat(int64(n), 1) }
func least(a, b *big.Rat) *big.Rat {
	if a.Cmp(b) < 0 {
		return a
	}
	return b
}

// floor is the largest whole number that is not above r.
func floor(r *big.Rat) int {
	q := new(big.Int).Div(r.Num(), r.Denom()) // Euclidean: the denominator is positive
	return int(q.Int64())
}

func ceil(r *big.Rat) int { return -floor(new(big.Rat).Neg(r)) }

// halfEven rounds to so many digits after the point.
func halfEven(r *big.Rat, places int) *big.Rat {
	scale := new(big.Rat).SetInt(new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(places)), nil))
	x := mul(r, scale)
	low := count(floor(x))
	switch twice := mul(sub(x, low), count(2)); twice.Cmp(count(1)) {
	case 1:
		low = add(low, count(1))
	case 0:
		if floor(low)%2 != 0 {
			low = add(low, count(1))
		}
	}
	return quo(low, scale)
}

// A twinRow is one number of packages.
type twinRow struct {
	n, cycles                        int
	fresh, dried, cost, value, saves *big.Rat
}

// cyclesIn is how many cycles of so many hours end in so many days.
func cyclesIn(hours, turnaround, days int) int {
	return floor(quo(count(24*days+turnaround), count(hours+turnaround)))
}

// twin answers a question whose facts all come from flags, where so many cycles
// fit before the food turns.
func twin(f facts, cycles int) (rows []twinRow, most int) {
	price, size, shelf, load := rat(f["price"]), rat(f["size"]), rat(f["shelf"]), rat(f["load"])
	fresh, yield, each := rat(f["fresh"]), rat(f["yield"]), rat(f["each"])
	made := sub(mul(rat(f["use"]), rat(f["keep-months"])), rat(f["stock"]))
	if made.Sign() < 0 {
		made = new(big.Rat)
	}
	perCycle := add(halfEven(mul(rat(f["kwh"]), rat(f["rate"])), 6), rat(f["wear"]))
	limit := int(rat(f["limit"]).Num().Int64())
	for n := 0; n <= limit; n++ {
		bought := mul(count(n), size)
		r := twinRow{n: n, fresh: least(bought, fresh)}
		r.dried = sub(bought, r.fresh)
		r.cycles = ceil(quo(r.dried, load))
		dry := mul(r.dried, yield)
		if r.cycles > cycles || dry.Cmp(made) > 0 {
			break
		}
		containers := ceil(quo(dry, each))
		r.cost = add(mul(count(n), price), add(mul(count(r.cycles), perCycle), mul(count(containers), rat(f["pack-cost"]))))
		r.value = mul(add(r.fresh, dry), shelf)
		r.saves = sub(r.value, r.cost)
		rows = append(rows, r)
	}
	return rows, len(rows) - 1
}

// best is the largest saving, of equal ones the fewest packages.
func best(rows []twinRow) (b twinRow) {
	b = rows[0]
	for _, r := range rows {
		if r.saves.Cmp(b.saves) > 0 {
			b = r
		}
	}
	return b
}

// breakEven is the price of a package at which a row saves nothing.
func (r twinRow) breakEven(price *big.Rat) *big.Rat {
	return quo(add(r.saves, mul(count(r.n), price)), count(r.n))
}

// drawFacts draws a household, a shop and a food.
func drawFacts(t *rapid.T) (f facts, hours, turnaround, days int) {
	number := func(label string, lo, hi, places int) string {
		return exactString(rapid.IntRange(lo, hi).Draw(t, label), places)
	}
	hours = rapid.IntRange(1, 60).Draw(t, "hours")
	turnaround = rapid.IntRange(0, 12).Draw(t, "turnaround")
	days = rapid.IntRange(0, 20).Draw(t, "days")
	return facts{
		"price": number("price", 0, 900, 2), "size": number("size", 50, 2500, 3), "limit": number("limit", 0, 40, 0),
		"shelf": number("shelf", 0, 1200, 2), "load": number("load", 400, 9000, 3), "fresh": number("fresh", 0, 4000, 3),
		"kwh": number("kwh", 0, 25000, 3), "rate": number("rate", 0, 50000, 5), "wear": number("wear", 0, 300, 2),
		"yield": number("yield", 30, 120, 2), "each": number("each", 100, 2000, 3), "pack-cost": number("pack", 0, 90, 2),
		"use": number("use", 0, 6000, 3), "keep-months": number("keep", 0, 30, 0), "stock": number("stock", 0, 9000, 3),
	}, hours, turnaround, days
}

func exactString(n, places int) string {
	return new(big.Rat).SetFrac(big.NewInt(int64(n)), new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(places)), nil)).FloatString(places)
}

// asked gives the facts their units.
func (f facts) asked(hours, turnaround, days int) facts {
	g := f.with("cycle-hours", fmt.Sprint(hours), "turnaround", fmt.Sprint(turnaround), "fresh-days", fmt.Sprint(days))
	for _, amount := range []string{"size", "load", "fresh", "each", "use", "stock"} {
		g[amount] += " L"
	}
	return g
}

// The whole path from flags to figures agrees with the twin, to the last digit.
func TestWorthAgreesWithItsTwin(t *testing.T) {
	g := bare(t)
	rapid.Check(t, func(rt *rapid.T) {
		f, hours, turnaround, days := drawFacts(rt)
		rows, most := twin(f, cyclesIn(hours, turnaround, days))
		told, err := question.Worth(g, f.asked(hours, turnaround, days).query(t, "plum-sauce"))
		if err != nil {
			rt.Fatal(err)
		}
		d := told.Doc
		check := func(what, have string, want *big.Rat, places int) {
			if w := halfEven(want, places).FloatString(places); have != w && !(have == "0" && want.Sign() == 0) && rat(have).Cmp(rat(w)) != 0 {
				rt.Errorf("%s is %s, want %s", what, have, w)
			}
		}
		b := best(rows)
		check("buy", figure(t, d, "buy"), count(b.n), 0)
		check("cycles", figure(t, d, "cycles"), count(b.cycles), 0)
		check("fresh", figure(t, d, "fresh"), b.fresh, 3)
		check("dried", figure(t, d, "dried"), b.dried, 3)
		check("cost", figure(t, d, "cost"), b.cost, 6)
		check("value", figure(t, d, "value"), b.value, 12)
		check("saving", figure(t, d, "saving"), b.saves, 12)
		without := new(big.Rat)
		for _, r := range rows {
			if r.dried.Sign() == 0 && r.saves.Cmp(without) > 0 {
				without = r.saves
			}
		}
		check("saving_without_drying", figure(t, d, "saving_without_drying"), without, 12)
		checkBreakEven(rt, check, figure(t, d, "break_even_price"), rows, b, rat(f["price"]))
		tab := table(t, d, "table")
		if len(tab.Rows) != most+1 {
			rt.Fatalf("%d rows, want %d", len(tab.Rows), most+1)
		}
		for i, r := range rows {
			check("a row's cost", cell(t, tab, i, "cost").Exact(euro), r.cost, 6)
			check("a row's saving", cell(t, tab, i, "saving").Exact(euro), r.saves, 12)
			if i > 0 {
				check("a row's marginal", cell(t, tab, i, "marginal").Exact(euro), sub(r.saves, rows[i-1].saves), 12)
			}
		}
	})
}

// checkBreakEven holds the break-even price to the twin's: that of the answer,
// else the highest of any number.
func checkBreakEven(rt *rapid.T, check func(string, string, *big.Rat, int), have string, rows []twinRow, b twinRow, price *big.Rat) {
	var want *big.Rat
	if b.n > 0 {
		want = b.breakEven(price)
	}
	for _, r := range rows[1:] {
		if p := r.breakEven(price); b.n == 0 && (want == nil || p.Cmp(want) > 0) {
			want = p
		}
	}
	if want == nil {
		if have != "" {
			rt.Errorf("break-even is %s where none can be bought", have)
		}
		return
	}
	check("break_even_price", have, want, 12)
}

// bestSaving is the saving of the answer.
func bestSaving(t testing.TB, d report.Doc) *big.Rat { return rat(figure(t, d, "saving")) }

// The laws of the decision on the sample, whose facts all come from the records.
func TestWorthLawsOnTheSample(t *testing.T) {
	g := join(t, sample, date("2025-06-30"))
	for item, f := range map[string]facts{
		"strawberries": {"size": "454g", "limit": "30", "start": "2025-06-30 00:00"},
		"eggs":         {"size": "12 ea", "limit": "30", "as": "beaten-egg"},
		"sweetcorn":    {"size": "1 kg", "limit": "25", "fresh": "2 kg", "frozen": "yes"},
	} {
		var before *big.Rat
		bought := 0
		for cents := 0; cents <= 900; cents += 25 {
			d := ask(t, g, item, f.with("price", exactString(cents, 2)))
			saving := bestSaving(t, d)
			if before != nil && saving.Cmp(before) > 0 {
				t.Errorf("%s saves more at %d than at a lower price", item, cents)
			}
			if before = saving; saving.Sign() > 0 {
				bought++
			}
			putBack(t, d, f, item, func(f facts) report.Doc { return ask(t, g, item, f) })
		}
		if bought < 3 || bought > 33 {
			t.Errorf("%s is bought at %d of 37 prices: that tests little", item, bought)
		}
		before = nil
		for limit := 0; limit <= 30; limit++ {
			saving := bestSaving(t, ask(t, g, item, f.with("price", "1.50", "limit", fmt.Sprint(limit))))
			if before != nil && saving.Cmp(before) < 0 {
				t.Errorf("%s saves less when %d may be bought", item, limit)
			}
			before = saving
		}
	}
}

// putBack asks again at the break-even price of the answer: that number then
// saves nothing, to the last digit that money has.
func putBack(t *testing.T, d report.Doc, f facts, item string, ask func(facts) report.Doc) {
	t.Helper()
	n := figure(t, d, "buy")
	price := figure(t, d, "break_even_price")
	if n == "0" || rat(price).Sign() < 0 {
		return
	}
	again := ask(f.with("price", halfEven(rat(price), 9).FloatString(9)))
	tab := table(t, again, "table")
	for i := range tab.Rows {
		if cell(t, tab, i, "buy").Exact(euro) == n {
			if saving := halfEven(rat(cell(t, tab, i, "saving").Exact(euro)), 6); saving.Sign() != 0 {
				t.Errorf("%s: %s packages at %s save %s", item, n, price, saving.FloatString(6))
			}
			return
		}
	}
	t.Errorf("%s: no row of %s packages", item, n)
}

// Every value beyond which the answer changes is exact: at it and just beyond it,
// just within it, and far away on a side that has none, the twin is asked again.
func TestWorthFlipsAgreeWithTheTwin(t *testing.T) {
	g := bare(t)
	turned := map[string]int{}
	rapid.Check(t, func(rt *rapid.T) {
		f, hours, turnaround, _ := drawFacts(rt)
		// Each limit is the lowest about as often, and drying mostly pays.
		f = f.with("limit", "60", "use", "90", "keep-months", "6", "price", exactString(rapid.IntRange(0, 200).Draw(rt, "cheap"), 2),
			"shelf", exactString(1200-rapid.IntRange(0, 900).Draw(rt, "off"), 2), "rate", exactString(rapid.IntRange(0, 20000).Draw(rt, "rate"), 5))
		days := 20
		switch rapid.IntRange(0, 2).Draw(rt, "limit") {
		case 0:
			f["limit"] = fmt.Sprint(rapid.IntRange(0, 12).Draw(rt, "few"))
		case 1:
			days = rapid.IntRange(0, 4).Draw(rt, "few days")
		case 2:
			f["use"] = exactString(rapid.IntRange(0, 5000).Draw(rt, "little"), 3)
		}
		cycles := cyclesIn(hours, turnaround, days)
		told, err := question.Worth(g, f.asked(hours, turnaround, days).query(t, "plum-sauce"))
		if err != nil {
			rt.Fatal(err)
		}
		d := told.Doc
		answer := figure(t, d, "buy")
		tab := table(t, d, "flips")
		for _, fact := range []struct {
			figure, option string
			step, far      *big.Rat
			from           bool // the new answer holds at the upper value itself
		}{
			{"shelf price", "shelf", rat("0.00000000001"), rat("100000"), false},
			{"price of a package", "price", rat("0.00000000001"), rat("100000"), false},
			{"used a month", "use", rat("0.000000000001"), rat("100000"), true},
			{"packages that the shop sells", "limit", rat("1"), rat("300"), true},
			{"runs before it turns", "cycles", rat("1"), rat("300"), true},
		} {
			i := slices.IndexFunc(tab.Rows, func(r report.Row) bool { return r.Cells[0].Text() == fact.figure })
			if i < 0 {
				if most := table(t, d, "table"); len(most.Rows) > 1 || fact.from {
					rt.Fatalf("there is no row of %s", fact.figure)
				}
				continue
			}
			ask := func(at *big.Rat) string {
				if fact.option == "cycles" {
					rows, _ := twin(f, floor(at))
					return fmt.Sprint(best(rows).n)
				}
				rows, _ := twin(f.with(fact.option, at.FloatString(15)), cycles)
				return fmt.Sprint(best(rows).n)
			}
			wants := func(where string, at *big.Rat, want string) {
				if have := ask(at); at.Sign() >= 0 && have != want {
					rt.Errorf("%s %s (%s): buy %s, want %s; now %s", fact.figure, where, at.FloatString(12), have, want, answer)
				}
			}
			below, above := cell(t, tab, i, "below"), cell(t, tab, i, "above")
			if below.IsNull() {
				wants("at nothing", new(big.Rat), answer)
			} else {
				turned[fact.option+" below"]++
				at := rat(below.Exact(euro))
				wants("just below", sub(at, fact.step), cell(t, tab, i, "buy_below").Exact(euro))
				if fact.from {
					wants("at the lower value", at, answer)
				} else {
					wants("just within the lower value", add(at, fact.step), answer)
				}
			}
			if above.IsNull() {
				wants("far above", fact.far, answer)
				continue
			}
			turned[fact.option+" above"]++
			at := rat(above.Exact(euro))
			wants("just within the upper value", sub(at, fact.step), answer)
			if !fact.from {
				at = add(at, fact.step)
			}
			wants("from the upper value on", at, cell(t, tab, i, "buy_above").Exact(euro))
		}
	})
	if len(turned) < 6 { // of ten: five facts, and two sides each
		t.Errorf("the answer turns at too few facts to test much: %v", turned)
	}
}
