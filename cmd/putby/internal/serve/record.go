package serve

import (
	"context"
	"errors"
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"strings"

	"putby/cmd/putby/internal/entry"
	"putby/cmd/putby/internal/page"
	"putby/ledger"
	"putby/ledger/folder"
)

// A recording is a form that adds records.
type recording struct {
	path, link, title, intro string // link is "" where another form leads to it
	groups                   func(*filling) []page.Group
	draft                    func(*filling) (*entry.Draft, error)
	beside                   []page.Link // other forms for the same
	grows                    string      // what the button says that makes it longer; empty: none
}

// recorded are the forms, in the order of the links.
var recorded = []recording{startForm, finishForm, packForm, takeForm, freezeForm, receiptForm, runForm}

// A filling is a form as it is filled in, before the ledger as it is.
type filling struct {
	*entry.Base
	in  url.Values // empty when it is new
	dir string     // of the ledger
}

// text returns what a field holds, and what is suggested for a form that was
// not sent yet.
func (f *filling) text(name, suggested string) string {
	if f.in.Has(name) {
		return strings.TrimSpace(f.in.Get(name))
	}
	return suggested
}

// cells gathers the fields of a kind's columns, without the blank ones.
func (f *filling) cells(k ledger.Kind, prefix string) map[string]string {
	cells := map[string]string{}
	for i := range k.Columns {
		c := &k.Columns[i]
		if text := f.cell(c, prefix+c.Name); text != "" {
			cells[c.Name] = text
		}
	}
	return cells
}

// cell is what the field of a column holds, as records have it. A browser writes
// a T between a date and a time.
func (f *filling) cell(c *ledger.Column, name string) string {
	text := f.text(name, "")
	if c.Cell == ledger.MomentCell {
		text = strings.Replace(text, "T", " ", 1)
	}
	return f.At.Typed(f.Records, c, text)
}

// join joins the records; nil when they have faults.
func (f *filling) join() *ledger.Ledger {
	g, _ := f.Ledger()
	return g
}

func (s *server) fill(rec *ledger.Records, in url.Values) *filling {
	f := &filling{entry.NewBase(rec, entry.At(rec, s.Now())), in, s.Dir}
	f.At.AnyDay = f.text("ahead", "") != ""
	return f
}

// showForm shows an empty form.
func (s *server) showForm(w http.ResponseWriter, r *http.Request, f recording) {
	base, err := s.base()
	if err != nil {
		s.show(w, http.StatusUnprocessableEntity, page.Form{Title: f.title, Trouble: troubles(err), Links: s.links(nil)})
		return
	}
	s.show(w, http.StatusOK, s.form(f, &filling{base, nil, s.Dir}, nil))
}

// form makes the page of a form; refused is why it was not recorded, if it was
// sent before.
func (s *server) form(f recording, in *filling, refused error) page.Form {
	form := page.Form{
		Title: f.title, Intro: f.intro, Path: "/" + f.path, Once: s.forms.issue(), Groups: append(f.groups(in), in.meant(refused)...), Links: s.links(in.Records),
		Beside:  f.beside,
		Buttons: []page.Button{{Do: "look", Label: "Look first"}, {Do: "save", Label: "Save"}},
	}
	if f.grows != "" {
		form.Buttons = append([]page.Button{{Do: "more", Label: f.grows}}, form.Buttons...)
	}
	return form
}

// errOnce says that a form cannot be known to be recorded once.
var errOnce = errors.New("this form is from before putby serve was started: look it over and send it again")

// takeForm records a form, or shows what it would record.
func (s *server) takeForm(w http.ResponseWriter, r *http.Request, f recording) {
	if err := r.ParseForm(); err != nil {
		s.refuse(w, http.StatusBadRequest, "That form cannot be read", err.Error())
		return
	}
	once := r.PostForm.Get("once")
	done, known := s.forms.find(once)
	if done != nil {
		http.Redirect(w, r, "/saved/"+once, http.StatusSeeOther)
		return
	}
	check := new(entry.Check)
	book, err := s.open(r.Context(), f, check, r.PostForm.Get("do") == "save")
	if err != nil {
		s.show(w, http.StatusServiceUnavailable, page.Form{Title: f.title, Trouble: troubles(err), Links: s.links(nil)})
		return
	}
	defer s.close(book)
	// Another post of this form may have had the lock meanwhile.
	if before, err := book.Marked(once); err != nil || before != nil {
		if err != nil {
			s.fail(w, err)
			return
		}
		http.Redirect(w, r, "/saved/"+once, http.StatusSeeOther)
		return
	}
	rec, _ := book.Records()
	in := s.fill(rec, r.PostForm)
	saved, err := s.try(book, check, f, in, known)
	if err == nil && saved.number > 0 {
		s.forms.record(once, saved)
		http.Redirect(w, r, "/saved/"+once, http.StatusSeeOther)
		return
	}
	again := s.form(f, in, err)
	if err != nil {
		again.Trouble = troubles(err)
		s.show(w, http.StatusUnprocessableEntity, again)
		return
	}
	again.Said, again.Cautions, again.Change = saved.said, saved.cautions, saved.change
	s.show(w, http.StatusOK, again)
}

// open opens the ledger: with its lock to save, else only to look.
func (s *server) open(ctx context.Context, f recording, check *entry.Check, save bool) (*folder.Book, error) {
	if !save {
		return folder.Look(s.Dir, check.Faults)
	}
	return folder.Opening{Check: check.Faults, Wait: lockTime, For: "serve: " + f.path}.Open(ctx, s.Dir)
}

// close gives the ledger back. What goes wrong with that concerns no form.
func (s *server) close(book *folder.Book) {
	if err := book.Close(); err != nil {
		fmt.Fprintln(s.Log, "putby serve:", err)
	}
}

// try does what a form's button says: save it, or show what that would be. An
// outcome with a number is saved.
func (s *server) try(book *folder.Book, check *entry.Check, f recording, in *filling, known bool) (*outcome, error) {
	if in.in.Get("do") == "more" {
		return &outcome{}, nil
	}
	d, err := f.draft(in)
	switch {
	case err != nil:
		return nil, err
	case !known:
		return nil, errOnce
	}
	notes, err := in.vet(d)
	if err != nil {
		return nil, err
	}
	edit := func(tx *folder.Tx) error {
		tx.Mark(in.in.Get("once"))
		return d.Change(tx)
	}
	do := book.Try
	if in.in.Get("do") == "save" {
		do = book.Edit
	}
	change, err := do("serve: "+f.path, edit)
	if err != nil && !errors.Is(err, folder.ErrSaved) {
		return nil, err
	}
	o := outcomeOf(change)
	if check.Joined != nil {
		o.advise(d.Said(check.Joined))
	}
	o.advise(notes)
	o.advise(d.After)
	if err != nil {
		o.said = append(o.said, "It is saved, but "+err.Error()+".")
	}
	o.links = nextLinks(d.Next)
	return o, nil
}

// outcomeOf is what became of a form, as far as its change tells.
func outcomeOf(c folder.Change) *outcome {
	o := &outcome{number: c.Number}
	for _, file := range c.Files {
		removed, added := file.Lines()
		o.change = append(o.change, page.Changed{File: file.Name, Removed: removed, Added: added})
	}
	return o
}

// advise sorts advice from cautions.
func (o *outcome) advise(lines []string) {
	for _, line := range lines {
		if strings.HasPrefix(line, "Caution") {
			o.cautions = append(o.cautions, line)
		} else {
			o.said = append(o.said, line)
		}
	}
}

// showSaved shows what was saved: by this server, or by one before it.
func (s *server) showSaved(w http.ResponseWriter, r *http.Request) {
	once := r.PathValue("once")
	o, _ := s.forms.find(once)
	if o == nil {
		c, err := folder.Marked(s.Dir, once)
		switch {
		case err != nil:
			s.show(w, http.StatusUnprocessableEntity, page.Form{Title: "The changes of the ledger cannot be read", Trouble: troubles(err), Links: s.links(nil)})
			return
		case c == nil:
			s.show(w, http.StatusNotFound, page.Form{Title: "Nothing was saved under that name", Links: s.links(nil)})
			return
		}
		o = outcomeOf(*c)
		o.said = []string{"putby serve was started again since: what else it said then is gone. The cautions for your foods are with the larder."}
	}
	var rec *ledger.Records // what was saved is told all the same
	if now, err := s.kept.state(); err == nil {
		rec = now.rec
	}
	s.show(w, http.StatusOK, page.Form{
		Title: "Saved", Intro: fmt.Sprintf("It is change %d of the ledger. As long as it is the last one, putby undo takes it back.", o.number),
		Said: o.said, Cautions: o.cautions, Change: o.change,
		Links: slices.Concat(o.links, []page.Link{{To: "/", Name: "Back to the larder"}}, s.links(rec)),
	})
}
