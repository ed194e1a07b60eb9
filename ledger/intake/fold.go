package intake

import (
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"

	"putby/ledger"
)

// plainLine reports whether a text is one line of printing ASCII whose words are
// parted by single spaces, as most are.
func plainLine(s string) bool {
	for i := range len(s) {
		if s[i] < ' ' || s[i] > '~' || s[i] == ' ' && (i == 0 || i == len(s)-1 || s[i-1] == ' ') {
			return false
		}
	}
	return true
}

// oneLine makes a foreign text fit a cell that people read: controls and
// blanks become single spaces.
func oneLine(s string) string {
	if plainLine(s) {
		return s
	}
	clean := strings.Map(func(r rune) rune {
		switch {
		case unicode.IsSpace(r), unicode.Is(unicode.Cc, r):
			return ' '
		case unicode.Is(unicode.Cf, r): // marks of direction and the like
			return -1
		}
		return r
	}, s)
	return strings.Join(strings.Fields(clean), " ")
}

// clean is oneLine, and not too long, for messages.
func clean(s string) string {
	s = oneLine(s)
	if r := []rune(s); len(r) > 400 {
		return string(r[:400]) + "…"
	}
	return s
}

// slug writes a text as an identifier: lower case, '-' for what identifiers do
// not have. It may be empty.
func slug(s string) string {
	return strings.Trim(identifier(ledger.Fold(s)), "-")
}

// identifier replaces what identifiers do not have by '-', letters with marks
// by those without, and cuts it to their length.
func identifier(s string) string {
	var b strings.Builder
	for _, r := range norm.NFKD.String(s) {
		if b.Len() == maxID {
			break
		}
		if unicode.Is(unicode.Mn, r) {
			continue
		}
		if r < 0x80 && (unicode.IsLetter(r) || unicode.IsDigit(r) || r == '_' || r == '.' || r == '-') {
			b.WriteRune(r)
		} else if b.Len() > 0 && !strings.HasSuffix(b.String(), "-") {
			b.WriteByte('-')
		}
	}
	return b.String()
}

// maxID is how long an identifier may be.
const maxID = 64
