package serve

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"putby/cmd/putby/internal/browser"
	"putby/ledger"
)

// picture takes a picture for people to look at, where PICTURES names a folder.
func picture(tab *browser.Tab, name string) {
	if dir := os.Getenv("PICTURES"); dir != "" {
		tab.Picture(filepath.Join(dir, name+".png"))
	}
}

// fill fills in fields of the form that is shown, and presses a button.
func fill(tab *browser.Tab, button string, fields ...string) {
	for i := 0; i < len(fields); i += 2 {
		tab.Eval(fmt.Sprintf(`document.querySelector('[name=%q]').value = %q`, fields[i], fields[i+1]), nil)
	}
	tab.Follow(fmt.Sprintf(`document.querySelector('button[value=%s]').click()`, button))
}

func says(t *testing.T, tab *browser.Tab, want string) {
	t.Helper()
	var text string
	if tab.Eval("document.body.innerText", &text); !strings.Contains(text, want) {
		t.Errorf("the page does not say %q: %.900s", want, text)
	}
}

func narrow(t *testing.T, tab *browser.Tab) {
	t.Helper()
	var wide int
	if tab.Eval("document.documentElement.scrollWidth", &wide); wide > 360 {
		t.Errorf("the page is %d pixels wide on a phone", wide)
	}
}

// TestKitchenInBrowser goes a whole round with a phone: a receipt, a run as it
// begins and ends, its packs, something taken out, and a sale weighed up.
func TestKitchenInBrowser(t *testing.T) {
	b := browser.Start(t)
	dir := sample(t)
	link, out := start(t, dir, "127.0.0.1:0")
	tab := b.Open(360)
	tab.Prefer("light")
	tab.Go(invitation(t, out))
	tab.Go(link)
	narrow(t, tab)
	picture(tab, "serve-home")

	tab.Go(link + "receipt")
	narrow(t, tab)
	fill(tab, "more", "shop", "Thimble & Sons", "item-1", "apples", "size-1", "1 kg")
	says(t, tab, "Line 8")
	fill(tab, "look", "date", "2025-11-14", "count-1", "6", "price-1", "2.00", "offer-1", "2 for 3.00", "total", "9.00")
	says(t, tab, "Apple slices, 6 x 1 kg at 2.00, 2 for 3.00")
	picture(tab, "serve-receipt")
	if strings.Contains(content(t, dir)[filepath.Join(dir, ledger.ReceiptsFile)], "Thimble") {
		t.Error("a look has saved")
	}
	fill(tab, "save")
	says(t, tab, "change 1 of the ledger")

	tab.Go(link + "start")
	narrow(t, tab)
	picture(tab, "serve-start")
	fill(tab, "save", "loads", "5 kg apples", "at", "yesterday 10:15", "run", "k1")
	says(t, tab, "Run k1 is running since Sat 2025-11-15 at 10:15")
	picture(tab, "serve-started")

	tab.Go(link)
	tab.Follow(`document.querySelector("nav a").click()`)
	says(t, tab, "Finish a run")
	narrow(t, tab)
	picture(tab, "serve-finish")
	fill(tab, "save", "kwh", "15.2", "dry", "0.75 kg")
	says(t, tab, "change 3 of")
	picture(tab, "serve-finished")

	tab.Go(link + "pack")
	narrow(t, tab)
	fill(tab, "look", "packs", "5 x 1 kg dry 150 g", "with", "1 jar-1l, 1 lid, 1 absorber-300")
	picture(tab, "serve-pack")
	says(t, tab, "absorber")
	narrow(t, tab)
	fill(tab, "save")
	says(t, tab, "change 4 of")
	says(t, tab, "Add 850 g water")
	tab.Follow(`document.querySelector("a[href^='/labels/']").click()`)
	says(t, tab, "Add 850 g water")
	picture(tab, "serve-labels")

	tab.Go(link + "take")
	narrow(t, tab)
	picture(tab, "serve-take")
	fill(tab, "save", "food", "beaten-egg", "quantity", "3", "date", "2025-11-16")
	says(t, tab, "2 containers of 1 L Beaten egg from pack c27-a")
	says(t, tab, "never taste it raw")
	picture(tab, "serve-saved")

	tab.Go(link + "worth")
	narrow(t, tab)
	fill(tab, "ask", "item", "blueberries", "price", "9.99", "size", "500 g", "limit", "12")
	narrow(t, tab)
	says(t, tab, "Buy none.")
	picture(tab, "serve-worth")
	fill(tab, "ask", "price", "cheap")
	says(t, tab, "price")
	picture(tab, "serve-trouble")

	tab.Go(link)
	var has bool
	if tab.Eval(`document.body.textContent.includes("k1-a")`, &has); !has {
		t.Error("the page does not show what was recorded")
	}
	for _, url := range tab.Requests() {
		if !strings.HasPrefix(url, link) {
			t.Errorf("the pages ask for %s", url)
		}
	}
	for _, said := range tab.Console() {
		if !strings.Contains(said, "422") { // what cannot be done is said by a status too
			t.Errorf("the browser says %s", said)
		}
	}
	if strings.Contains(out.String(), "putby serve:") {
		t.Errorf("the server says %s", out)
	}
}

// TestStrangersInBrowser lets a page of another origin try, and a phone in by
// its link.
func TestStrangersInBrowser(t *testing.T) {
	b := browser.Start(t)
	dir := sample(t)
	link, out := start(t, dir, "127.0.0.1:0")
	evil := filepath.Join(t.TempDir(), "evil.html")
	form := `<!doctype html><meta charset="utf-8"><form action="` + link + `take" method="post">
<input name="do" value="save"><input name="food" value="chicken-broth"><input name="quantity" value="1"><input name="date" value="2025-11-16"></form>
<iframe src="` + link + `"></iframe>`
	if err := os.WriteFile(evil, []byte(form), 0o600); err != nil {
		t.Fatal(err)
	}
	before := content(t, dir)
	tab := b.Open(800)
	tab.Go(invitation(t, out))
	tab.Go(link) // where the invitation leads by itself, at some moment
	tab.Go("file://" + evil)
	var frame string
	if tab.Eval(`(() => { try { return document.querySelector("iframe").contentDocument ? "open" : "shut" } catch { return "shut" } })()`, &frame); frame != "shut" {
		t.Error("another page may frame the larder")
	}
	tab.Follow(`document.querySelector("form").submit()`)
	says(t, tab, "That came from somewhere else")
	if !equal(before, content(t, dir)) {
		t.Error("another site has recorded something")
	}

	shared := serveAt(t, sample(t), "0.0.0.0:0")
	phone := b.Open(360)
	phone.Go(strings.Split(invitation(t, shared), "?")[0])
	says(t, phone, "This device is not let in")
	phone.Go(invitation(t, shared))
	phone.Go(strings.Split(invitation(t, shared), "?")[0])
	says(t, phone, "In the larder")
	phone.Follow(`document.querySelector("nav a").click()`)
	says(t, phone, "Start a run")
}

// A form that is sent as a browser shows it changes nothing: a list to choose from shows
// what a blank cell means, and sending that leaves the cell blank.
func TestUnchangedInBrowser(t *testing.T) {
	dir := sample(t)
	grow(t, dir, ledger.ShelfFile, "2025-11-15,Oat Quay,carrots,6 kg,12.00,,,,\n")
	settings := filepath.Join(dir, ledger.SettingsFile)
	if err := os.WriteFile(settings, []byte("setting,value\nformat,1\ncurrency,CAD\nzone,America/Halifax\ntariff,harbour\nas_of,2025-11-16\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	tab, link := opened(t, dir)
	before := content(t, dir)
	tab.Go(link + "settings")
	fill(tab, "save")
	says(t, tab, "nothing of it differs from what is recorded")
	for _, k := range ledger.Kinds() {
		tab.Go(link + "records/" + k.Name)
		tab.Follow(`document.querySelector(".list a[href^='/record/']").click()`)
		fill(tab, "save")
		says(t, tab, "nothing of it differs from what is recorded")
	}
	if !equal(before, content(t, dir)) {
		t.Error("something was saved")
	}
	tab.Go(link + "settings")
	fill(tab, "save", "setting-hour_value", "12")
	says(t, tab, "Setting worth of an hour of work: 12")
	if text := content(t, dir)[settings]; strings.Contains(text, "mL") || strings.Count(text, "\n") != 7 {
		t.Errorf("the settings are %s", text)
	}
}
