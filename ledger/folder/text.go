package folder

import (
	"strings"
	"unicode/utf8"
)

const (
	mark     = "\ufeff" // byte order mark of UTF-8
	utf8Hint = "save it again as CSV in the character set UTF-8"
)

// decode checks that a file's bytes are text, and returns that text without a
// byte order mark. What is wrong goes to the tally; ok is false when there is
// no sense in reading on.
func decode(data string, t *tally) (text string, ok bool) {
	switch {
	case isUTF16(data):
		t.at(1, 1, "the file is UTF-16, not UTF-8", utf8Hint)
		return "", false
	case strings.HasPrefix(data, "PK\x03\x04"):
		t.at(1, 1, "the file is a workbook, not CSV", "open it in the spreadsheet and save it as CSV in UTF-8")
		return "", false
	}
	text = strings.TrimPrefix(data, mark)
	if !strings.Contains(text, "\n") && strings.Contains(strings.TrimSuffix(text, "\r"), "\r") {
		t.at(1, strings.IndexByte(text, '\r')+1, "the lines end in CR alone", "save it again with line ends of LF or CR LF")
		return "", false
	}
	if strings.IndexByte(text, 0) >= 0 || !utf8.ValidString(text) {
		findBadBytes(text, t)
	}
	return text, true
}

// isUTF16 finds a byte order mark of UTF-16, or every other byte NUL, as in
// UTF-16 of western text.
func isUTF16(data string) bool {
	if strings.HasPrefix(data, "\xff\xfe") || strings.HasPrefix(data, "\xfe\xff") {
		return true
	}
	var nuls [2]int // at even places and at odd ones
	for i := range min(len(data), 8) {
		if data[i] == 0 {
			nuls[i%2]++
		}
	}
	return nuls == [2]int{4, 0} || nuls == [2]int{0, 4}
}

// findBadBytes notes the first NUL or byte that is not UTF-8 of every line.
func findBadBytes(text string, t *tally) {
	line := 1
	for row := range strings.Lines(text) {
		for i := 0; i < len(row); {
			r, size := utf8.DecodeRuneInString(row[i:])
			if r == 0 {
				t.at(line, i+1, "a NUL byte", "take it out; the file may be damaged")
				break
			}
			if r == utf8.RuneError && size == 1 {
				t.at(line, i+1, "a byte that is not UTF-8", utf8Hint)
				break
			}
			i += size
		}
		line++
	}
}
