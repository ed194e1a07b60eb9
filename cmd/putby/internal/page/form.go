package page

import (
	"bufio"
	"html/template"
	"io"
	"strings"

	"putby/cmd/putby/internal/render"
	"putby/ledger/report"
)

// A Form is a page that asks for something, or says what became of it.
type Form struct {
	Title   string
	Intro   string
	Path    string // where it is sent; empty: there is nothing to send
	Ask     bool   // it is a question, which changes nothing
	Once    string // marks the form, so that it is recorded once
	Groups  []Group
	Buttons []Button
	Links   []Link
	Beside  []Link // other forms for the same, folded

	Trouble  []Trouble // why it was not done
	Said     []string  // what to know of it
	Cautions []string  // what to heed
	Change   []Changed // what is written, or would be
	Answer   *report.Doc
}

// A Group is some fields that belong together.
type Group struct {
	Title   string
	Folded  bool // shown when it is opened
	Compact bool // set close, without help
	Fields  []Field
}

// A Field is asked for. Its kind is "text", "number", "date", "datetime",
// "select", "lines" or "switch".
type Field struct {
	Kind, Name, Label, Help, Value string
	Need                           bool
	Options                        []Option // of a select; of others they are only offered
}

// An Option is a value that can be chosen.
type Option struct{ Value, Label string }

// A Button sends the form to do something.
type Button struct{ Do, Label string }

// A Trouble is what is wrong, and what to try.
type Trouble struct{ What, Hint string }

// A Changed file has lines that go and lines that come.
type Changed struct {
	File           string
	Removed, Added []string
}

// The looks of forms, and of the page.
var (
	formSheet = sheetOf("base.css", "page.css", "form.css")
	pageSheet = sheetOf("base.css", "page.css")
)

// ServerPolicy is the content policy that a server sends with every page: what
// the pages themselves allow, and that no other site may frame them.
func ServerPolicy() string {
	both := pageSheet(true)
	both.Hash += " " + formSheet(true).Hash
	return both.policy("'self'") + noFrame
}

// noFrame keeps other sites from framing a page; only a server can say that.
const noFrame = "; frame-ancestors 'none'"

// A formView is what the template reads.
type formView struct {
	Form
	Sheet  sheet
	Policy string
	Result template.HTML
}

// WriteForm writes a form as a whole page.
func WriteForm(w io.Writer, f Form) error {
	v := formView{Form: f, Sheet: formSheet(true)}
	v.Policy = v.Sheet.policy("'self'")
	if f.Answer != nil {
		var b strings.Builder
		if err := render.Render(&b, *f.Answer, render.HTML, render.Options{}); err != nil {
			return err
		}
		v.Result = template.HTML(b.String())
	}
	b := bufio.NewWriter(w)
	if err := templates().ExecuteTemplate(b, "form.html", v); err != nil {
		return err
	}
	return b.Flush()
}
