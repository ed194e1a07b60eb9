package render

import "strings"

// alignPoints fills the numbers of a column so that their points stand below
// each other when the column is aligned right: 1.5, 12 and 0.125 become
// "1.5  ", "12    " and "0.125".
func (c *column) alignPoints() {
	if !c.right {
		return
	}
	most := 0
	for i, cell := range c.cells {
		if pointed(c.values[i]) {
			most = max(most, fraction(cell))
		}
	}
	for i, cell := range c.cells {
		if f := fraction(cell); f < most && pointed(c.values[i]) {
			c.cells[i] = cell + strings.Repeat(" ", most-f)
		}
	}
}

// fraction returns how many characters the point and the digits after it are.
func fraction(number string) int {
	if at := strings.IndexByte(number, '.'); at >= 0 {
		return len(number) - at
	}
	return 0
}
