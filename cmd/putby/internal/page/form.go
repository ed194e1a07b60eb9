package page

import (
	_ "embed"
	"html/template"
	"io"
	"strings"
	"sync"

	"putby/ledger/report"
)

// A Form is a page that asks for something, or says what became of it.
type Form struct {
	Title   string
	Intro   string
	Path    string // where it is sent; empty: there is nothing to send
	Ask     bool   // it is a question, which changes nothing
	Once    string // marks the form, so that it is recorded once
	Seen    string // the last change of the ledger when the form was shown
	Groups  []Group
	Buttons []Button // the last is what the form is for
	Links   []Link
	Beside  []Link // other forms for the same, folded

	Refused   string    // that it was not done; empty: "Not done"
	Trouble   []Trouble // why it was not done
	Said      []string  // what it comes to
	Know      []string  // what else to know of it
	Cautions  []string  // what to heed
	Meanwhile []string  // what others have changed since the form was shown
	Change    []Changed // what is written, or would be
	Answer    *report.Told[report.Verdict]

	Doings []Doing // what can be done at once: taken back, changed, packed
	Labels []LabelPreview
	List   []Item
}

// A Group is some fields that belong together.
type Group struct {
	Title   string
	Folded  bool // shown when it is opened
	Compact bool // set close, without help
	Fields  []Field
}

// A Field is asked for. Its kind is "text", "number", "date", "datetime",
// "select", "lines", "switch", "count" (a whole number with a button on either
// side), "words" (what is only told) or "hidden".
type Field struct {
	Kind, Name, Label, Help, Value string   // Value is what it holds when the form is shown
	Need                           bool     // it may not be left blank
	Wrong                          []string // what is wrong with what it holds
	Options                        []Option // of a select; of others they are only offered
	From                           string   // of a count: where the buttons begin while it is empty
	Most                           string   // of a count; empty: no limit
}

// About names what a field is described by.
func (f Field) About() string {
	var ids []string
	if f.Wrong != nil {
		ids = append(ids, f.Name+"-wrong")
	}
	if f.Help != "" {
		ids = append(ids, f.Name+"-help")
	}
	return strings.Join(ids, " ")
}

// An Option is a value that can be chosen.
type Option struct{ Value, Label string }

// A Button sends the form to do something.
type Button struct{ Do, Label string }

// A Trouble is what is wrong, and what to try; Field and Label are of the field
// where it is to be put right, empty where it is none.
type Trouble struct{ Field, Label, What, Hint string }

// A Changed file has lines that go and lines that come.
type Changed struct {
	File           string
	Removed, Added []string
}

// The looks of forms, and of the page.
var (
	formSheet = sheetOf("base.css", "page.css", "form.css")
	pageSheet = sheetOf("base.css", "foods.css", "page.css")
)

// A Doing is a button of its own, or a link where it sends nothing.
type Doing struct {
	To, Label string
	Send      []Hidden // what it sends; nil: it is a link
}

// A Hidden is a field that is sent and not shown.
type Hidden struct{ Name, Value string }

// An Item is one of a list of things that were done.
type Item struct {
	Title, When string
	Said        []string
	Change      []Changed
	Doings      []Doing
}

// A LabelPreview is what a label will say.
type LabelPreview struct{ Name, Pack, Many, Makes, Water, Dates, Heed string }

// LabelPreviews are what the labels of a report will say, one of each pack.
func LabelPreviews(d report.Told[[]report.Label]) (list []LabelPreview) {
	for i := range d.Figures {
		l := newLabel(&d.Figures[i], d.Show)
		if len(list) > 0 && list[len(list)-1].Pack == l.Pack {
			continue
		}
		_, many, _ := strings.Cut(l.Number, " of ") // of "1 of 6"
		p := LabelPreview{Name: l.Name, Pack: l.Pack, Many: many, Makes: l.Makes, Water: "Cover with water", Dates: "packed " + l.Packed, Heed: strings.TrimSpace(l.Absorber + " " + l.Caution)}
		if l.Water != "" {
			p.Water = "Add " + l.Water + " water"
		}
		if l.BestBy != "" {
			p.Dates += ", best by " + l.BestBy
		}
		list = append(list, p)
	}
	return list
}

//go:embed form.js
var formScript string

// scriptHash is what the content policy of forms calls their script.
var scriptHash = sync.OnceValue(func() string { return policyHash(formScript) })

// formPolicy is the content policy of forms: that of pages, and their own script.
func formPolicy(s sheet) string { return s.policy("'self'") + "; script-src " + scriptHash() }

// ServerPolicy is the content policy that a server sends with every page: what
// the pages themselves allow, and that no other site may frame them.
func ServerPolicy() string {
	return formPolicy(formSheet(true)) + noFrame // all of them have styles of the server
}

// noFrame keeps other sites from framing a page; only a server can say that.
const noFrame = "; frame-ancestors 'none'"

// A formView is what the template reads.
type formView struct {
	Form
	Sheet  sheet
	Policy string
	Script template.JS
	Result *verdict
}

// WriteForm writes a form as a whole page.
func WriteForm(w io.Writer, f Form) error {
	v := formView{Form: f, Sheet: formSheet(true), Script: template.JS(formScript)}
	v.Policy = formPolicy(v.Sheet)
	if f.Answer != nil {
		var err error
		if v.Result, err = newVerdict(*f.Answer); err != nil {
			return err
		}
	}
	return write(w, "form.html", v)
}
