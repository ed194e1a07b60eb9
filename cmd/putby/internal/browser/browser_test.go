package browser

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// A browser that sees nothing would find no fault with any page.
func TestBrowserSeesFaults(t *testing.T) {
	file := filepath.Join(t.TempDir(), "bad.html")
	page := `<!doctype html><meta charset="utf-8"><meta http-equiv="Content-Security-Policy" content="default-src 'self' file:">
<title>bad</title><p>é</p><script>alert(1)</script><img src="missing.png"><div style="width:900px">wide</div>`
	if err := os.WriteFile(file, []byte(page), 0o600); err != nil {
		t.Fatal(err)
	}
	tab := Start(t).Open(360)
	tab.Go("file://" + file)
	var text string
	if tab.Eval(`document.querySelector("p").textContent`, &text); text != "é" {
		t.Errorf("the page says %q", text)
	}
	said := strings.Join(tab.Console(), "\n")
	if !strings.Contains(said, "Content Security Policy") || !strings.Contains(said, "inline script") {
		t.Errorf("a forbidden script goes unnoticed: %q", said)
	}
	if asked := strings.Join(tab.Requests(), "\n"); !strings.Contains(asked, "missing.png") {
		t.Errorf("a request goes unnoticed: %q", asked)
	}
	shot := filepath.Join(t.TempDir(), "shot.png")
	tab.Picture(shot)
	if info, err := os.Stat(shot); err != nil || info.Size() < 1000 {
		t.Errorf("no picture: %v", err)
	}
}
