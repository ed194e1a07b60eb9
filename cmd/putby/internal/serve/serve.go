package serve

import (
	"context"
	"crypto/tls"
	"fmt"
	"io"
	"log"
	"net"
	"net/http"
	"runtime"
	"slices"
	"sync/atomic"
	"time"

	"github.com/mdp/qrterminal/v3"

	"putby/cmd/putby/internal/entry"
	"putby/cmd/putby/internal/page"
	"putby/ledger"
	"putby/ledger/folder"
)

// Served is a ledger that is served, and how.
type Served struct {
	Dir  string // of the ledger
	Now  func() time.Time
	TLS  *tls.Certificate // to encrypt with; nil: not
	Code bool             // draw the link as a code for a camera too
	Out  io.Writer        // for the links to open
	Log  io.Writer        // for what goes wrong
	// Guard does what may panic, and returns that as an error.
	Guard func(do func() error) error
}

// Limits of a request.
const (
	mostBody    = 256 << 10
	mostHeader  = 64 << 10 // with the cookies of all that this machine serves
	mostArrive  = 64       // forms that are being read
	headerTime  = 5 * time.Second
	readTime    = 15 * time.Second
	writeTime   = 60 * time.Second
	idleTime    = 2 * time.Minute
	lockTime    = 10 * time.Second // that a change waits for the ledger
	goodbyeTime = 5 * time.Second  // that requests have to end
)

// mostAtOnce is how many requests are worked on that only read, some of which may wait
// for the same page.
var mostAtOnce = 2 * runtime.GOMAXPROCS(0)

// Run serves at an address, such as 127.0.0.1:0 for a free port, until ctx is
// done. It prints the link to open.
func Run(ctx context.Context, h Served, addr string) error {
	listener, err := (&net.ListenConfig{}).Listen(ctx, "tcp", addr)
	if err != nil {
		return fmt.Errorf("listening on %s: %w", addr, err)
	}
	s := newServer(h, listener.Addr().(*net.TCPAddr))
	if _, err := s.page(""); err != nil {
		listener.Close()
		return err // better now than on the phone
	}
	spare := &unasked{open: map[net.Conn]bool{}}
	web := &http.Server{
		ConnState: spare.note,
		Handler:   s, ReadHeaderTimeout: headerTime, ReadTimeout: readTime, WriteTimeout: writeTime,
		IdleTimeout: idleTime, MaxHeaderBytes: mostHeader, ErrorLog: log.New(h.Log, "putby serve: ", 0),
	}
	web.RegisterOnShutdown(spare.close)
	s.sayLinks()
	ended := make(chan error, 1)
	if h.TLS != nil {
		listener = tls.NewListener(listener, &tls.Config{Certificates: []tls.Certificate{*h.TLS}, NextProtos: []string{"h2", "http/1.1"}})
	}
	go func() { ended <- web.Serve(listener) }()
	select {
	case err := <-ended:
		return err
	case <-ctx.Done():
	}
	// What is being saved is saved to its end.
	last, cancel := context.WithTimeout(context.WithoutCancel(ctx), goodbyeTime)
	defer cancel()
	if err := web.Shutdown(last); err != nil {
		return fmt.Errorf("a request was not done %v after putby serve was stopped; putby changes shows whether it was saved", goodbyeTime)
	}
	fmt.Fprintln(h.Out, "Stopped.")
	return nil
}

// A server answers requests.
type server struct {
	Served
	hosts
	kept     *kept
	judged   *folder.Cache // by whose records forms are judged; nil: by the files
	key      *key
	forms    *forms
	origins  *http.CrossOriginProtection
	handler  http.Handler
	reading  room         // while their forms arrive
	forming  room         // with a form, which may have to wait for the ledger
	working  room         // with anything else
	meantime room         // with anything else, while something is saved
	asking   room         // with a question
	changes  atomic.Int32 // requests that save something, or wait to
}

func newServer(h Served, at *net.TCPAddr) *server {
	kept := newKept(h)
	s := &server{
		Served: h, hosts: hosts{at, h.TLS}, kept: kept, judged: kept.files, key: newKey(), forms: newForms(), origins: http.NewCrossOriginProtection(),
		reading: make(room, mostArrive), forming: make(room, 1), working: make(room, mostAtOnce), meantime: make(room, 1), asking: make(room, 1),
	}
	s.handler = s.routes()
	return s
}

// scheme is that of the server's addresses.
func (s *server) scheme() string {
	if s.TLS != nil {
		return "https"
	}
	return "http"
}

// sayLinks prints where to look.
func (s *server) sayLinks() {
	if s.at.IP.IsLoopback() {
		fmt.Fprintln(s.Out, "Open this link on this machine; it works once, and the browser then stays let in:")
	} else {
		if s.TLS == nil {
			fmt.Fprintln(s.Out, "Anyone on this network can read along: use it where you trust the others.")
		}
		fmt.Fprintln(s.Out, "Open this link on the one device that it is for; it works once, and the device then stays let in:")
	}
	names := s.names()
	for _, host := range names {
		s.sayLink(host)
	}
	if s.Code {
		qrterminal.GenerateHalfBlock(s.link(names[0]), qrterminal.L, s.Out)
	}
	fmt.Fprintln(s.Out, "Ctrl-C stops it. putby serve devices lists who is let in.")
}

// link is the address that lets the next device in.
func (s *server) link(host string) string {
	return s.scheme() + "://" + host + "/?" + tokenName + "=" + s.key.token()
}

func (s *server) sayLink(host string) { fmt.Fprintln(s.Out, "  "+s.link(host)) }

// routes are what there is to ask for.
func (s *server) routes() http.Handler {
	mux := http.NewServeMux()
	add := func(path string, get, post http.HandlerFunc) {
		allow := "GET, HEAD"
		mux.HandleFunc("GET "+path, get)
		if post != nil {
			allow += ", POST"
			mux.HandleFunc("POST "+path, post)
		}
		// Any other method is answered 405 with those that there are (RFC 9110, 15.5.6).
		mux.HandleFunc(path, func(w http.ResponseWriter, _ *http.Request) {
			w.Header().Set("Allow", allow)
			s.refuse(w, http.StatusMethodNotAllowed, "That cannot be done to this page", "Open it, or send the form that is on it.")
		})
	}
	add("/{$}", s.showPage, nil)
	for _, f := range recorded {
		add("/"+f.path,
			func(w http.ResponseWriter, r *http.Request) { s.showEmpty(w, r, f) },
			func(w http.ResponseWriter, r *http.Request) { s.takeForm(w, r, f) })
	}
	add("/saved/{once}", s.showSaved, nil)
	add("/changes", s.showChanges, nil)
	add("/records", s.showKinds, nil)
	add("/records/{kind}", s.showRecords, nil)
	add("/record/{kind}", s.toRecord("record"), nil)
	add("/remove/{kind}", s.toRecord("remove"), nil)
	for path, of := range map[string]madeForm{"/change/{number}": changeForm, "/record/{kind}/{line}": recordForm, "/remove/{kind}/{line}": removeForm, "/add/{kind}": addForm} {
		add(path, s.with(of, s.showForm), s.with(of, s.takeForm))
	}
	toChanges := http.RedirectHandler("/changes", http.StatusSeeOther).ServeHTTP // whoever opens the address of a button
	add("/undo", toChanges, s.takeUndo)
	add("/redo", toChanges, s.takeRedo)
	add(worthPath, s.showWorth, nil)
	add("/card", s.showCard, nil)
	add("/labels/{pack}", s.showLabels, nil)
	mux.HandleFunc("/", s.nowhere)
	return mux
}

// nowhere says that there is no such page.
func (s *server) nowhere(w http.ResponseWriter, _ *http.Request) {
	s.show(w, http.StatusNotFound, page.Form{Title: "There is no such page", Links: s.links(nil)})
}

// links lead to the forms: while a run is on, first to the one that finishes it.
// Rec may be nil.
func (s *server) links(rec *ledger.Records) []page.Link {
	var links []page.Link
	for _, f := range recorded {
		if f.link == "" {
			continue
		}
		link := page.Link{To: "/" + f.path, Name: f.link, Seldom: f.seldom}
		if f.path == finishForm.path && rec != nil && entry.Running(rec) != nil {
			links = slices.Insert(links, 0, link)
		} else {
			links = append(links, link)
		}
	}
	return append(links, page.Link{To: "/worth", Name: "Worth it?"}, page.Link{To: "/card", Name: "Shop card"}, page.Link{To: "/changes", Name: "Changes", Seldom: true}, page.Link{To: "/records", Name: "Records", Seldom: true})
}
