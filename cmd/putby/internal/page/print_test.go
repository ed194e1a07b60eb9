package page

import (
	"os"
	"path/filepath"
	"regexp"
	"testing"

	"putby/cmd/putby/internal/browser"
)

// papers are the sizes of ISO 216 and of US Letter, in millimetres.
var papers = map[string][2]float64{"a4": {210, 297}, "letter": {215.9, 279.4}}

// TestPrints: the sample's page fits four sheets of either paper, and a table has
// its sums once, at its end.
func TestPrints(t *testing.T) {
	file := written(t, reportsOf(t, sampleDir))
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

// TestPageIsSmall keeps the sample's page, its typeface apart, to what a slow phone
// bears.
func TestPageIsSmall(t *testing.T) {
	page := htmlOf(t, reportsOf(t, sampleDir))
	rest := regexp.MustCompile(`url\(data:[^)]*\)`).ReplaceAllString(page, "")
	if len(rest) > 160e3 {
		t.Errorf("the page has %d bytes besides its typeface", len(rest))
	}
}
