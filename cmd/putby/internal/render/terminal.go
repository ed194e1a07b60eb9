package render

import (
	"fmt"
	"io"
	"strings"

	"putby/ledger/report"
)

// A terminal writes a report as blocks of lines with a blank line between two.
type terminal struct {
	shower
	pen
	opt   Options
	foot  footnotes
	lines []string
}

func writeTerminal(w io.Writer, d report.Doc, o Options) error {
	t := terminal{shower: showerOf(d), pen: penOf(o), opt: o}
	title := headline(d)
	if title != "" {
		t.block(t.bold(wrap(title, o.Width))...)
	}
	for _, words := range d.Words {
		t.block(wrap(clean(words), o.Width)...)
	}
	if err := t.fields(d.Fields, "", headings(d)); err != nil {
		return err
	}
	t.notes(d.Notes)
	for _, line := range t.lines {
		if _, err := fmt.Fprintln(w, line); err != nil {
			return err
		}
	}
	return nil
}

// headline is the title and, where there is money, its currency: said once.
func headline(d report.Doc) string {
	title, code := clean(d.Title), d.Currency.Code()
	if code == "" || !hasMoney(d.Fields) {
		return title
	}
	if title == "" {
		return code
	}
	return title + ", " + code
}

func hasMoney(fields []report.Field) bool {
	money := func(v report.Value) bool { return v.Kind() == report.Money || v.Kind() == report.UnitPrice }
	for _, f := range fields {
		switch n := f.Node.(type) {
		case report.Value:
			if money(n) {
				return true
			}
		case report.Object:
			if hasMoney(n) {
				return true
			}
		case *report.Table:
			for _, r := range n.Rows {
				for _, v := range r.Cells {
					if money(v) {
						return true
					}
				}
			}
		}
	}
	return false
}

// headings reports whether the parts of d need headings: a report of one
// table has its title alone.
func headings(d report.Doc) bool {
	parts := 0
	for _, f := range d.Fields {
		if _, scalar := f.Node.(report.Value); f.Title != "" && !scalar {
			parts++
		}
	}
	return parts > 1
}

// block adds lines, apart from those before.
func (t *terminal) block(lines ...string) {
	if len(t.lines) > 0 {
		t.lines = append(t.lines, "")
	}
	t.lines = append(t.lines, lines...)
}

func (t *terminal) fields(fields []report.Field, indent string, titled bool) error {
	for at := 0; at < len(fields); at++ {
		f := fields[at]
		if f.Title == "" {
			continue
		}
		var head []string
		if titled {
			head = t.bold(wrap(clean(f.Title), t.opt.Width))
		}
		switch n := f.Node.(type) {
		case report.Value:
			var run []pair
			for ; at < len(fields); at++ {
				v, ok := fields[at].Node.(report.Value)
				if !ok {
					break
				}
				if fields[at].Title != "" {
					run = append(run, t.pair(clean(fields[at].Title), v, t.unit(v)))
				}
			}
			at--
			t.block(t.pairs(run, indent)...)
		case report.List:
			if len(n) == 0 {
				continue
			}
			lines := head
			for _, v := range n {
				lines = append(lines, hang("  ", t.withUnit(v), t.opt.Width)...)
			}
			t.block(lines...)
		case report.Object:
			if err := t.object(head, n); err != nil {
				return err
			}
		case *report.Table:
			lines, err := t.table(t.sheet(n, &t.foot))
			if err != nil {
				return err
			}
			t.block(append(head, lines...)...)
		case *report.Series:
			if t.opt.Chart && len(n.Points) > 0 {
				t.block(append(head, t.lineChart(n)...)...)
			}
		}
	}
	return nil
}

// object writes the first values of o right below its heading.
func (t *terminal) object(head []string, o report.Object) error {
	before := len(t.lines)
	if err := t.fields(o, "  ", true); err != nil {
		return err
	}
	added := append([]string{}, t.lines[before:]...)
	t.lines = t.lines[:before]
	if len(added) > 0 && added[0] == "" {
		added = added[1:]
	}
	if len(added) > 0 {
		t.block(append(head, added...)...)
	}
	return nil
}

// table sets a sheet to the width of the terminal.
func (t *terminal) table(s sheet) ([]string, error) {
	if s.rows == 0 && len(s.columns) > 0 && len(s.columns[0].cells) == 0 {
		if s.empty == "" {
			return []string{"nothing to show"}, nil
		}
		return wrap(s.empty, t.opt.Width), nil
	}
	for i := range s.columns {
		if s.columns[i].right {
			s.columns[i].alignPoints()
		}
	}
	p, ok := s.plan(t.opt.Width)
	if !ok {
		return t.cards(s), nil
	}
	lines, err := t.grid(s, p)
	if err != nil {
		return nil, err
	}
	if len(p.leftOut) > 0 {
		lines = append(lines, t.dim(wrap("left out for width: "+strings.Join(p.leftOut, ", ")+
			"; see --format csv or a wider window", t.opt.Width))...)
	}
	if t.opt.Chart {
		lines = append(lines, t.barCharts(s)...)
	}
	return lines, nil
}

func (t *terminal) grid(s sheet, p plan) ([]string, error) {
	titles, right := make([]string, len(p.keep)), make([]bool, len(p.keep))
	for i, k := range p.keep {
		titles[i], right[i] = s.columns[k].title, s.columns[k].right
	}
	head := headLines(titles, p.widths)
	for _, line := range head {
		for i := range line {
			line[i] = pad(line[i], p.widths[i], right[i])
		}
	}
	count := len(s.columns[0].cells)
	rows := make([][]string, count)
	for r := range rows {
		rows[r] = make([]string, len(p.keep))
		for i, k := range p.keep {
			c := s.columns[k]
			text := c.cells[r]
			if c.values[r].Kind() == report.Text {
				text = isolate(t.fit(text, p.widths[i]))
			}
			rows[r][i] = pad(text, p.widths[i], c.right)
		}
	}
	lines, err := grid(head, rows, right, t.rule)
	if err != nil {
		return nil, err
	}
	whole := total(p.widths)
	lines[len(head)] = strings.Repeat(t.rule, whole)
	t.boldInPlace(lines[:len(head)])
	if s.rows < count && s.rows > 0 {
		at := len(head) + 1 + s.rows
		lines = append(lines[:at], append([]string{strings.Repeat(t.thin, whole)}, lines[at:]...)...)
	}
	return lines, nil
}

// notes writes the doubts about the report, then those of its rows.
func (t *terminal) notes(notes []string) {
	var lines []string
	for _, n := range notes {
		lines = append(lines, hang("  * ", clean(n), t.opt.Width)...)
	}
	for i, n := range t.foot.list {
		lines = append(lines, hang(fmt.Sprintf("%3d ", i+1), n, t.opt.Width)...)
	}
	if len(lines) > 0 {
		t.block(t.dim(lines)...)
	}
}

func (t *terminal) bold(lines []string) []string { return t.styled("\x1b[1m", lines) }

func (t *terminal) dim(lines []string) []string { return t.styled("\x1b[2m", lines) }

func (t *terminal) boldInPlace(lines []string) { copy(lines, t.bold(lines)) }

func (t *terminal) styled(on string, lines []string) []string {
	if !t.opt.Colour {
		return lines
	}
	out := make([]string, len(lines))
	for i, line := range lines {
		out[i] = on + line + "\x1b[0m"
	}
	return out
}
