package serve

import (
	"fmt"
	"net/http"
	"net/url"

	"putby/cmd/putby/internal/page"
)

// ServeHTTP lets through what comes from where it should.
func (s *server) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	setHeaders(w.Header())
	switch {
	case !s.opens(r.Host):
		s.refuse(w, http.StatusMisdirectedRequest, "This server is not called that", "Open the address that putby serve printed.")
		return
	case changes(r) && !fromHere(r):
		s.refuse(w, http.StatusForbidden, "That came from somewhere else", "Send the form from a page of this server.")
		return
	case s.keys != nil && !s.letIn(w, r):
		return
	}
	select {
	case s.working <- struct{}{}:
		defer func() { <-s.working }()
		s.handler.ServeHTTP(w, r)
	case <-r.Context().Done():
	}
}

// setHeaders tells the browser what pages may do.
func setHeaders(h http.Header) {
	h.Set("Content-Security-Policy", page.ServerPolicy())
	h.Set("X-Content-Type-Options", "nosniff")
	h.Set("X-Frame-Options", "DENY")
	h.Set("Referrer-Policy", "same-origin")
	h.Set("Cross-Origin-Opener-Policy", "same-origin")
	h.Set("Cross-Origin-Resource-Policy", "same-origin")
	h.Set("Cache-Control", "no-store")
}

// changes reports whether a request may change something.
func changes(r *http.Request) bool { return r.Method != http.MethodGet && r.Method != http.MethodHead }

// fromHere reports whether a request says that a page of this server sent it.
// One that says nothing is not taken at its word: every browser says it.
func fromHere(r *http.Request) bool {
	site, origin := r.Header.Get("Sec-Fetch-Site"), r.Header.Get("Origin")
	if site != "" && site != "same-origin" {
		return false
	}
	if origin == "" {
		return site == "same-origin"
	}
	u, err := url.Parse(origin)
	return err == nil && u.Scheme == "http" && u.Host == r.Host
}

// letIn lets a browser in that has a cookie, or that brings the token and so
// gets one.
func (s *server) letIn(w http.ResponseWriter, r *http.Request) bool {
	if c, err := r.Cookie(cookieName); err == nil && s.keys.knows(c.Value) {
		return true
	}
	token := r.URL.Query().Get(tokenName)
	if r.Method != http.MethodGet || token == "" {
		s.refuse(w, http.StatusForbidden, "This device is not let in", "Open the link that putby serve printed.")
		return false
	}
	session, ok := s.keys.trade(token)
	if !ok {
		s.refuse(w, http.StatusForbidden, "That link was used already", "putby serve has printed a new one.")
		return false
	}
	fmt.Fprintf(s.Out, "A device at %s was let in. The link for another one:\n", r.RemoteAddr)
	fmt.Fprintf(s.Out, "  http://%s/?%s=%s\n", r.Host, tokenName, s.keys.token())
	http.SetCookie(w, &http.Cookie{Name: cookieName, Value: session, Path: "/", HttpOnly: true, SameSite: http.SameSiteStrictMode})
	// The way on is a link of this page, so that the cookie goes with it, and the
	// token does not stay in the address.
	s.show(w, http.StatusOK, page.Form{Title: "This device is let in", Links: []page.Link{{To: "/", Name: "Go to the larder"}}})
	return false
}

// refuse says why a request is not answered.
func (s *server) refuse(w http.ResponseWriter, status int, title, try string) {
	s.show(w, status, page.Form{Title: title, Intro: try})
}
