package serve

import (
	"fmt"
	"io"
	"math/rand/v2"
	"net"
	"net/http/httptest"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"putby/ledger"
	"putby/ledger/folder"
)

// shownBy is a page as a server shows it, without what differs from time to time.
func shownBy(s *server, path string) string {
	w := httptest.NewRecorder()
	s.handler.ServeHTTP(w, httptest.NewRequest("GET", path, nil))
	return regexp.MustCompile(`name="once" value="\w+"`).ReplaceAllString(fmt.Sprint(w.Code, w.Body), "")
}

// TestKeptIsNeverStale: whoever changes the ledger, by a form, a command, an editor
// or only by the day that passes, what a server then shows is what one shows that
// was started that moment.
func TestKeptIsNeverStale(t *testing.T) {
	dir := sample(t)
	clock := noon
	house := Served{Dir: dir, Now: func() time.Time { return clock }, Out: io.Discard, Log: io.Discard, Guard: unguarded}
	at := &net.TCPAddr{IP: net.IPv4(127, 0, 0, 1), Port: 8700}
	long := newServer(house, at)
	rewrite := func(name, old, new string) {
		path := filepath.Join(dir, name)
		data, err := os.ReadFile(path)
		if err != nil || !strings.Contains(string(data), old) {
			t.Fatal(name, old, err)
		}
		if err := os.WriteFile(path, []byte(strings.Replace(string(data), old, new, 1)), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	rewrite("settings.csv", "as_of,2025-11-16\n", "")
	price := "2.69"
	random := rand.New(rand.NewPCG(1, 1))
	changes := []struct {
		what string
		do   func()
	}{
		{"a form", func() {
			w := httptest.NewRecorder()
			form := url.Values{"once": {long.forms.issue()}, "do": {"save"}, "things": {"chives"}, "date": {clock.Format("2006-01-02")}}
			r := httptest.NewRequest("POST", "/take", strings.NewReader(form.Encode()))
			r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
			if long.handler.ServeHTTP(w, r); w.Code != 303 && w.Code != 422 { // the chives may be eaten
				t.Fatal(w.Code, w.Body)
			}
		}},
		{"a command", func() {
			b, err := folder.Opening{}.Open(t.Context(), dir)
			if err != nil {
				t.Fatal(err)
			}
			defer b.Close()
			_, err = b.Edit("test", func(tx *folder.Tx) error {
				return tx.Append(ledger.MustKind("price"), map[string]string{
					"date": "2025-11-16", "shop": "Marrowby Foods", "item": "chicken-broth", "size": "900 mL", "price": fmt.Sprintf("3.%02d", random.IntN(100)),
				})
			})
			if err != nil {
				t.Fatal(err)
			}
		}},
		{"an editor", func() {
			next := fmt.Sprintf("2.%02d", random.IntN(100)) // the file is as long as before
			rewrite("shelf.csv", price, next)
			price = next
		}},
		{"midnight", func() { clock = clock.Add(12 * time.Hour) }},
		{"a slip of an editor", func() {
			rewrite("draws.csv", "2025-", "2O25-")
			shownBy(long, "/")
			rewrite("draws.csv", "2O25-", "2025-")
		}},
		{"a fault", func() {
			rewrite("draws.csv", "chives", "chive")
			shownBy(long, "/")
			rewrite("draws.csv", "chive", "chives")
		}},
	}
	shown := map[string]bool{}
	for round := range 18 {
		c := changes[round%len(changes)]
		c.do()
		fresh := newServer(house, at)
		for _, path := range []string{"/", "/pack", "/take", "/receipt", "/start", "/settings", "/worth", "/worth?item=blueberries&price=2.49&size=500g", "/changes", "/records/draw"} {
			got, want := shownBy(long, path), shownBy(fresh, path)
			if got != want {
				t.Fatalf("after %s, %s is stale:\n%s", c.what, path, firstDifference(got, want))
			}
			shown[got] = true
		}
	}
	if len(shown) < 13 {
		t.Errorf("only %d different pages were shown: the changes change nothing", len(shown))
	}
}

func firstDifference(a, b string) string {
	i := 0
	for i < len(a) && i < len(b) && a[i] == b[i] {
		i++
	}
	from := max(0, i-80)
	return fmt.Sprintf("…%.200s\nis to be\n…%.200s", a[from:], b[from:])
}
