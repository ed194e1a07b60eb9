package page

import (
	"html/template"
	"strings"
	"unicode"
	"unicode/utf8"

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

// newVerdict reads the report.
func newVerdict(d report.Doc) (*verdict, error) {
	money := func(key string) string { return value(d, key).Shown(d.Currency, d.Show) }
	v := &verdict{Class: "no", Buy: "Buy none.", Words: d.Words}
	below := ""
	if !value(d, "break_even_price").IsNull() {
		below = "Worth it below " + money("break_even_price") + " a package."
	}
	if n := value(d, "buy"); !n.IsNull() && n.Ratio().Sign() > 0 {
		v.Class, v.Buy = "yes", "Buy "+n.Shown(d.Currency, d.Show)+"."
		v.Gains = strings.TrimSpace("Saves " + money("saving") + ". " + below)
	} else {
		v.Gains = below
		if len(d.Words) > 0 {
			v.Why, v.Words = reason(render.Clean(d.Words[0])), d.Words[1:]
		}
	}
	for _, note := range d.Notes {
		if note = render.Clean(note); strings.HasPrefix(note, "Caution") {
			v.Cautions = append(v.Cautions, note)
		} else {
			v.Notes = append(v.Notes, note)
		}
	}
	var err error
	v.Figures, err = fragment(d)
	return v, err
}

// reason is why not, without the answer before it that stands there already.
func reason(sentence string) string {
	why, after := strings.CutPrefix(sentence, "Buy none: ")
	if !after || why == "" {
		return sentence
	}
	first, size := utf8.DecodeRuneInString(why)
	return string(unicode.ToUpper(first)) + why[size:]
}
