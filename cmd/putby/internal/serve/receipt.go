package serve

import (
	"errors"
	"fmt"
	"slices"
	"strconv"

	"putby/cmd/putby/internal/entry"
	"putby/cmd/putby/internal/page"
	"putby/ledger"
)

var receiptForm = recording{
	path: "receipt", link: "Receipt", title: "Record a receipt",
	intro:  "One line for each thing bought. Leave out what the receipt does not say; give the printed total, and it must add up.",
	groups: receiptGroups, rows: receiptRows, grows: "More lines",
}

// Lines of the form: to begin with, more at a time, and at most.
const (
	linesFirst = 4
	linesMost  = 80
)

// lineCount is how many lines the form has.
func (f *filling) lineCount() int {
	n, err := strconv.Atoi(f.text("lines", ""))
	if err != nil || n < linesFirst {
		n = linesFirst
	}
	if f.in.Get("do") == "more" {
		n += linesFirst
	}
	return min(n, linesMost)
}

func receiptGroups(f *filling) []page.Group {
	s := map[string]string{"date": f.at.Today.String(), "shop": entry.LastShop(f.rec)}
	s["receipt"] = entry.NextReceipt(f.rec, f.text("shop", s["shop"]), f.at.Day(f.text("date", "")))
	groups := []page.Group{{Title: "Receipt", Fields: []page.Field{
		{Kind: "text", Name: "receipt", Label: "receipt", Help: "its identifier", Value: f.text("receipt", s["receipt"]), Need: true},
		{Kind: "date", Name: "date", Label: "date", Value: f.text("date", s["date"]), Need: true},
		{Kind: "text", Name: "shop", Label: "shop", Value: f.text("shop", s["shop"]), Need: true, Options: f.shops()},
	}}}
	n := f.lineCount()
	for i := 1; i <= n; i++ {
		groups = append(groups, page.Group{Title: "Line " + strconv.Itoa(i), Compact: i > 1, Fields: f.lineFields(i)})
	}
	return append(groups, page.Group{Title: "In all", Fields: []page.Field{
		{Kind: "number", Name: "total", Label: "printed total", Help: "what the receipt says it comes to", Value: f.text("total", "")},
		{Kind: "hidden", Name: "lines", Value: strconv.Itoa(n)},
	}})
}

// lineName is the name of a field of the i-th line.
func lineName(i int, column string) string { return column + "-" + strconv.Itoa(i) }

func (f *filling) lineFields(i int) []page.Field {
	field := func(kind, column, help string) page.Field {
		name := lineName(i, column)
		return page.Field{Kind: kind, Name: name, Label: column, Help: help, Value: f.text(name, "")}
	}
	kind := field("select", "kind", "")
	for _, k := range ledger.ReceiptKinds() {
		if k != ledger.TotalLine {
			kind.Options = append(kind.Options, page.Option{Value: k.String(), Label: k.String()})
		}
	}
	item := field("text", "item", "a food, a supply, a machine; or words")
	item.Options = append(f.foods(), f.supplies()...)
	return []page.Field{kind, item,
		field("number", "count", "packages (1)"), field("text", "size", "of one, such as 500 g or 12 ea"),
		field("number", "price", "of one; or the amount"), field("number", "discount", "off the whole line"),
		field("text", "offer", "such as 3 for 5.00"),
	}
}

// receiptRows turns the lines that hold anything into rows.
func receiptRows(f *filling) (rows []entry.Row, err error) {
	k, _ := ledger.KindOf("receipt")
	head := map[string]string{"receipt": f.text("receipt", ""), "date": f.text("date", ""), "shop": f.text("shop", "")}
	add := func(cells map[string]string) {
		for column, text := range head {
			cells[column] = text
		}
		cells["line"] = strconv.Itoa(len(rows) + 1)
		rows = append(rows, entry.Row{Kind: k, Cells: cells})
	}
	for i := 1; i <= f.lineCount(); i++ {
		cells := map[string]string{}
		for _, column := range []string{"item", "count", "size", "price", "discount"} {
			if text := f.text(lineName(i, column), ""); text != "" {
				cells[column] = entry.Typed(f.rec, "receipt", column, text)
			}
		}
		offer := f.text(lineName(i, "offer"), "")
		if len(cells) == 0 && offer == "" {
			continue
		}
		cells["kind"] = f.text(lineName(i, "kind"), "")
		if offer != "" {
			if err := entry.ApplyOffer(cells, offer, f.rec.Settings.Currency.Minor()); err != nil {
				return nil, fmt.Errorf("line %d: %w", i, err)
			}
		}
		add(cells)
	}
	if len(rows) == 0 {
		return nil, errors.New("no line holds anything")
	}
	if total := f.text("total", ""); total != "" {
		add(map[string]string{"kind": ledger.TotalLine.String(), "price": total})
	}
	return rows, nil
}

// shops are those of receipts, the last one first.
func (f *filling) shops() []page.Option {
	var names []string
	for i := len(f.rec.Receipts) - 1; i >= 0; i-- {
		if shop := f.rec.Receipts[i].Shop; !slices.Contains(names, shop) {
			names = append(names, shop)
		}
	}
	return options(names...)
}
