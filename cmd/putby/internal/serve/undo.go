package serve

import (
	"errors"
	"net/http"
	"net/url"
	"strconv"

	"putby/cmd/putby/internal/entry"
	"putby/ledger/folder"
)

// takeUndo takes a change back, and takeRedo does it again.
func (s *server) takeUndo(w http.ResponseWriter, r *http.Request) {
	s.turn(w, r, func(b *folder.Book, number int) (folder.Change, error) { return b.UndoOf(number) })
}

var errNotLast = errors.New("something else was saved since, so that undo cannot be taken back any more: record it anew")

func (s *server) takeRedo(w http.ResponseWriter, r *http.Request) {
	s.turn(w, r, func(b *folder.Book, number int) (folder.Change, error) {
		if s.lastChange() != number {
			return folder.Change{}, errNotLast
		}
		return b.Redo()
	})
}

// turn does what a button of the list says, once however often it is sent, and
// leads back to the list.
func (s *server) turn(w http.ResponseWriter, r *http.Request, do func(*folder.Book, int) (folder.Change, error)) {
	if err := r.ParseForm(); err != nil {
		s.refuse(w, http.StatusBadRequest, "That form cannot be read", "Nothing was changed: open the list of changes and try again.")
		return
	}
	once := r.PostForm.Get("once")
	if done, _ := s.forms.find(once); done != nil {
		http.Redirect(w, r, done.to, http.StatusSeeOther)
		return
	}
	number, err := strconv.Atoi(r.PostForm.Get("number"))
	var c folder.Change
	if err != nil || number < 1 {
		err = errors.New("that is not the number of a change")
	} else if !s.changing(r, func() { c, err = s.turned(r, number, do) }) {
		return
	}
	if err != nil && !errors.Is(err, folder.ErrSaved) {
		s.forms.keep(once, &sending{err: err})
		http.Redirect(w, r, "/changes?form="+url.QueryEscape(once), http.StatusSeeOther)
		return
	}
	to := "/changes?done=" + strconv.Itoa(c.Number)
	s.forms.record(once, &outcome{number: c.Number, to: to})
	http.Redirect(w, r, to, http.StatusSeeOther)
}

// turned does it under the ledger's lock.
func (s *server) turned(r *http.Request, number int, do func(*folder.Book, int) (folder.Change, error)) (folder.Change, error) {
	check := &entry.Check{Wording: formWords{links: true}}
	book, err := folder.Opening{Check: check.Faults, Judge: entry.Judge(), Cache: s.judged, Wait: lockTime, For: "serve: undo"}.Open(r.Context(), s.Dir)
	if err != nil {
		return folder.Change{}, err
	}
	defer s.close(book)
	return do(book, number)
}
