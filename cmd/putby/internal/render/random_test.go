package render

import (
	"fmt"
	"math/big"
	"strings"

	"pgregory.net/rapid"

	"putby/ledger/report"
	"putby/pricing/exact"
)

// Pieces of names as files from anywhere may hold them: what a terminal, a
// spreadsheet, Markdown or a browser would act on, and scripts and emoji of
// every width.
var pieces = []string{
	"leek", "a", " ", "  ", "\t", "\n", "\r\n", "\x00", "\x1b[31m", "\x1b]0;title\a", "\u009b2J", "\u0085", "\x7f",
	"\u202e", "\u2066", "\u200f", "\u200e", "\ufeff", "\u00ad", "\u2028", "\u2800", "\xff\xfe",
	"חלב", "عسل", "牛乳", "한국", "é", "e\u0301", "\u0301", "\ufe0f", "\u200d", "👩‍🌾", "👨‍👩‍👧‍👦", "🇫🇷", "🏴󠁧󠁢󠁥󠁮󠁧󠁿", "☕️", "❤", "𝒳",
	"|", "\\", "`", "*", "_", "<script>alert(1)</script>", "&amp;", "\"", "'", "]]>", "[x](y)", "![", "www.x.y", "http://x", "#1", "1.", "~~",
	"=cmd|' /C calc'!A0", "=", "+", "-", "@", "＝", ",", ";", "$x$", "12.50", "-3", "…",
}

func drawText(t *rapid.T, label string) string {
	return strings.Join(rapid.SliceOfN(rapid.SampledFrom(pieces), 0, 8).Draw(t, label), "")
}

func drawNumber(t *rapid.T) exact.Number {
	coef := rapid.OneOf(rapid.Int64Range(-2000, 2000), rapid.Int64Range(-1e15, 1e15)).Draw(t, "coef")
	return exact.New(coef, rapid.IntRange(0, 9).Draw(t, "places"))
}

func drawRatio(t *rapid.T) exact.Ratio {
	return drawNumber(t).Over(exact.Int(rapid.Int64Range(1, 1e6).Draw(t, "per")))
}

func drawValue(t *rapid.T, k report.Kind) report.Value {
	var v report.Value
	unit := rapid.SampledFrom([]exact.Unit{exact.L, exact.Kg, exact.Ea, exact.KWh}).Draw(t, "unit")
	switch k {
	case report.Text:
		v = report.TextOf(drawText(t, "text"))
	case report.Date:
		v = report.DateOf(exact.UnixDate(rapid.Int64Range(0, 20000).Draw(t, "date")))
	case report.Money:
		v = report.MoneyOf(exact.MoneyOf(drawNumber(t)))
	case report.Posted:
		v = report.PostedOf(exact.MoneyOf(drawNumber(t)))
	case report.MoneyShare:
		v = report.MoneyQuotient(drawRatio(t))
	case report.UnitPrice:
		v = report.PriceOf(drawRatio(t), unit)
	case report.Amount:
		v = report.AmountOf(drawNumber(t), unit)
	case report.Quotient:
		v = report.QuotientOf(drawRatio(t), rapid.IntRange(0, 6).Draw(t, "decimals"))
	case report.Plain:
		v = report.PlainOf(drawNumber(t))
	case report.Count:
		v = report.CountOf(rapid.IntRange(-1e9, 1e9).Draw(t, "count"))
	case report.UnitName:
		v = report.UnitOf(unit)
	case report.YesNo:
		v = report.YesNoOf(rapid.Bool().Draw(t, "yes"))
	}
	if v.IsNumber() && rapid.IntRange(0, 4).Draw(t, "estimate") == 0 {
		v = v.Estimated()
	}
	return v
}

var columnKinds = []report.Kind{report.Text, report.Date, report.Money, report.Posted, report.MoneyShare, report.UnitPrice, report.Amount, report.Quotient,
	report.Plain, report.Count, report.UnitName, report.YesNo}

// drawDoc returns a report of one table whose first column names its rows r1,
// r2 ... and whose others are of random kinds, with some gaps.
func drawDoc(t *rapid.T) (report.Doc, *report.Table) {
	table := &report.Table{Columns: []report.Column{{Key: "id", Title: "Id"}}}
	kinds := rapid.SliceOfN(rapid.SampledFrom(columnKinds), 1, 9).Draw(t, "kinds")
	for i := range kinds {
		table.Columns = append(table.Columns, report.Column{Key: fmt.Sprintf("c%d", i), Title: fmt.Sprintf("C%d", i),
			Rank: rapid.IntRange(0, 3).Draw(t, "rank"), Bar: true})
	}
	table.Columns = append(table.Columns, report.Column{Key: report.NotesKey})
	for r := range rapid.IntRange(1, 6).Draw(t, "rows") {
		row := report.Row{Cells: []report.Value{report.TextOf(fmt.Sprintf("r%d", r+1))}}
		for _, k := range kinds {
			v := report.None
			if rapid.IntRange(0, 5).Draw(t, "gap") > 0 {
				v = drawValue(t, k)
			}
			row.Cells = append(row.Cells, v)
		}
		for range rapid.IntRange(0, 2).Draw(t, "notes") {
			row.Notes = append(row.Notes, drawText(t, "note"))
		}
		table.Rows = append(table.Rows, row)
	}
	return report.Doc{
		Title:    "A random report",
		Currency: exact.MustCurrency(rapid.SampledFrom([]string{"EUR", "JPY", "BHD", "CLF"}).Draw(t, "currency")),
		Show: report.Show{
			Volume: rapid.SampledFrom(exact.Units(exact.Volume)).Draw(t, "volume"),
			Mass:   rapid.SampledFrom(exact.Units(exact.Mass)).Draw(t, "mass"),
		},
		Fields: []report.Field{{Key: "rows", Title: "Rows", Node: table}},
	}, table
}

// rat reads an exact number or ratio for a twin in math/big.
func rat(s fmt.Stringer) *big.Rat {
	r, ok := new(big.Rat).SetString(s.String())
	if !ok {
		panic("not a number: " + s.String())
	}
	return r
}

// allDigits writes a number of at most 9 decimals with all of them, and with
// places at the least.
func allDigits(r *big.Rat, places int) string {
	s := r.FloatString(9)
	for extra := 9 - places; extra > 0 && s[len(s)-1] == '0'; extra-- {
		s = s[:len(s)-1]
	}
	return s
}

// twin is how a figure must be shown, worked out in math/big: rounded half away
// from zero (big.Rat.FloatString does that), trimmed where the rule says so.
func twin(v report.Value, d report.Doc) string {
	minor := d.Currency.Minor()
	r := rat(v.Ratio())
	factor := rat(d.Show.In(v.Unit()).Factor())
	s := ""
	switch v.Kind() {
	case report.Money, report.MoneyShare:
		s = r.FloatString(minor)
	case report.Posted:
		s = allDigits(r, minor+4)
	case report.UnitPrice:
		s = r.Mul(r, factor).FloatString(minor + 2)
	case report.Amount:
		s = strings.TrimSuffix(strings.TrimRight(r.Quo(r, factor).FloatString(3), "0"), ".")
	case report.Quotient:
		s = r.FloatString(v.Decimals())
	default:
		s = v.Number().String()
	}
	if strings.Trim(s, "-0.") == "" {
		s = strings.TrimPrefix(s, "-")
	}
	if v.IsEstimate() {
		s = "~" + s
	}
	return s
}
