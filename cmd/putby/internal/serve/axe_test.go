package serve

import (
	"net/url"
	"strings"
	"testing"

	"putby/cmd/putby/internal/browser"
	"putby/ledger/ledgertest"
)

// refused are forms with something wrong in several fields at once.
var refused = map[string]string{
	"start":     "loads=2.5+turnips%0A500+kg+apples&at=teatime&tariff=none",
	"finish":    "run=c99&kwh=much",
	"more":      "more=",
	"pack":      "packs=chicken-broth+2.5+x+1+L%0Aturnips+2+x+1+kg&date=2036-01-01&place=x",
	"take":      "things=2+turnips%0A500+chicken-broth&date=2036-01-01&quantity=-1",
	"freeze":    "things=500+kg+onions&date=soon",
	"receipt":   "shop=&said=2+kg+carrots%0Afood+turnips+2+kg+1.00&date=2036-01-01",
	"price":     "shop=&item=turnips&size=heap&price=cheap",
	"batch":     "item=turnips&quantity=&from=2+kg+turnips",
	"stocktake": "count-pack-c46-b=-1&count-pack-c39-b=700",
	"food":      "name=&water=130&fresh_days=soon",
	"supplies":  "supply=&price=much&date=2036-01-01",
	"import":    "target=receipts&file=Datum%3BBetrag%0A2025-11-31%3Bx&values=shop&names=x",
	"meter":     "run=c99&log=time,W%0Asoon,12x&max-gap=soon",
	"hours":     "prices=time,CAD/MWh%0A2036-01-01,x&tariff=a+b&zone=Mars&rate=much",
	"settings":  "setting-zone=Nowhere&setting-hour_value=much",
	"run":       "start=teatime&machine=shed&load-1-item=turnips&load-1-quantity=5",
}

// TestPagesForEverybody checks every page, form and answer by axe-core, narrow and
// wide, light and dark.
func TestPagesForEverybody(t *testing.T) {
	if ledgertest.Small() {
		t.Skip("it is the browser that works, page by page")
	}
	axe := browser.Axe(t)
	dir := sample(t)
	link, out := start(t, dir, "127.0.0.1:0")
	saves(t, link, "take", []string{"food", "chicken-broth", "quantity", "1"})
	saves(t, link, "pack", []string{"packs", "chicken-broth 6 x 1 L dry 82 g"})
	saves(t, link, "take", []string{"food", "chicken-broth", "quantity", "2", "note", "to be undone"})
	_, text := ask(t, "GET", link+"changes", "")
	post(t, link, "undo", url.Values{"once": {onceIn(t, text)}, "number": {"3"}})

	b := browser.Start(t)
	tab := b.Open(360)
	tab.Go(link)
	checkEverybody(t, tab, axe, "not let in")
	tab.Go(invitation(t, out))
	checkEverybody(t, tab, axe, "let in")
	for _, path := range []string{"", "changes", "change/1", "change/2", "records", "records/holiday", "record/draw/2", "remove/draw/2", "add/tariff", "labels/c47-a", "worth", "nowhere", "saved/NOTHING",
		"worth?item=blueberries&price=3.49&size=500+g&limit=12", "worth?item=blueberries&price=cheap&size=500+g"} {
		tab.Go(link + path)
		checkEverybody(t, tab, axe, "/"+path)
	}
	for _, f := range recorded {
		tab.Go(link + f.path)
		checkEverybody(t, tab, axe, "/"+f.path)
		values, err := url.ParseQuery(refused[f.path])
		if err != nil {
			t.Fatal(err)
		}
		openAgain(t, tab, link, f.path, values, "save")
		checkEverybody(t, tab, axe, "/"+f.path+" refused")
	}
	for path, fields := range map[string]url.Values{
		"pack": {"packs": {"chicken-broth 2 x 1 L dry 318.5 g"}, "run": {"c47"}},
		"take": {"things": {"2 apples"}},
		"food": {"name": {"Trout"}, "do": {"find"}},
	} {
		openAgain(t, tab, link, path, fields, "look")
		checkEverybody(t, tab, axe, "/"+path+" looked at")
	}
	fields := url.Values{"packs": {"chicken-broth 2 x 1 L dry 82 g"}, "run": {"c47"}}
	openAgain(t, tab, link, "pack", fields, "save")
	checkEverybody(t, tab, axe, "packs that were saved")
}

// openAgain sends a form, and opens the page that it leads to.
func openAgain(t *testing.T, tab *browser.Tab, link, path string, values url.Values, do string) {
	t.Helper()
	_, text := ask(t, "GET", link+path, "")
	values.Set("once", onceIn(t, text))
	if values.Get("do") == "" || values.Get("do") != "find" {
		values.Set("do", do)
	}
	answer, _ := ask(t, "POST", link+path, values.Encode(), "Origin", originOf(link))
	to := answer.Header.Get("Location")
	if to == "" {
		t.Fatalf("/%s leads nowhere: %s", path, answer.Status)
	}
	tab.Go(strings.TrimSuffix(link, "/") + to)
}

// checkEverybody checks the page that is open in every width and scheme. What is
// light or dark concerns contrast alone.
func checkEverybody(t *testing.T, tab *browser.Tab, axe, what string) {
	t.Helper()
	for _, width := range []int{360, 1280} {
		tab.Resize(width)
		for scheme, rules := range map[string][]string{"light": nil, "dark": {"color-contrast"}} {
			tab.Prefer(scheme)
			for _, v := range tab.Violations(axe, rules...) {
				t.Errorf("%s, %d pixels, %s: %s", what, width, scheme, v)
			}
		}
	}
}
