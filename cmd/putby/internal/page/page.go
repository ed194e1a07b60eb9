package page

import (
	"bufio"
	"embed"
	"html/template"
	"io"
	"slices"
	"strings"
	"sync"
	"time"

	"putby/cmd/putby/internal/render"
	"putby/ledger"
	"putby/ledger/figures"
	"putby/ledger/report"
	"putby/pricing/exact"
)

//go:embed *.html
var templateFiles embed.FS

// templates are parsed when first needed, which for most commands is never.
var templates = sync.OnceValue(func() *template.Template {
	funcs := template.FuncMap{"care": func() string { return report.SafetyLine }, "links": linksOf, "linked": linked, "unlinked": Unlinked}
	return template.Must(template.New("").Funcs(funcs).ParseFS(templateFiles, "*.html"))
})

// write writes what a template makes of v.
func write(w io.Writer, name string, v any) error {
	b := bufio.NewWriter(w)
	if err := templates().ExecuteTemplate(b, name, v); err != nil {
		return err
	}
	return b.Flush()
}

// Reports are what a page is made from: charts and lists are drawn from the
// figures, tables and sentences are those of their layouts.
type Reports struct {
	Ledger  *ledger.Ledger // as it stands on the day of the page
	Month   report.Told[figures.MonthResult]
	Compare report.Told[figures.CompareResult]
	OnHand  report.Told[*figures.OnHandResult]
	Payback report.Told[*figures.PaybackResult]
	Prices  []report.Told[*figures.OffersResult] // of each food

	Today    *figures.TodayResult          // nil: the page is about one food alone
	LastRuns []figures.CostRow             // the newest first
	Card     *report.Told[report.ShopCard] // what to pay in the shop; may be nil
}

// ReportsAt works out all that a page shows of a ledger, which join joins through
// a day, or with [exact.NoDate] all records.
func ReportsAt(join func(through exact.Date) (*ledger.Ledger, error), q figures.Query) (Reports, error) {
	g, err := join(q.AsOf)
	if err != nil {
		return Reports{}, err
	}
	whole := g
	if len(g.LeftOut()) > 0 {
		if whole, err = join(exact.NoDate); err != nil {
			return Reports{}, err
		}
	}
	return ReportsOf(g, whole, q)
}

// ReportsOf works out all that a page shows. Most of it is about what there is
// on a day; what foods cost is about whole runs, whose later packs count, and so
// needs the ledger joined for those.
func ReportsOf(g, whole *ledger.Ledger, q figures.Query) (r Reports, err error) {
	r.Ledger = g
	if r.Month, err = report.Tell(g, figures.MonthQuery{Query: q}, figures.Month, report.MonthDoc); err != nil {
		return r, err
	}
	r.Month.Notes = append(report.LeftOut(g), r.Month.Notes...) // of the whole page
	if r.Compare, err = report.Tell(whole, figures.CompareQuery{Query: q}, figures.Compare, report.CompareDoc); err != nil {
		return r, err
	}
	if r.OnHand, err = report.Tell(g, figures.OnHandQuery{Query: q}, figures.OnHand, report.OnHandDoc); err != nil {
		return r, err
	}
	if r.Payback, err = report.Tell(g, figures.PaybackQuery{Query: q}, figures.Payback, report.PaybackDoc); err != nil {
		return r, err
	}
	for i := range g.Foods {
		if q.Item != "" && i != r.OnHand.Figures.Food {
			continue
		}
		of := figures.OffersQuery{Query: q}
		of.Item = g.Foods[i].ID
		told, err := report.Tell(g, of, figures.Offers, report.OffersDoc)
		if err != nil {
			return r, err
		}
		r.Prices = append(r.Prices, told)
	}
	if q.Item != "" {
		return r, nil
	}
	r.LastRuns = figures.LastRuns(whole, lastRunsMost)
	r.Today, err = figures.Today(g, figures.TodayQuery{
		Now: g.AsOf.Midnight(g.Settings.Zone), OnHand: r.OnHand.Figures, Payback: r.Payback.Figures,
	})
	return r, err
}

// A Link leads to another page of the server. What is wanted seldom is folded.
type Link struct {
	To, Name string // the address, and the word that is shown
	Seldom   bool   // it is folded
}

// linksOf are those that are wanted often, or seldom.
func linksOf(links []Link, seldom bool) []Link {
	return slices.DeleteFunc(slices.Clone(links), func(l Link) bool { return l.Seldom != seldom })
}

// A Page is the page of a ledger on a day, all but its first screen, which changes
// with every minute.
type Page struct {
	reports Reports
	served  bool
	rest    template.HTML

	mu      sync.Mutex
	planned time.Time // the quarter of an hour in which next was worked out
	next    []figures.NextFood
}

// today is what the day needs at a moment; nil on a page about one food. What to dry
// next prices hundreds of starts, so it is worked out only where food that is due soon
// could be dried, and once in a quarter of an hour.
func (p *Page) today(now time.Time) *figures.TodayResult {
	g := p.reports.Ledger
	if p.reports.Today == nil {
		return nil
	}
	r := p.reports.Today.At(g, now)
	if !slices.ContainsFunc(r.ToDo(g), func(do figures.ToDo) bool {
		return do.Task == figures.DryFresh && do.Fresh.UseBy != exact.NoDate && do.Fresh.UseBy <= r.Day.AddDays(soonDays)
	}) {
		return r
	}
	p.mu.Lock()
	defer p.mu.Unlock()
	if quarter := now.Truncate(15 * time.Minute); !quarter.Equal(p.planned) {
		r.Plan(g, report.TodayStart)
		p.planned, p.next = quarter, r.Next
	}
	r.Next = p.next
	return r
}

// Make makes a page: to be served, with links to forms, or to be one file.
func Make(r Reports, served bool) (*Page, error) {
	rest, err := newRest(r)
	if err != nil {
		return nil, err
	}
	if served {
		rest.Packs = packLinks(r)
	}
	var b strings.Builder
	if err := templates().ExecuteTemplate(&b, "rest", rest); err != nil {
		return nil, err
	}
	return &Page{reports: r, served: served, rest: template.HTML(b.String())}, nil
}

// Write writes the page as it is at a moment of its day.
func (p *Page) Write(w io.Writer, now time.Time, links ...Link) error {
	r, s := p.reports, pageSheet(p.served)
	v := view{
		Sheet: s, Policy: s.policy("'none'"), Served: p.served, Links: links, Rest: p.rest,
		AsOf: r.Ledger.AsOf, Day: r.Ledger.Settings.Show().Date(r.Ledger.AsOf), Currency: r.Month.Currency.Code(), Today: newToday(r, p.today(now)), Empty: r.Month.Figures.Rows == nil,
	}
	return write(w, "page.html", v)
}

// Write writes a whole page as one file, as it is at a moment. It writes nothing
// when a report is at fault.
func Write(w io.Writer, r Reports, now time.Time) error {
	p, err := Make(r, false)
	if err != nil {
		return err
	}
	return p.Write(w, now)
}

// What the templates read.
type (
	view struct {
		Sheet    sheet
		Policy   string
		Served   bool
		Currency string
		AsOf     exact.Date // the last day that counts
		Day      string     // the same, as people write it
		Links    []Link
		Today    *today // may be nil
		Empty    bool   // nothing is recorded yet
		Rest     template.HTML
	}
	rest struct {
		Alone    bool // there is no first screen
		Served   bool
		Account  account
		Packs    []Link // to the labels of each pack in store
		Shop     []cardFood
		Rests    []string // what the card rests on
		Parts    []section
		Cautions []report.Remark
		Notes    []string
	}
)

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

func newRest(r Reports) (*rest, error) {
	v := &rest{Alone: r.Today == nil, Account: newAccount(r)}
	if r.Card != nil {
		v.Shop, v.Rests = cardFoods(*r.Card), r.Card.Words
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

// notes gathers the notes of all reports, each once, and the cautions.
func (v *rest) notes(r Reports) {
	docs := []report.Doc{r.Month.Doc, r.Compare.Doc, r.OnHand.Doc, r.Payback.Doc}
	for _, t := range r.Prices {
		docs = append(docs, t.Doc)
	}
	for _, d := range docs {
		for _, note := range d.Notes {
			v.Notes = report.Once(v.Notes, render.Clean(note))
		}
		for _, c := range d.Cautions {
			v.Cautions = report.Once(v.Cautions, report.Remark{Words: render.Clean(c.Words), Caution: true, Food: render.Clean(c.Food)})
		}
	}
	v.Notes = gathered(v.Notes)
}

// gathered puts notes together that say the same of several foods, each at the
// first of them: "... is thrown away: leeks 40 %." and "... is thrown away: corn 64 %."
func gathered(notes []string) (list []string) {
	at := map[string]int{}
	for _, note := range notes {
		said, of, lists := strings.Cut(strings.TrimSuffix(note, "%."), ": ")
		if !lists || !strings.HasSuffix(note, "%.") {
			list = append(list, note)
			continue
		}
		i, before := at[said]
		if !before {
			at[said], list = len(list), append(list, note)
			continue
		}
		for _, food := range strings.Split(of, "%, ") {
			if !strings.Contains(list[i], food+"%") {
				list[i] = strings.TrimSuffix(list[i], ".") + ", " + food + "%."
			}
		}
	}
	return list
}
