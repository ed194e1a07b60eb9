package render

import (
	"strings"

	"github.com/clipperhouse/displaywidth"
)

// width returns how many columns of a terminal s takes.
func width(s string) int { return displaywidth.String(s) }

// A pen is what lines, cuts and bars are drawn with.
type pen struct {
	rule, thin string // below headings, above totals
	cut        string // where a text goes on
	ascii      bool
}

func penOf(o Options) pen {
	if o.ASCII {
		return pen{rule: "=", thin: "-", cut: "~", ascii: true}
	}
	return pen{rule: "─", thin: "╌", cut: "…"}
}

// fit returns clean text in at most most columns, cut between characters as
// people see them.
func (p pen) fit(s string, most int) string {
	if width(s) <= most {
		return s
	}
	if most < 1 {
		return ""
	}
	return displaywidth.TruncateString(s, most, p.cut)
}

// pad returns s filled with spaces to w columns, on the left if right is true.
func pad(s string, w int, right bool) string {
	fill := strings.Repeat(" ", max(w-width(s), 0))
	if right {
		return fill + s
	}
	return s + fill
}

// wrap breaks clean text into lines of at most most columns, between words
// where it can; 0 is no limit. A number longer than a line stays whole.
func wrap(s string, most int) []string {
	words := strings.Fields(s)
	if len(words) == 0 {
		return []string{""}
	}
	if most <= 0 {
		return []string{strings.Join(words, " ")}
	}
	var lines []string
	line, used := "", 0 // the line so far, and its width
	for _, word := range words {
		for i, part := range breakWord(word, most) {
			w := width(part)
			switch {
			case line == "":
				line, used = part, w
			case i == 0 && used+1+w <= most:
				line, used = line+" "+part, used+1+w
			default:
				lines = append(lines, line)
				line, used = part, w
			}
		}
	}
	return append(lines, line)
}

// breakWord cuts a word that is longer than a line, between characters as
// people see them.
func breakWord(word string, most int) (parts []string) {
	if len(word) <= most || width(word) <= most || isFigure(word) {
		return []string{word}
	}
	from, at, used := 0, 0, 0
	for g := displaywidth.StringGraphemes(word); g.Next(); at += len(g.Value()) {
		if w := g.Width(); used+w > most && at > from {
			parts, from, used = append(parts, word[from:at]), at, w
		} else {
			used += w
		}
	}
	return append(parts, word[from:])
}

// isFigure reports whether a word is made of what numbers, dates and times
// are made of.
func isFigure(word string) bool { return strings.Trim(word, "0123456789.,:;-~/%") == "" }

// hang wraps s behind a lead on the first line, and under it on the others.
func hang(lead, s string, most int) []string {
	room := 0
	if most > 0 {
		room = max(most-width(lead), 1)
	}
	lines := wrap(s, room)
	under := strings.Repeat(" ", width(lead))
	for i := range lines {
		if i == 0 {
			lines[i] = lead + lines[i]
		} else {
			lines[i] = under + lines[i]
		}
	}
	return lines
}
