package serve

import (
	"bufio"
	"context"
	"fmt"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"net/url"
	"strings"
	"sync"
	"testing"
	"time"
)

// hostOf is the address of a link, without its scheme and path.
func hostOf(t testing.TB, link string) string {
	t.Helper()
	u, err := url.Parse(link)
	if err != nil {
		t.Fatal(err)
	}
	return u.Host
}

// dial opens a connection to a server, on which a test may be slow.
func dial(t testing.TB, link string) net.Conn {
	t.Helper()
	c, err := net.Dial("tcp", hostOf(t, link))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { c.Close() })
	return c
}

// guest lets a browser into a ledger, and returns its cookie.
func guest(t testing.TB, dir string) string {
	t.Helper()
	session, err := admit(t.Context(), dir, "a test", noon)
	if err != nil {
		t.Fatal(err)
	}
	known, err := guestsOf(dir)
	if err != nil {
		t.Fatal(err)
	}
	return known.Cookie + "=" + session
}

// Forms that arrive slowly, or never whole, keep nobody else waiting.
func TestSlowSendersKeepNobodyWaiting(t *testing.T) {
	link, _ := start(t, sample(t), "127.0.0.1:0")
	for range 2 * mostAtOnce {
		c := dial(t, link)
		fmt.Fprintf(c, "POST /take HTTP/1.1\r\nHost: %s\r\nOrigin: %s\r\nCookie: %s\r\nContent-Type: application/x-www-form-urlencoded\r\nContent-Length: 1000\r\n\r\nnote=",
			hostOf(t, link), originOf(link), cookieOf(link))
	}
	time.Sleep(200 * time.Millisecond) // so that all of them are being read
	client := http.Client{Timeout: readTime / 3}
	r, err := http.NewRequest("GET", link, nil)
	if err != nil {
		t.Fatal(err)
	}
	r.Header.Set("Cookie", cookieOf(link))
	answer, err := client.Do(r)
	if err != nil {
		t.Fatalf("while slow forms arrive: %v", err)
	}
	defer answer.Body.Close()
	if answer.StatusCode != http.StatusOK {
		t.Errorf("while slow forms arrive: %s", answer.Status)
	}
}

// A stuckWriter is the line of a reader who takes nothing for now.
type stuckWriter struct {
	http.ResponseWriter
	stuck chan<- bool
	free  <-chan bool
}

func (w stuckWriter) Write(p []byte) (int, error) {
	w.stuck <- true
	<-w.free
	return len(p), nil
}

// Those who read their page slowly keep nobody else waiting either.
func TestSlowReadersKeepNobodyWaiting(t *testing.T) {
	dir := sample(t)
	s := newServer(Served{Dir: dir, Now: func() time.Time { return noon }, Log: io.Discard, Guard: unguarded}, &net.TCPAddr{IP: net.IPv4(127, 0, 0, 1), Port: 8700})
	cookie := guest(t, dir)
	request := func() *http.Request {
		r := httptest.NewRequest("GET", "http://127.0.0.1:8700/", nil)
		r.Header.Set("Cookie", cookie)
		return r
	}
	stuck, free := make(chan bool), make(chan bool)
	var slow sync.WaitGroup
	defer slow.Wait()
	defer close(free)
	for range mostAtOnce {
		slow.Go(func() { s.ServeHTTP(stuckWriter{httptest.NewRecorder(), stuck, free}, request()) })
		<-stuck
	}
	quick := make(chan int, 1)
	go func() {
		w := httptest.NewRecorder()
		s.ServeHTTP(w, request())
		quick <- w.Code
	}()
	select {
	case status := <-quick:
		if status != http.StatusOK {
			t.Errorf("status %d", status)
		}
	case <-time.After(5 * time.Second):
		t.Error("whoever reads at once has to wait for those who do not")
	}
}

// A form that breaks off, or is too long, is answered as what it is.
func TestFormsThatCannotBeRead(t *testing.T) {
	link, _ := start(t, sample(t), "127.0.0.1:0")
	c := dial(t, link)
	fmt.Fprintf(c, "POST /take HTTP/1.1\r\nHost: %s\r\nOrigin: %s\r\nCookie: %s\r\nContent-Type: application/x-www-form-urlencoded\r\nContent-Length: 1000\r\n\r\nnote=",
		hostOf(t, link), originOf(link), cookieOf(link))
	if err := c.(*net.TCPConn).CloseWrite(); err != nil {
		t.Fatal(err)
	}
	answer, err := http.ReadResponse(bufio.NewReader(c), nil)
	if err != nil {
		t.Fatal(err)
	}
	if answer.StatusCode != http.StatusBadRequest {
		t.Errorf("a form that breaks off: %s", answer.Status)
	}
	whole, text := ask(t, "POST", link+"take", "note="+strings.Repeat("x", mostBody), "Origin", originOf(link))
	if whole.StatusCode != http.StatusRequestEntityTooLarge || !strings.Contains(text, "256 KiB") {
		t.Errorf("a form that is too long: %s", whole.Status)
	}
}

// A page that is there, asked for in a way that it does not know, says in which
// ways it can be asked.
func TestWrongMethods(t *testing.T) {
	dir := sample(t)
	link, _ := start(t, dir, "127.0.0.1:0")
	before := content(t, dir)
	for _, c := range []struct {
		method, path string
		status       int
		allow        string
	}{
		{"POST", "", http.StatusMethodNotAllowed, "GET, HEAD"},
		{"DELETE", "take", http.StatusMethodNotAllowed, "GET, HEAD, POST"},
		{"PUT", "receipt", http.StatusMethodNotAllowed, "GET, HEAD, POST"},
		{"PATCH", "worth", http.StatusMethodNotAllowed, "GET, HEAD"},
		{"POST", "saved/x", http.StatusMethodNotAllowed, "GET, HEAD"},
		{"POST", "labels/c40-a", http.StatusMethodNotAllowed, "GET, HEAD"},
		{"POST", "changes", http.StatusMethodNotAllowed, "GET, HEAD"},
		{"DELETE", "change/1", http.StatusMethodNotAllowed, "GET, HEAD, POST"},
		{"PUT", "undo", http.StatusMethodNotAllowed, "GET, HEAD, POST"},
		{"GET", "undo", http.StatusSeeOther, ""},
		{"GET", "redo", http.StatusSeeOther, ""},
		{"GET", "change/..%2f..%2fsettings.csv", http.StatusNotFound, ""},
		{"GET", "change/99", http.StatusNotFound, ""},
		{"GET", "take?form=..%2f..%2fsettings.csv", http.StatusOK, ""},
		{"OPTIONS", "take", http.StatusMethodNotAllowed, "GET, HEAD, POST"},
		{"POST", "nowhere", http.StatusNotFound, ""},
		{"GET", "nowhere", http.StatusNotFound, ""},
		{"HEAD", "take", http.StatusOK, ""},
		{"GET", "labels/..%2f..%2fsettings.csv", http.StatusUnprocessableEntity, ""},
		{"GET", "saved/..%2f..%2fsettings.csv", http.StatusNotFound, ""},
	} {
		answer, text := ask(t, c.method, link+c.path, "", "Origin", originOf(link))
		if answer.StatusCode != c.status || answer.Header.Get("Allow") != c.allow {
			t.Errorf("%s /%s: %s, allowed %q", c.method, c.path, answer.Status, answer.Header.Get("Allow"))
		}
		if strings.Contains(text, "currency") {
			t.Errorf("%s /%s shows a file of the ledger", c.method, c.path)
		}
	}
	if !equal(before, content(t, dir)) {
		t.Error("something was recorded")
	}
}

// A cookie that another ledger's server has left with a browser, or one that was
// taken off the list, stands in nobody's way.
func TestOldCookies(t *testing.T) {
	dir := sample(t)
	out := serveAt(t, dir, "0.0.0.0:0")
	link := invitation(t, out)
	home, _, _ := strings.Cut(link, "?")
	if answer, _ := ask(t, "GET", home, "", "Cookie", "putby-ABCDEFGH=FROMBEFORE"); answer.StatusCode != http.StatusForbidden {
		t.Errorf("an old cookie: %s", answer.Status)
	}
	answer, _ := ask(t, "GET", link, "", "Cookie", "putby-ABCDEFGH=FROMBEFORE")
	session, _, _ := strings.Cut(answer.Header.Get("Set-Cookie"), ";")
	name, _, _ := strings.Cut(session, "=")
	if answer.StatusCode != http.StatusOK || !strings.HasPrefix(name, "putby-") {
		t.Fatalf("the link beside an old cookie: %s", answer.Status)
	}
	old := name + "=FROMBEFORE"
	for _, cookies := range []string{session, old + "; " + session, session + "; " + old, "putby=x; " + old + "; theme=dark; " + session} {
		if answer, _ := ask(t, "GET", home, "", "Cookie", cookies); answer.StatusCode != http.StatusOK {
			t.Errorf("with the cookies %s: %s", cookies, answer.Status)
		}
	}
	other := sample(t)
	for _, d := range []string{dir, other} {
		if err := editGuests(t.Context(), d, func(*guests) error { return nil }); err != nil {
			t.Fatal(err)
		}
	}
	one, _ := guestsOf(dir)
	two, _ := guestsOf(other)
	if one.Cookie == two.Cookie {
		t.Error("two ledgers served on one machine take each other's cookies away")
	}
}

// However many read, a form is recorded at once: it stands in no queue with them.
func TestReadersKeepNoFormWaiting(t *testing.T) {
	dir := sample(t)
	cookie := guest(t, dir)
	s := newServer(Served{Dir: dir, Now: func() time.Time { return noon }, Log: io.Discard, Guard: unguarded}, &net.TCPAddr{IP: net.IPv4(127, 0, 0, 1), Port: 8700})
	for range mostAtOnce { // as many as there is room for
		s.working <- struct{}{}
	}
	ctx, cancel := context.WithTimeout(t.Context(), 10*time.Second)
	defer cancel()
	form := url.Values{"once": {s.forms.issue()}, "do": {"save"}, "item": {"strawberries"}, "shop": {"Millbrook"}, "size": {"1 kg"}, "price": {"3.50"}}
	r := httptest.NewRequestWithContext(ctx, "POST", "http://127.0.0.1:8700/price", strings.NewReader(form.Encode()))
	r.Header.Set("Cookie", cookie)
	r.Header.Set("Origin", "http://127.0.0.1:8700")
	r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	w := httptest.NewRecorder()
	s.ServeHTTP(w, r)
	if to := w.Header().Get("Location"); w.Code != http.StatusSeeOther || !strings.HasPrefix(to, "/saved/") {
		t.Errorf("status %d, to %q: %s", w.Code, to, w.Body)
	}
}

// A defect that a request meets is an answer that says so, without a trace.
func TestDefects(t *testing.T) {
	var log notebook
	dir := sample(t)
	cookie := guest(t, dir)
	s := newServer(Served{
		Dir: dir, Now: func() time.Time { panic("a mistake") }, Log: &log,
		Guard: func(do func() error) (err error) {
			defer func() { err = fmt.Errorf("told of %v", recover()) }()
			return do()
		},
	}, &net.TCPAddr{IP: net.IPv4(127, 0, 0, 1), Port: 8700})
	w := httptest.NewRecorder()
	r := httptest.NewRequest("GET", "http://127.0.0.1:8700/", nil)
	r.Header.Set("Cookie", cookie)
	s.ServeHTTP(w, r)
	if w.Code != http.StatusInternalServerError || strings.Contains(w.Body.String(), "goroutine") {
		t.Errorf("status %d: %s", w.Code, w.Body)
	}
	if log.String() != "putby serve: told of a mistake\n" {
		t.Error(log.String())
	}
}
