package entry

import (
	"slices"
	"strings"

	"putby/ledger"
	"putby/pricing/exact"
	"putby/pricing/locale"
)

// NameFor is the name by which one of some things is found again: its name, or
// its identifier where it has no name or another is called so too.
func NameFor(id string, among []ledger.Named) string {
	i := slices.IndexFunc(among, func(n ledger.Named) bool { return n.ID == id })
	if i < 0 || among[i].Name == "" {
		return id
	}
	if found, ok := ledger.Meant(among[i].Name, among); !ok || found != id {
		return id
	}
	return among[i].Name
}

// CellAsTyped is a cell as people type it, which [Moment.Typed] reads as the cell again:
// a food or a supply by its name, a number with the decimal sign of the locale.
func CellAsTyped(rec *ledger.Records, c *ledger.Column, text string) string {
	if c.Cell == ledger.SuppliesCell || c.Cell == ledger.FoodsCell {
		return listAsTyped(rec, c, text)
	}
	switch l := rec.Settings.Locale; c.Cell {
	case ledger.NumberCell, ledger.WholeCell, ledger.PercentCell, ledger.MoneyCell:
		return l.Typed(text)
	case ledger.AmountCell:
		return amountWith(l.Typed, text)
	}
	if text == "" || c.Own || len(c.Names) == 0 || c.Names[0] != ledger.Foods && c.Names[0] != ledger.Supplies {
		return text
	}
	names := c.Known(rec)
	if !slices.Contains(names, text) {
		return text
	}
	return NameFor(text, titled(rec, names))
}

// InSentence is a cell as people are shown figures and dates; other words stay.
func InSentence(l locale.Locale, c *ledger.Column, text string) string {
	switch c.Cell {
	case ledger.NumberCell, ledger.WholeCell, ledger.PercentCell:
		return l.Number(text)
	case ledger.MoneyCell:
		return l.Amount(text)
	case ledger.AmountCell:
		return amountWith(l.Number, text)
	case ledger.DateCell, ledger.MomentCell:
		day, clock, _ := strings.Cut(text, " ")
		if d, err := exact.ParseDate(day); err == nil {
			return strings.TrimSpace(l.Date(d) + " " + clock)
		}
	}
	return text
}

// amountWith is an amount of a record with its number as write has it.
func amountWith(write func(string) string, amount string) string {
	number, unit, _ := strings.Cut(amount, " ")
	return strings.TrimSpace(write(number) + " " + unit)
}

// listAsTyped is a list of amounts and things with the things by their names.
func listAsTyped(rec *ledger.Records, c *ledger.Column, text string) string {
	names := titled(rec, c.Known(rec))
	list := listParts(text)
	for i, part := range list {
		if at := strings.LastIndexByte(part, ' '); at >= 0 {
			list[i] = part[:at+1] + NameFor(part[at+1:], names)
		}
	}
	if shown := strings.Join(list, ", "); namedList(rec, c, shown) == text {
		return shown
	}
	return text
}
