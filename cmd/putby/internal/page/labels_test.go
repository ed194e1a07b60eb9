package page

import (
	"bytes"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"putby/cmd/putby/internal/browser"
	"putby/ledger"
	"putby/ledger/figures"
	"putby/ledger/folder"
	"putby/ledger/question"
	"putby/ledger/report"
	"putby/pricing/exact"
)

func sampleLabels(t testing.TB, packs ...string) report.Told[[]report.Label] {
	t.Helper()
	g, faults, err := folder.Load(sampleDir, ledger.Options{Through: exact.NoDate, PricesThrough: exact.NoDate})
	if err != nil || faults != nil {
		t.Fatal(err, faults)
	}
	d, err := report.Labels(g, figures.LabelQuery{Packs: packs})
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// longest puts the longest words that a size takes on every label.
func longest(d report.Told[[]report.Label], size string) report.Told[[]report.Label] {
	d.Figures = slices.Clone(d.Figures)
	for i := range d.Figures {
		r := &d.Figures[i]
		most := grids[size].most
		if i%2 == 1 {
			most = grids[size].easy
		}
		l := label{Caution: strings.Repeat("Bring it to the boil, sir. ", 40), Absorber: absorberInside(r.Absorbers, report.Show{})}
		for l.Caution != "" && (l.long() > most || i%2 == 1 && l.long()+56 > most) {
			l.Caution = l.Caution[:len(l.Caution)-1]
		}
		r.Food = &ledger.Food{ID: r.Food.ID, Name: "Wholemeal Wondermash of Mangolds " + strings.Repeat("and more ", 9)}
		r.Caution, r.Pack = l.Caution, "pack-of-the-7th-of-may"
	}
	return d
}

// TestLabelsFitInBrowser prints labels of every size on every paper, with
// ordinary and with the longest words, and holds them to their places.
func TestLabelsFitInBrowser(t *testing.T) {
	tab := browser.Start(t).Open(1000)
	for _, paper := range Papers() {
		for _, size := range Sizes() {
			for _, words := range []string{"usual", "longest"} {
				d := sampleLabels(t, "c39-a", "c28-a", "old-1", "c40-a")
				if words == "longest" {
					d = longest(d, size)
				}
				var b bytes.Buffer
				if err := WriteLabels(&b, d, LabelOptions{Paper: paper, Size: size, Skip: 1}); err != nil {
					t.Fatal(err)
				}
				file := filepath.Join(t.TempDir(), "labels.html")
				if err := os.WriteFile(file, b.Bytes(), 0o600); err != nil {
					t.Fatal(err)
				}
				tab.Go("file://" + file)
				var spills []string
				tab.Eval(`[...document.querySelectorAll(".label")].filter(e => e.scrollHeight > e.clientHeight + 1 || e.scrollWidth > e.clientWidth + 1).map(e => e.innerText)`, &spills)
				if len(spills) > 0 {
					t.Errorf("%s, %s, %s: %d labels spill: %q", paper, size, words, len(spills), spills[0])
				}
				if dir := os.Getenv("PICTURES"); dir != "" {
					tab.Print(filepath.Join(dir, "labels-"+paper+"-"+size+"-"+words+".pdf"))
				}
			}
		}
	}
	for _, said := range tab.Console() {
		t.Error(said)
	}
}

func TestLabelsRefuseWhatDoesNotFit(t *testing.T) {
	d := longest(sampleLabels(t, "c39-a"), "medium")
	for _, o := range []LabelOptions{
		{Paper: "a4", Size: "small"}, {Paper: "a4", Size: "huge"}, {Paper: "a3", Size: "large"},
		{Paper: "letter", Size: "large", Skip: 8}, {Paper: "letter", Size: "large", Skip: -1},
	} {
		var b bytes.Buffer
		err := WriteLabels(&b, d, o)
		if question.OptionOf(err).Field == "" || b.Len() > 0 {
			t.Errorf("%+v: %v, %d bytes", o, err, b.Len())
		}
	}
}
