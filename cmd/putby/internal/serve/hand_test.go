package serve

import (
	"fmt"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"putby/cmd/putby/internal/browser"
	"putby/ledger"
)

// opened is a tab of a phone that is let in.
func opened(t *testing.T, dir string) (tab *browser.Tab, link string) {
	t.Helper()
	link, out := start(t, dir, "127.0.0.1:0")
	tab = browser.Start(t).Open(360)
	tab.Prefer("light")
	tab.Go(invitation(t, out))
	tab.Go(link)
	return tab, link
}

// focused is the identifier of what has the focus.
func focused(tab *browser.Tab) (id string) {
	tab.Eval("document.activeElement.id", &id)
	return id
}

// Enter in a line goes on to the next field and sends nothing; what is wrong has the
// focus once it is told, its links lead to the fields, and folds open there. Counts go
// up and down by their buttons.
func TestHandsInBrowser(t *testing.T) {
	dir := sample(t)
	tab, link := opened(t, dir)
	tab.Go(link + "price")
	tab.Tap("#shop")
	for _, next := range []string{"item", "size", "price"} {
		if tab.Press("Enter"); focused(tab) != next {
			t.Fatalf("Enter goes on to %q, not to %s", focused(tab), next)
		}
	}
	tab.Go(link + "run")
	tab.Tap("#start")
	fill(tab, "save", "start", "2036-01-01T10:00", "load-2-item", "turnips", "load-2-quantity", "much")
	if focused(tab) != "trouble" {
		t.Errorf("what is wrong does not have the focus, but %q", focused(tab))
	}
	picture(tab, "wrong-run")
	tab.Tap(`.trouble a[href="#load-2-quantity"]`)
	var seen bool
	if tab.Eval(`document.getElementById("load-2-quantity").offsetParent !== null`, &seen); focused(tab) != "load-2-quantity" || !seen {
		t.Errorf("the link leads to %q, seen: %v", focused(tab), seen)
	}
	tab.Go(link + "stocktake")
	var held string
	tab.Tap(`button[data-for="count-pack-c46-b"][data-step="-1"]`)
	tab.Tap(`button[data-for="count-pack-c46-b"][data-step="-1"]`)
	tab.Tap(`button[data-for="count-pack-c46-b"][data-step="1"]`)
	if tab.Eval(`document.getElementById("count-pack-c46-b").value`, &held); held != "5" {
		t.Errorf("the buttons count to %q", held)
	}
	fill(tab, "save")
	says(t, tab, "5 of its containers. The books had 1 more")
	picture(tab, "stocktake-saved")
}

// Without a script everything works all the same.
func TestWithoutScriptsInBrowser(t *testing.T) {
	dir := sample(t)
	tab, link := opened(t, dir)
	tab.Scripts(false)
	tab.Go(link + "stocktake")
	fill(tab, "save", "count-pack-c46-b", "7")
	says(t, tab, "A record may be lacking")
	if focused(tab) != "trouble" {
		t.Errorf("what is wrong does not have the focus, but %q", focused(tab))
	}
	tab.Tap(`.trouble a`)
	fill(tab, "save", "count-pack-c46-b", "5")
	says(t, tab, "change 1 of the ledger")
	tab.TapAway(`form[action="/undo"] button`)
	says(t, tab, "Change 1 undone.")
	tab.TapAway(`form[action="/redo"] button`)
	says(t, tab, "Change 1 done again.")
	tab.Go(link + "pack")
	tab.Tap("#place")
	tab.PressAway("Enter") // looks, and saves nothing
	says(t, tab, "6 containers of 1 L Chicken broth")
	if strings.Contains(content(t, dir)[filepath.Join(dir, ledger.PacksFile)], "c47-a") {
		t.Error("Enter has saved")
	}
}

// Going back, and loading again, sends nothing: neither after something was saved
// nor after it was refused, and what was typed is there.
func TestBackAndAgainInBrowser(t *testing.T) {
	dir := sample(t)
	tab, link := opened(t, dir)
	tab.Go(link + "take")
	fill(tab, "save", "things", "2 turnips", "note", "for the soup")
	tab.Reload()
	says(t, tab, "no food, supply or pack is called")
	var note string
	if tab.Eval(`document.getElementById("note").value`, &note); note != "for the soup" {
		t.Errorf("after it is loaded again the note is %q", note)
	}
	fill(tab, "save", "things", "2 chicken broth")
	tab.Reload()
	tab.Reload()
	says(t, tab, "change 1 of the ledger")
	tab.Back()
	says(t, tab, "That form was saved as change 1; this is a new one.")
	fill(tab, "save", "things", "leek soup", "note", "for the soup")
	says(t, tab, "change 2 of the ledger")
	if n := drawn(t, dir, "for the soup"); n != 2 {
		t.Errorf("%d draws are recorded", n)
	}
	for _, said := range tab.Console() {
		if !strings.Contains(said, "422") {
			t.Errorf("the browser says %s", said)
		}
	}
}

// payloads are words that would do harm if a page took them for more than words.
var payloads = []string{
	`<script>document.title="owned"</script>`, `"><script>document.title="owned"</script>`, `</title><script>document.title="owned"</script>`,
	`</textarea><script>document.title="owned"</script>`, `</style></script><script>document.title="owned"</script>`,
	`<img src=x onerror="document.title='owned'">`, `"><img src=x onerror="document.title='owned'">`, `' onfocus='document.title="owned"' autofocus x='`,
	`" onfocus="document.title='owned'" autofocus x="`, `<svg onload="document.title='owned'">`, `javascript:document.title="owned"`,
	`<iframe srcdoc="<script>parent.document.title='owned'</script>"></iframe>`, `{{.Script}}<details open ontoggle="document.title='owned'">`,
	`--><style>@import "http://evil.example/x.css"</style><link rel=stylesheet href="http://evil.example/x.css">`,
}

// Names and notes that hold a payload stay words on every page, in forms, in what
// is refused and in what was saved, also in a browser that passes over the content
// policy.
func TestPayloadsInBrowser(t *testing.T) {
	dir := sample(t)
	quote := func(s string) string { return `"` + strings.ReplaceAll(s, `"`, `""`) + `"` }
	var foods, packs, receipts strings.Builder
	for i, p := range payloads {
		fmt.Fprintf(&foods, "bad-%d,%s,mass,,,,,,,,,5,,12,%s\n", i, quote(p), quote(p))
		fmt.Fprintf(&receipts, "bad-%d,2025-11-15,%s,1,food,bad-%d,1,1 kg,2.00,,,,%s\n", i, quote(p), i, quote(p))
		fmt.Fprintf(&packs, "bad-%d,,bad-%d,2025-11-15,2,500 g,50 g,,,%s,3.00\n", i, i, quote(p))
	}
	grow(t, dir, ledger.FoodsFile, foods.String())
	grow(t, dir, ledger.ReceiptsFile, receipts.String())
	grow(t, dir, ledger.PacksFile, packs.String())
	tab, link := opened(t, dir)
	tab.Unguarded()
	paths := []string{"", "changes", "records/food", "record/food/20", "remove/food/20", "records/receipt?" + url.Values{"find": {payloads[0]}}.Encode(), "worth", "labels/bad-1", "nowhere"}
	for _, f := range recorded {
		paths = append(paths, f.path)
	}
	for _, p := range payloads {
		paths = append(paths, "worth?"+url.Values{"item": {p}, "price": {p}, "size": {p}}.Encode(), "take?"+url.Values{"things": {p}, "note": {p}}.Encode(), "saved/"+url.PathEscape(p))
	}
	for _, path := range paths {
		tab.Go(link + path)
		harmless(t, tab, link, path)
	}
	for _, p := range payloads {
		tab.Go(link + "take")
		fill(tab, "save", "things", "2 kg of no such "+p, "note", p)
		harmless(t, tab, link, "what is refused of "+p)
		fill(tab, "save", "things", "1 eggs", "note", p)
		says(t, tab, "Saved")
		harmless(t, tab, link, "what was saved of "+p)
	}
	tab.Go(link + "changes")
	harmless(t, tab, link, "the changes")
	tab.Go(link + "change/1")
	harmless(t, tab, link, "a change")
}

// grow adds lines to a file of the ledger, whose columns it asks to be those of the
// sample.
func grow(t *testing.T, dir, name, lines string) {
	t.Helper()
	path := filepath.Join(dir, name)
	data, err := os.ReadFile(path)
	if err == nil {
		err = os.WriteFile(path, append(data, lines...), 0o600)
	}
	if err != nil {
		t.Fatal(err)
	}
}

// harmless fails when words have become more than words.
func harmless(t *testing.T, tab *browser.Tab, link, what string) {
	t.Helper()
	var title string
	if tab.Eval("document.title", &title); title == "owned" {
		t.Errorf("%s: a script has run", what)
	}
	var strange []string
	tab.Eval(`[...document.querySelectorAll("img, iframe, object, embed, [onerror], [onload], [onfocus], [ontoggle], svg[onload], a[href^=javascript]"), ...[...document.querySelectorAll("script")].slice(1)].map(e => e.outerHTML.slice(0, 100))`, &strange)
	for _, s := range strange {
		t.Errorf("%s: words became markup: %s", what, s)
	}
	for _, address := range tab.Requests() {
		if !strings.HasPrefix(address, link) {
			t.Errorf("%s: the page asks for %s", what, address)
		}
	}
}
