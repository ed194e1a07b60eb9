package intake

import (
	"fmt"
	"slices"
	"strings"
)

// A separator is what stands between two cells, and its word.
type separator struct {
	sep  byte
	word string
}

// separators are those that are looked for, in the order in which they are
// taken where a text fits several, with the words that a map may use.
var separators = []separator{{',', "comma"}, {';', "semicolon"}, {'\t', "tab"}, {'|', "bar"}}

// SeparatorWords are the words of the separators.
func SeparatorWords() (list []string) {
	for _, s := range separators {
		list = append(list, s.word)
	}
	return list
}

// ParseSeparator reads a separator as a map writes it: the character itself,
// or comma, semicolon, tab or bar. Nothing means that it is to be found.
func ParseSeparator(s string) (byte, error) {
	if s == "" {
		return 0, nil
	}
	for _, known := range separators {
		if s == string(known.sep) || strings.EqualFold(s, known.word) {
			return known.sep, nil
		}
	}
	return 0, fmt.Errorf("%q is no separator; write comma, semicolon, tab or bar", s)
}

// separatorWord returns a separator as a map writes it, or nothing for none.
func separatorWord(sep byte) string {
	for _, known := range separators {
		if known.sep == sep {
			return known.word
		}
	}
	return ""
}

// settle finds the separator, unless it is given: as a first line names it, or
// by the rows.
func (s *scanner) settle() {
	s.skipSeparatorLine()
	if s.sep == 0 {
		s.sep = sniffSeparator(s.text[s.at:])
	}
}

// settleByHeader is settle for a text that begins with its header: what parts
// that, a comma last, since there are decimal commas and units such as (W, mean).
func (s *scanner) settleByHeader() {
	s.skipSeparatorLine()
	for _, sep := range []byte(";\t|,") {
		if head := newScanner(s.text[s.at:], sep); s.sep == 0 && head.next() && head.why == "" && len(head.cells) > 1 {
			s.sep = sep
		}
	}
	if s.sep == 0 {
		s.sep = ','
	}
}

// skipSeparatorLine passes over a first line "sep=;", by which spreadsheets
// tell each other the separator.
func (s *scanner) skipSeparatorLine() {
	rest, ok := strings.CutPrefix(s.text, "sep=")
	if !ok || len(rest) < 2 {
		return
	}
	size := s.lineEnd(len("sep=") + 1)
	if separatorWord(rest[0]) == "" || size == 0 {
		return
	}
	if s.sep == 0 {
		s.sep = rest[0]
	}
	s.at, s.line = len("sep=")+1+size, 2
}

// sniffRows is how many records are looked at to find the separator.
const sniffRows = 100

// sniffSeparator finds the separator under which the first records have one
// number of cells, the larger the better. Titles above the header do not
// mislead it, nor do decimal commas: under the wrong separator the header,
// which has none, differs from the rows.
func sniffSeparator(text string) byte {
	best, bestScore := byte(','), 0
	for _, known := range separators {
		if score := separatorScore(text, known.sep); score > bestScore {
			best, bestScore = known.sep, score
		}
	}
	return best
}

// separatorScore counts the separators in the records of the likeliest width,
// threefold if the first of them looks like a header.
func separatorScore(text string, sep byte) int {
	count, first := map[int]int{}, map[int][]string{}
	s := newScanner(text, sep)
	for seen := 0; seen < sniffRows && s.next(); seen++ {
		width := len(s.cells)
		if s.why != "" || width < 2 {
			continue
		}
		if count[width]++; count[width] == 1 {
			first[width] = slices.Clone(s.cells)
		}
	}
	best := 0
	for width, n := range count {
		if looksLikeHeader(first[width]) {
			n *= 3
		}
		best = max(best, n*(width-1))
	}
	return best
}

// looksLikeHeader reports whether no cell is a number and most have text.
func looksLikeHeader(cells []string) bool {
	words := 0
	for _, c := range cells {
		c = strings.TrimSpace(c)
		if c != "" && strings.Trim(c, "0123456789.,-+ ") == "" {
			return false
		}
		if c != "" {
			words++
		}
	}
	return words > 1 && 2*words >= len(cells)
}
