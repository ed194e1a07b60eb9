package render

import (
	_ "embed"
	"html/template"
	"io"
	"strings"
	"sync"

	"putby/ledger/report"
)

//go:embed fragment.html
var fragmentText string

// fragment is parsed when first needed, which for most commands is never.
var fragment = sync.OnceValue(func() *template.Template {
	return template.Must(template.New("fragment").Parse(fragmentText))
})

// writeHTML writes d as a fragment for a page: rounded as a terminal table is,
// with the exact figure in the title of each cell. It has no styles or
// scripts; the page gives the classes their looks.
func writeHTML(w io.Writer, d report.Doc, bare bool) error {
	h := htmlMaker{shower: showerOf(d)}
	page := htmlDoc{}
	if !bare {
		page.Title = headline(d)
	}
	for _, words := range d.Words {
		page.Words = append(page.Words, Clean(words))
	}
	page.Parts = h.parts(d.Fields)
	for _, n := range d.Foot() {
		page.Notes = append(page.Notes, Clean(n))
	}
	page.Footnotes = h.foot.list
	return fragment().Execute(w, page)
}

// What the template reads. Everything in it is plain text.
type (
	htmlDoc struct {
		Title                   string
		Words, Notes, Footnotes []string
		Parts                   []htmlPart
	}
	htmlPart struct {
		Title string
		Kind  string // "values", "list", "table" or "group"
		Pairs []htmlPair
		List  []htmlCell
		Table htmlTable
		Parts []htmlPart
	}
	htmlPair  struct{ Title, Text, Exact, Class string }
	htmlTable struct {
		Head         []htmlCell
		Rows, Totals [][]htmlCell
		Empty        string
	}
	htmlCell struct {
		Text, Exact, Class string
		RowHead            bool
	}
)

type htmlMaker struct {
	shower
	foot footnotes
}

func (h *htmlMaker) parts(fields []report.Field) []htmlPart {
	var parts []htmlPart
	for _, f := range fields {
		if f.Title == "" {
			continue
		}
		part := htmlPart{Title: Clean(f.Title)}
		switch n := f.Node.(type) {
		case report.Value:
			c := h.cell(n, h.phrase(n))
			pair := htmlPair{part.Title, c.Text, c.Exact, c.Class}
			if last := len(parts) - 1; last >= 0 && parts[last].Kind == "values" {
				parts[last].Pairs = append(parts[last].Pairs, pair)
				continue
			}
			part = htmlPart{Kind: "values", Pairs: []htmlPair{pair}}
		case report.List:
			part.Kind = "list"
			for _, v := range n {
				part.List = append(part.List, h.cell(v, h.phrase(v)))
			}
		case report.Object:
			part.Kind, part.Parts = "group", h.parts(n)
		case *report.Table:
			if vanishes(n) && severalParts(fields) {
				continue
			}
			part.Kind, part.Table = "table", h.table(h.sheet(n, &h.foot))
		default:
			continue
		}
		parts = append(parts, part)
	}
	return parts
}

func (h *htmlMaker) table(s sheet) htmlTable {
	t := htmlTable{Empty: s.empty}
	if len(s.columns) == 0 {
		return t
	}
	for _, c := range s.columns {
		t.Head = append(t.Head, htmlCell{Text: c.title, Class: c.class()})
	}
	for r := range s.columns[0].cells {
		row := make([]htmlCell, len(s.columns))
		for i, c := range s.columns {
			row[i] = h.cell(*c.values[r], c.cells[r])
			row[i].RowHead = i == 0
			if c.marks {
				row[i].Class = "marks"
			}
		}
		if r < s.rows {
			t.Rows = append(t.Rows, row)
		} else {
			t.Totals = append(t.Totals, row)
		}
	}
	return t
}

func (c column) class() string {
	switch {
	case c.marks:
		return "marks"
	case c.right:
		return "number"
	}
	return "text"
}

func (h *htmlMaker) cell(v report.Value, text string) htmlCell {
	c := htmlCell{Text: text, Class: "text"}
	if v.IsNumber() {
		c.Class, c.Exact = "number", v.Digits(h.currency, h.show)
		if whole(c.Exact) == whole(text) {
			c.Exact = "" // it says no more
		}
	}
	if v.IsNull() {
		c.Class = "none"
	}
	if v.IsEstimate() {
		c.Class += " estimate"
	}
	return c
}

// whole is a figure without the zeros that end it.
func whole(figure string) string {
	if !strings.Contains(figure, ".") {
		return figure
	}
	return strings.TrimRight(strings.TrimRight(figure, "0"), ".")
}
