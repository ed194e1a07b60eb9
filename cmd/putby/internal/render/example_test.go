package render_test

import (
	"fmt"
	"os"

	"putby/cmd/putby/internal/render"
	"putby/ledger/report"
	"putby/pricing/exact"
)

// A report with a table of two foods, for people and for machines.
func ExampleRender() {
	row := func(item, made, cost string, notes ...string) report.Row {
		amount, total := exact.MustNumber(made), exact.MustMoney(cost)
		return report.Row{Notes: notes, Cells: []report.Value{report.TextOf(item), report.AmountOf(amount, exact.L),
			report.MoneyOf(total), report.PriceOf(total.Per(amount), exact.L)}}
	}
	d := report.Doc{
		Title:    "Put by in May",
		Currency: exact.MustCurrency("EUR"),
		Fields: []report.Field{{Key: "rows", Title: "Foods", Node: &report.Table{
			Columns: []report.Column{{Key: "item", Title: "Item"}, {Key: "made", Title: "L"}, {Key: "total", Title: "Total"},
				{Key: "per_unit", Title: "Per L"}, {Key: "notes"}},
			Rows: []report.Row{row("leek soup", "6.5", "14.9825"), row("apple purée", "3", "4.1", "the apples were a gift")},
		}}},
	}
	for _, f := range []render.Format{render.Table, render.CSV} {
		if err := render.Render(os.Stdout, d, f, render.Options{}); err != nil {
			fmt.Println(err)
		}
	}
	// Output:
	// Put by in May, EUR
	//
	// Item           L  Total   Per L
	// ──────────────────────────────────
	// leek soup    6.5  14.98  2.3050
	// apple purée  3     4.10  1.3667  1
	//
	//   1 the apples were a gift
	// item,made,total,per_unit,notes
	// leek soup,6.5,14.982500,2.305000000000,
	// apple purée,3,4.100000,1.366666666667,the apples were a gift
}
