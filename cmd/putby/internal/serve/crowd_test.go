package serve

import (
	"fmt"
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
	"putby/ledger/folder"
	"putby/ledger/ledgertest"
)

// crowded names the variable that sets for how long a large crowd reads and writes,
// such as 1m. Without it a small one does for a moment.
const crowded = "PUTBY_CROWD"

// Many read while some write: nobody meets an error, and all that was told as saved is
// there once. With PUTBY_CROWD 50 read and 5 write in a ledger of 100,000 rows, and the
// slowest answer is told; how fast it is, is not tested, since machines differ.
func TestCrowd(t *testing.T) {
	households, readers, writers, long := 1, 8, 2, time.Second
	if text := os.Getenv(crowded); text != "" {
		var err error
		if long, err = time.ParseDuration(text); err != nil {
			t.Fatal(err)
		}
		households, readers, writers = 5, 50, 5
	}
	dir := t.TempDir()
	if err := ledgertest.Write(dir, 1, households); err != nil {
		t.Fatal(err)
	}
	link, _ := start(t, dir, "127.0.0.1:0")
	c := &crowd{TB: t, link: link, until: time.Now().Add(long), slowest: map[string]time.Duration{}}
	var all sync.WaitGroup
	for n := range readers {
		all.Go(func() { c.read(n) })
	}
	for n := range writers {
		cookie := guest(t, dir)
		all.Go(func() { c.write(n, cookie) })
	}
	all.Wait()
	kept := map[string]int{}
	for _, name := range []string{ledger.ShelfFile, ledger.DrawsFile, ledger.FrozenFile, ledger.ReceiptsFile} {
		text := content(t, dir)[filepath.Join(dir, name)]
		for _, stall := range regexp.MustCompile(`Stall [0-9-]+`).FindAllString(text, -1) {
			kept[stall]++
		}
	}
	for _, stall := range c.saved {
		if n := kept[stall]; n != 1 {
			t.Errorf("what was saved of %s is there %d times", stall, n)
		}
	}
	if len(kept) != len(c.saved) || len(kept) < len(crowdWrites) {
		t.Errorf("%d records are there, and %d were told as saved", len(kept), len(c.saved))
	}
	if _, faults, err := folder.Load(dir, ledger.Options{}); err != nil || len(faults) > 0 {
		t.Errorf("the ledger has %d faults after it: %v", len(faults), err)
	}
	t.Logf("%d answers, %d of them saves; the slowest took %v", c.answers, len(c.saved), c.slowest)
}

// A crowd is people who use one server at once, those who write each by a device of their own.
type crowd struct {
	testing.TB
	link  string
	until time.Time

	mu      sync.Mutex
	answers int
	saved   []string                 // marks of the records that were told as saved
	slowest map[string]time.Duration // of each kind of request
}

// ask sends a request, and notes how long its answer takes.
func (c *crowd) ask(method, path, body string, headers ...string) (*http.Response, string) {
	begun := time.Now()
	answer, text := fetch(c.TB, method, c.link+path, body, headers...)
	took := time.Since(begun)
	c.mu.Lock()
	defer c.mu.Unlock()
	c.answers++
	what := method + " /" + path
	c.slowest[what] = max(c.slowest[what], took)
	return answer, text
}

var crowdReads = []string{"", "changes", "take", "receipt", "worth"}

func (c *crowd) read(n int) {
	for time.Now().Before(c.until) {
		path := crowdReads[n%len(crowdReads)]
		if answer, text := c.ask("GET", path, ""); answer.StatusCode != http.StatusOK {
			c.Errorf("/%s: %s: %.300s", path, answer.Status, text)
			return
		}
		n++
	}
}

// crowdWrites are the forms that are saved in turn, each with a mark of its own.
var crowdWrites = []struct {
	path   string
	fields func(mark string) url.Values
}{
	{"receipt", func(mark string) url.Values {
		return url.Values{"said": {"1 kg plum 4.00"}, "shop": {mark}, "no-shelf": {"yes"}}
	}},
	{"price", func(mark string) url.Values {
		return url.Values{"item": {"plum"}, "shop": {mark}, "size": {"1 kg"}, "price": {"3.50"}}
	}},
	{"take", func(mark string) url.Values { return url.Values{"things": {"1 broth"}, "note": {mark}} }},
	{"freeze", func(mark string) url.Values { return url.Values{"things": {"0.01 kg plum"}, "note": {mark}} }},
}

// write saves forms, each with a mark of its own.
func (c *crowd) write(n int, cookie string) {
	for i := 0; i < len(crowdWrites) || time.Now().Before(c.until); i++ {
		mark, does := fmt.Sprintf("Stall %d-%d", n, i), crowdWrites[i%len(crowdWrites)]
		_, form := c.ask("GET", does.path, "", "Cookie", cookie)
		fields := does.fields(mark)
		for name, text := range map[string]string{"once": onceIn(c, form), "do": "save", "date": "2025-11-16"} {
			fields.Set(name, text)
		}
		answer, text := c.ask("POST", does.path, fields.Encode(), "Cookie", cookie, "Origin", originOf(c.link))
		if to := answer.Header.Get("Location"); !strings.HasPrefix(to, "/saved/") {
			_, why := ask(c, "GET", c.link+strings.TrimPrefix(to, "/"), "", "Cookie", cookie)
			c.Errorf("%s of %s: %s, to %q: %.600s%.2000s", does.path, mark, answer.Status, to, mainOf(text), mainOf(why))
			return
		}
		c.mu.Lock()
		c.saved = append(c.saved, mark)
		c.mu.Unlock()
	}
}
