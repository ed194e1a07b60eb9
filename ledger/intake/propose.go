package intake

import (
	"fmt"
	"iter"
	"slices"
	"strings"
	"unicode"

	"putby/ledger"
)

// Propose guesses a map for a table from its header and the look of its cells.
// It is a first proposal, to be shown before it is used: what it does not
// recognise it leaves out. The records, which may be nil, say which machine is
// meant where there is but one. The error, an [ledger.Fault], says which columns were
// not found; the map is then what was found of it.
func Propose(t *Table, target Target, name string, rec *ledger.Records) (Map, error) {
	m := Map{Name: name, Target: target}
	header := -1
	for i := range min(headerWithin, t.Len()) {
		row := t.Row(i)
		// One match alone may be a title.
		if fills := proposeFills(row.Cells, target); len(fills) > len(m.Fills) && len(fills) > 1 {
			header, m.Fills = i, fills
		}
	}
	if target == Runs && rec != nil && len(rec.Machines) == 1 && !m.fills("machine") {
		m.Fills = append(m.Fills, Fill{Column: "machine", Value: rec.Machines[0].ID})
	}
	m.refine(t, header)
	m.sortFills()
	return m, m.lacks(t, header)
}

// lacks says which columns that are needed nothing fills.
func (m *Map) lacks(t *Table, header int) error {
	var missing []string
	for _, column := range needs[m.Target] {
		if !m.fills(column) && (column != "start" || !m.fills("run")) {
			missing = append(missing, column)
		}
	}
	if len(missing) == 0 {
		return nil
	}
	row := t.Row(max(header, 0))
	return &ledger.Fault{
		Kind: ErrHeader, Line: row.Line, What: "no column is recognised as " + strings.Join(missing, ", "),
		Hint: fmt.Sprintf("name them in a map; the columns are: %s", quoteAll(filled(row.Cells))),
	}
}

// A matcher matches the cells of a header with what they may fill; each cell
// fills one thing at most.
type matcher struct {
	header []string
	keys   []string // the header folded
	used   []bool
	at     map[string]int // index of the cell, by what it fills
}

// proposeFills matches a header with the columns of the target. Names that the
// ledger itself uses come before others.
func proposeFills(header []string, target Target) []Fill {
	m := &matcher{header: header, used: make([]bool, len(header)), at: map[string]int{}}
	for _, h := range header {
		m.keys = append(m.keys, headerKey(h))
	}
	for i, h := range header {
		if column := strings.TrimSpace(h); slices.Contains(target.Columns(), column) {
			m.take(column, i)
		}
	}
	for _, t := range headerTables()[target] {
		m.match(t.column, t.names)
	}
	if target == Runs {
		m.match("start time", timeNames["start"])
		m.match("end time", timeNames["end"])
		m.match("start", dateNames) // last: a date is the start where nothing is headed so
	} else {
		m.match("price total", totalNames)
	}
	return m.fills(target)
}

func (m *matcher) take(what string, i int) bool {
	if _, done := m.at[what]; done || m.used[i] {
		return false
	}
	m.at[what], m.used[i] = i, true
	return true
}

// match takes the first cell that has the likeliest of the names.
func (m *matcher) match(what string, names []string) {
	for _, name := range names {
		for i, key := range m.keys {
			if key == name && m.take(what, i) {
				return
			}
		}
	}
}

// fills writes what was matched as fills, in the order of the columns.
func (m *matcher) fills(target Target) []Fill {
	var fills []Fill
	for _, column := range target.Columns() {
		f, at := Fill{Column: column}, []int(nil)
		for _, what := range []string{column, column + " time"} { // a date and its time
			if i, ok := m.at[what]; ok {
				at = append(at, i)
			}
		}
		if i, ok := m.at[column+" total"]; ok && at == nil {
			at, f.How.Total = []int{i}, true
		}
		if at == nil {
			continue
		}
		var names []string
		for _, i := range at {
			names = append(names, strings.TrimSpace(m.header[i]))
			f.unitOf(target.column(column), m.header[i])
		}
		f.From = strings.Join(names, " + ")
		fills = append(fills, f)
	}
	return fills
}

// headerKey folds a header without the unit or remark between parentheses.
func headerKey(h string) string {
	if at := strings.IndexAny(h, "([/"); at > 0 {
		h = h[:at]
	}
	return ledger.Fold(h)
}

// unitOf takes the unit that a header names between parentheses or brackets,
// or behind a slash.
func (f *Fill) unitOf(c *ledger.Column, header string) {
	at := strings.IndexAny(header, "([/")
	if at < 0 {
		return
	}
	word := strings.TrimFunc(header[at:], func(r rune) bool { return !unicode.IsLetter(r) })
	if c.Cell == ledger.DurationCell {
		f.How.Span = spanWords[strings.ToLower(word)]
		return
	}
	if u, ok := UnitWord(word); ok && measures(c, u.Dimension()) {
		f.How.Unit = u
	}
}

// refine looks at the cells below the header: amounts that are all negative
// are money out, unless the file has kinds of lines as the ledger does, and
// sizes may stand in the item's text.
func (m *Map) refine(t *Table, header int) {
	if f := m.fillOf("price"); f != nil && m.Target == Receipts && !m.fills("kind") {
		f.How.Negate = allNegative(t.From(header+1), findColumn(t.Row(header).Cells, f.From))
	}
	if f := m.fillOf("item"); f != nil && m.Target != Runs && !m.fills("size") {
		m.Fills = append(m.Fills, Fill{Column: "size", From: f.From, How: How{Within: true}})
	}
}

// allNegative reports whether every amount of a column is below 0.
func allNegative(rows iter.Seq[Row], at int) bool {
	seen := false
	for row := range rows {
		n, err := bare(cellAt(row.Cells, at))
		if err != nil {
			continue
		}
		if !n.negative && strings.Trim(n.body, "0.,") != "" {
			return false
		}
		seen = seen || n.negative
	}
	return seen
}

func (m *Map) sortFills() {
	order := m.Target.Columns()
	slices.SortStableFunc(m.Fills, func(a, b Fill) int {
		return slices.Index(order, a.Column) - slices.Index(order, b.Column)
	})
}
