package page

import (
	"regexp"
	"strings"
	"testing"
	"time"

	"putby/cmd/putby/internal/browser"
	"putby/ledger/figures"
	"putby/ledger/report"
	"putby/pricing/exact"
)

// alone has a page that is served hold its styles, as there is no server to ask.
func alone(page string) string {
	s := pageSheet(true)
	page = strings.Replace(page, `<link rel="stylesheet" href="`+s.Path+`">`, "<style>"+string(s.CSS)+"</style>", 1)
	return regexp.MustCompile(`<meta http-equiv="Content-Security-Policy"[^>]*>`).ReplaceAllString(page, "")
}

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
	file := fileOf(t, func(b *strings.Builder) error {
		var page strings.Builder
		err := p.Write(&page, nightOf(r).Add(12*time.Hour), Link{To: "/pack", Name: "Pack"})
		b.WriteString(alone(page.String()))
		return err
	})
	tab := browser.Start(t).Open(360)
	tab.Go("file://" + file)
	var seen string
	tab.Eval(`[...document.querySelectorAll(".today *")].filter(e => !e.children.length && e.getBoundingClientRect().bottom <= 640 && e.getBoundingClientRect().top >= 0).map(e => e.textContent).join(" | ")`, &seen)
	cost, err := figures.Cost(r.Ledger, figures.CostQuery{})
	if err != nil {
		t.Fatal(err)
	}
	show := tellerOf(r.Month.Doc)
	wants := []string{"November 2025 so far", "Pack", "earned back", "all of it in ~"}
	wants = append(wants, show.short(report.MoneyQuotient(r.Month.Figures.Rows[len(r.Month.Figures.Rows)-1].Saved)))
	said := map[string]int{}
	for i, runs := len(cost.Rows)-1, 0; runs < lastRunsMost; i-- {
		row := &cost.Rows[i]
		per, made := row.PerUnit().Get()
		if !made {
			continue
		}
		runs++
		verdict := "below"
		if row.Saving.Or(exact.Ratio{}).Sign() < 0 {
			verdict = "at a loss"
		}
		said[verdict]++
		wants = append(wants, r.Ledger.Foods[row.Food].Name, verdict, show.short(report.PriceOf(per, row.Unit)), "the shop "+show.short(report.PriceOf(row.Shelf.Or(per), row.Unit)))
	}
	if said["below"] == 0 || said["at a loss"] == 0 {
		t.Errorf("the sample's last runs are %v: both are to be seen", said)
	}
	for _, want := range wants {
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
