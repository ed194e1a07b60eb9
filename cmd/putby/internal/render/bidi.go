package render

import (
	"strings"
	"unicode"
)

// isolate keeps a text of right-to-left letters from reordering the numbers
// beside it, by a left-to-right mark on each side.
func isolate(s string) string {
	const mark = "\u200E"
	if strings.ContainsFunc(s, rightToLeft) {
		return mark + s + mark
	}
	return s
}

// rightToLeft reports whether r is a letter of a script that runs from right to
// left.
func rightToLeft(r rune) bool {
	return r > unicode.MaxLatin1 && unicode.In(r, unicode.Hebrew, unicode.Arabic, unicode.Syriac, unicode.Thaana,
		unicode.Nko, unicode.Samaritan, unicode.Mandaic, unicode.Adlam, unicode.Mende_Kikakui)
}
