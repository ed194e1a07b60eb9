package serve

import (
	"bytes"
	"compress/gzip"
	"errors"
	"fmt"
	"io"
	"net/http"
	"strings"
	"sync"
	"time"

	"putby/cmd/putby/internal/page"
)

// ServeHTTP lets through what comes from where it should. A request is read whole
// before it is worked on, and its answer is made whole before it is sent, so that
// nobody waits for a slow line but whoever has it.
func (s *server) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	setHeaders(w.Header())
	switch {
	case !s.opens(r.Host):
		s.refuse(w, http.StatusMisdirectedRequest, "This server is not called that", "Open the address that putby serve printed.")
		return
	case !s.fromHere(r):
		s.refuse(w, http.StatusForbidden, "That came from somewhere else", "Send the form from a page of this server.")
		return
	case s.sendFile(w, r), !s.letIn(w, r), !s.takeBody(w, r):
		return
	}
	made := &answer{header: w.Header()}
	if s.work(made, r) {
		s.send(w, made.status, squeezed(w.Header(), r, made.body.Bytes(), made.packed))
	}
}

// sendFile sends the typeface or styles, which are no secret.
func (s *server) sendFile(w http.ResponseWriter, r *http.Request) bool {
	file, ok := page.Files()[r.URL.Path]
	if !ok || r.Method != http.MethodGet {
		return false
	}
	w.Header().Set("Content-Type", file.Type)
	w.Header().Set("Cache-Control", "public, max-age=31536000, immutable")
	s.send(w, http.StatusOK, squeezed(w.Header(), r, file.Data, nil))
	return true
}

// leastSqueezed is how long an answer is before it is worth compressing.
const leastSqueezed = 1400

// squeezed compresses an answer for a browser that can read that, if it is not packed already.
func squeezed(h http.Header, r *http.Request, body, packed []byte) []byte {
	if len(body) < leastSqueezed || h.Get("Content-Encoding") != "" {
		return body
	}
	h.Add("Vary", "Accept-Encoding")
	if !takesGzip(r.Header.Values("Accept-Encoding")) {
		return body
	}
	h.Set("Content-Encoding", "gzip")
	if packed == nil {
		packed = squeeze(body)
	}
	return packed
}

func squeeze(body []byte) []byte {
	var b bytes.Buffer
	z, _ := gzip.NewWriterLevel(&b, gzip.BestSpeed) // the level is one that there is
	_, _ = z.Write(body)                            // no write to memory fails
	_ = z.Close()
	return b.Bytes()
}

// takesGzip reads RFC 9110, 12.5.3, as far as one coding goes.
func takesGzip(accepted []string) bool {
	for _, list := range accepted {
		for _, coding := range strings.Split(list, ",") {
			name, weight, _ := strings.Cut(coding, ";")
			if name = strings.ToLower(strings.TrimSpace(name)); name != "gzip" && name != "x-gzip" {
				continue
			}
			_, q, given := strings.Cut(weight, "=")
			return !given || strings.Trim(q, " 0.") != ""
		}
	}
	return false
}

// work makes an answer, when it is this request's turn; false when nobody waits
// for it any more. Forms take no place of those who only read, and while one is saved
// these are worked on one after the other: each is short, and the save, which takes
// longer, would hardly come to a processor beside all of them.
func (s *server) work(w *answer, r *http.Request) bool {
	if r.Method != http.MethodPost {
		room := s.roomFor(r)
		if !room.enter(r) {
			return false
		}
		defer room.leave()
	}
	err := s.Guard(func() error {
		s.handler.ServeHTTP(w, r)
		return nil
	})
	if err != nil {
		w.status = 0 // half an answer is none
		w.body.Reset()
		s.fail(w, err)
	}
	return true
}

// roomFor is where somebody waits who only reads. A question about a sale may take
// seconds: it takes no place of those who look.
func (s *server) roomFor(r *http.Request) room {
	switch {
	case r.URL.Path == worthPath && r.URL.RawQuery != "":
		return s.asking
	case s.changes.Load() > 0:
		return s.meantime
	}
	return s.working
}

// changing does what changes the ledger, one request after the other, and ends when
// what was changed is seen; false where nobody waits for the answer any more.
func (s *server) changing(r *http.Request, change func()) bool {
	s.changes.Add(1)
	defer s.changes.Add(-1)
	if !s.forming.enter(r) {
		return false
	}
	// Forming is left before the ledger is joined: the next form may be saved meanwhile.
	seen := func() *sync.Once {
		defer s.forming.leave()
		return s.kept.save(change)
	}()
	seen.Do(s.kept.show)
	s.kept.sees(r.Header.Get("Cookie"))
	return true
}

// A room holds so many requests at once.
type room chan struct{}

// enter waits for a place; false when nobody waits for the answer any more.
func (room room) enter(r *http.Request) bool {
	select {
	case room <- struct{}{}:
		return true
	case <-r.Context().Done():
		return false
	}
}

func (room room) leave() { <-room }

// takeBody reads what a request brings, as far as that may go.
func (s *server) takeBody(w http.ResponseWriter, r *http.Request) bool {
	if r.Body == http.NoBody {
		return true
	}
	if !s.reading.enter(r) {
		return false
	}
	defer s.reading.leave()
	body, err := io.ReadAll(http.MaxBytesReader(w, r.Body, mostBody))
	switch {
	case errors.As(err, new(*http.MaxBytesError)):
		s.refuse(w, http.StatusRequestEntityTooLarge, "That is more than a form holds",
			fmt.Sprintf("A form may hold %d KiB. Nothing was saved: send less at once.", mostBody>>10))
	case err != nil:
		s.refuse(w, http.StatusBadRequest, "The form did not arrive whole", "Nothing was saved: go back and send it again.")
	default:
		r.Body = io.NopCloser(bytes.NewReader(body))
	}
	return err == nil
}

// setHeaders tells the browser what pages may do.
func setHeaders(h http.Header) {
	h.Set("Content-Security-Policy", page.ServerPolicy())
	h.Set("X-Content-Type-Options", "nosniff")
	h.Set("X-Frame-Options", "DENY")
	h.Set("Referrer-Policy", "same-origin")
	h.Set("Cross-Origin-Opener-Policy", "same-origin")
	h.Set("Cross-Origin-Resource-Policy", "same-origin")
	h.Set("Cache-Control", "no-store") // a page holds a household's figures, and is old with the next save
}

// fromHere reports whether a request that may change something says that a page
// of this server sent it. Besides what the standard library holds it to, one
// that says nothing is not taken at its word, since every browser says it, and
// the scheme counts too.
func (s *server) fromHere(r *http.Request) bool {
	if r.Method == http.MethodGet || r.Method == http.MethodHead {
		return true
	}
	if s.origins.Check(r) != nil {
		return false
	}
	origin := r.Header.Get("Origin")
	return origin == s.scheme()+"://"+r.Host || origin == "" && r.Header.Get("Sec-Fetch-Site") == "same-origin"
}

// letIn lets a browser in that has a cookie, or that brings the token and so
// gets one. It asks the ledger each time, so that a device that was taken off
// the list is out at once.
func (s *server) letIn(w http.ResponseWriter, r *http.Request) bool {
	known, err := guestsOf(s.Dir)
	if err != nil {
		s.show(w, http.StatusServiceUnavailable, page.Form{Title: "Nobody can be let in now", Trouble: troubles(err)})
		return false
	}
	if known.Cookie != "" {
		for _, c := range r.CookiesNamed(known.Cookie) { // an old one may stand before the one that counts
			if known.knows(c.Value) {
				return true
			}
		}
	}
	token := r.URL.Query().Get(tokenName)
	switch {
	case r.Method != http.MethodGet || token == "":
		s.refuse(w, http.StatusForbidden, "This device is not let in", "Open the link that putby serve printed.")
	case !s.key.take(token):
		s.refuse(w, http.StatusForbidden, "That link was used already", "putby serve has printed a new one.")
	default:
		s.admit(w, r)
	}
	return false
}

// cookieAge is how long a browser keeps its cookie, which is as long as browsers
// keep any.
const cookieAge = 400 * 24 * time.Hour

// admit gives a browser its cookie, and goes on to the page. The way there begins
// at a page of this server, so that the cookie goes along, and the token does not
// stay in the address.
func (s *server) admit(w http.ResponseWriter, r *http.Request) {
	session, err := admit(r.Context(), s.Dir, r.UserAgent(), s.Now())
	var known guests
	if err == nil {
		known, err = guestsOf(s.Dir)
	}
	if err != nil {
		s.show(w, http.StatusServiceUnavailable, page.Form{Title: "This device could not be let in", Trouble: troubles(err)})
		return
	}
	fmt.Fprintf(s.Out, "A device at %s was let in. The link for another one:\n", r.RemoteAddr)
	s.sayLink(r.Host)
	http.SetCookie(w, &http.Cookie{
		Name: known.Cookie, Value: session, Path: "/", MaxAge: int(cookieAge / time.Second),
		HttpOnly: true, SameSite: http.SameSiteStrictMode, Secure: s.TLS != nil,
	})
	w.Header().Set("Refresh", "0; url=/")
	s.show(w, http.StatusOK, page.Form{Title: "This device is let in", Links: []page.Link{{To: "/", Name: "Go to the larder"}}})
}

// refuse says why a request is not answered.
func (s *server) refuse(w http.ResponseWriter, status int, title, try string) {
	s.show(w, status, page.Form{Title: title, Intro: try})
}
