package render

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// Clean returns s on one line and without what a terminal would act on, or a page not
// show: control characters (so that no escape sequence is left), bidirectional
// overrides and other format characters. Zero-width joiners stay, since emoji
// and some scripts are made with them. Space is a single space, so that no name
// looks like two columns. Bytes that are not UTF-8 become U+FFFD.
func Clean(s string) string {
	if !suspect(s) {
		return s
	}
	s = strings.Map(cleanRune, strings.ToValidUTF8(s, "\uFFFD"))
	words := breakable(s)
	for i, word := range words {
		if r, _ := utf8.DecodeRuneInString(word); joins(r) {
			words[i] = "\u25CC" + word // a mark needs something to stand on, not the space before
		}
	}
	return strings.Join(words, " ")
}

// suspect reports whether s is anything but printable ASCII with single
// spaces inside.
func suspect(s string) bool {
	space := true
	for i := 0; i < len(s); i++ {
		if s[i] < ' ' || s[i] > '~' || s[i] == ' ' && space {
			return true
		}
		space = s[i] == ' '
	}
	return space && s != ""
}

func cleanRune(r rune) rune {
	switch {
	case unicode.IsSpace(r) && unicode.IsControl(r), r == '\u2028', r == '\u2029':
		return ' '
	case r == joiner || r == nonJoiner:
		return r
	case unicode.IsControl(r), unicode.Is(unicode.Cf, r):
		return -1
	}
	return r
}

const (
	nonJoiner = '\u200C'
	joiner    = '\u200D'
)

// joins reports whether r attaches to the character before it.
func joins(r rune) bool { return unicode.Is(unicode.M, r) || r == joiner || r == nonJoiner }
