package render

import (
	"math"
	"slices"
	"strings"

	"putby/ledger/report"
)

// Widths of a terminal table, in columns.
const (
	gap         = 2  // between two columns
	comfortable = 16 // to which text is shortened before a column is left out
	narrowest   = 8  // to which text is shortened at last
	wrapped     = 32 // to which text is broken into lines before a column is left out
	tight       = 28 // the most that a tight column gets where not all fit whole
)

// A plan says which columns of a sheet are shown and how wide each is.
type plan struct {
	keep, widths []int    // positions among the sheet's columns, and how wide each is set
	leftOut      []string // titles, in the order of the table
}

// plan finds room for the columns of s within most columns of the terminal (0
// is no limit): without those in which no row says anything, which then nobody
// misses, with headings in lines and text shortened, then without the
// columns of the largest rank, then with text shortened further. It returns
// false when what must stay does not fit.
func (s sheet) plan(most int) (plan, bool) {
	needs := make([]need, len(s.columns))
	for i, c := range s.columns {
		needs[i] = c.need()
	}
	keep := make([]int, len(s.columns))
	for i := range keep {
		keep[i] = i
	}
	// Only where room is short: else a column of blanks says that nothing is known.
	if _, ok := widths(needs, keep, math.MaxInt, most); !ok {
		saying := slices.DeleteFunc(slices.Clone(keep), func(k int) bool { return s.columns[k].blank() })
		if len(saying) > 0 {
			keep = saying
		}
	}
	least := comfortable
	for {
		if widths, ok := widths(needs, keep, least, most); ok {
			return plan{keep, widths, s.missing(keep)}, true
		}
		if at := s.droppable(keep); at >= 0 {
			keep = slices.Delete(slices.Clone(keep), at, at+1)
		} else if least > narrowest {
			least = narrowest
		} else {
			return plan{}, false
		}
	}
}

// droppable returns which of the columns kept goes next: the last one of the
// largest rank, or -1 when all must stay.
func (s sheet) droppable(keep []int) int {
	worst := -1
	for i, k := range keep {
		if rank := s.columns[k].rank; rank > 0 && (worst < 0 || rank >= s.columns[keep[worst]].rank) {
			worst = i
		}
	}
	return worst
}

// blank reports whether no cell of the column says anything.
func (c column) blank() bool {
	for i, v := range c.values {
		if c.cells[i] != "" && !v.IsNull() || c.marks {
			return false
		}
	}
	return true
}

func (s sheet) missing(keep []int) (titles []string) {
	for i, c := range s.columns {
		if !slices.Contains(keep, i) && !c.blank() {
			titles = append(titles, c.title)
		}
	}
	return titles
}

// widths gives each column kept its width, and reports whether they fit.
func widths(needs []need, keep []int, least, most int) ([]int, bool) {
	full, cells, low := make([]int, len(keep)), make([]int, len(keep)), make([]int, len(keep))
	for i, k := range keep {
		n := needs[k]
		full[i], cells[i], low[i] = max(n.cells, n.heading), n.cells, n.floor(least)
	}
	if most <= 0 || total(full) <= most {
		return full, true
	}
	for i, k := range keep {
		if needs[k].tight {
			full[i], cells[i], low[i] = min(full[i], tight), min(cells[i], tight), min(low[i], tight)
		}
	}
	if total(low) > most {
		return nil, false
	}
	// First texts get their whole width, then headings a single line.
	room := widen(low, cells, most-total(low))
	widen(low, full, room)
	return low, true
}

// total returns the width of a line of columns.
func total(widths []int) int {
	sum := gap * max(len(widths)-1, 0)
	for _, w := range widths {
		sum += w
	}
	return sum
}

// widen hands out room, a column at a time, to the narrowest of those that
// want more, and returns what is left.
func widen(widths, wanted []int, room int) int {
	for ; room > 0; room-- {
		at := -1
		for i := range widths {
			if widths[i] < wanted[i] && (at < 0 || widths[i] < widths[at]) {
				at = i
			}
		}
		if at < 0 {
			break
		}
		widths[at]++
	}
	return room
}

// A need says how wide a column wants to be, and how narrow it can be.
type need struct {
	cells   int // its widest cell
	fixed   int // its widest cell that is never cut
	heading int // its heading on one line
	word    int // the longest word of its heading
	wrap    bool
	tight   bool
}

func (c column) need() need {
	n := need{heading: Width(c.heading()), wrap: c.wrap, tight: c.tight}
	for _, word := range strings.Fields(c.heading()) {
		n.word = max(n.word, Width(word))
	}
	for i, cell := range c.cells {
		w := Width(cell)
		n.cells = max(n.cells, w)
		if c.values[i].Kind() != report.Text {
			n.fixed = max(n.fixed, w)
		}
	}
	return n
}

// floor returns the least width when text is shortened to least columns and
// the heading broken between words.
func (n need) floor(least int) int {
	if n.wrap && least == comfortable {
		least = wrapped
	}
	return max(n.fixed, n.word, min(n.cells, least))
}
