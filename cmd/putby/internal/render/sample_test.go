package render

import (
	"time"

	"putby/ledger/report"
	"putby/pricing/exact"
)

// An invented report with every kind of value and part, used by the tests of
// this package.
func sampleDoc() report.Doc {
	return report.Doc{
		Title:    "What each run cost",
		Currency: exact.MustCurrency("EUR"),
		Words: []string{
			"Leek soup was put by for 2.31 a litre, 1.42 below what the shop asks; the orchard's pears cost more dried than bought.",
		},
		Fields: []report.Field{
			{Key: "from", Title: "From", Node: report.DateOf(exact.MustDate("2024-03-01"))},
			{Key: "runs", Title: "Runs", Node: report.CountOf(5)},
			{Key: "kwh_per_cycle", Title: "Electricity of a cycle", Node: report.AmountOf(num("14.4375"), exact.KWh).Estimated()},
			{Key: "break_even", Title: "Worth it below", Node: report.PriceOf(ratio("17", "9"), exact.L)},
			{Key: "caution", Title: "Caution", Node: report.TextOf("Cook the soup through before drying, and again before it is eaten; keep it dry, dark and sealed.")},
			{Key: "rows", Title: "Runs", Node: sampleRuns()},
			{Key: "months", Title: "By month", Node: sampleMonths()},
			{Key: "offer", Title: "The offer", Node: report.Object{
				{Key: "price", Title: "Price", Node: report.MoneyOf(exact.MustMoney("0.99"))},
				{Key: "size", Title: "Size", Node: report.AmountOf(num("0.5"), exact.Kg)},
				{Key: "limit", Title: "At most", Node: report.CountOf(6)},
				{Key: "regular", Title: "Is it lower than usual", Node: report.YesNoOf(true)},
			}},
			{Key: "limits", Title: "What limits it", Node: report.List{
				report.TextOf("the shop's limit of 6"), report.TextOf("two cycles before the milk turns"),
			}},
			{Key: "shelf", Title: "What shops asked for soup", Node: samplePrices()},
			{Key: "checked", Title: "", Node: report.YesNoOf(true)},
			{Key: "waiting", Title: "Awaiting packing", Node: &report.Table{
				Columns: []report.Column{{Key: "item", Title: "Item"}}, Empty: "Nothing is waiting to be packed."}},
		},
		Notes: []string{"The shelf price of pears is of 2024-05-02, after the run."},
	}
}

func num(s string) exact.Number { return exact.MustNumber(s) }

func ratio(n, d string) exact.Ratio { return num(n).Over(num(d)) }

func sampleRuns() *report.Table {
	t := &report.Table{Columns: []report.Column{
		{Key: "run", Title: "Run"},
		{Key: "date", Title: "Date", Rank: 2},
		{Key: "item", Title: "Item"},
		{Key: "unit", Title: "Unit", Rank: 1},
		{Key: "loaded", Title: "Loaded", Rank: 4},
		{Key: "reconstituted", Title: "Reconstituted", Rank: 1},
		{Key: "food", Title: "Food", Rank: 5},
		{Key: "electricity", Title: "Electricity", Rank: 5},
		{Key: "total", Title: "Total"},
		{Key: "per_unit", Title: "Per unit"},
		{Key: "saving", Title: "Saving", Bar: true},
		{Key: "kwh", Title: "kWh", Rank: 6},
		{Key: "hours", Title: "Hours", Rank: 7},
		{Key: "share", Rank: 9},
		{Key: "notes"},
	}}
	t.Rows = []report.Row{
		sampleRun("r-01", "2024-03-04", "Leek soup", exact.L, "6.5", "6.5", "8.112500", "4.211375", "17.33", 31*time.Hour+24*time.Minute),
		sampleRun("r-02", "2024-03-19", "Strawberries from the allotment, halved", exact.Kg, "3.25", "2.75", "0", "3.901250", "-4.005", 28*time.Hour,
			"No receipt covers the berries.", "Wattage is typical, not metered."),
		sampleRun("r-03", "2024-04-11", "牛乳と卵のプリン", exact.L, "4", "4", "12.40", "5.125", "0.004", 33*time.Hour+5*time.Minute, "Wattage is typical, not metered."),
		sampleRun("r-04", "2024-05-02", "חלב מלא", exact.L, "10.125", "10.125", "1041.155", "14.999999", "102.5", 40*time.Hour),
		{Cells: []report.Value{report.TextOf("r-05"), report.DateOf(exact.MustDate("2024-05-30")), report.TextOf("👩‍🌾 farm eggs"), report.UnitOf(exact.Ea),
			report.AmountOf(num("48"), exact.Ea), report.None, report.MoneyOf(exact.MustMoney("11.52")), report.MoneyOf(exact.MustMoney("3.8")).Estimated(),
			report.MoneyOf(exact.MustMoney("15.32")).Estimated(), report.None, report.None, report.AmountOf(num("12.25"), exact.KWh).Estimated(), report.None, report.None},
			Notes: []string{"Not packed yet."}},
	}
	total := report.Row{Cells: make([]report.Value, 14)}
	total.Cells[0], total.Cells[8], total.Cells[10] = report.TextOf("all"), report.MoneyOf(exact.MustMoney("1115.229124")), report.MoneyOf(exact.MustMoney("115.829"))
	t.Totals = []report.Row{total}
	return t
}

func sampleRun(run, date, item string, u exact.Unit, loaded, made, food, power, saving string, took time.Duration, notes ...string) report.Row {
	total := exact.MustMoney(food).Add(exact.MustMoney(power))
	return report.Row{Cells: []report.Value{
		report.TextOf(run), report.DateOf(exact.MustDate(date)), report.TextOf(item), report.UnitOf(u),
		report.AmountOf(num(loaded), u), report.AmountOf(num(made), u),
		report.MoneyOf(exact.MustMoney(food)), report.MoneyOf(exact.MustMoney(power)), report.MoneyOf(total),
		report.PriceOf(total.Per(num(made)), u), report.MoneyOf(exact.MustMoney(saving)),
		report.AmountOf(num("13.875"), exact.KWh), report.SpanOf(took), report.QuotientOf(ratio("1", "3"), 3),
	}, Notes: notes}
}

func sampleMonths() *report.Table {
	t := &report.Table{Columns: []report.Column{
		{Key: "month", Title: "Month"}, {Key: "food_spent", Title: "Food spent", Rank: 1}, {Key: "saved", Title: "Saved", Bar: true}, {Key: "net", Title: "Net"},
	}}
	for _, m := range [][4]string{{"2024-03", "31.80", "0", "-2.11"}, {"2024-04", "7.45", "12.385", "12.39"}, {"2024-05", "0", "41.27", "38.115"}, {"2024-06", "112.2", "-8.2", "-8.21"}} {
		row := report.Row{Cells: []report.Value{report.TextOf(m[0])}}
		for _, amount := range m[1:] {
			row.Cells = append(row.Cells, report.MoneyOf(exact.MustMoney(amount)))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

func samplePrices() *report.Series {
	s := &report.Series{Steps: true}
	for _, p := range [][2]string{{"2023-06-01", "3.59"}, {"2023-08-20", "3.79"}, {"2023-11-02", "2.99"}, {"2023-11-16", "3.79"}, {"2024-02-01", "3.89"}, {"2024-05-28", "3.49"}, {"2024-06-10", "3.49"}} {
		s.Points = append(s.Points, report.Point{Date: exact.MustDate(p[0]), Value: report.PriceOf(ratio(p[1], "1"), exact.L)})
	}
	return s
}
