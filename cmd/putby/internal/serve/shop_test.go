package serve

import (
	"strings"
	"testing"

	"putby/cmd/putby/internal/browser"
	"putby/cmd/putby/internal/page"
)

// TestCardGoesAlong: the card can be kept as one file that opens without network,
// and as a page it leads there and back.
func TestCardGoesAlong(t *testing.T) {
	link, _ := start(t, sample(t), "127.0.0.1:0")
	shown, text := ask(t, "GET", link+"card", "")
	for _, want := range []string{`href="/card?keep"`, `href="/"`, "Strawberries"} {
		if !strings.Contains(text, want) {
			t.Errorf("the card lacks %s", want)
		}
	}
	if got := shown.Header.Get("Content-Security-Policy"); got != page.CardPolicy() {
		t.Errorf("the card's policy is %s", got)
	}
	kept, file := ask(t, "GET", link+"card?keep", "")
	if got := kept.Header.Get("Content-Disposition"); got != `attachment; filename="putby-card-2025-11-16.html"` {
		t.Errorf("the file is sent as %q", got)
	}
	for _, never := range []string{"href=\"/", "url(", "<script", "src="} {
		if strings.Contains(file, never) {
			t.Errorf("the file has %s", never)
		}
	}
}

// TestLabelsAreChosenOnThePage: every pack in store leads to its labels, whose size
// is chosen there; they fit a phone, and lead back.
func TestLabelsAreChosenOnThePage(t *testing.T) {
	b := browser.Start(t)
	dir := sample(t)
	link, out := start(t, dir, "127.0.0.1:0")
	tab := b.Open(360)
	tab.Go(invitation(t, out))
	tab.Go(link)
	var packs []string
	tab.Eval(`[...document.querySelectorAll(".packs a")].map(a => a.getAttribute("href"))`, &packs)
	if len(packs) < 20 {
		t.Fatalf("%d packs lead to labels", len(packs))
	}
	tab.Go(strings.TrimSuffix(link, "/") + packs[0])
	narrow(t, tab)
	picture(tab, "labels-phone")
	tab.Follow(`document.querySelector("[name=size]").value = "small", document.querySelector("form").submit()`)
	var class string
	if tab.Eval("document.body.className", &class); class != "a4 small" {
		t.Errorf("the labels are %q", class)
	}
	tab.Follow(`document.querySelector(".choose a").click()`)
	says(t, tab, "In the larder")
	for _, said := range tab.Console() {
		t.Errorf("the browser says %s", said)
	}
}
