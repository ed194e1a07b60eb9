package ledger

import (
	"strings"
	"unicode/utf8"

	"putby/pricing/exact"
)

// The characters at which a spreadsheet may take a cell for a formula, and run
// what stands in it; the last four are full-width forms (OWASP, CSV Injection).
const formulaSigns = "=+-@\t\r＝＋－＠"

// EscapeFormula returns a cell's text as a ledger's file keeps it: what a spreadsheet
// that opens the file would take for a formula has an apostrophe before it, and
// one more where it begins with apostrophes itself. Numbers stay as they are.
// [UnescapeFormula] gives the text back.
func EscapeFormula(text string) string {
	// In ASCII the signs and the apostrophe come no later than '@': letters are done with.
	if text == "" || text[0] > '@' && text[0] < utf8.RuneSelf || !likeFormula(text) {
		return text
	}
	if _, err := exact.ParseNumber(text); err == nil {
		return text
	}
	return "'" + text
}

// UnescapeFormula returns the text of a cell that [EscapeFormula] made, and any other cell
// as it is.
func UnescapeFormula(cell string) string {
	if strings.HasPrefix(cell, "'") && likeFormula(cell) {
		return cell[1:]
	}
	return cell
}

// likeFormula reports whether a text is like a formula behind any apostrophes.
func likeFormula(text string) bool {
	first, size := utf8.DecodeRuneInString(strings.TrimLeft(text, "'"))
	return size > 0 && strings.ContainsRune(formulaSigns, first)
}
