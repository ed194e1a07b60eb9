package serve

import (
	"fmt"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"putby/ledger"
)

// A visitor is a browser with a cookie of its own.
type visitor struct {
	testing.TB
	*server
	cookie string
}

func (v visitor) get(path string) string {
	w := httptest.NewRecorder()
	r := httptest.NewRequest("GET", path, nil)
	r.Header.Set("Cookie", v.cookie)
	v.handler.ServeHTTP(w, r)
	return regexp.MustCompile(`name="(once|seen)" value="\w+"`).ReplaceAllString(fmt.Sprint(w.Code, w.Body), "")
}

// sends sends a form, and tells what is answered.
func (v visitor) sends(path string, fields ...string) <-chan string {
	form := url.Values{"once": {v.forms.issue()}, "do": {"save"}}
	for i := 0; i < len(fields); i += 2 {
		form.Set(fields[i], fields[i+1])
	}
	answered := make(chan string, 1)
	go func() {
		w := httptest.NewRecorder()
		r := httptest.NewRequest("POST", path, strings.NewReader(form.Encode()))
		r.Header.Set("Cookie", v.cookie)
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
		v.handler.ServeHTTP(w, r)
		answered <- fmt.Sprint(w.Code, w.Header().Get("Location"))
	}()
	return answered
}

// until waits for what is to come.
func (v visitor) until(what string, come func() bool) {
	v.Helper()
	for end := time.Now().Add(time.Minute); !come(); time.Sleep(time.Millisecond) {
		if time.Now().After(end) {
			v.Fatal("waited too long until " + what)
		}
	}
}

// holds waits until a file of the ledger holds a text.
func (v visitor) holds(name, text string) {
	v.Helper()
	v.until(name+" holds "+text, func() bool {
		data, err := os.ReadFile(filepath.Join(v.Dir, name))
		return err == nil && strings.Contains(string(data), text)
	})
}

// byHand adds a line to a file of the ledger.
func (v visitor) byHand(name, line string) {
	v.Helper()
	f, err := os.OpenFile(filepath.Join(v.Dir, name), os.O_APPEND|os.O_WRONLY, 0)
	if err == nil {
		_, err = f.WriteString(line + "\n")
	}
	if err == nil {
		err = f.Close()
	}
	if err != nil {
		v.Fatal(err)
	}
}

// threeVisitors are browsers of one server, of which nothing was saved yet.
func threeVisitors(t *testing.T) (ann, bob, cid visitor) {
	s := newServer(Served{Dir: sample(t), Now: func() time.Time { return noon }, Out: io.Discard, Log: io.Discard, Guard: unguarded}, &net.TCPAddr{IP: net.IPv4(127, 0, 0, 1), Port: 8700})
	return visitor{t, s, "a=1"}, visitor{t, s, "b=2"}, visitor{t, s, "c=3"}
}

var lookedAt = []string{"/", "/take", "/price", "/worth?item=blueberries&price=2.49&size=500g"}

// While what forms saved is joined, everybody is answered by the ledger as it was
// before them; who saved is answered once it is joined, and then sees it everywhere.
// What is saved meanwhile is joined at once, with what was edited by hand.
func TestLastWhole(t *testing.T) {
	ann, bob, cid := threeVisitors(t)
	before := map[string]string{}
	for _, path := range lookedAt {
		before[path] = cid.get(path)
	}
	k := ann.kept
	k.printing.Lock()
	k.joining.Lock()
	took := ann.sends("/take", "things", "chives", "date", "2025-11-16", "note", "on bread")
	ann.holds(ledger.DrawsFile, "on bread")
	saw := bob.sends("/price", "item", "carrots", "shop", "Millbrook", "size", "2 kg", "price", "2.85", "date", "2025-11-16")
	bob.holds(ledger.ShelfFile, "Millbrook")
	cid.byHand(ledger.ShelfFile, "2025-11-15,Fennel & Daughters,carrots,2 kg,2.95,,,,")
	for _, v := range []visitor{ann, bob, cid} {
		for _, path := range lookedAt {
			if got := v.get(path); got != before[path] {
				t.Errorf("%s is no longer as it was before:\n%s", path, firstDifference(got, before[path]))
			}
		}
	}
	if got := cid.get("/changes"); !strings.Contains(got, "Undo change 2") {
		t.Errorf("what was saved is not among the changes: %.500s", got)
	}
	select {
	case <-took:
		t.Error("who saved is answered before it is seen")
	default:
	}
	k.joining.Unlock()
	if a, b := <-took, <-saw; !strings.HasPrefix(a, "303/saved/") || !strings.HasPrefix(b, "303/saved/") {
		t.Fatal(a, b)
	}
	if text := cid.get("/price"); !strings.Contains(text, "Millbrook") || !strings.Contains(text, "Fennel &amp; Daughters") || cid.get("/take") == before["/take"] {
		t.Error("what was saved is not seen by others")
	}
	if n := k.newest.number; n != 1 {
		t.Errorf("two saves and an edit by hand were joined %d times", n)
	}
	// Of the page only who saved has to wait.
	if got := cid.get("/"); got != before["/"] {
		t.Error("who did not save waits for a page that is being made")
	}
	now := ann.get("/")
	if now == before["/"] || bob.get("/") != now {
		t.Error("who saved is shown the page of before")
	}
	k.printing.Unlock()
	cid.until("the new page is shown", func() bool { return cid.get("/") == now })
	for _, path := range lookedAt {
		fresh := visitor{t, newServer(ann.Served, &net.TCPAddr{IP: net.IPv4(127, 0, 0, 1), Port: 8700}), ""}
		if got, want := cid.get(path), fresh.get(path); got != want {
			t.Errorf("in the end %s is stale:\n%s", path, firstDifference(got, want))
		}
	}
}

// A price changes nothing that was paid, and what is taken out comes after all that was:
// they are judged and shown without following all events again.
func TestPriceIsShownAtOnce(t *testing.T) {
	ann, _, cid := threeVisitors(t)
	for _, path := range lookedAt {
		cid.get(path)
	}
	ann.kept.printing.Lock()
	defer ann.kept.printing.Unlock()
	joins := func(path string, fields ...string) int {
		before := ledger.Joins()
		if a := <-ann.sends(path, fields...); !strings.HasPrefix(a, "303/saved/") {
			t.Fatal(a)
		}
		return ledger.Joins() - before
	}
	price := func(shop, date string) []string {
		return []string{"item", "carrots", "shop", shop, "size", "2 kg", "price", "2.85", "date", date}
	}
	if n := joins("/price", price("Millbrook", "2025-11-15")...); n != 0 {
		t.Errorf("a price was joined %d times", n)
	}
	if n := joins("/take", "things", "chives", "date", "2025-11-16"); n != 0 {
		t.Errorf("what was taken was joined %d times", n)
	}
	if n := joins("/price", price("Ossock", "2025-11-16")...); n != 0 {
		t.Errorf("a price after it was joined %d times", n)
	}
	fresh := visitor{t, newServer(ann.Served, &net.TCPAddr{IP: net.IPv4(127, 0, 0, 1), Port: 8700}), ""}
	for _, path := range lookedAt {
		if got, want := ann.get(path), fresh.get(path); got != want {
			t.Errorf("%s is stale:\n%s", path, firstDifference(got, want))
		}
	}
}

// A file that is damaged while a form is saved is told of once that is shown, and is
// seen as soon as it is mended; so is an edit by hand after it.
func TestDamagedWhileSaving(t *testing.T) {
	ann, _, cid := threeVisitors(t)
	before := cid.get("/take")
	ann.kept.joining.Lock()
	took := ann.sends("/take", "things", "chives", "date", "2025-11-16", "note", "on bread")
	ann.holds(ledger.DrawsFile, "on bread")
	cid.byHand(ledger.ShelfFile, "yesterday,Fennel & Daughters,carrots,2 kg,2.95,,,,")
	if got := cid.get("/take"); got != before {
		t.Errorf("while it is saved: %s", firstDifference(got, before))
	}
	ann.kept.joining.Unlock()
	if a := <-took; !strings.HasPrefix(a, "303/saved/") {
		t.Fatal(a)
	}
	for _, path := range []string{"/", "/take"} {
		if got := cid.get(path); !strings.HasPrefix(got, fmt.Sprint(http.StatusUnprocessableEntity)) || !strings.Contains(got, "yesterday") {
			t.Errorf("%s of a damaged ledger: %.500s", path, got)
		}
	}
	path := filepath.Join(cid.Dir, ledger.ShelfFile)
	text, err := os.ReadFile(path)
	if err == nil {
		err = os.WriteFile(path, []byte(strings.Replace(string(text), "yesterday,", "2025-11-15,", 1)), 0o600)
	}
	if err != nil {
		t.Fatal(err)
	}
	if got := cid.get("/price"); !strings.Contains(got, "Fennel &amp; Daughters") {
		t.Errorf("what was mended is not seen: %.500s", got)
	}
}

// A form that is refused changes nothing for others, and holds nothing up.
func TestRefusedIsShownAtOnce(t *testing.T) {
	ann, _, cid := threeVisitors(t)
	before := cid.get("/")
	if a := <-ann.sends("/take", "things", "900 chives"); !strings.HasPrefix(a, "303/take?form=") {
		t.Error(a)
	}
	cid.byHand(ledger.ShelfFile, "2025-11-15,Fennel & Daughters,carrots,2 kg,9.95,,,,")
	if got := cid.get("/price"); !strings.Contains(got, "Fennel &amp; Daughters") || cid.get("/") == before {
		t.Error("an edit by hand is not seen after a refusal")
	}
}

// What is shown after each kind of save is what a server shows that is started then.
func TestShownAfterEachSave(t *testing.T) {
	clock := noon
	at := &net.TCPAddr{IP: net.IPv4(127, 0, 0, 1), Port: 8700}
	house := Served{Dir: sample(t), Now: func() time.Time { return clock }, Out: io.Discard, Log: io.Discard, Guard: unguarded}
	settings := filepath.Join(house.Dir, "settings.csv")
	text, err := os.ReadFile(settings)
	if err == nil {
		err = os.WriteFile(settings, []byte(strings.Replace(string(text), "as_of,2025-11-16\n", "", 1)), 0o600)
	}
	if err != nil {
		t.Fatal(err)
	}
	ann := visitor{t, newServer(house, at), "a=1"}
	ann.get("/")
	for _, save := range [][]string{
		{"/receipt", "said", "3 x 454 g strawberries 3.99\ncoupon 1.00\nsoap 1.00", "shop", "Marrowby Foods", "date", "2025-11-16"},
		{"/receipt", "said", "6 bag-1l 2.40", "shop", "Corner Shop", "date", "2025-11-16"},
		{"/take", "things", "chives\n0.1 kg strawberries", "date", "2025-11-16"},
		{"/freeze", "things", "0.2 kg strawberries", "date", "2025-11-16"},
		{"/take", "things", "1 bag-1l", "reason", "spoiled", "date", "2025-11-16"},
		{"/receipt", "said", "1 x 454 g strawberries 2.99", "shop", "Corner Shop", "date", "2025-11-14"},
		{"/price", "item", "carrots", "shop", "Millbrook", "size", "2 kg", "price", "2.85", "date", "2025-11-16"},
		{"/start", "loads", "0.5 kg strawberries"},
		{"/finish", "kwh", "11.2", "dry", "0.05 kg"},
		{"/pack", "packs", "strawberries 2 x 200 g", "bare", "yes"},
		{"/take", "things", "1 strawberries"},
		{"/batch", "item", "beaten-egg", "quantity", "0.1 L", "from", "0.05 kg strawberries"},
		{"/take", "things", "0.05 kg strawberries", "date", "2025-11-16"},
		{"/settings", "setting-hour_value", "12"},
		{"/take", "things", "0.05 kg strawberries"},
		{"/undo", "number", "14"},
		{"/take", "things", "0.01 kg strawberries"},
	} {
		clock = clock.Add(3 * time.Hour)
		if a := <-ann.sends(save[0], save[1:]...); !strings.HasPrefix(a, "303/saved/") && !strings.HasPrefix(a, "303/changes?done") {
			t.Errorf("%q leads to %s: %s", save, a, mainOf(ann.get(strings.TrimPrefix(a, "303"))))
		}
		fresh := visitor{t, newServer(house, at), "a=1"}
		for _, path := range append([]string{"/changes", "/card", "/receipt", "/finish", "/pack", "/worth?item=strawberries&price=2.49&size=500g"}, lookedAt...) {
			if got, want := ann.get(path), fresh.get(path); got != want {
				t.Errorf("after %q, %s is stale:\n%s", save, path, firstDifference(got, want))
			}
		}
	}
}

// Who waits to read files, because somebody else does, is answered by the ledger as it was
// as soon as a form is about to be saved: nobody who reads waits for that.
func TestNoReaderWaitsForASave(t *testing.T) {
	ann, _, _ := threeVisitors(t)
	ann.get("/")
	k := ann.kept
	k.reading <- struct{}{}
	defer k.readingEnds()
	answered := make(chan *state)
	go func() {
		v, _ := k.state()
		answered <- v
	}()
	select {
	case <-answered:
		t.Fatal("nobody reads, and yet somebody is answered")
	case <-time.After(50 * time.Millisecond):
	}
	k.saves(true)
	defer k.saves(false)
	select {
	case v := <-answered:
		if v != k.last {
			t.Error("it is another ledger than the last")
		}
	case <-time.After(time.Minute):
		t.Error("who reads waits for a save")
	}
}
