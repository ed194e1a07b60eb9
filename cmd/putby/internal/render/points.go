package render

import (
	"strings"

	"putby/pricing/locale"
)

// alignPoints fills the numbers of a column so that their points stand below
// each other when the column is aligned right: 1.5, 12 and 0.125 become
// "1.5  ", "12    " and "0.125". Units behind them stand below each other too.
func (c *column) alignPoints(l locale.Locale) {
	if !c.right {
		return
	}
	most, unit := 0, 0
	for i, cell := range c.cells {
		if pointed(c.values[i]) {
			number, behind := parted(cell)
			most, unit = max(most, fraction(l, number)), max(unit, Width(behind))
		}
	}
	for i, cell := range c.cells {
		if pointed(c.values[i]) {
			number, behind := parted(cell)
			c.cells[i] = number + strings.Repeat(" ", most-fraction(l, number)) + pad(behind, unit, false)
		}
	}
}

// parted parts a number from the unit behind it, which keeps its space.
func parted(cell string) (number, unit string) {
	if at := strings.IndexByte(cell, ' '); at > 0 {
		return cell[:at], cell[at:]
	}
	return cell, ""
}

// fraction returns how many characters the point and the digits after it are.
func fraction(l locale.Locale, number string) int {
	return len(number) - l.Point(number)
}
