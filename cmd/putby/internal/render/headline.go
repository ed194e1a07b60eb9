package render

import (
	"slices"

	"putby/ledger/report"
)

// headline is the title of a report and, where there is money in it, the
// currency: said once, not in every cell.
func headline(d report.Doc) string {
	title, code := Clean(d.Title), d.Currency.Code()
	switch {
	case code == "" || !hasMoney(d.Fields):
		return title
	case title == "":
		return code
	}
	return title + ", " + code
}

// hasMoney reports whether people are shown money in any of the parts.
func hasMoney(fields []report.Field) bool {
	return slices.ContainsFunc(fields, func(f report.Field) bool { return f.Title != "" && nodeHasMoney(f.Node) })
}

func nodeHasMoney(n report.Node) bool {
	switch n := n.(type) {
	case report.Value:
		return isMoney(n)
	case report.Object:
		return hasMoney(n)
	case report.List:
		return slices.ContainsFunc(n, isMoney)
	case *report.Series:
		_, high, _ := n.Range()
		return isMoney(high)
	case *report.Table:
		return slices.ContainsFunc(n.Rows, func(r report.Row) bool { return slices.ContainsFunc(r.Cells, isMoney) })
	}
	return false
}

func isMoney(v report.Value) bool {
	switch v.Kind() {
	case report.Money, report.Posted, report.MoneyShare, report.UnitPrice:
		return true
	}
	return false
}

// severalParts reports whether the parts of a report need headings: a report
// of one table has its title alone.
func severalParts(fields []report.Field) bool {
	parts := 0
	for _, f := range fields {
		if _, scalar := f.Node.(report.Value); f.Title != "" && !scalar {
			parts++
		}
	}
	return parts > 1
}
