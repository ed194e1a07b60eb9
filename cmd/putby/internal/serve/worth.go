package serve

import (
	"cmp"
	"errors"
	"net/http"
	"slices"
	"strings"

	"putby/cmd/putby/internal/entry"
	"putby/cmd/putby/internal/page"
	"putby/ledger"
	"putby/ledger/figures"
	"putby/ledger/question"
	"putby/ledger/report"
)

// asked are the options of worth that the form shows at once.
var asked = []string{"price", "size", "limit", "offer", "as"}

const worthPath = "/worth"

// worthForm asks about a sale.
func (s *server) worthForm(in *filling) page.Form {
	form := page.Form{Title: "Is it worth buying in bulk?", Path: worthPath, Ask: true, Links: s.links(nil),
		Intro:   "Say what the shop asks. Everything else comes from your own runs, packs and prices; open the rest to give it yourself.",
		Buttons: []page.Button{{Do: "ask", Label: "Work it out"}}}
	if in != nil {
		form.Groups, form.Links = worthGroups(in), s.links(in.Records)
	}
	return form
}

// showWorth asks whether a sale is worth it, and answers once it is told of
// one. It changes nothing.
func (s *server) showWorth(w http.ResponseWriter, r *http.Request) {
	// With nothing asked the form is the same for everybody, and has no mark: it records nothing.
	if base, now, err := s.base(); err == nil && r.URL.RawQuery == "" {
		form, err := now.newForm(r.URL.Path, base.At.Now, func(string, string) (page.Form, error) {
			return s.worthForm(newFilling(s.kept.files, base, nil)), nil
		})
		if err == nil {
			s.send(w, http.StatusOK, form.text)
			return
		}
	}
	form := s.worthForm(nil)
	g, err := s.ledger(r.URL.Query().Get("as-of"))
	wrong := err
	if errors.Is(err, question.ErrOption) {
		g, err = s.ledger("") // for the form, as it was filled in
	}
	if err != nil {
		form.Trouble = troubles(err)
		s.show(w, http.StatusUnprocessableEntity, form)
		return
	}
	in := newFilling(s.kept.files, entry.NewJoined(g, entry.At(g.Records, s.Now())), r.URL.Query())
	form = s.worthForm(in)
	status := http.StatusOK
	switch {
	case wrong != nil:
		tellQuestion(&form, wrong)
	case in.text("item", "") != "":
		if answer, err := s.worth(g, in); err != nil {
			tellQuestion(&form, err)
		} else {
			form.Answer = &answer
		}
	}
	if form.Trouble != nil {
		status = http.StatusUnprocessableEntity
	}
	s.show(w, status, form)
}

// tellQuestion says what is wrong with a question, at the field that it is of.
func tellQuestion(form *page.Form, err error) {
	wrong := question.OptionOf(err)
	var missing *question.MissingError
	var unknown *figures.UnknownError
	switch {
	case errors.As(err, &missing):
		for i, t := range troubles(err) {
			if ways := missing.Facts[i].Give; ways != nil {
				t.Field = ways[0].Name
			}
			tellAt(form, t)
		}
	case find(form.Groups, wrong.Field) != nil:
		tellAt(form, page.Trouble{Field: wrong.Field, What: wrong.What, Hint: wrong.Hint})
	case errors.As(err, &unknown):
		tellAt(form, page.Trouble{Field: "item", What: unknown.Error()})
	default:
		form.Trouble = troubles(err)
	}
}

// worthOptions are those of one offer: a budget is shared out among several.
func worthOptions() []question.Option {
	return slices.DeleteFunc(question.Options(), func(o question.Option) bool { return o.Name == "budget" })
}

func worthGroups(f *filling) []page.Group {
	first := page.Group{Title: "The sale", Fields: []page.Field{
		{Kind: "text", Name: "item", Label: "food", Need: true, Value: f.text("item", ""), Options: f.things(ledger.Foods)},
	}}
	rest := page.Group{Title: "Everything else", Folded: true}
	for _, o := range worthOptions() {
		field := page.Field{Kind: "text", Name: o.Name, Label: worthName(o.Name),
			Help: strings.ReplaceAll(o.Help, "`", ""), Value: f.text(o.Name, "")}
		if o.Switch {
			field.Kind, field.Label, field.Help = "switch", field.Help, ""
		}
		if slices.Contains(asked, o.Name) {
			field.Need = o.Name == "price" || o.Name == "size"
			first.Fields = append(first.Fields, field)
		} else {
			rest.Fields = append(rest.Fields, field)
		}
	}
	return []page.Group{first, rest}
}

// worthName is what the form calls an option.
func worthName(option string) string { return cmp.Or(worthNames[option], fieldName(option)) }

// worthNames are those of options whose names say too little by themselves.
var worthNames = map[string]string{"as": "dried as", "each": "what one container gives", "with": "what goes with each container", "use-by": "turns by"}

// fieldName is an option, or another part of an act, in words.
func fieldName(option string) string { return strings.ReplaceAll(option, "-", " ") }

// worth answers by the report of the same name.
func (s *server) worth(g *ledger.Ledger, f *filling) (report.Told[report.Verdict], error) {
	q := question.NewWorthQuery(f.text("item", ""))
	q.AsOf, q.Now, q.Names = g.AsOf, f.At.Begins(f.text("as-of", ""), &g.Settings), worthName
	for _, o := range worthOptions() {
		if text := f.text(o.Name, ""); text != "" && o.Name != "as-of" {
			l := g.Settings.Locale
			if err := entry.TwoWays(l, text); err != nil {
				return report.Told[report.Verdict]{}, question.OptionFault(o.Name, "", "%v", err)
			}
			if err := q.Set(o.Name, entry.Native(l, text)); err != nil {
				return report.Told[report.Verdict]{}, err
			}
		}
	}
	d, err := question.Worth(g, q)
	d.Notes = append(report.LeftOut(g), d.Notes...)
	return d, err
}
