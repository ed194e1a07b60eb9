package page

import (
	"bufio"
	"embed"
	"html/template"
	"io"
	"slices"
	"strings"
	"sync"

	"putby/cmd/putby/internal/render"
	"putby/ledger/report"
	"putby/pricing/exact"
)

//go:embed *.html
var templateFiles embed.FS

// templates are parsed when first needed, which for most commands is never.
var templates = sync.OnceValue(func() *template.Template {
	care := template.FuncMap{"care": func() string { return report.SafetyLine }}
	return template.Must(template.New("").Funcs(care).ParseFS(templateFiles, "*.html"))
})

// Reports are what a page is made from.
type Reports struct {
	AsOf    exact.Date
	Month   report.Doc
	Compare report.Doc
	OnHand  report.Doc
	Payback report.Doc
	Prices  []report.Doc // the price history of each food
}

// A Link leads to another page of the server.
type Link struct{ To, Name string }

// Write writes the whole page. It writes nothing when a report is at fault.
func Write(w io.Writer, r Reports, links ...Link) error {
	v, err := newView(r)
	if err != nil {
		return err
	}
	v.Links = links
	b := bufio.NewWriter(w)
	if err := templates().ExecuteTemplate(b, "page.html", v); err != nil {
		return err
	}
	return b.Flush()
}

// A view is what the template reads.
type view struct {
	Sheet    sheet
	Policy   string
	Currency string
	AsOf     string
	Links    []Link
	Account  account

	Parts    []section
	Cautions []caution
	Notes    []string
}

// A section is a part of the page: charts, and tables below them.
type section struct {
	ID, Title, Said string
	Key             []keyEntry // of all figures
	Figures         []figure
	Wide            string // how charts stand side by side: "one", "two", "three"
	Lists           []dueList
	Lines           []line // an account
	Tables          template.HTML
}

// A caution is what to heed with a food.
type caution struct{ Food, Words string }

func newView(r Reports) (*view, error) {
	s := pageSheet()
	v := &view{
		Sheet: s, Policy: s.policy("'none'"), AsOf: r.AsOf.String(), Currency: r.Month.Currency.Code(),
		Account: newAccount(r),
	}
	for _, part := range []func(Reports) (section, error){larder, units, months, payback, prices} {
		s, err := part(r)
		if err != nil {
			return nil, err
		}
		if len(s.Figures) > 0 || len(s.Lists) > 0 {
			v.Parts = append(v.Parts, s)
		}
	}
	v.notes(r)
	return v, nil
}

// notes gathers the doubts of all reports, each once, and the cautions.
func (v *view) notes(r Reports) {
	docs := append([]report.Doc{r.Month, r.Compare, r.OnHand, r.Payback}, r.Prices...)
	for _, d := range docs {
		for _, note := range d.Notes {
			note = render.Clean(note)
			rest, is := strings.CutPrefix(note, "Caution, ")
			food, words, ok := strings.Cut(rest, ": ")
			c := caution{food, words}
			switch {
			case is && ok && !slices.Contains(v.Cautions, c):
				v.Cautions = append(v.Cautions, c)
			case !is && !slices.Contains(v.Notes, note):
				v.Notes = append(v.Notes, note)
			}
		}
	}
}
