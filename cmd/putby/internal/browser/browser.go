package browser

import (
	"os"
	"os/exec"
	"strings"
	"sync"
	"testing"
)

// A Browser is a running browser with an empty profile. It ends with the test.
type Browser struct {
	t    testing.TB
	pipe *pipe
	mu   sync.Mutex
	tabs map[string]*Tab // by session
}

// flags keep the browser to what a test asks: no window, no update, no talk
// with the outside.
var flags = []string{
	"--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
	"--disable-background-networking", "--disable-component-update", "--disable-sync",
	"--hide-scrollbars", "--remote-debugging-pipe",
}

// Start starts a browser, or skips the test where there is none.
func Start(t testing.TB) *Browser {
	t.Helper()
	path, err := exec.LookPath("chromium")
	if err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatal("no browser is installed, and CI=true wants its tests run: install Debian's chromium")
		}
		t.Skip("no browser is installed: Debian's chromium would do")
	}
	b := &Browser{t: t, tabs: map[string]*Tab{}}
	commands, toBrowser := osPipe(t)
	fromBrowser, answers := osPipe(t)
	cmd := exec.Command(path, append(flags, "--user-data-dir="+t.TempDir())...)
	cmd.ExtraFiles = []*os.File{commands, answers} // its descriptors 3 and 4
	cmd.Env = append(os.Environ(), "LANG=C.UTF-8")
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	commands.Close()
	answers.Close()
	b.pipe = newPipe(toBrowser, fromBrowser, b.event)
	t.Cleanup(func() {
		// It ends with its pipe too, but then writes to its profile still.
		_ = b.pipe.call("", "Browser.close", nil, nil)
		toBrowser.Close()
		_ = cmd.Wait()
		fromBrowser.Close()
	})
	return b
}

func osPipe(t testing.TB) (r, w *os.File) {
	r, w, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	return r, w
}

// event passes an event to the tab that it is about.
func (b *Browser) event(e event) {
	b.mu.Lock()
	tab := b.tabs[e.Session]
	b.mu.Unlock()
	if tab != nil {
		tab.event(e)
	}
}

// must ends the test on an error of the browser's.
func (b *Browser) must(err error) {
	if err != nil {
		b.t.Helper()
		b.t.Fatal(err)
	}
}

// inPage reports whether an address is part of the page itself.
func inPage(url string) bool {
	return strings.HasPrefix(url, "data:") || strings.HasPrefix(url, "about:")
}
