package report_test

import (
	"math/big"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/ledger/ledgertest"
	"putby/ledger/question"
	"putby/ledger/report"
	"putby/pricing/exact"
)

// manyQuestions are those that many households are asked.
var manyQuestions = []struct {
	name string
	doc  func(*ledger.Ledger) (report.Doc, error)
	own  func(c *rapid.T, d report.Doc) *report.Table // where the report has its sums by itself
	not  []string                                     // columns that do not add up
}{
	{"cost", func(g *ledger.Ledger) (report.Doc, error) { return report.Cost(g, figures.CostQuery{}, false) },
		func(c *rapid.T, d report.Doc) *report.Table { return partOf[*report.Table](c, d, "totals") }, []string{"per_unit"}},
	{"compare", func(g *ledger.Ledger) (report.Doc, error) { return report.Compare(g, figures.CompareQuery{}) }, nil, []string{"per_unit"}},
	{"month", func(g *ledger.Ledger) (report.Doc, error) { return report.Month(g, figures.MonthQuery{}) },
		func(c *rapid.T, d report.Doc) *report.Table {
			return asTable(partOf[report.Object](c, d, "totals"))
		}, nil},
	{"onhand", func(g *ledger.Ledger) (report.Doc, error) { return question.OnHand(g, figures.OnHandQuery{}) }, nil, nil},
	{"payback", func(g *ledger.Ledger) (report.Doc, error) { return report.Payback(g, figures.PaybackQuery{}) },
		func(c *rapid.T, d report.Doc) *report.Table {
			return asTable(partOf[report.Object](c, d, "machine"), "percent")
		}, nil},
	{"offers", func(g *ledger.Ledger) (report.Doc, error) {
		return question.Offers(g, figures.OffersQuery{Query: figures.Query{Item: "kale"}})
	}, nil, []string{"lowest", "highest"}},
}

// asTable is a row of an object's figures.
func asTable(o report.Object, but ...string) *report.Table {
	t := &report.Table{Rows: make([]report.Row, 1)}
	for _, f := range o {
		if !f.Node.(report.Value).IsNumber() || slices.Contains(but, f.Key) {
			continue
		}
		t.Columns = append(t.Columns, report.Column{Key: f.Key})
		t.Rows[0].Cells = append(t.Rows[0].Cells, f.Node.(report.Value))
	}
	return t
}

// The sums over households are those of each alone, added up: by another way, cell by
// cell in fractions, for each currency and unit. And those of each are the report's own.
func TestSumsOverHouseholds(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		var ledgers []*ledger.Ledger
		for range rapid.IntRange(1, 4).Draw(rt, "households") {
			files := houses().Draw(rt, "house")
			currency := rapid.SampledFrom([]string{"EUR", "CHF"}).Draw(rt, "currency")
			files["settings.csv"] = strings.Replace(files["settings.csv"], "currency,EUR", "currency,"+currency, 1)
			rec, faults, err := ledgertest.Read(files)
			if err != nil || len(faults) > 0 {
				rt.Fatal(err, faults)
			}
			g, faults := ledger.Join(rec, ledger.Options{Through: date(houseEnds), PricesThrough: date(houseEnds)})
			if len(faults) > 0 {
				rt.Fatal(faults)
			}
			ledgers = append(ledgers, g)
		}
		for _, q := range manyQuestions {
			var sums report.Sums
			want, households := map[string]*big.Rat{}, map[string]int{}
			for _, g := range ledgers {
				d, err := q.doc(g)
				if err != nil {
					rt.Fatal(q.name, err)
				}
				code := d.Currency.Code()
				households[code]++
				sums.Add(d.Currency, d.Share)
				alone := partOf[*report.Table](rt, report.ByHousehold(d), "rows")
				addCells(want, alone, func(string) string { return code })
				if q.own != nil {
					holdToOwn(rt, q.name, alone, q.own(rt, d))
				}
			}
			all := partOf[*report.Table](rt, report.OverHouseholds(&sums, nil, nil), "sums")
			got := map[string]*big.Rat{}
			addCells(got, all, func(currency string) string { return currency })
			if sums.Households() != len(ledgers) {
				rt.Fatalf("%s: of %d households", q.name, sums.Households())
			}
			for row := range all.Rows {
				code := cellOf(rt, all, row, "currency").Text()
				if n, _ := cellOf(rt, all, row, "households").Number().Int64(); int(n) != households[code] {
					rt.Fatalf("%s: %d households have %s, not %d", q.name, n, code, households[code])
				}
			}
			for key, sum := range want {
				if slices.ContainsFunc(q.not, func(not string) bool { return strings.HasSuffix(key, " "+not) }) {
					continue
				}
				if got[key] == nil || got[key].Cmp(sum) != 0 {
					rt.Fatalf("%s: the sum of %s is %v, want %v", q.name, key, got[key], sum)
				}
			}
		}
	})
}

// addCells adds each figure of a table to the sum of its currency, unit and column.
func addCells(sums map[string]*big.Rat, t *report.Table, currency func(string) string) {
	for _, row := range t.Rows {
		unit := ""
		for _, v := range row.Cells {
			if v.Kind() == report.UnitName {
				unit = v.Text()
			}
		}
		for i, c := range t.ValueColumns() {
			if v := row.Cells[i]; v.IsNumber() && c.Key != "" && c.Key != "households" {
				key := currency(row.Cells[0].Text()) + " " + unit + " " + c.Key
				if sums[key] == nil {
					sums[key] = new(big.Rat)
				}
				sums[key] = add(sums[key], fraction(v.Ratio()))
			}
		}
	}
}

func fraction(r exact.Ratio) *big.Rat {
	f, _ := new(big.Rat).SetString(r.String())
	return f
}

// holdToOwn finds each figure of a report's own sums among those for the household.
func holdToOwn(rt *rapid.T, name string, alone, own *report.Table) {
	if len(own.Rows) != len(alone.Rows) {
		rt.Fatalf("%s: %d sums, and %d of its own", name, len(alone.Rows), len(own.Rows))
	}
	for row := range own.Rows {
		of := row
		for i, c := range own.ValueColumns() {
			want := own.Rows[row].Cells[i]
			if c.Key == "unit" {
				of = slices.IndexFunc(alone.Rows, func(r report.Row) bool { return r.Cells[1].Text() == want.Text() })
			}
			if c.Key == "" {
				continue
			}
			if got := cellOf(rt, alone, of, c.Key); got.Exact(euro) != want.Exact(euro) || !got.Ratio().Equal(want.Ratio()) {
				rt.Fatalf("%s: %s is %s, and of its own %s", name, c.Key, got.Exact(euro), want.Exact(euro))
			}
		}
	}
}

func cellOf(rt *rapid.T, t *report.Table, row int, key string) report.Value {
	i := slices.IndexFunc(t.ValueColumns(), func(c report.Column) bool { return c.Key == key })
	if i < 0 {
		rt.Fatalf("no column %s", key)
	}
	return t.Rows[row].Cells[i]
}

// Of many that are left out or have no answer the first few are named.
func TestOverHouseholdsNames(t *testing.T) {
	var left, silent []report.Aside
	for _, name := range []string{"a", "b", "c", "d", "e", "f", "g", "h"} {
		left = append(left, report.Aside{Name: name, Why: "it is a link"})
		silent = append(silent, report.Aside{Name: name, Why: "no food is called leek"})
	}
	silent[0].Why = "nothing is recorded by then"
	d := report.OverHouseholds(new(report.Sums), left, silent[:7])
	if want := "The sums of 0 households are in the last table. Left out: a, b, c, d, e and 3 more."; d.Words[0] != want {
		t.Errorf("it says %q, want %q", d.Words[0], want)
	}
	if want := []string{"without a: nothing is recorded by then", "without b, c, d, e, f and g: no food is called leek"}; !slices.Equal(d.Notes, want) {
		t.Errorf("it notes %q, want %q", d.Notes, want)
	}
}

// Money of several currencies in one table has the digits of each: those that it is
// posted with, and those that shops print.
func TestValueInCurrency(t *testing.T) {
	yen, dinar := exact.MustCurrency("JPY"), exact.MustCurrency("KWD")
	m := report.MoneyOf(exact.MustMoney("12.5"))
	for _, c := range []struct{ got, want string }{
		{m.Exact(euro), "12.500000"}, {m.In(yen).Exact(euro), "12.5000"}, {m.In(dinar).Exact(euro), "12.5000000"},
		{m.In(yen).Shown(euro, report.Show{}), "13"}, {m.In(dinar).Shown(exact.Currency{}, report.Show{}), "12.500"},
		{report.PostedOf(exact.MustMoney("2")).In(yen).Shown(euro, report.Show{}), "2.0000"},
	} {
		if c.got != c.want {
			t.Errorf("%s, want %s", c.got, c.want)
		}
	}
}
