package render

import (
	"strings"
	"unicode"

	"github.com/clipperhouse/displaywidth"
)

// Width returns how many columns of a terminal s takes.
func Width(s string) int { return displaywidth.String(s) }

// Fit returns s clean and in at most most columns of text, cut with an
// ellipsis between characters as people see them.
func Fit(s string, most int) string { return penOf(Options{}).fit(Clean(s), most) }

// Fill sets words in lines of at most most columns, of which the first begins with
// first and the others with rest. Each line that goes on ends in mark. A word that is
// longer than a line stays whole: it may be what is to be pasted.
func Fill(words []string, first, rest, mark string, most int) []string {
	var list []string
	at := first
	for i, word := range words {
		if i > 0 && Width(at)+1+Width(word)+len(mark) > most && strings.TrimSpace(at) != "" {
			list = append(list, at+mark)
			at = rest + word
			continue
		}
		if i > 0 {
			at += " "
		}
		at += word
	}
	return append(list, at)
}

// A pen is what lines, cuts and bars are drawn with.
type pen struct {
	rule, thin string // below headings, above totals
	cut        string // where a text goes on
	full, zero string // a full column of a bar, and the line from which bars go both ways
	ascii      bool
}

func penOf(o Options) pen {
	if o.ASCII {
		return pen{rule: "=", thin: "-", cut: "~", full: "#", zero: "|", ascii: true}
	}
	return pen{rule: "─", thin: "╌", cut: "…", full: "█", zero: "│"}
}

// fit returns clean text in at most most columns, cut between characters as
// people see them.
func (p pen) fit(s string, most int) string {
	if Width(s) <= most {
		return s
	}
	if most < 1 {
		return ""
	}
	return displaywidth.TruncateString(s, most, p.cut)
}

// pad returns s filled with spaces to w columns, on the left if right is true.
func pad(s string, w int, right bool) string {
	fill := strings.Repeat(" ", max(w-Width(s), 0))
	if right {
		return fill + s
	}
	return s + fill
}

// wrap breaks clean text into lines of at most most columns, between words
// where it can; 0 is no limit. A number longer than a line stays whole.
func wrap(s string, most int) []string {
	words := breakable(s)
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
			w := Width(part)
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

// breakable returns the words between which a text may be broken: not at a
// no-break space of a figure, such as 1 234,50 €.
func breakable(s string) []string {
	if !strings.ContainsAny(s, nbsp+narrow) {
		return strings.Fields(s)
	}
	var words []string
	runes, from := []rune(s), 0
	for i, r := range runes {
		if unicode.IsSpace(r) && !holds(runes, i) {
			if i > from {
				words = append(words, string(runes[from:i]))
			}
			from = i + 1
		}
	}
	if from < len(runes) {
		words = append(words, string(runes[from:]))
	}
	return words
}

const (
	nbsp   = "\u00a0"
	narrow = "\u202f"
)

// holds reports whether the space at i is a no-break space beside a digit, and
// between two characters that are none.
func holds(runes []rune, i int) bool {
	if !strings.ContainsRune(nbsp+narrow, runes[i]) || i == 0 || i == len(runes)-1 {
		return false
	}
	before, after := runes[i-1], runes[i+1]
	return !unicode.IsSpace(before) && !unicode.IsSpace(after) && (isDigit(before) || isDigit(after))
}

func isDigit(r rune) bool { return r >= '0' && r <= '9' }

// breakWord cuts a word that is longer than a line, between characters as
// people see them.
func breakWord(word string, most int) (parts []string) {
	if len(word) <= most || Width(word) <= most || isFigure(word) {
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

// isFigure reports whether a word is made of what numbers, money, dates and times
// are made of.
func isFigure(word string) bool {
	return strings.Trim(word, "0123456789.,:;-~/%") == "" || strings.ContainsAny(word, nbsp+narrow)
}

// put sets the lines of a cell in its column of a row, which is at least one line of
// cells, and grows the row where it has fewer.
func put(row [][]string, column int, lines ...string) [][]string {
	for n, line := range lines {
		if n == len(row) {
			row = append(row, make([]string, len(row[0])))
		}
		row[n][column] = line
	}
	return row
}

// hang wraps s behind a lead on the first line, and under it on the others.
func hang(lead, s string, most int) []string {
	room := 0
	if most > 0 {
		room = max(most-Width(lead), 1)
	}
	lines := wrap(s, room)
	under := strings.Repeat(" ", Width(lead))
	for i := range lines {
		if i == 0 {
			lines[i] = lead + lines[i]
		} else {
			lines[i] = under + lines[i]
		}
	}
	return lines
}
