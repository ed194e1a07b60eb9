package serve

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"

	"putby/cmd/putby/internal/entry"
	"putby/cmd/putby/internal/page"
	"putby/ledger"
	"putby/ledger/folder"
	"putby/ledger/report"
)

// A recording is a form that records something.
type recording struct {
	path, link, title, intro string // link is "" where another form leads to it
	seldom                   bool   // its link is folded
	makes                    string // the kind of record that it names anew; "": its act does
	groups                   func(*filling) []page.Group
	draft                    func(*filling) (*entry.Draft, error)
	about                    func(*filling) (folder.Scope, bool) // what it is about, of a filling before foods and supplies alone; nil: anything
	beside                   []page.Link                         // other forms for the same
	doings                   func(*filling) []page.Doing         // what else can be done to what it is about; nil: nothing
	save                     string                              // what its last button says; "": Save
	buttons                  []page.Button                       // that fill in or lengthen the form, and record nothing
	parts                    map[string]string                   // fields by the part of the act that they give, where it is called otherwise
}

// recorded are the forms, in the order of the links.
var recorded = []recording{
	startForm, finishForm, packForm, takeForm, receiptForm, priceForm, batchForm, freezeForm, stocktakeForm,
	foodForm, suppliesForm, moreForm, runForm, importForm, meterForm, hoursForm, settingsForm,
}

// named is the form of a path.
func named(path string) (recording, bool) {
	if i := slices.IndexFunc(recorded, func(f recording) bool { return f.path == path }); i >= 0 {
		return recorded[i], true
	}
	what, of, _ := strings.Cut(path, "/")
	switch k, ok := ledger.KindOf(of); {
	case what == "add" && ok:
		return addFormOf(k), true
	case titles[what] != "":
		return recording{title: titles[what]}, true
	}
	return recording{}, false
}

// showEmpty shows a form of which nothing is filled in, else as it is.
func (s *server) showEmpty(w http.ResponseWriter, r *http.Request, f recording) {
	if r.URL.RawQuery != "" {
		s.showForm(w, r, f)
		return
	}
	base, now := s.baseFor(w, page.Form{Title: f.title})
	if base == nil {
		return
	}
	form, err := now.newForm(r.URL.Path, base.At.Now, func(once, seen string) (page.Form, error) {
		form := s.form(f, newFilling(s.kept.files, base, nil), once)
		form.Seen = seen
		return form, nil
	})
	if err != nil {
		s.fail(w, err)
		return
	}
	s.send(w, http.StatusOK, form.marked(s.forms.issue(), strconv.Itoa(s.lastChange())))
}

// showForm shows a form: an empty one, or as it was sent and not recorded.
func (s *server) showForm(w http.ResponseWriter, r *http.Request, f recording) {
	once := r.URL.Query().Get("form")
	sent, kept := s.forms.kept(once)
	base, _ := s.baseFor(w, page.Form{Title: f.title})
	if base == nil {
		return
	}
	if kept {
		s.showAgain(w, f, newFilling(s.kept.files, base, sent.values), sent, once)
		return
	}
	form := s.form(f, newFilling(s.kept.files, base, r.URL.Query()), s.forms.issue())
	if done, _ := s.forms.find(once); done != nil {
		form.Said = []string{fmt.Sprintf("That form was saved as change %d; this is a new one.", done.number)}
	} else if once != "" {
		form.Said = []string{"What was typed before is no longer kept here: fill it in again."}
	}
	s.show(w, http.StatusOK, form)
}

// baseFor is the ledger that a page is about, and the state that it is of; where it has
// faults the page says so, and they are nil.
func (s *server) baseFor(w http.ResponseWriter, f page.Form) (*entry.Base, *state) {
	base, now, err := s.base()
	if err != nil {
		f.Trouble, f.Links = troubles(err), s.links(nil)
		s.show(w, http.StatusUnprocessableEntity, f)
		return nil, nil
	}
	return base, now
}

// showAgain shows a form as it was sent, with what is wrong with it or what it
// would record.
func (s *server) showAgain(w http.ResponseWriter, f recording, in *filling, sent *sending, once string) {
	do := in.in.Get("do")
	form := s.form(f, in, once)
	form.Meanwhile = s.meanwhile(in.in, math.MaxInt)
	if sent.err == nil && do != "look" && do != "save" {
		s.show(w, http.StatusOK, form)
		return
	}
	would, tried, err := s.would(f, sent.values)
	if sent.err != nil {
		err = sent.err
	}
	if err != nil {
		if tried != nil {
			in = tried // which knows what the draft made of each field
		}
		in.mark(f, &form, err)
		form.Refused = refusal(form.Trouble, do == "save")
		s.show(w, http.StatusUnprocessableEntity, form)
		return
	}
	form.Said, form.Know, form.Cautions, form.Change = would.said, would.know, would.cautions, would.change
	s.show(w, http.StatusOK, form)
}

// refusal is the title of what is to be put right.
func refusal(list []page.Trouble, save bool) string {
	title := "This could not be saved"
	if save {
		title = "Nothing was saved"
	}
	if len(list) == 1 {
		return title + ": one thing to put right"
	}
	return fmt.Sprintf("%s: %d things to put right", title, len(list))
}

// form makes the page of a form.
func (s *server) form(f recording, in *filling, once string) page.Form {
	buttons := append(slices.Clone(f.buttons), page.Button{Do: "look", Label: "Look first"}, page.Button{Do: "save", Label: cmp.Or(f.save, "Save")})
	form := page.Form{
		Title: f.title, Intro: f.intro, Path: "/" + f.path, Once: once, Seen: strconv.Itoa(s.lastChange()),
		Groups: in.withTicks(f.groups(in)), Links: s.links(in.Records), Beside: f.beside, Buttons: buttons,
	}
	if f.doings != nil {
		form.Doings = f.doings(in)
	}
	return form
}

var (
	errOld   = errors.New("this form was opened too long ago, or before putby serve was started: look it over and save it again")
	errSaved = errors.New("this form was saved already as it was then; what it holds now would be another record: look it over and save it again")
)

// takeForm records a form, or notes what it holds to show it again. What is shown
// is always asked for anew, so that a browser that goes back or loads a page again
// sends nothing.
func (s *server) takeForm(w http.ResponseWriter, r *http.Request, f recording) {
	if err := r.ParseForm(); err != nil {
		s.refuse(w, http.StatusBadRequest, "That form cannot be read", "It was not sent as browsers send forms. Nothing was saved: open the form and send it again.")
		return
	}
	values := r.PostForm
	once := values.Get("once")
	done, known := s.forms.find(once)
	again := func(once string, err error) {
		s.forms.keep(once, &sending{values, err})
		http.Redirect(w, r, "/"+f.path+"?form="+url.QueryEscape(once), http.StatusSeeOther)
	}
	switch save := values.Get("do") == "save"; {
	case done != nil && done.of(values): // a second tap, or a page loaded again
		http.Redirect(w, r, "/saved/"+once, http.StatusSeeOther)
	case done != nil && save: // other words under a mark that is used: told, under a new one
		again(s.forms.issue(), errSaved)
	case done != nil, !save && !known: // looked at again after it was saved, or after a new start of the server
		again(s.forms.issue(), nil)
	case !save:
		again(once, nil)
	default:
		var answer func()
		if s.changing(r, func() { answer = s.saved(w, r, f, once, known, again) }) {
			answer()
		}
	}
}

// saved records a form under the ledger's lock, and returns what answers it.
func (s *server) saved(w http.ResponseWriter, r *http.Request, f recording, once string, known bool, again func(string, error)) func() {
	check := &entry.Check{Wording: formWords{links: true}}
	book, err := folder.Opening{Check: check.Faults, Judge: entry.Judge(), Cache: s.judged, Wait: lockTime, For: "serve: " + f.path}.Open(r.Context(), s.Dir)
	if err != nil {
		if !known {
			once = s.forms.issue()
		}
		return func() { again(once, err) }
	}
	defer s.close(book)
	toSaved := func() { http.Redirect(w, r, "/saved/"+url.PathEscape(once), http.StatusSeeOther) }
	// Another post of this form may have had the lock meanwhile, or a server before
	// this one.
	before, err := book.Marked(once)
	switch {
	case err != nil:
		return func() { s.fail(w, err) }
	case before != nil:
		return toSaved
	case !known:
		return func() { again(s.forms.issue(), errOld) }
	}
	saved, _, err := s.tried(book, check, f, r.PostForm, true)
	switch {
	case err != nil:
		return func() { again(once, nil) } // it is tried once more when it is shown, and says why
	case saved.number == 0:
		return func() { again(once, errNothing) }
	}
	saved.sent, s.kept.judged = r.PostForm, check.Joined // from which the next state goes on
	return func() {
		s.forms.record(once, saved)
		toSaved()
	}
}

// errNothing says that a form would change nothing.
var errNothing = errors.New("nothing of it differs from what is recorded, so nothing was saved")

// would is what a form would come to, and the form as it was tried.
func (s *server) would(f recording, values url.Values) (*outcome, *filling, error) {
	check := &entry.Check{Wording: formWords{links: true}}
	book, err := folder.Opening{Check: check.Faults, Judge: entry.Judge(), Cache: s.judged}.Look(s.Dir)
	if err != nil {
		return nil, nil, err
	}
	defer s.close(book)
	return s.tried(book, check, f, values, false)
}

// close gives the ledger back. What goes wrong with that concerns no form.
func (s *server) close(book *folder.Book) {
	if err := book.Close(); err != nil {
		fmt.Fprintln(s.Log, "putby serve:", err)
	}
}

// tried saves what a form holds, or finds out what that would be: by what the ledger
// comes to that is joined already, else by the records that it is about alone, or by all
// where these do not tell that nothing is wrong.
func (s *server) tried(book *folder.Book, check *entry.Check, f recording, values url.Values, save bool) (*outcome, *filling, error) {
	fill := func(rec *ledger.Records) *filling {
		rec.Settings.Wording = formWords{links: true}
		return newFilling(s.kept.files, entry.NewBase(rec, entry.At(rec, s.Now())), values)
	}
	if g := s.gone(book); g != nil {
		check.Known = g
		in := newFilling(s.kept.files, entry.NewJoined(g, entry.At(g.Records, s.Now())), values)
		o, err := s.try(book, check, f, in, save)
		return o, in, err
	}
	if f.about != nil {
		if rec := book.Excerpt(func(few *ledger.Records) (folder.Scope, bool) { return f.about(fill(few)) }); rec != nil {
			in := fill(rec)
			if o, err := s.try(book, check, f, in, save); err == nil {
				return o, in, nil
			}
		}
	}
	rec, _ := book.Records()
	in := fill(rec)
	o, err := s.try(book, check, f, in, save)
	return o, in, err
}

// gone is the last ledger that was joined, gone on with to the records that a book has;
// nil where it cannot be, or would have to be read.
func (s *server) gone(book *folder.Book) *ledger.Ledger {
	g := s.kept.known()
	if g == nil {
		return nil
	}
	rec := book.Cached()
	if rec == nil {
		return nil
	}
	rec.Settings.Wording = formWords{links: true}
	g, _ = g.Continued(rec)
	return g
}

// errOlder says that a form is of days that an excerpt of the records does not reach
// back to.
var errOlder = errors.New("all records are needed")

// try saves what a form holds, or finds out what that would be. An outcome with a
// number is saved.
func (s *server) try(book *folder.Book, check *entry.Check, f recording, in *filling, save bool) (*outcome, error) {
	d, err := in.drafted(f)
	if err != nil {
		return nil, err
	}
	if in.Records.Excerpt != nil && !in.Fits(d) {
		return nil, errOlder // then all records are tried
	}
	odd, err := in.vet(d)
	if err != nil {
		return nil, err
	}
	edit := func(tx *folder.Tx) error {
		tx.Mark(in.in.Get("once")) // in the change itself, for a server that is started anew
		in.note(tx, d)
		return d.Change(tx)
	}
	do := book.Try
	if save {
		do = book.Edit
	}
	change, err := do("serve: "+f.path, edit)
	err = d.Refused(book, err)
	if err != nil && !errors.Is(err, folder.ErrSaved) { // such an error comes after the save, which counts
		return nil, err
	}
	o := outcomeOf(change)
	o.title = f.title
	if check.Joined != nil {
		said, know := d.Said(check.Joined)
		o.said = flat(said)
		o.advise(know)
	}
	o.advise(report.Remarks(in.said...))
	o.cautions = append(o.cautions, flat(odd.Odd)...)
	o.advise(odd.Notes)
	o.advise(d.After)
	if err != nil {
		o.said = append(o.said, "It is saved, but "+err.Error()+".")
	}
	o.packs = newPacks(d)
	o.next = nextLinks(d.Next)
	return o, nil
}
