package render

import (
	"bytes"
	"fmt"
	"io"
	"strings"

	"putby/ledger/report"
)

// writeMarkdown writes d in GitHub's flavour, rounded as a terminal table is,
// with all columns.
func writeMarkdown(w io.Writer, d report.Doc, o Options) error {
	m := markdown{shower: showerOf(d)}
	if o.Chart {
		m.chart = &terminal{shower: m.shower, pen: penOf(o), opt: Options{Width: markdownChart, Chart: true, ASCII: o.ASCII}}
	}
	for i, words := range d.Words {
		if m.block(escapeMarkdown(Clean(words))); i == 0 { // the answer, before all else
			m.title(d)
		}
	}
	if len(d.Words) == 0 {
		m.title(d)
	}
	m.fields(d.Fields, "###", severalParts(d.Fields))
	m.notes(d.Foot())
	_, err := m.WriteTo(w)
	return err
}

// markdownChart is the width of a chart, in columns: what a page shows without
// a scroll bar.
const markdownChart = 78

type markdown struct {
	bytes.Buffer
	shower
	foot  footnotes
	chart *terminal // draws charts, or nil
}

func (m *markdown) title(d report.Doc) {
	if title := headline(d); title != "" {
		m.block("## " + escapeMarkdown(title))
	}
}

// block writes lines, if there are any, apart from those before.
func (m *markdown) block(lines ...string) {
	if m.Len() > 0 && len(lines) > 0 {
		m.WriteByte('\n')
	}
	for _, line := range lines {
		m.WriteString(line)
		m.WriteByte('\n')
	}
}

func (m *markdown) fields(fields []report.Field, level string, titled bool) {
	var run []string // lines of the values so far, not yet written
	for _, f := range fields {
		if f.Title == "" {
			continue
		}
		title := escapeMarkdown(Clean(f.Title))
		if v, ok := f.Node.(report.Value); ok {
			run = append(run, "- "+title+": "+m.cell(v, m.phrase(v)))
			continue
		}
		m.block(run...)
		run = nil
		if titled && m.shows(f.Node) {
			m.block(level + " " + title)
		}
		m.node(f.Node, level)
	}
	m.block(run...)
}

// shows reports whether a part is seen: a series is where there are charts, a
// table that is empty is where it has words for that.
func (m *markdown) shows(n report.Node) bool {
	switch n := n.(type) {
	case *report.Table:
		return !vanishes(n)
	case *report.Series:
		return m.chart != nil && len(m.chart.lineChart(n)) > 0
	}
	return true
}

func (m *markdown) node(n report.Node, level string) {
	switch n := n.(type) {
	case report.List:
		var lines []string
		for _, v := range n {
			lines = append(lines, "- "+m.cell(v, m.phrase(v)))
		}
		m.block(lines...)
	case report.Object:
		m.fields(n, level+"#", true)
	case *report.Table:
		s := m.sheet(n, &m.foot)
		m.table(s)
		if m.chart != nil {
			lines := m.chart.barCharts(s)
			m.fence(lines[min(1, len(lines)):]) // without the blank line above the first
		}
	case *report.Series:
		if m.chart != nil {
			m.fence(m.chart.lineChart(n))
		}
	}
}

// fence writes lines as they are. No line of a chart can end the block, since
// each has more on it than a fence.
func (m *markdown) fence(lines []string) {
	if len(lines) > 0 {
		m.block(append(append([]string{"```text"}, lines...), "```")...)
	}
}

func (m *markdown) cell(v report.Value, text string) string {
	if v.Kind() == report.Text {
		return escapeMarkdown(text)
	}
	return text
}

func (m *markdown) table(s sheet) {
	if len(s.columns) == 0 || len(s.columns[0].cells) == 0 {
		if s.empty != "" {
			m.block(escapeMarkdown(s.empty))
		}
		return
	}
	head, rule := make([]string, len(s.columns)), make([]string, len(s.columns))
	for i, c := range s.columns {
		head[i], rule[i] = escapeMarkdown(c.title), "---"
		if c.right {
			rule[i] = "---:"
		}
	}
	lines := []string{markdownRow(head), markdownRow(rule)}
	for r := range s.columns[0].cells {
		row := make([]string, len(s.columns))
		for i, c := range s.columns {
			row[i] = m.cell(*c.values[r], c.cells[r])
		}
		lines = append(lines, markdownRow(row))
	}
	m.block(lines...)
}

func markdownRow(cells []string) string { return "| " + strings.Join(cells, " | ") + " |" }

func (m *markdown) notes(notes []string) {
	var lines []string
	for _, n := range notes {
		lines = append(lines, "- "+escapeMarkdown(Clean(n)))
	}
	m.block(lines...)
	lines = nil
	for i, n := range m.foot.list {
		lines = append(lines, fmt.Sprintf("%d. %s", i+1, escapeMarkdown(n)))
	}
	m.block(lines...)
}

// escapeMarkdown makes clean text mean itself: a backslash before every
// character of ASCII punctuation that Markdown, or GitHub, gives a meaning to
// at that place.
func escapeMarkdown(s string) string {
	var b strings.Builder
	for i, r := range s {
		// A point after www would make a link of what follows.
		if strings.ContainsRune("\\`*_{}[]<>|~&#!:@$", r) || begins(s[:i], r) || r == '.' && strings.HasSuffix(strings.ToLower(s[:i]), "www") {
			b.WriteByte('\\')
		}
		b.WriteRune(r)
	}
	return b.String()
}

// begins reports whether r behind before would make a list or an underlining
// at the start of a line.
func begins(before string, r rune) bool {
	switch r {
	case '-', '+', '=':
		return before == ""
	case '.', ')':
		return before != "" && strings.Trim(before, "0123456789") == ""
	}
	return false
}
