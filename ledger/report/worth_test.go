package report_test

import (
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"

	"putby/ledger"
	"putby/ledger/folder"
	"putby/ledger/question"
	"putby/ledger/report"
	"putby/pricing/exact"
)

// facts are options of worth by name.
type facts map[string]string

// with returns f with some options changed; an empty one is left out.
func (f facts) with(pairs ...string) facts {
	g := maps.Clone(f)
	for i := 0; i < len(pairs); i += 2 {
		if g[pairs[i]] = pairs[i+1]; pairs[i+1] == "" {
			delete(g, pairs[i])
		}
	}
	return g
}

// query reads the facts as flags are read.
func (f facts) query(t testing.TB, item string) question.WorthQuery {
	t.Helper()
	q := question.NewWorthQuery(item)
	for _, name := range slices.Sorted(maps.Keys(f)) {
		if err := q.Set(name, f[name]); err != nil {
			t.Fatal(err)
		}
	}
	return q
}

// ask answers about a ledger.
func ask(t testing.TB, g *ledger.Ledger, item string, f facts) report.Doc {
	t.Helper()
	d, err := question.Worth(g, f.query(t, item))
	if err != nil {
		t.Fatalf("worth %s %v: %v", item, f, err)
	}
	return d.Doc
}

// figure is one value of an answer as machines get it.
func figure(t testing.TB, d report.Doc, key string) string {
	t.Helper()
	if head, rest, ok := strings.Cut(key, "."); ok {
		return value(t, part[report.Object](t, d, head), rest).Exact(d.Currency)
	}
	return part[report.Value](t, d, key).Exact(d.Currency)
}

func worthFigures(t *testing.T, d report.Doc, want map[string]string) {
	t.Helper()
	for key, w := range want {
		if have := figure(t, d, key); have != w {
			t.Errorf("%s is %s, want %s", key, have, w)
		}
	}
}

// bare is a ledger with nothing but settings and foods, joined.
func bare(t testing.TB) *ledger.Ledger {
	t.Helper()
	dir := write(t, `-- foods.csv --
food,name,basis,density,refuse
plum-sauce,Plum sauce,volume,1.05,
plums,Plums,mass,,10
figs,Figs,count,,
-- settings.csv --
setting,value
format,1
currency,EUR
zone,Europe/Ljubljana
`)
	return join(t, dir, date("2025-06-02"))
}

// given are the facts of the case that README works by hand.
var given = facts{
	"price": "1.49", "size": "700 mL", "limit": "10", "shelf": "5.90", "load": "4 L", "cycle-hours": "30h",
	"turnaround": "3h", "fresh-days": "5", "kwh": "14.5", "rate": "0.31", "each": "700 mL", "pack-cost": "0.35",
	"yield": "0.95", "fresh": "1.4 L", "use": "3 L", "keep-months": "18", "stock": "5 L", "wear": "2.10",
}

// Worked by hand in cmd/putby/testdata/script/worth_flags.txtar.
func TestWorthFromFlagsAlone(t *testing.T) {
	d := ask(t, bare(t), "plum-sauce", given)
	worthFigures(t, d, map[string]string{
		"item": "plum-sauce", "unit": "L", "shelf_per_unit": "5.900000000000", "buy": "7", "dried": "3.5", "fresh": "1.4", "cycles": "1",
		"cost": "18.775000", "value": "27.877500000000", "saving": "9.102500000000", "saving_without_drying": "5.280000000000",
		"break_even_price": "2.790357142857", "drying_break_even_price": "2.254500000000",
		"offer.price": "1.490000", "offer.size": "0.7", "offer.limit": "10", "offer.per_unit": "2.128571428571",
		// 10.43, 4.495, 1.75, 2.10 and 18.775 over 4.725 L
		"per_unit.food": "2.207407407407", "per_unit.electricity": "0.951322751323", "per_unit.supplies": "0.370370370370",
		"per_unit.wear": "0.444444444444", "per_unit.labour": "0.000000000000", "per_unit.total": "3.973544973545",
		"estimate.basis": "given", "estimate.runs": "0", "estimate.kwh_per_cycle": "14.5", "estimate.low": "14.5", "estimate.high": "14.5",
	})
	tab := table(t, d, "table")
	if len(tab.Rows) != 11 {
		t.Fatalf("%d rows, want 0 to 10 packages", len(tab.Rows))
	}
	wants(t, tab, 8, map[string]string{"buy": "8", "fresh": "1.4", "dried": "4.2", "cycles": "2", "cost": "27.210000",
		"value": "31.801000000000", "saving": "4.591000000000", "marginal": "-4.511500000000"})
	// The last cycle holds 3.5 of 4 L. A cycle of its own would cost a second
	// food 4.495 + 2.10; a given kWh is whole either way, so filling adds nothing.
	worthFigures(t, d, map[string]string{"part_load.load": "3.5", "part_load.spare": "0.5", "part_load.saves": "6.595000"})
}

// Every fact can be left out in turn: what then lacks is named with its flag.
func TestWorthNamesWhatIsMissing(t *testing.T) {
	g := bare(t)
	for option, what := range map[string]string{
		"price": "the price of a package", "size": "the size of a package", "shelf": "the shelf price of Plum sauce",
		"load": "the most that a run takes", "cycle-hours": "how long a run takes", "kwh": "the electricity of a run",
		"rate": "what a kWh costs", "each": "what a container gives", "pack-cost": "what goes into a container",
	} {
		_, err := question.Worth(g, given.with(option, "").query(t, "plum-sauce"))
		var missing *question.MissingError
		if !errors.As(err, &missing) || len(missing.Facts) != 1 {
			t.Errorf("without --%s: %v", option, err)
			continue
		}
		if f := missing.Facts[0]; f.What != what || !strings.Contains(f.String(), "--"+option) {
			t.Errorf("without --%s: %v", option, f)
		}
	}
	_, err := question.Worth(g, question.NewWorthQuery("plum-sauce"))
	var missing *question.MissingError
	if !errors.As(err, &missing) || len(missing.Facts) != 8 {
		t.Errorf("with nothing given: %v", err)
	}
	for _, option := range []string{"limit", "turnaround", "fresh-days", "yield", "fresh", "use", "keep-months", "stock", "wear"} {
		if _, err := question.Worth(g, given.with(option, "").query(t, "plum-sauce")); err != nil {
			t.Errorf("without --%s: %v", option, err)
		}
	}
}

// What an element of cost does not count is not asked for either.
func TestWorthWithoutElements(t *testing.T) {
	f := given.with("kwh", "", "rate", "", "pack-cost", "", "each", "", "without", "electricity, supplies,wear,labour")
	d := ask(t, bare(t), "plum-sauce", f)
	// All 10 save 10 x 0.7 L: 1.4 fresh and 5.6 x 0.95 = 5.32, at 5.90, less 14.90.
	worthFigures(t, d, map[string]string{"buy": "10", "cost": "14.900000", "saving": "24.748000000000"})
}

// Everything wrong with an option is said of that option.
func TestWorthRefuses(t *testing.T) {
	g := bare(t)
	for _, c := range []struct{ option, text, says string }{
		{"price", "-1", "--price: -1 is below 0"},
		{"price", "1,50", `--price: "1,50" is not a number: a comma: write the point as '.', and no thousands separator`},
		{"price", "1e9", "exponent"},
		{"size", "2 ea", "Plum sauce is counted by volume, and 2 ea is a count"},
		{"size", "0 L", `--size: "0 L" is not above 0`},
		{"size", "-1 L", "--size: -1 L is below 0"},
		{"size", "500", "Plum sauce is counted by volume, and 500 ea is a count"},
		{"size", "0.0000000000001 L", "--size: "},
		{"limit", "-2", "--limit: -2 is below 0"},
		{"limit", "2.5", `--limit: "2.5" is not a whole number`},
		{"limit", "99999999999", "--limit: 99999999999 is more than 1000000000"},
		{"visits", "0", `--visits: "0" is not a whole number above 0`},
		{"offer", "cheap", "not an offer"},
		{"also", "x", "--also: "},
		{"shelf", "3/0g", `--shelf: "0g" is not above 0`},
		{"shelf", "3/2ea", "--shelf: Plum sauce is counted by volume"},
		{"load", "0 L", `--load: "0 L" is not above 0`},
		{"cycle-hours", "0h", `--cycle-hours: "0h" is not above 0`},
		{"cycle-hours", "1000h", "longer than 31 days"},
		{"turnaround", "soon", "--turnaround: "},
		{"fresh-days", "99999", "--fresh-days: 99999 days is more than 36500"},
		{"start", "yesterday", "--start: "},
		{"start", "2025-03-30 02:30", "--start: "},
		{"use-by", "2025-02-30", "--use-by: "},
		{"yield", "0", `--yield: "0" is not above 0`},
		{"each", "1 ea", "--each: "},
		{"with", "2", "--with: "},
		{"with", "1 jar", `--with: no supply is called "jar"`},
		{"machine", "beast", `--machine: no machine is called "beast"`},
		{"tariff", "day", `--tariff: no tariff is called "day"`},
		{"without", "food", `--without: "food" cannot be left out`},
		{"as", "jam", `--as: no food is called "jam"`},
		{"as", "plums", "--as: no batch makes Plums from Plum sauce"},
		{"frozen", "maybe", `--frozen: "maybe" is neither`},
		{"kwh", "", "--kwh: it is empty"},
	} {
		f := given.with("limit", "6")
		switch c.option {
		case "with":
			f = f.with("pack-cost", "")
		case "tariff":
			f = f.with("rate", "")
		}
		q := f.query(t, "plum-sauce")
		err := q.Set(c.option, c.text)
		if err == nil {
			_, err = question.Worth(g, q)
		}
		if !errors.Is(err, question.ErrOption) || !strings.Contains(err.Error(), c.says) {
			t.Errorf("--%s %q: %v, want %s", c.option, c.text, err, c.says)
		}
	}
	if _, err := question.Worth(g, given.query(t, "plum")); err == nil || !strings.Contains(err.Error(), `there is no food called "plum"`) {
		t.Error(err)
	}
	if err := new(question.WorthQuery).Set("colour", "red"); err == nil {
		t.Error("an option that does not exist was set")
	}
}

// Numbers at the edge: no package, no price, too many packages, no bound.
func TestWorthAtTheEdges(t *testing.T) {
	g := bare(t)
	d := ask(t, g, "plum-sauce", given.with("limit", "0"))
	worthFigures(t, d, map[string]string{"buy": "0", "saving": "0.000000000000", "break_even_price": "", "offer.limit": "0"})
	if !strings.Contains(d.Words[0], "the shop's limit allows none") {
		t.Error(d.Words)
	}
	d = ask(t, g, "plum-sauce", given.with("price", "0"))
	worthFigures(t, d, map[string]string{"buy": "10", "offer.per_unit": "0.000000000000"})
	d = ask(t, g, "plum-sauce", given.with("price", "99"))
	worthFigures(t, d, map[string]string{"buy": "0", "drying_break_even_price": ""})
	if p := figure(t, d, "break_even_price"); p != "4.130000000000" { // what 1 or 2 eaten fresh are worth
		t.Error(p)
	}
	// Where several numbers come as close, the fewest packages are said: at the shelf price all lose nothing.
	d = ask(t, g, "plum-sauce", given.with("price", "4.13", "fresh", "99 L"))
	if figure(t, d, "buy") != "0" || !strings.Contains(d.Words[0], "no number of packages saves anything, and 1 package would lose nothing.") {
		t.Error(d.Words[0])
	}
	// 4.20 a package: one loses 0.07, each more as much again.
	d = ask(t, g, "plum-sauce", given.with("price", "4.20", "fresh", "99 L"))
	if !strings.Contains(d.Words[0], "1 package would come closest, and lose 0.07 EUR.") {
		t.Error(d.Words[0])
	}
	for _, f := range []facts{
		given.with("limit", "", "fresh-days", "", "use", ""),
		given.with("limit", "900000", "cycles", "900000", "use", ""),
		given.with("limit", "", "size", "0.000001 mL"),
		given.with("limit", "15000", "size", "900000 L", "cycles", "1000000000", "use", ""),
		given.with("limit", "9000", "visits", "900", "offer", "3 for 2", "use", "", "cycles", "9999"),
	} {
		_, err := question.Worth(g, f.query(t, "plum-sauce"))
		if question.OptionOf(err).Field != "limit" || question.OptionOf(err).Hint == "" {
			t.Errorf("%v: %v", f, err)
		}
	}
}

// A food of 10 % refuse gives 0.45 kg of 500 g; a tag of 500 g is for as much.
func TestWorthCountsTheEdiblePart(t *testing.T) {
	d := ask(t, bare(t), "plums", facts{
		"price": "1.80", "size": "500g", "limit": "8", "shelf": "3.60/500g", "load": "4kg", "cycles": "1",
		"kwh": "10", "rate": "0.2", "each": "1kg", "pack-cost": "0.5"})
	// 8 packages: 3.6 kg at 8.00 per edible kg = 28.80, less 14.40 + 2 + 4 x 0.50.
	worthFigures(t, d, map[string]string{"unit": "kg", "offer.size": "0.45", "shelf_per_unit": "8.000000000000",
		"buy": "8", "dried": "3.6", "saving": "10.400000000000"})
}

func TestWorthSaysEachThingOnce(t *testing.T) {
	d := ask(t, join(t, sample, exact.NoDate), "strawberries", facts{"price": "2.49", "size": "454g"})
	for i, n := range d.Notes {
		if slices.Index(d.Notes, n) < i || strings.Contains(n, "1 cycles") {
			t.Errorf("note %d: %s", i, n)
		}
	}
	if err := d.Check(); err != nil {
		t.Error(err)
	}
	for _, key := range []string{"range", "flips", "ways", "part_load", "offer_rank", "bounds"} {
		if !slices.ContainsFunc(d.Fields, func(f report.Field) bool { return f.Key == key }) {
			t.Errorf("there is no %s", key)
		}
	}
}

func ExampleWorth() {
	g, err := exampleLedger()
	if err != nil {
		fmt.Println(err)
		return
	}
	q := question.NewWorthQuery("tomato-soup")
	for _, f := range [][2]string{{"price", "1.20"}, {"size", "700 mL"}, {"limit", "8"}} {
		if err := q.Set(f[0], f[1]); err != nil {
			fmt.Println(err)
		}
	}
	d, err := question.Worth(g, q)
	fmt.Println(d.Words[0], err)
	// Output:
	// Buy 6: dry 4.2 L in 1 run. That saves ~2.08 EUR against the shelf. It is worth it below ~1.55 EUR a package. To pack it all, buy 3 × 1 L jar (5 needed, 2 free). <nil>
}

func exampleLedger() (*ledger.Ledger, error) {
	g, faults, err := folder.Load(small, ledger.Options{Through: exact.NoDate, PricesThrough: exact.NoDate})
	return g, errors.Join(err, faults.Err())
}
