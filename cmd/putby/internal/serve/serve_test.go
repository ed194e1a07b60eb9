package serve

import (
	"bytes"
	"context"
	"io"
	"io/fs"
	"net"
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"testing"
	"time"

	"putby/ledger"
)

const sampleDir = "../../../../testdata/sample"

// sample copies the sample ledger, to be changed.
func sample(t testing.TB) string {
	t.Helper()
	dir := t.TempDir()
	if err := os.CopyFS(dir, os.DirFS(sampleDir)); err != nil {
		t.Fatal(err)
	}
	return dir
}

// unguarded is a guard that lets tests see a panic.
func unguarded(do func() error) error { return do() }

// noon is when the tests are.
var noon = time.Date(2025, 11, 16, 12, 0, 0, 0, time.UTC)

// A notebook is a writer that may be read meanwhile.
type notebook struct {
	mu sync.Mutex
	b  bytes.Buffer
}

func (n *notebook) Write(p []byte) (int, error) {
	n.mu.Lock()
	defer n.mu.Unlock()
	return n.b.Write(p)
}

func (n *notebook) String() string {
	n.mu.Lock()
	defer n.mu.Unlock()
	return n.b.String()
}

// start serves a ledger at an address until the test ends, lets the test in, and
// returns the address.
func start(t testing.TB, dir, addr string) (link string, out *notebook) {
	t.Helper()
	out = serveAt(t, dir, addr)
	return letIn(t, out), out
}

// serveAt serves a ledger at an address until the test ends; nobody is let in
// yet.
func serveAt(t testing.TB, dir, addr string, edits ...func(*Served)) (out *notebook) {
	t.Helper()
	ctx, cancel := context.WithCancel(context.Background())
	out = &notebook{}
	h := Served{
		Dir: dir, Out: out, Log: out, Guard: unguarded, Now: func() time.Time { return noon },
	}
	for _, edit := range edits {
		edit(&h)
	}
	ended := make(chan error, 1)
	go func() { ended <- Run(ctx, h, addr) }()
	t.Cleanup(func() {
		cancel()
		if err := <-ended; err != nil {
			t.Error(err)
		}
	})
	for range 6000 {
		if strings.Contains(out.String(), "Ctrl-C") {
			return out
		}
		time.Sleep(10 * time.Millisecond)
	}
	t.Fatalf("no link is printed: %s", out)
	return nil
}

// invitation is the link that was printed last, at the machine's own address.
func invitation(t testing.TB, out *notebook) string {
	t.Helper()
	links := regexp.MustCompile(`https?://127\.0\.0\.1:\S+`).FindAllString(out.String(), -1)
	if links == nil {
		t.Fatalf("no link is printed: %s", out)
	}
	return links[len(links)-1]
}

// cookies are what the tests' servers gave, by address.
var cookies sync.Map

// letIn opens the link that was printed last, and returns the server's address.
func letIn(t testing.TB, out *notebook) (link string) {
	t.Helper()
	link = invitation(t, out)
	answer, text := ask(t, "GET", link, "", "Cookie", "none=")
	session, _, _ := strings.Cut(answer.Header.Get("Set-Cookie"), ";")
	if answer.StatusCode != http.StatusOK || session == "" {
		t.Fatalf("the printed link lets nobody in: %s", text)
	}
	link, _, _ = strings.Cut(link, "?")
	cookies.Store(hostOf(t, link), session)
	return link
}

// cookieOf is what the server of a link gave the test; empty: nothing.
func cookieOf(link string) string {
	u, err := url.Parse(link)
	if err != nil {
		return ""
	}
	cookie, _ := cookies.LoadOrStore(u.Host, "")
	return cookie.(string)
}

// fetch sends a request with headers given as name, value, name, value, and
// returns the status and the body. Unless it has one, it brings the cookie that
// the server gave the test.
func fetch(t testing.TB, method, link, body string, headers ...string) (*http.Response, string) {
	t.Helper()
	r, err := http.NewRequest(method, link, strings.NewReader(body))
	if err != nil {
		t.Fatal(err)
	}
	if body != "" {
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	}
	for i := 0; i < len(headers); i += 2 {
		if headers[i] == "Host" {
			r.Host = headers[i+1]
		} else {
			r.Header.Set(headers[i], headers[i+1])
		}
	}
	if cookie := cookieOf(link); cookie != "" && r.Header.Get("Cookie") == "" {
		r.Header.Set("Cookie", cookie)
	}
	client := http.Client{CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }}
	answer, err := client.Do(r)
	if err != nil {
		t.Fatal(err)
	}
	defer answer.Body.Close()
	text, err := io.ReadAll(answer.Body)
	if err != nil {
		t.Fatal(err)
	}
	return answer, string(text)
}

// ask is fetch, and wants a page not to tell of a command.
func ask(t testing.TB, method, link, body string, headers ...string) (*http.Response, string) {
	t.Helper()
	answer, text := fetch(t, method, link, body, headers...)
	if what := commandIn(text); what != "" && strings.HasPrefix(answer.Header.Get("Content-Type"), "text/html") {
		t.Errorf("%s %s tells of a command: %q", method, answer.Request.URL.Path, what)
	}
	return answer, text
}

// typedCommand is one, or an option of one. What made a change is told as it was typed
// there, and putby serve is what printed the link.
var typedCommand = regexp.MustCompile(`(?:Change \d+: )?(?:putby [a-z]|(?:^|\s)--[a-z])[^.]{0,60}`)

// commandIn is the command that people are told of on a page of forms, where nobody can
// type one; empty: none.
func commandIn(text string) string {
	_, body, _ := strings.Cut(text, "<body")
	if !strings.Contains(body, "putby ") && !strings.Contains(body, " --") && !strings.Contains(body, ">--") {
		return ""
	}
	body = tags.ReplaceAllString(hidden.ReplaceAllString(body, " "), " ")
	for _, found := range typedCommand.FindAllString(body, -1) {
		if !strings.HasPrefix(found, "Change ") && !strings.HasPrefix(found, "putby serve ") {
			return found
		}
	}
	return ""
}

var hidden = regexp.MustCompile(`(?s)<(?:script|style).*?</(?:script|style)>`)

// content is all that a folder holds, by name.
func content(t testing.TB, dir string) map[string]string {
	t.Helper()
	files := map[string]string{}
	err := filepath.WalkDir(dir, func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || strings.Contains(name, "/.") {
			return err
		}
		data, err := os.ReadFile(name)
		files[name] = string(data)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return files
}

// onceIn finds the mark of a form.
func onceIn(t testing.TB, html string) string {
	t.Helper()
	found := regexp.MustCompile(`name="once" value="([^"]+)"`).FindStringSubmatch(html)
	if found == nil {
		t.Fatal("the form has no mark")
	}
	return found[1]
}

func originOf(link string) string { return strings.TrimSuffix(link, "/") }

// TestOtherSitesAreKeptOut sends what a page of another site could make a
// browser send.
func TestOtherSitesAreKeptOut(t *testing.T) {
	dir := sample(t)
	link, _ := start(t, dir, "127.0.0.1:0")
	before := content(t, dir)
	_, html := ask(t, "GET", link+"take", "")
	body := url.Values{"once": {onceIn(t, html)}, "do": {"save"}, "food": {"chicken-broth"}, "quantity": {"1"}, "date": {"2025-11-16"}}.Encode()
	port := link[strings.LastIndex(link, ":"):]
	for _, c := range []struct {
		why, method, path string
		status            int
		headers           []string
	}{
		{"another name", "GET", "", http.StatusMisdirectedRequest, []string{"Host", "larder.example" + strings.TrimSuffix(port, "/")}},
		{"the right address without its port", "GET", "", http.StatusMisdirectedRequest, []string{"Host", "127.0.0.1"}},
		{"another port", "GET", "", http.StatusMisdirectedRequest, []string{"Host", "127.0.0.1:1"}},
		{"another loopback address", "GET", "", http.StatusMisdirectedRequest, []string{"Host", "127.0.0.2" + strings.TrimSuffix(port, "/")}},
		{"no word of where from", "POST", "take", http.StatusForbidden, nil},
		{"another site's form", "POST", "take", http.StatusForbidden, []string{"Origin", "http://evil.example"}},
		{"another site's undo", "POST", "undo", http.StatusForbidden, []string{"Origin", "http://evil.example"}},
		{"another site's redo", "POST", "redo", http.StatusForbidden, []string{"Origin", "null"}},
		{"another site's change", "POST", "change/1", http.StatusForbidden, []string{"Origin", "http://evil.example"}},
		{"a sandboxed form", "POST", "take", http.StatusForbidden, []string{"Origin", "null"}},
		{"another port's form", "POST", "take", http.StatusForbidden, []string{"Origin", "http://127.0.0.1:1"}},
		{"a form over TLS", "POST", "take", http.StatusForbidden, []string{"Origin", "https" + strings.TrimPrefix(originOf(link), "http")}},
		{"the browser says cross-site", "POST", "take", http.StatusForbidden, []string{"Origin", originOf(link), "Sec-Fetch-Site", "cross-site"}},
		{"the browser says same-site", "POST", "take", http.StatusForbidden, []string{"Sec-Fetch-Site", "same-site"}},
		{"a method with no form", "DELETE", "take", http.StatusForbidden, nil},
	} {
		sent := body
		if c.method == "GET" {
			sent = ""
		}
		answer, _ := ask(t, c.method, link+c.path, sent, c.headers...)
		if answer.StatusCode != c.status {
			t.Errorf("%s: status %d, want %d", c.why, answer.StatusCode, c.status)
		}
		if !strings.Contains(answer.Header.Get("Content-Security-Policy"), "frame-ancestors 'none'") || answer.Header.Get("Cache-Control") != "no-store" {
			t.Errorf("%s: the answer is not guarded: %v", c.why, answer.Header)
		}
	}
	if after := content(t, dir); !equal(before, after) {
		t.Error("something was recorded")
	}
	answer, _ := ask(t, "POST", link+"take", body, "Origin", originOf(link), "Sec-Fetch-Site", "same-origin")
	if answer.StatusCode != http.StatusSeeOther || equal(before, content(t, dir)) {
		t.Errorf("what comes from here is refused: %s", answer.Status)
	}
}

func equal(a, b map[string]string) bool {
	if len(a) != len(b) {
		return false
	}
	for name, text := range a {
		if b[name] != text {
			return false
		}
	}
	return true
}

// TestAFormRecordsOnce sends one form twice, as an impatient thumb does, and
// one that this server never showed.
func TestAFormRecordsOnce(t *testing.T) {
	dir := sample(t)
	link, _ := start(t, dir, "127.0.0.1:0")
	_, html := ask(t, "GET", link+"take", "")
	body := url.Values{"once": {onceIn(t, html)}, "do": {"save"}, "food": {"chicken-broth"}, "quantity": {"2"}, "date": {"2025-11-16"}, "note": {"twice"}}
	first, _ := ask(t, "POST", link+"take", body.Encode(), "Origin", originOf(link))
	second, _ := ask(t, "POST", link+"take", body.Encode(), "Origin", originOf(link))
	if first.StatusCode != http.StatusSeeOther || second.Header.Get("Location") != first.Header.Get("Location") {
		t.Errorf("%s to %s, then %s to %s", first.Status, first.Header.Get("Location"), second.Status, second.Header.Get("Location"))
	}
	if n := strings.Count(content(t, dir)[filepath.Join(dir, ledger.DrawsFile)], "twice"); n != 1 {
		t.Errorf("recorded %d times", n)
	}
	before := content(t, dir)
	body.Set("once", "MADEUP")
	status, text := post(t, link, "take", body)
	if status != http.StatusUnprocessableEntity || !strings.Contains(text, "look it over and save it again") || !strings.Contains(text, "twice") {
		t.Errorf("status %d: a form that was never shown is not handed back whole", status)
	}
	if !equal(before, content(t, dir)) {
		t.Error("a form that was never shown is recorded")
	}
}

// TestBadFormsChangeNothing hands back what cannot be recorded, with what is
// wrong and all that was typed.
func TestBadFormsChangeNothing(t *testing.T) {
	dir := sample(t)
	link, _ := start(t, dir, "127.0.0.1:0")
	before := content(t, dir)
	for _, c := range []struct {
		path   string
		fields url.Values
		says   string
	}{
		{"take", url.Values{"food": {"chicken-broth"}, "quantity": {"500"}, "date": {"2025-11-16"}}, "only 26 containers of Chicken broth are in store"},
		{"take", url.Values{"food": {"chicken-broth"}, "pack": {"c40-a"}, "quantity": {"1"}, "date": {"2025-11-16"}}, "not both"},
		{"take", url.Values{"item": {"turnips"}, "quantity": {"1 kg"}, "date": {"2025-11-16"}}, "turnips"},
		{"receipt", url.Values{"receipt": {"x1"}, "date": {"2025-11-16"}, "shop": {"S"}}, "a receipt needs lines"},
		{"receipt", url.Values{"receipt": {"x1"}, "date": {"2025-11-16"}, "shop": {"S"}, "kind-1": {"food"}, "item-1": {"apples"}, "size-1": {"1 kg"}, "price-1": {"1,500"}}, "price"},
		{"receipt", url.Values{"receipt": {"x1"}, "date": {"2025-11-16"}, "shop": {"S"}, "kind-1": {"food"}, "item-1": {"apples"}, "size-1": {"1 kg"}, "price-1": {"1.50"}, "total": {"9.99"}}, "9.99"},
		{"receipt", url.Values{"receipt": {"x1"}, "date": {"2025-11-16"}, "shop": {"S"}, "kind-1": {"food"}, "item-1": {"apples"}, "size-1": {"1 kg"}, "price-1": {"1.50"}, "offer-1": {"a steal"}}, "a steal"},
		{"run", url.Values{"run": {"c99"}, "machine": {"rimewell"}, "start": {"2025-11-16T09:00"}, "load-1-item": {"apples"}, "load-1-quantity": {"500 kg"}, "phases": {"primary 20h"}}, "in hand"},
		{"run", url.Values{"run": {"c99"}, "machine": {"rimewell"}, "start": {"2025-11-16T09:00"}, "phases": {"thawing 20h"}}, "thawing"},
		{"pack", url.Values{"pack": {"p9"}, "run": {"c47"}, "item": {"apples"}, "date": {"2025-11-16"}, "count": {"1"}, "each": {"1 kg"}}, "was not loaded with apples"},
	} {
		for _, do := range []string{"look", "save"} {
			_, html := ask(t, "GET", link+c.path, "")
			c.fields.Set("once", onceIn(t, html))
			c.fields.Set("do", do)
			status, text := post(t, link, c.path, c.fields)
			if status != http.StatusUnprocessableEntity || !strings.Contains(text, c.says) || !strings.Contains(text, `role="alert"`) {
				t.Errorf("%s %v: status %d, and it does not say %q:%s", c.path, c.fields, status, c.says, mainOf(text))
			}
		}
	}
	if !equal(before, content(t, dir)) {
		t.Error("something was recorded")
	}
}

// TestTooMuchIsRefused sends more than a form can hold.
func TestTooMuchIsRefused(t *testing.T) {
	dir := sample(t)
	link, _ := start(t, dir, "127.0.0.1:0")
	before := content(t, dir)
	answer, _ := ask(t, "POST", link+"take", "note="+strings.Repeat("x", mostBody+1), "Origin", originOf(link))
	if answer.StatusCode < 400 || !equal(before, content(t, dir)) {
		t.Errorf("%d bytes: %s", mostBody, answer.Status)
	}
}

// TestOtherDevicesNeedTheLink asks on an address that is not loopback.
func TestOtherDevicesNeedTheLink(t *testing.T) {
	out := serveAt(t, sample(t), "0.0.0.0:0")
	link := invitation(t, out)
	home, token, _ := strings.Cut(link, "?token=")
	for _, path := range []string{"", "take", "?token=WRONG", "saved/x"} {
		if answer, text := ask(t, "GET", home+path, ""); answer.StatusCode != http.StatusForbidden || strings.Contains(text, "Chicken broth") {
			t.Errorf("%q without the link: %s", path, answer.Status)
		}
	}
	answer, _ := ask(t, "GET", link, "")
	cookie := answer.Header.Get("Set-Cookie")
	for _, want := range []string{"HttpOnly", "SameSite=Strict", "Path=/"} {
		if !strings.Contains(cookie, want) {
			t.Errorf("the cookie %q lacks %s", cookie, want)
		}
	}
	session, _, _ := strings.Cut(cookie, ";")
	if answer, text := ask(t, "GET", home, "", "Cookie", session); answer.StatusCode != http.StatusOK || !strings.Contains(text, "Chicken broth") {
		t.Errorf("with the cookie: %s", answer.Status)
	}
	if answer, _ := ask(t, "GET", link, ""); answer.StatusCode != http.StatusForbidden {
		t.Errorf("the link works twice: %s", answer.Status)
	}
	next := regexp.MustCompile(`token=(\w+)`).FindAllStringSubmatch(out.String(), -1)
	if last := next[len(next)-1][1]; last == token {
		t.Error("no new link is printed")
	} else if answer, _ := ask(t, "GET", home+"?token="+last, ""); answer.StatusCode != http.StatusOK {
		t.Errorf("the new link does not work: %s", answer.Status)
	}
	if answer, _ := ask(t, "POST", home+"take", "do=save", "Origin", originOf(home)); answer.StatusCode != http.StatusForbidden {
		t.Errorf("a form without the cookie: %s", answer.Status)
	}
}

func TestDoorsKnowTheirNames(t *testing.T) {
	for _, c := range []struct {
		ip    string
		opens []string
		shut  []string
	}{
		{"127.0.0.1", []string{"127.0.0.1:8700", "localhost:8700"}, []string{"127.0.0.1:80", "[::1]:8700", "putby.example:8700", "localhost", "", "127.0.0.1:8700:1", "0177.0.0.1:8700"}},
		{"::1", []string{"[::1]:8700", "localhost:8700"}, []string{"127.0.0.1:8700", "::1:8700"}},
		{"192.0.2.7", []string{"192.0.2.7:8700"}, []string{"localhost:8700", "127.0.0.1:8700", "192.0.2.8:8700", "192.0.2.7.example:8700"}},
		{"0.0.0.0", []string{"127.0.0.1:8700", "localhost:8700"}, []string{"203.0.113.5:8700", "laptop:8700"}},
	} {
		d := hosts{at: &net.TCPAddr{IP: net.ParseIP(c.ip), Port: 8700}}
		for _, host := range c.opens {
			if !d.opens(host) {
				t.Errorf("at %s, %q is not let in", c.ip, host)
			}
		}
		for _, host := range c.shut {
			if d.opens(host) {
				t.Errorf("at %s, %q is let in", c.ip, host)
			}
		}
	}
}
