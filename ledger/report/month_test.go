package report_test

import (
	"slices"
	"strings"
	"testing"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/ledger/question"
	"putby/ledger/report"
	"putby/pricing/exact"
)

func monthly(t testing.TB, g *ledger.Ledger, change func(*figures.MonthQuery)) report.Doc {
	t.Helper()
	return asked(t, g, change, report.Month)
}

func TestMonthKeys(t *testing.T) {
	d := monthly(t, join(t, small, exact.NoDate), nil)
	want := "month,food_spent,supplies_spent,machines_spent,services_spent,other_spent,electricity," +
		"put_by,used,given,spoiled,missing,lost,fresh_used,fresh_given,fresh_spoiled,saved,net,opening,closing,supplies_gone"
	if have := strings.Join(keys(table(t, d, "rows")), ","); have != want {
		t.Errorf("keys are %s", have)
	}
}

// The small ledger, by hand.
//
// Receipt r2: 8 x 1.80 = 14.40 of soup and 7.20 of soap powder, less 2.00. In
// proportion 14.40 : 7.20 that is 1.33 and 0.67, so 13.07 and 6.53.
// Two bottles of eight (1.4 of 5.6 L) are eaten fresh: 13.07 / 4 = 3.2675.
// The run's electricity, with 20 % tax: until 22:00 2.4 kWh at 0.24, until 6:00
// 4 kWh at 0.12, then 5 and 2.4 kWh at 0.24: 0.576 + 0.48 + 1.2 + 0.576 = 2.832.
// One container of five: 15.470417 / 5 = 3.0940834, of which the first two are
// 3.094084. On its day the shelf asks 5.00 a litre: 3.50 for 0.7 L.
func TestMonthSmall(t *testing.T) {
	d := monthly(t, join(t, small, exact.NoDate), nil)
	rows := table(t, d, "rows")
	if len(rows.Rows) != 2 {
		t.Fatalf("%d rows", len(rows.Rows))
	}
	wants(t, rows, 0, map[string]string{
		"month": "2025-02", "food_spent": "0.000000", "supplies_spent": "23.500000", "machines_spent": "2400.000000",
		"electricity": "0.000000", "put_by": "0.000000", "saved": "0.000000000000", "closing": "0.000000",
	})
	wants(t, rows, 1, map[string]string{
		"month": "2025-03", "food_spent": "13.070000", "supplies_spent": "0.000000", "other_spent": "6.530000", "electricity": "2.832000",
		"put_by": "15.470417", "used": "3.094084", "given": "0.000000", "lost": "2.769083", "fresh_used": "3.267500",
		"saved": "0.405916000000", "net": "-2.363167000000", "opening": "0.000000", "closing": "12.376333",
	})
	if !strings.Contains(d.Words[0], "2.36 is the net loss") {
		t.Errorf("says %q", d.Words)
	}
	come := part[report.Object](t, d, "to_come")
	for key, want := range map[string]string{
		"as_of": "2025-03-20", "in_store": "12.376333", "shelf_value": "14.000000000000", "saved": "1.623667000000", // 4 x 0.7 L at 5.00
	} {
		if have := value(t, come, key).Exact(euro); have != want {
			t.Errorf("%s is %s, want %s", key, have, want)
		}
	}
}

// What a month says where something was saved, lost or neither. By hand: a jar
// of gold cost 5.00.
func TestMonthInWords(t *testing.T) {
	const spent = "In 2024-01, 50.00 EUR was spent, electricity of the runs included. "
	const off = "; with all that was lost, spoiled or missing taken off, "
	for _, c := range []struct{ price, draws, want string }{
		{"55.00", "", "Nothing was used from packs" + off + "the net is nothing."},
		{"55.00", "2024-01-20,p,1,used\n", "What was used from packs cost 5.00 EUR, 50.00 less than the shelf asked on the day" + off + "50.00 is the net."},
		{"55.00", "2024-01-20,p,1,used\n2024-01-21,p,9,spoiled\n", "What was used from packs cost 5.00 EUR, 50.00 less than the shelf asked on the day" + off + "5.00 is the net."},
		{"55.00", "2024-01-21,p,9,spoiled\n", "Nothing was used from packs" + off + "45.00 EUR is the net loss."},
		{"2.00", "2024-01-20,p,1,used\n", "What was used from packs cost 5.00 EUR, 3.00 more than the shelf asked on the day" + off + "3.00 is the net loss."},
		{"5.00", "2024-01-20,p,1,used\n", "What was used from packs cost 5.00 EUR, as much as the shelf asked on the day" + off + "the net is nothing."},
	} {
		text := strings.Replace(fifty, "gold,1 L,55.00", "gold,1 L,"+c.price, 1) + c.draws
		d := monthly(t, join(t, write(t, text), date("2024-01-31")), nil)
		if d.Words[0] != spent+c.want {
			t.Errorf("at %s, %q it says %q, want %q", c.price, c.draws, d.Words[0], spent+c.want)
		}
	}
}

// Before a record, the months before it stand; a month without records is a
// row of zeros; --to widens.
func TestMonthRange(t *testing.T) {
	g := join(t, small, exact.NoDate)
	d := monthly(t, g, func(q *figures.MonthQuery) { q.From, q.To = date("2025-03-31"), date("2025-05-02") })
	rows := table(t, d, "rows")
	if len(rows.Rows) != 3 {
		t.Fatalf("%d rows", len(rows.Rows))
	}
	wants(t, rows, 0, map[string]string{"month": "2025-03", "food_spent": "13.070000"})
	wants(t, rows, 2, map[string]string{"month": "2025-05", "food_spent": "0.000000", "net": "0.000000000000", "opening": "12.376333", "closing": "12.376333"})
	if !noted(d.Notes, "records count up to 2025-03-20") {
		t.Error("nothing says that months after the last record stand empty")
	}
}

// The year that 2025-03-01 begins is that of Monday 2025-02-24, ISO week 9.
func TestMonthByWeek(t *testing.T) {
	d := monthly(t, join(t, small, exact.NoDate), func(q *figures.MonthQuery) { q.Each = figures.EachWeek })
	rows := table(t, d, "rows")
	var names []string
	for i := range rows.Rows {
		names = append(names, cell(t, rows, i, "week").Text())
	}
	if have := strings.Join(names, " "); have != "2025-W08 2025-W09 2025-W10 2025-W11 2025-W12" {
		t.Errorf("weeks are %s", have)
	}
	wants(t, rows, 1, map[string]string{"food_spent": "13.070000", "fresh_used": "3.267500"})
	wants(t, rows, 2, map[string]string{"put_by": "15.470417", "lost": "2.769083"})
}

func TestMonthByShopAndKind(t *testing.T) {
	g := join(t, small, exact.NoDate)
	shops := table(t, monthly(t, g, func(q *figures.MonthQuery) { q.Each = figures.EachShop }), "rows")
	wants(t, shops, 0, map[string]string{"shop": "Gadge & Oven", "receipts": "1", "supplies_spent": "23.500000", "machines_spent": "2400.000000", "spent": "2423.500000"})
	wants(t, shops, 1, map[string]string{"shop": "Corner shop", "food_spent": "13.070000", "other_spent": "6.530000", "spent": "19.600000"})

	kinds := table(t, monthly(t, g, func(q *figures.MonthQuery) {
		q.Each, q.Budgets = figures.EachKind, budgets(t, map[string]exact.Money{"food": exact.MustMoney("6.00"), "electricity": exact.MustMoney("2")})
	}), "rows")
	wants(t, kinds, find(t, kinds, "kind", "food"), map[string]string{"spent": "13.070000", "per_month": "6.535000000000", "budget": "12.000000", "left": "-1.070000"})
	wants(t, kinds, find(t, kinds, "kind", "electricity"), map[string]string{"spent": "2.832000", "budget": "4.000000", "left": "1.168000"})
	wants(t, kinds, find(t, kinds, "kind", "machines"), map[string]string{"budget": "", "left": ""})
}

// A budget is for one month, and for as many months as are shown.
func TestMonthBudget(t *testing.T) {
	d := monthly(t, join(t, small, exact.NoDate), func(q *figures.MonthQuery) {
		q.Budgets = budgets(t, map[string]exact.Money{"food": exact.MustMoney("10")})
	})
	budget := table(t, d, "budget")
	wants(t, budget, 0, map[string]string{"kind": "food", "budget": "10.000000", "spent": "13.070000", "left": "-3.070000",
		"budget_in_all": "20.000000", "spent_in_all": "13.070000", "left_in_all": "6.930000"})
	if len(budget.Rows[0].Notes) == 0 {
		t.Error("no note says that the budget is overspent")
	}
}

// The settings' budgets hold where the query has none for the kind.
func TestMonthBudgetOfSettings(t *testing.T) {
	dir := write(t, `-- settings.csv --
setting,value
format,1
currency,EUR
zone,Europe/Ljubljana
budget_food,100
budget_other,2.50
-- receipts.csv --
receipt,date,line,kind,item,price
a,2025-01-05,1,other,x,1.00
b,2025-03-05,1,other,x,4.00
`)
	d := monthly(t, join(t, dir, exact.NoDate), func(q *figures.MonthQuery) {
		q.Each, q.Budgets = figures.EachYear, budgets(t, map[string]exact.Money{"food": exact.MustMoney("20")})
	})
	budget := table(t, d, "budget")
	wants(t, budget, 0, map[string]string{"kind": "food", "budget": "60.000000"})
	wants(t, budget, 1, map[string]string{"kind": "other", "budget": "7.500000", "spent": "5.000000", "left": "2.500000"})
}

func TestMonthBesideOthers(t *testing.T) {
	g := join(t, sample, exact.NoDate)
	d := monthly(t, g, func(q *figures.MonthQuery) { q.To = date("2025-10-31") })
	beside, rows := table(t, d, "comparison"), table(t, d, "rows")
	last := len(rows.Rows) - 1
	for _, key := range []string{"saved", "net", "used", "closing"} {
		at := find(t, beside, "figure", key)
		for column, row := range map[string]int{"this": last, "before": last - 1, "year_before": last - 12} {
			if have, want := cell(t, beside, at, column), cell(t, rows, row, key); !have.Ratio().Equal(want.Ratio()) {
				t.Errorf("%s %s is %s, its row has %s", key, column, have.Exact(euro), want.Exact(euro))
			}
		}
		change := cell(t, beside, at, "this").Ratio().Sub(cell(t, beside, at, "year_before").Ratio())
		if have := cell(t, beside, at, "change_on_year").Ratio(); !have.Equal(change) {
			t.Errorf("%s changed by %v, want %v", key, have, change)
		}
	}
	first := monthly(t, g, func(q *figures.MonthQuery) { q.To = date("2024-09-30") })
	if v := cell(t, table(t, first, "comparison"), 0, "before"); !v.IsNull() {
		t.Error("the month before the first record has a figure")
	}
}

// Months sum to the year, weeks to all, and each food's part to the whole.
func TestMonthsSumToYears(t *testing.T) {
	for _, asOf := range monthEnds(t) {
		g := join(t, sample, asOf)
		years := table(t, monthly(t, g, func(q *figures.MonthQuery) { q.Each = figures.EachYear }), "rows")
		months := table(t, monthly(t, g, nil), "rows")
		weeks := table(t, monthly(t, g, func(q *figures.MonthQuery) { q.Each = figures.EachWeek }), "rows")
		for _, key := range keys(months)[1:] {
			if key == "opening" || key == "closing" {
				continue
			}
			all := exact.Ratio{}
			for y := range years.Rows {
				year, sum := cell(t, years, y, "year").Text(), exact.Ratio{}
				for m := range months.Rows {
					if strings.HasPrefix(cell(t, months, m, "month").Text(), year) {
						sum = sum.Add(cell(t, months, m, key).Ratio())
					}
				}
				if have := cell(t, years, y, key).Ratio(); !have.Equal(sum) {
					t.Fatalf("as of %v: %s of %s is %v, its months sum to %v", asOf, key, year, have, sum)
				}
				all = all.Add(sum)
			}
			for w := range weeks.Rows {
				all = all.Sub(cell(t, weeks, w, key).Ratio())
			}
			if !all.IsZero() {
				t.Fatalf("as of %v: %s of months and of weeks differ by %v", asOf, key, all)
			}
		}
	}
}

// What is spent on foods, put by and saved is the sum over the foods.
func TestMonthFoodsSumToWhole(t *testing.T) {
	g := join(t, sample, exact.NoDate)
	whole := part[report.Object](t, monthly(t, g, nil), "totals")
	for _, key := range []string{"food_spent", "electricity", "put_by", "used", "given", "spoiled", "missing", "lost", "fresh_used", "fresh_given", "fresh_spoiled", "saved", "net", "closing"} {
		sum := exact.Ratio{}
		for i := range g.Foods {
			d := monthly(t, g, func(q *figures.MonthQuery) { q.Item = g.Foods[i].ID })
			sum = sum.Add(value(t, part[report.Object](t, d, "totals"), key).Ratio())
		}
		if have := value(t, whole, key).Ratio(); !have.Equal(sum) {
			t.Errorf("%s is %v, the foods sum to %v", key, have, sum)
		}
	}
}

// At any date opening + in - out = closing, and the last closing is what the
// packs of that date carry; the ledger's own sums of postings are the rows'.
func TestMonthBalances(t *testing.T) {
	for _, asOf := range monthEnds(t) {
		g := join(t, sample, asOf)
		rows := table(t, monthly(t, g, nil), "rows")
		before := exact.Ratio{}
		sums := map[string]exact.Ratio{}
		for m := range rows.Rows {
			get := func(key string) exact.Ratio {
				sums[key] = sums[key].Add(cell(t, rows, m, key).Ratio())
				return cell(t, rows, m, key).Ratio()
			}
			if opening := get("opening"); !opening.Equal(before) {
				t.Fatalf("as of %v: row %d opens with %v after %v", asOf, m, opening, before)
			}
			before = before.Add(get("put_by")).Sub(get("used")).Sub(get("given")).Sub(get("spoiled")).Sub(get("missing"))
			if closing := get("closing"); !closing.Equal(before) {
				t.Fatalf("as of %v: row %d closes with %v, want %v", asOf, m, closing, before)
			}
			get("lost")
			get("electricity")
			get("supplies_gone")
		}
		if have := exact.RatioOf(g.InStore().Number()); !have.Equal(before) {
			t.Errorf("as of %v: the packs in store carry %v, the months end with %v", asOf, have, before)
		}
		for key, m := range map[string]exact.Money{
			"used": g.Flows.Out[ledger.Used], "given": g.Flows.Out[ledger.Given], "lost": g.Flows.Lost, "supplies_gone": g.Flows.SupplyDraws, "electricity": g.Flows.Electricity,
		} {
			if want := exact.RatioOf(m.Number()); !sums[key].Equal(want) {
				t.Errorf("as of %v: %s sums to %v, posted were %v", asOf, key, sums[key], want)
			}
		}
	}
}

// What a month put by is what explain derives for its packs.
func TestMonthIsExplained(t *testing.T) {
	g := whole(t, sample, exact.NoDate)
	putBy := map[string]exact.Ratio{}
	for _, p := range g.Records.Packs.All() {
		d, err := report.Explain(g, p.ID)
		if err != nil {
			t.Fatal(err)
		}
		month := p.Date.String()[:7]
		putBy[month] = putBy[month].Add(table(t, d, "containers").Totals[0].Cells[1].Ratio())
	}
	rows := table(t, monthly(t, g, nil), "rows")
	for i := range rows.Rows {
		if month := cell(t, rows, i, "month").Text(); !cell(t, rows, i, "put_by").Ratio().Equal(putBy[month]) {
			t.Errorf("%s put by %v, explain derives %v", month, cell(t, rows, i, "put_by").Ratio(), putBy[month])
		}
	}
}

// Deposits are in no column, and what is bought and given back is none of the
// household's spending.
func TestMonthDeposit(t *testing.T) {
	dir := write(t, `-- receipts.csv --
receipt,date,shop,line,kind,item,count,size,price
a,2025-01-05,Mill,1,other,flour,2,,1.25
a,2025-01-05,Mill,2,deposit,,,,0.50
a,2025-01-05,Mill,3,total,,,,3.00
`)
	d := monthly(t, join(t, dir, exact.NoDate), nil)
	rows := table(t, d, "rows")
	wants(t, rows, 0, map[string]string{"other_spent": "2.500000", "food_spent": "0.000000", "net": "0.000000000000"})
	for i, c := range rows.ValueColumns() {
		if c.Title == "money out" && rows.Rows[0].Cells[i].Exact(euro) != "2.500000" {
			t.Errorf("money out is %s", rows.Rows[0].Cells[i].Exact(euro))
		}
	}
}

func TestMonthOfNothing(t *testing.T) {
	dir := write(t, "")
	d := monthly(t, join(t, dir, exact.NoDate), nil)
	if rows := table(t, d, "rows"); len(rows.Rows) != 0 || len(d.Words) != 1 {
		t.Errorf("an empty ledger has %d rows, and says %q", len(rows.Rows), d.Words)
	}
	d = monthly(t, join(t, dir, exact.NoDate), func(q *figures.MonthQuery) { q.From, q.To = date("2025-01-01"), date("2025-02-28") })
	if rows := table(t, d, "rows"); len(rows.Rows) != 2 {
		t.Errorf("two months of nothing are %d rows", len(rows.Rows))
	}
}

func TestMonthRefuses(t *testing.T) {
	g := join(t, small, exact.NoDate)
	for name, c := range map[string]struct {
		option string
		change func(*figures.MonthQuery)
	}{
		"dates the wrong way round": {"to", func(q *figures.MonthQuery) { q.From, q.To = date("2025-03-02"), date("2025-03-01") }},
		"unknown food":              {"item", func(q *figures.MonthQuery) { q.Item = "pears" }},
		"after all records":         {"from", func(q *figures.MonthQuery) { q.From = date("2026-01-01") }},
		"before all records":        {"to", func(q *figures.MonthQuery) { q.To = date("2020-01-01") }},
	} {
		q := figures.MonthQuery{}
		c.change(&q)
		_, err := question.Asked(report.Month)(g, q)
		if question.OptionOf(err).Field != c.option {
			t.Errorf("%s: %v", name, err)
		}
	}
	for name, c := range map[string]struct {
		kind, most string
		each       figures.Each
	}{
		"unknown kind":         {"fun", "1", figures.EachMonth},
		"budget below nothing": {"food", "-1", figures.EachMonth},
		"budget of a week":     {"food", "1", figures.EachWeek},
	} {
		if _, err := question.ParseBudgets(map[string]exact.Money{c.kind: exact.MustMoney(c.most)}, c.each); question.OptionOf(err).Field != "budget" {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// ISO 8601: 2027-01-01 is a Friday of the 53rd week of 2026, and 2024-12-30 a
// Monday of the first of 2025.
func TestMonthWeeksOfISO(t *testing.T) {
	dir := write(t, `-- receipts.csv --
receipt,date,shop,line,kind,item,price
a,2024-12-30,Mill,1,other,x,1.00
b,2027-01-01,Mill,1,other,x,1.00
`)
	d := monthly(t, join(t, dir, exact.NoDate), func(q *figures.MonthQuery) { q.Each = figures.EachWeek })
	rows := table(t, d, "rows")
	wants(t, rows, 0, map[string]string{"week": "2025-W01"})
	wants(t, rows, len(rows.Rows)-1, map[string]string{"week": "2026-W53"})
	if len(rows.Rows) != 52+53 {
		t.Errorf("%d weeks", len(rows.Rows))
	}
	if !slices.ContainsFunc(table(t, d, "comparison").Columns, func(c report.Column) bool { return c.Title == "2026-W52" }) {
		t.Error("the last week is not set beside the one before it")
	}
}

// budgets are the most to spend in a month, by the names of kinds.
func budgets(t testing.TB, most map[string]exact.Money) figures.Budgets {
	t.Helper()
	list, err := question.ParseBudgets(most, figures.EachMonth)
	if err != nil {
		t.Fatal(err)
	}
	return list
}
