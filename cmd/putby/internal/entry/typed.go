package entry

import (
	"strings"
	"time"

	"putby/ledger"
	"putby/ledger/intake"
	"putby/pricing/exact"
)

// Typed writes a cell as records have it where a person typed it as people do:
// yesterday, a food by its name, 2 lbs, 1 l, 25min, $3.99, 3,99. What has several
// readings or none is returned as it is, and the cell's own fault says how to
// write it.
func (m Moment) Typed(rec *ledger.Records, c *ledger.Column, text string) string {
	l := rec.Settings.Locale
	switch c.Cell {
	case ledger.DateCell, ledger.MomentCell:
		if c.Cell == ledger.DateCell && c.Name != "date" { // it may be to come, as a best-by day
			return m.datedWhole(text)
		}
		return m.Dated(text)
	case ledger.MoneyCell:
		return sum(nativeCell(l, withoutMark(text, moneyMarks(&rec.Settings))))
	case ledger.NumberCell, ledger.WholeCell:
		return Number(nativeCell(l, text))
	case ledger.PercentCell:
		return Number(strings.TrimSpace(strings.TrimSuffix(nativeCell(l, text), "%")))
	case ledger.AmountCell:
		return Amount(nativeCell(l, text))
	case ledger.DurationCell:
		return Length(text)
	case ledger.SuppliesCell, ledger.FoodsCell:
		return namedList(rec, c, nativeCell(l, text))
	}
	return Meant(rec, c, text)
}

// comma is a number with a decimal comma. Three digits behind it might be
// thousands, unless nothing or a zero stands before them.
var comma = pattern(`^(-?\d+),(\d+)$`)

// Number writes 3,99 as 3.99, and leaves 1,500, which could be either.
func Number(text string) string {
	m := comma().FindStringSubmatch(text)
	if m == nil || len(m[2]) == 3 && strings.Trim(m[1], "-0") != "" && len(m[1]) <= 3 {
		return text
	}
	return m[1] + "." + m[2]
}

var measured = pattern(`^(-?[\d.,]+)\s*(\pL[\pL. ]*)$`)

// Amount writes an amount with a unit in the words of people as records do.
func Amount(text string) string {
	if _, err := exact.ParseQuantity(text); err == nil {
		return text
	}
	m := measured().FindStringSubmatch(strings.TrimSpace(text))
	if m == nil {
		return Number(text)
	}
	unit, ok := intake.UnitWord(m[2])
	if !ok {
		return text
	}
	return Number(m[1]) + " " + unit.String()
}

var spans = pattern(`(\d+)\s*(\pL+)\.?`)

// Length writes 25min, or 2 hours 30 minutes, as records do.
func Length(text string) string {
	if _, err := exact.ParseDuration(text); err == nil {
		return text
	}
	if text == "" || strings.Trim(spans().ReplaceAllString(text, ""), " ,") != "" {
		return text
	}
	var sum time.Duration
	last := exact.MaxDuration
	for _, m := range spans().FindAllStringSubmatch(text, -1) {
		n, err := exact.ParseDuration(m[1] + "s")
		unit, ok := intake.SpanWord(m[2])
		if err != nil || !ok || unit >= last || n/time.Second > exact.MaxDuration/unit {
			return text
		}
		sum, last = sum+n/time.Second*unit, unit
	}
	if sum > exact.MaxDuration {
		return text
	}
	return exact.FormatDuration(sum)
}
