package page

import (
	"html/template"
	"strings"

	"putby/cmd/putby/internal/render"
	"putby/ledger/report"
)

// A verdict is the answer of worth: what to do in a word, and all else folded.
type verdict struct {
	Class    string // "yes" or "no"
	Buy      string
	Gains    string   // what it saves, and up to which price
	Why      string   // of a no
	Words    []string // the answer in whole sentences
	Cautions []string
	Figures  template.HTML
	Notes    []string
}

func newVerdict(told report.Told[report.Verdict]) (*verdict, error) {
	d, answer := told.Doc, told.Figures
	v := &verdict{Class: "no", Buy: "Buy none.", Words: d.Words, Why: render.Clean(answer.Why)}
	if !answer.BreakEven.IsNull() {
		v.Gains = "Worth it below " + answer.BreakEven.Shown(d.Currency, d.Show) + " a package."
	}
	if answer.Packages > 0 {
		v.Class, v.Buy = "yes", "Buy "+report.CountOf(answer.Packages).Shown(d.Currency, d.Show)+"."
		v.Gains = strings.TrimSpace("Saves " + answer.Saving.Shown(d.Currency, d.Show) + ". " + v.Gains)
	} else {
		v.Words = d.Words[1:] // the first says no, as Buy and Why do
	}
	for _, note := range d.Notes {
		v.Notes = append(v.Notes, render.Clean(note))
	}
	for _, c := range d.Cautions {
		to := &v.Notes
		if c.Caution {
			to = &v.Cautions
		}
		*to = append(*to, render.Clean(c.String()))
	}
	var err error
	v.Figures, err = fragment(d)
	return v, err
}
