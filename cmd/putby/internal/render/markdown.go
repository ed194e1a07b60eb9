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
func writeMarkdown(w io.Writer, d report.Doc) error {
	m := markdown{shower: showerOf(d)}
	if title := headline(d); title != "" {
		m.block("## " + escapeMarkdown(title))
	}
	for _, words := range d.Words {
		m.block(escapeMarkdown(clean(words)))
	}
	m.fields(d.Fields, "###", headings(d))
	m.notes(d.Notes)
	_, err := m.WriteTo(w)
	return err
}

type markdown struct {
	bytes.Buffer
	shower
	foot footnotes
}

// block writes lines, apart from those before.
func (m *markdown) block(lines ...string) {
	if m.Len() > 0 {
		m.WriteByte('\n')
	}
	for _, line := range lines {
		m.WriteString(line)
		m.WriteByte('\n')
	}
}

func (m *markdown) fields(fields []report.Field, level string, titled bool) {
	for at := 0; at < len(fields); at++ {
		f := fields[at]
		if f.Title == "" {
			continue
		}
		v, scalar := f.Node.(report.Value)
		if titled && !scalar {
			m.block(level + " " + escapeMarkdown(clean(f.Title)))
		}
		switch n := f.Node.(type) {
		case report.Value:
			var lines []string
			for ; scalar; v, scalar = valueAt(fields, at) {
				if title := fields[at].Title; title != "" {
					lines = append(lines, "- "+escapeMarkdown(clean(title))+": "+m.cell(v, m.withUnit(v)))
				}
				at++
			}
			at--
			m.block(lines...)
		case report.List:
			m.list(n)
		case report.Object:
			m.fields(n, level+"#", true)
		case *report.Table:
			m.table(m.sheet(n, &m.foot))
		}
	}
}

func valueAt(fields []report.Field, at int) (report.Value, bool) {
	if at >= len(fields) {
		return report.None, false
	}
	v, ok := fields[at].Node.(report.Value)
	return v, ok
}

func (m *markdown) list(list report.List) {
	var lines []string
	for _, v := range list {
		lines = append(lines, "- "+m.cell(v, m.withUnit(v)))
	}
	if len(lines) > 0 {
		m.block(lines...)
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
			row[i] = m.cell(c.values[r], c.cells[r])
		}
		lines = append(lines, markdownRow(row))
	}
	m.block(lines...)
}

func markdownRow(cells []string) string { return "| " + strings.Join(cells, " | ") + " |" }

func (m *markdown) notes(notes []string) {
	var lines []string
	for _, n := range notes {
		lines = append(lines, "- "+escapeMarkdown(clean(n)))
	}
	if len(lines) > 0 {
		m.block(lines...)
	}
	lines = nil
	for i, n := range m.foot.list {
		lines = append(lines, fmt.Sprintf("%d. %s", i+1, escapeMarkdown(n)))
	}
	if len(lines) > 0 {
		m.block(lines...)
	}
}

// escapeMarkdown makes clean text mean itself: a backslash before every
// character of ASCII punctuation that Markdown gives a meaning to.
func escapeMarkdown(s string) string {
	var b strings.Builder
	for i, r := range s {
		special := strings.ContainsRune("\\`*_{}[]<>|~&#!:@$", r) || i == 0 && strings.ContainsRune("-+=", r)
		if special || r == '.' && strings.HasSuffix(strings.ToLower(s[:i]), "www") {
			b.WriteByte('\\')
		}
		b.WriteRune(r)
	}
	return b.String()
}
