package intake

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"putby/ledger"
)

// Propose guesses a map for a table from its header and the look of its cells.
// It is a first proposal, to be shown before it is used: what it does not
// recognise it leaves out. The records, which may be nil, say which machine is
// meant where there is but one. The error, an [*Error], says which columns were
// not found.
func Propose(t *Table, target Target, name string, rec *ledger.Records) (Map, error) {
	m := Map{Name: name, Target: target}
	header := -1
	for i, row := range t.Rows[:min(headerWithin, len(t.Rows))] {
		if fills := proposeFills(row.Cells, target); len(fills) > len(m.Fills) && len(fills) > 1 {
			header, m.Fills = i, fills
		}
	}
	if target == Runs && rec != nil && len(rec.Machines) == 1 && !m.fills("machine") {
		m.Fills = append(m.Fills, Fill{Column: "machine", Value: rec.Machines[0].ID})
	}
	if err := m.lacks(t, header); err != nil {
		return Map{}, err
	}
	m.refine(t, header)
	m.sortFills()
	return m, nil
}

func (m *Map) fills(column string) bool {
	return slices.ContainsFunc(m.Fills, func(f Fill) bool { return f.Column == column })
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
	row := t.Rows[max(header, 0)]
	return &Error{
		Kind: ErrHeader, Line: row.Line, What: "no column is recognised as " + strings.Join(missing, ", "),
		Hint: fmt.Sprintf("write a map that names them; the columns are: %s", quoteAll(filled(row.Cells))),
	}
}

// proposeFills matches a header's cells with the columns of the target. Names
// that the ledger itself uses come before others.
func proposeFills(header []string, target Target) []Fill {
	keys := make([]string, len(header))
	for i, h := range header {
		keys[i] = headerKey(h)
	}
	used := make([]bool, len(header))
	fills := map[string]int{}
	match := func(column string, names []string) {
		if _, done := fills[column]; done {
			return
		}
		for _, name := range names {
			if i := slices.Index(keys, name); i >= 0 && !used[i] {
				fills[column], used[i] = i, true
				return
			}
		}
	}
	for i, h := range header {
		if column := strings.TrimSpace(h); slices.Contains(target.Columns(), column) && !used[i] {
			if _, done := fills[column]; !done {
				fills[column], used[i] = i, true
			}
		}
	}
	for _, t := range headerTables[target] {
		match(t.column, t.names)
	}
	if target != Runs {
		match("price total", totalNames)
	}
	joins := map[string]int{}
	if target == Runs {
		match("time start", timeNames["start"])
		match("time end", timeNames["end"])
		if _, dated := fills["start"]; !dated {
			match("start", dateNames)
		}
		for _, column := range []string{"start", "end"} {
			if i, ok := fills["time "+column]; ok {
				joins[column] = i
			}
		}
	}
	return fillsOf(header, target, fills, joins)
}

// fillsOf writes what was matched as fills.
func fillsOf(header []string, target Target, at, joins map[string]int) []Fill {
	var fills []Fill
	for _, column := range target.Columns() {
		i, ok := at[column]
		f := Fill{Column: column}
		if total, only := at["price total"]; column == "price" && !ok && only {
			i, ok, f.How.Total = total, true, true
		}
		if time, joined := joins[column]; joined && !ok {
			i, ok = time, true
		} else if joined {
			f.From = " + " + strings.TrimSpace(header[time])
		}
		if !ok {
			continue
		}
		f.From = strings.TrimSpace(header[i]) + f.From
		f.unitOf(header[i])
		fills = append(fills, f)
	}
	return fills
}

// headerKey folds a header without the unit or remark between parentheses.
func headerKey(h string) string {
	if at := strings.IndexAny(h, "([/"); at > 0 {
		h = h[:at]
	}
	return folded(h)
}

// unitOf takes the unit that a header names between parentheses or brackets,
// or behind a slash.
func (f *Fill) unitOf(header string) {
	at := strings.IndexAny(header, "([/")
	if at < 0 {
		return
	}
	word := strings.TrimFunc(header[at:], func(r rune) bool { return !unicode.IsLetter(r) })
	if sorts[Runs][f.Column] == spanCell {
		f.How.Span = spanWords[strings.ToLower(word)]
		return
	}
	if u, ok := unitOf(word); ok && slices.Contains(unitsFor[f.Column], u.Dimension()) {
		f.How.Unit = u
	}
}

// refine looks at the cells below the header: amounts that are all negative
// are money out, unless the file has kinds of lines as the ledger does, and
// sizes may stand in the item's text.
func (m *Map) refine(t *Table, header int) {
	for i := range m.Fills {
		f := &m.Fills[i]
		if f.Column == "price" && m.Target == Receipts && !m.fills("kind") && allNegative(t.Rows[header+1:], findColumn(t.Rows[header].Cells, f.From)) {
			f.How.Negate = true
		}
	}
	if m.Target == Runs || m.fills("size") {
		return
	}
	for _, f := range m.Fills {
		if f.Column == "item" {
			m.Fills = append(m.Fills, Fill{Column: "size", From: f.From, How: How{Within: true}})
			return
		}
	}
}

// allNegative reports whether every amount of a column is below 0.
func allNegative(rows []Row, at int) bool {
	seen := false
	for _, row := range rows {
		text := cellAt(row.Cells, at)
		if text == "" {
			continue
		}
		n, err := bare(text)
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
