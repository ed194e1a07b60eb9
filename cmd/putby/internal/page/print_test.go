package page

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"putby/cmd/putby/internal/browser"
)

// papers are the sizes of ISO 216 and of US Letter, in millimetres.
var papers = map[string][2]float64{"a4": {210, 297}, "letter": {215.9, 279.4}}

// TestPrints: the sample's page fits four sheets of either paper, and a table has
// its sums once, at its end.
func TestPrints(t *testing.T) {
	file := written(t, fileReports(t, sampleDir))
	tab := browser.Start(t).Open(1280)
	tab.Prefer("dark") // paper stays white all the same
	tab.Go("file://" + file)
	for name, size := range papers {
		out := filepath.Join(t.TempDir(), name+".pdf")
		if dir := os.Getenv("PICTURES"); dir != "" {
			out = filepath.Join(dir, name+".pdf")
		}
		tab.PrintOn(out, size[0], size[1])
		pdf, err := os.ReadFile(out)
		if err != nil {
			t.Fatal(err)
		}
		if n := len(regexp.MustCompile(`/Type\s*/Page\b`).FindAll(pdf, -1)); n == 0 || n > 4 {
			t.Errorf("on %s it is %d sheets", name, n)
		}
	}
	var sums string
	tab.Eval(`[...document.styleSheets[0].cssRules].filter(r => r.media?.mediaText === "print").flatMap(r => [...r.cssRules]).filter(r => r.selectorText === "tfoot").map(r => r.style.display).join()`, &sums)
	if sums != "table-row-group" { // a group of footer rows would stand below every sheet
		t.Errorf("sums are printed as %q", sums)
	}
}

// TestAllDigits: one touch shows every figure of the account, of the first screen and
// of the machine's sums with all its digits, and a phone is wide enough for them.
func TestAllDigits(t *testing.T) {
	r := fileReports(t, sampleDir)
	tab := browser.Start(t).Open(360)
	tab.Go("file://" + written(t, r))
	for part, within := range map[string]string{".account": ".today, .account", "#payback > .sums": "#payback > .sums"} {
		var before, hidden []string
		rounded := `[...document.querySelectorAll("` + within + `")].flatMap(e => [...e.querySelectorAll("[title]")])`
		tab.Eval(rounded+`.filter(e => getComputedStyle(e).fontSize !== "0px").map(e => e.title)`, &before)
		if len(before) < 6 {
			t.Errorf("%s has %d figures", part, len(before))
		}
		tab.Eval(`(document.querySelector("`+part+` .digits input").click(), `+rounded+`.filter(e => getComputedStyle(e).fontSize !== "0px" || getComputedStyle(e, "::after").content === "none").map(e => e.title))`, &hidden)
		for _, figure := range hidden {
			t.Errorf("%s: %s is not shown", part, figure)
		}
	}
	checkWidth(t, tab, 360)
	picture(t, tab, "page-digits")
}

// TestPageIsSmall keeps the sample's page, its typeface apart, to what a slow phone
// bears.
func TestPageIsSmall(t *testing.T) {
	page := htmlOf(t, fileReports(t, sampleDir))
	rest := regexp.MustCompile(`url\(data:[^)]*\)`).ReplaceAllString(page, "")
	if !strings.Contains(rest, `id="shop"`) {
		t.Error("the page is without the card")
	}
	if len(rest) > 150e3 {
		t.Errorf("the page has %d bytes besides its typeface", len(rest))
	}
}
