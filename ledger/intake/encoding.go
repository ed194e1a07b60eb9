package intake

import (
	"errors"
	"strings"
	"unicode/utf8"

	"golang.org/x/text/encoding"
	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"

	"putby/ledger"
)

// An Encoding is how a file writes characters as bytes. Its names are those of
// the IANA register, in lower case.
type Encoding uint8

// The encodings. Of Guess, a byte order mark decides first; then zero bytes at
// every second place are UTF-16; then what is valid UTF-8 is that, and what is
// not is Windows-1252, which covers Latin-1's printable characters.
const (
	Guess Encoding = iota
	UTF8
	UTF16LE
	UTF16BE
	Windows1252
)

var encodingNames = [...]string{"", "utf-8", "utf-16le", "utf-16be", "windows-1252"}

// EncodingNames are the names of the encodings.
func EncodingNames() []string { return encodingNames[1:] }

// String returns the encoding's name, or nothing for [Guess].
func (e Encoding) String() string { return encodingNames[e] }

// ParseEncoding finds an encoding by its name, in any case. No name is [Guess].
func ParseEncoding(name string) (Encoding, error) {
	return parseWord[Encoding](encodingNames[:], name, "no known encoding; write one of: "+strings.Join(encodingNames[1:], ", "))
}

// decode returns the bytes as text without a byte order mark, and the encoding
// they were found to have.
func decode(data string, given Encoding) (string, Encoding, error) {
	e := given
	if e == Guess {
		e = guess(data)
	}
	decoder := e.decoder()
	if decoder == nil {
		text, err := decodeUTF8(data)
		return text, e, err
	}
	if e != Windows1252 && len(data)%2 == 1 {
		return "", e, encodingError(e, 0, "the file ends within a character")
	}
	text, err := decoder.String(data)
	if err != nil {
		return "", e, &ledger.Fault{Kind: ErrEncoding, What: "reading the file as " + e.String(), Err: err}
	}
	if at := strings.IndexFunc(text, undefined); at >= 0 {
		// A picture is taken for Windows-1252 too, and its zero bytes say better what it is.
		if err := checkText(data, 1, anyTable); err != nil && given == Guess && e == Windows1252 {
			return "", e, err
		}
		return "", e, encodingError(e, 1+strings.Count(text[:at], "\n"), "there are bytes that stand for no character")
	}
	return text, e, checkText(text, 1, anyTable)
}

// decoder turns bytes of the encoding into UTF-8; nil where they are that.
func (e Encoding) decoder() *encoding.Decoder {
	switch e {
	case UTF16LE:
		return unicode.UTF16(unicode.LittleEndian, unicode.UseBOM).NewDecoder()
	case UTF16BE:
		return unicode.UTF16(unicode.BigEndian, unicode.UseBOM).NewDecoder()
	case Windows1252:
		return charmap.Windows1252.NewDecoder()
	}
	return nil
}

// undefined reports what decoders write for bytes without a meaning: the
// replacement character, and the C1 controls for Windows-1252's gaps.
func undefined(r rune) bool { return r == utf8.RuneError || r >= 0x80 && r < 0xa0 }

// byteOrderMark may stand before a text.
const byteOrderMark = "\uFEFF"

func decodeUTF8(data string) (string, error) {
	text := strings.TrimPrefix(data, byteOrderMark)
	if utf8.ValidString(text) {
		return text, checkText(text, 1, anyTable)
	}
	line := 1
	for i, r := range text {
		if _, size := utf8.DecodeRuneInString(text[i:]); r == utf8.RuneError && size == 1 {
			break
		}
		if r == '\n' {
			line++
		}
	}
	return "", encodingError(UTF8, line, "there are bytes that stand for no character")
}

// What can be read where any table can, and where only text of any length can.
const anyTable, textAlone = "a CSV file or an .xlsx workbook", "a CSV file"

// checkText refuses what is no text at all, of a text that begins at a line, and says what
// to give instead.
func checkText(text string, line int, give string) error {
	if at := strings.IndexByte(text, 0); at >= 0 {
		return &ledger.Fault{
			Kind: ErrFormat, Line: line + strings.Count(text[:at], "\n"), What: "it is no text and no table, but perhaps a picture: there is a zero byte, which no text has",
			Hint: "give " + give + "; type what a photo or a PDF shows",
		}
	}
	return nil
}

func encodingError(e Encoding, line int, why string) error {
	return &ledger.Fault{
		Kind: ErrEncoding, Line: line, What: "the file is not " + e.String() + " text", Err: errors.New(why),
		Hint: "name its encoding: " + strings.Join(encodingNames[1:], ", "),
	}
}

// guess finds the encoding that fits the bytes.
func guess(data string) Encoding {
	switch {
	case strings.HasPrefix(data, "\xff\xfe"):
		return UTF16LE
	case strings.HasPrefix(data, "\xfe\xff"):
		return UTF16BE
	}
	// Separators and digits have a zero for their other byte in UTF-16, and no
	// 8-bit text has zeros.
	var zeros [2]int
	head := data[:min(len(data), 4096)]
	for i := range len(head) {
		if head[i] == 0 {
			zeros[i%2]++
		}
	}
	// An eighth of the bytes is a quarter of the characters.
	switch least := len(head) / 8; {
	case zeros[1] > least && zeros[0] == 0:
		return UTF16LE
	case zeros[0] > least && zeros[1] == 0:
		return UTF16BE
	case utf8.ValidString(data):
		return UTF8
	}
	return Windows1252
}
