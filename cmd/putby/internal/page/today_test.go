package page

import (
	"strings"
	"testing"
	"time"

	"putby/cmd/putby/internal/browser"
)

// TestFirstScreen: on a small phone the first screen says, without scrolling, what
// the month came to, what comes next, what the last runs cost beside the shelf and
// what the machine has paid; with names, a button, and words where food is dried at
// a loss.
func TestFirstScreen(t *testing.T) {
	r := reportsOf(t, sampleDir)
	p, err := Make(r, true)
	if err != nil {
		t.Fatal(err)
	}
	file := fileOf(t, func(b *strings.Builder) error { return p.Write(b, nightOf(r).Add(12*time.Hour), Link{"/pack", "Pack"}) })
	tab := browser.Start(t).Open(360)
	tab.Go("file://" + file)
	var seen string
	tab.Eval(`[...document.querySelectorAll(".today *")].filter(e => !e.children.length && e.getBoundingClientRect().bottom <= 640 && e.getBoundingClientRect().top >= 0).map(e => e.textContent).join(" | ")`, &seen)
	for _, want := range []string{
		"November 2025 so far", "19.27", "61.22", // month of testdata/golden, month and today
		"Chicken broth", "Pack", "3.1450 per L", "the shop 3.9889", "21 % below",
		"Apple slices", "at a loss: 20 % above",
		"292.12 of 3433.76 earned back (9 %), all of it in ~February 2038",
	} {
		if !strings.Contains(seen, want) {
			t.Errorf("the first screen does not show %q: %s", want, seen)
		}
	}
	if strings.Contains(seen, "chicken-broth") {
		t.Error("the first screen calls a food by its identifier")
	}
	var colours []string
	tab.Eval(`[".today .loss", ".today .good"].map(s => getComputedStyle(document.querySelector(s)).color)`, &colours)
	if colours[0] == colours[1] {
		t.Error("a loss has the colour of a gain")
	}
	var height float64
	if tab.Eval(`document.querySelector(".next a.do").getBoundingClientRect().height`, &height); height < 24 {
		t.Errorf("the button is %v pixels high", height)
	}
	if strings.Contains(htmlOf(t, r), `class="do"`) {
		t.Error("a page that is a file has buttons that lead nowhere")
	}
}
