package serve

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"net/http"
	"strings"
	"syscall"

	"putby/cmd/putby/internal/entry"
	"putby/cmd/putby/internal/page"
	"putby/ledger"
	"putby/ledger/advice"
	"putby/ledger/question"
)

// show writes a form page.
func (s *server) show(w http.ResponseWriter, status int, f page.Form) {
	var b bytes.Buffer
	if err := page.WriteForm(&b, f); err != nil {
		s.fail(w, err)
		return
	}
	s.send(w, status, b.Bytes())
}

// An answer is kept until it is whole.
type answer struct {
	header http.Header
	status int // of HTTP; 0: none was said, which is 200
	body   bytes.Buffer
	packed []byte // the body, compressed; nil: it is not yet
}

func (a *answer) Header() http.Header         { return a.header }
func (a *answer) WriteHeader(status int)      { a.status = cmp.Or(a.status, status) }
func (a *answer) Write(p []byte) (int, error) { return a.body.Write(p) }

// send sends an answer.
func (s *server) send(w http.ResponseWriter, status int, html []byte) {
	if w.Header().Get("Content-Type") == "" {
		w.Header().Set("Content-Type", "text/html; charset=utf-8")
	}
	w.WriteHeader(cmp.Or(status, http.StatusOK))
	if _, err := w.Write(html); err != nil && !errors.Is(err, syscall.EPIPE) && !errors.Is(err, syscall.ECONNRESET) { // a browser that went elsewhere
		fmt.Fprintln(s.Log, "putby serve:", err)
	}
}

// fail says that something went wrong that the person in front of the browser
// cannot mend.
func (s *server) fail(w http.ResponseWriter, err error) {
	fmt.Fprintln(s.Log, "putby serve:", err)
	http.Error(w, "It could not be done; putby serve has printed why.", http.StatusInternalServerError)
}

// showPage shows the page as the ledger is now.
func (s *server) showPage(w http.ResponseWriter, r *http.Request) {
	text, err := s.page(r.Header.Get("Cookie"))
	if err != nil {
		s.show(w, http.StatusUnprocessableEntity, page.Form{Title: "The ledger cannot be reported on", Trouble: troubles(err), Links: s.links(nil)})
		return
	}
	if a, ok := w.(*answer); ok {
		a.packed = text.packed
	}
	s.send(w, http.StatusOK, text.plain)
}

// tryOf is what to try about a fault.
func tryOf(f *ledger.Fault) string {
	ways := strings.NewReplacer("\n"+advice.Then, ", then ", "\n", "; or ")
	return ways.Replace(advice.After(formWords{links: true}, f.Hint, f.Do))
}

// mostTroubles is how many faults a page lists.
const mostTroubles = 100

// troubles takes an error apart for people.
func troubles(err error) (list []page.Trouble) {
	var faults ledger.Faults
	var wrongs entry.Wrongs
	var missing *question.MissingError
	var fault *ledger.Fault
	// From what holds several to what is one, and by kind before the plain sentence.
	switch {
	case errors.As(err, &wrongs):
		for _, w := range wrongs {
			list = append(list, troubles(w.Err)...)
		}
	case errors.As(err, &faults):
		for i, f := range faults {
			if i == mostTroubles {
				return append(list, page.Trouble{What: fmt.Sprintf("and %d more", len(faults)-i)})
			}
			list = append(list, page.Trouble{What: f.Error(), Hint: tryOf(&f)})
		}
	case errors.As(err, &missing):
		for _, f := range missing.Facts {
			var ways []string
			if f.Give != nil {
				ways = append(ways, "fill in "+partsInWords(f.Give, " or ")+" below")
			}
			if f.Record != "" {
				ways = append(ways, "record "+f.Record)
			}
			list = append(list, page.Trouble{What: f.What + " is missing", Hint: strings.Join(ways, ", or ")})
		}
	case errors.Is(err, question.ErrOption):
		option := question.OptionOf(err)
		return []page.Trouble{{What: fieldName(option.Field) + ": " + option.What, Hint: option.Hint}}
	case errors.Is(err, entry.ErrAhead), errors.Is(err, entry.ErrAgain):
		return []page.Trouble{{What: err.Error(), Hint: "correct it, or tick the box that says it is meant"}}
	case errors.As(err, &fault):
		return []page.Trouble{{What: fault.Error(), Hint: tryOf(fault)}}
	default:
		return []page.Trouble{{What: err.Error()}}
	}
	return list
}
