package page

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"putby/cmd/putby/internal/browser"
	"putby/ledger"
	"putby/ledger/figures"
	"putby/ledger/folder"
	"putby/ledger/question"
	"putby/pricing/exact"
)

// reportsOf reads a ledger and makes the reports of its page.
func reportsOf(t testing.TB, dir string) Reports {
	t.Helper()
	g, faults, err := folder.Load(dir, ledger.Options{Through: exact.NoDate, PricesThrough: exact.NoDate})
	if err != nil || faults != nil {
		t.Fatal(err, faults)
	}
	r, err := ReportsOf(g, g, figures.Query{})
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// fileReports are the reports of the file that putby page writes: with the card.
func fileReports(t testing.TB, dir string) Reports {
	t.Helper()
	r := reportsOf(t, dir)
	card, err := question.Card(r.Ledger, figures.CardQuery{AsOf: r.Ledger.AsOf})
	if err != nil {
		t.Fatal(err)
	}
	r.Card = &card
	return r
}

// nightOf is the first moment of the day of reports.
func nightOf(r Reports) time.Time { return r.Ledger.AsOf.Midnight(r.Ledger.Settings.Zone) }

const sampleDir = "../../../../testdata/sample"

// written is the page of a ledger as a file.
func written(t testing.TB, r Reports) string {
	t.Helper()
	return fileOf(t, func(b *strings.Builder) error { return Write(b, r, nightOf(r)) })
}

// fileOf is a file with what is written to it.
func fileOf(t testing.TB, write func(*strings.Builder) error) string {
	t.Helper()
	var b strings.Builder
	if err := write(&b); err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(t.TempDir(), "page.html")
	if err := os.WriteFile(file, []byte(b.String()), 0o600); err != nil {
		t.Fatal(err)
	}
	return file
}

// picture takes a picture for people to look at, where PICTURES names a folder.
func picture(t testing.TB, tab *browser.Tab, name string) {
	if dir := os.Getenv("PICTURES"); dir != "" {
		tab.Picture(filepath.Join(dir, name+".png"))
	}
}

// TestPageInBrowser opens the page of the sample ledger as people do: on a
// phone and on a desk, in the light and in the dark, and without colour.
func TestPageInBrowser(t *testing.T) {
	file := written(t, reportsOf(t, sampleDir))
	b := browser.Start(t)
	for _, look := range []struct {
		name   string
		width  int
		scheme string
	}{{"phone", 360, "light"}, {"desk", 1280, "light"}, {"phone-dark", 360, "dark"}, {"desk-dark", 1280, "dark"}} {
		tab := b.Open(look.width)
		tab.Prefer(look.scheme)
		tab.Go("file://" + file)
		checkQuiet(t, tab, "file://"+file)
		checkWidth(t, tab, look.width)
		checkNamed(t, tab)
		picture(t, tab, "page-"+look.name)
	}
	tab := b.Open(1280)
	tab.Prefer("light")
	tab.Grey()
	tab.Go("file://" + file)
	picture(t, tab, "page-grey")
}

// checkQuiet fails when the page asked for anything but itself, or the browser
// found fault with it.
func checkQuiet(t testing.TB, tab *browser.Tab, self string) {
	t.Helper()
	for _, url := range tab.Requests() {
		if url != self {
			t.Errorf("the page asks for %s", url)
		}
	}
	for _, said := range tab.Console() {
		t.Errorf("the browser says %s", said)
	}
}

// checkWidth fails when the page is wider than its window.
func checkWidth(t testing.TB, tab *browser.Tab, width int) {
	t.Helper()
	var wide int
	tab.Eval("document.documentElement.scrollWidth", &wide)
	if wide > width {
		var who string
		tab.Eval(`[...document.querySelectorAll("body *")].filter(e => e.getBoundingClientRect().right > innerWidth + 1 && !e.closest(".scroll")).map(e => e.tagName + "." + (e.className.baseVal ?? e.className)).slice(0, 5).join(" ")`, &who)
		t.Errorf("at %d pixels the page is %d wide: %s", width, wide, who)
	}
}

// checkNamed fails when something has no name for those who cannot see it: a chart
// without title or description, a table without caption, two equal identifiers.
func checkNamed(t testing.TB, tab *browser.Tab) {
	t.Helper()
	var wrong []string
	tab.Eval(`[
		...[...document.querySelectorAll("svg[role=img]")].filter(e => e.getAttribute("aria-labelledby").split(" ").some(id => !document.getElementById(id)?.textContent)).map(e => "a chart has no name: " + e.getAttribute("aria-labelledby")),
		...[...document.querySelectorAll("ul.bars")].filter(e => !document.getElementById(e.getAttribute("aria-labelledby"))?.textContent || !e.innerText.trim()).map(e => "bars have no name or no words: " + e.outerHTML.slice(0, 80)),
		...[...document.querySelectorAll("figure.chart:not(:has(ul.bars))")].filter(e => !e.querySelector("svg[role=img][aria-labelledby] > desc")).map(e => "a chart has no name or description: " + e.id),
		...[...document.querySelectorAll("table")].filter(e => !e.caption?.textContent).map(e => "a table has no caption: " + e.innerHTML.slice(0, 80)),
		...[...document.querySelectorAll("[id]")].filter((e, i, all) => all.findIndex(o => o.id === e.id) !== i).map(e => "an identifier is there twice: " + e.id),
		...[...document.querySelectorAll("h1, h2, h3, summary, a, [role=region]")].filter(e => !(e.textContent.trim() || e.getAttribute("aria-label"))).map(e => "it has no words: " + e.outerHTML.slice(0, 80)),
		...(document.querySelectorAll("h1").length === 1 ? [] : ["there is not one main heading"]),
		...(document.documentElement.lang ? [] : ["the page has no language"]),
	]`, &wrong)
	for _, w := range wrong {
		t.Error(w)
	}
}
