package intake

import (
	"encoding/binary"
	"errors"
	"strings"
	"testing"
	"unicode/utf16"

	"pgregory.net/rapid"
)

// utf16Bytes writes text in UTF-16.
func utf16Bytes(text string, order binary.AppendByteOrder, mark bool) []byte {
	var b []byte
	if mark {
		b = order.AppendUint16(b, 0xfeff)
	}
	for _, u := range utf16.Encode([]rune(text)) {
		b = order.AppendUint16(b, u)
	}
	return b
}

const umlauts = "Tag;Laden;Preis\n03.02.2025;Müller & Söhne;1,99 €\n"

func TestDecode(t *testing.T) {
	cp1252 := strings.NewReplacer("ü", "\xfc", "ö", "\xf6", "€", "\x80").Replace(umlauts)
	for _, c := range []struct {
		name  string
		data  []byte
		given Encoding
		want  Encoding
	}{
		{"utf-8", []byte(umlauts), Guess, UTF8},
		{"utf-8 with mark", []byte("\ufeff" + umlauts), Guess, UTF8},
		{"utf-8 said", []byte(umlauts), UTF8, UTF8},
		{"utf-16le with mark", utf16Bytes(umlauts, binary.LittleEndian, true), Guess, UTF16LE},
		{"utf-16be with mark", utf16Bytes(umlauts, binary.BigEndian, true), Guess, UTF16BE},
		{"utf-16le", utf16Bytes(umlauts, binary.LittleEndian, false), Guess, UTF16LE},
		{"utf-16be", utf16Bytes(umlauts, binary.BigEndian, false), Guess, UTF16BE},
		{"utf-16le said", utf16Bytes(umlauts, binary.LittleEndian, true), UTF16LE, UTF16LE},
		{"windows-1252", []byte(cp1252), Guess, Windows1252},
		{"windows-1252 said", []byte(cp1252), Windows1252, Windows1252},
	} {
		text, used, err := decode(string(c.data), c.given)
		if err != nil || text != umlauts || used != c.want {
			t.Errorf("%s: %q, %s, %v", c.name, text, used, err)
		}
	}
}

func TestDecodeRefuses(t *testing.T) {
	for _, c := range []struct {
		name  string
		data  string
		given Encoding
		kind  error
		says  string
	}{
		{"not utf-8", "a,b\nM\xfcller,1\n", UTF8, ErrEncoding, "line 2: the file is not utf-8 text"},
		{"utf-16 cut", "\xff\xfea\x00b", Guess, ErrEncoding, "ends within a character"},
		{"utf-16 half a pair", "\xff\xfea\x00\n\x00\x00\xd8b\x00", Guess, ErrEncoding, "line 2: the file is not utf-16le text"},
		{"no character of windows-1252", "a,b\n\x81\xfc,1\n", Guess, ErrEncoding, "line 2"},
		{"zero byte", "a,b\n1,\x002\n", Guess, ErrFormat, "line 2: it is no text and no table"},
		{"picture", "\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR\xff", Guess, ErrFormat, "zero byte"},
		{"picture with what no encoding has", "\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR\xff\x81", Guess, ErrFormat, "but perhaps a picture: there is a zero byte"},
	} {
		_, _, err := decode(c.data, c.given)
		if !errors.Is(err, c.kind) || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v", c.name, err)
		}
	}
}

func TestEncodingNames(t *testing.T) {
	for e := Guess; e <= Windows1252; e++ {
		if got, err := ParseEncoding(strings.ToUpper(e.String())); got != e || err != nil {
			t.Errorf("%q is read as %q, %v", e, got, err)
		}
	}
	if _, err := ParseEncoding("ebcdic"); err == nil {
		t.Error("ebcdic was taken")
	}
}

// TestDecodeAnyText: text in UTF-16 with a mark, or in UTF-8, comes back.
func TestDecodeAnyText(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := strings.ReplaceAll(rapid.StringOf(rapid.RuneFrom([]rune("aé€ß√漢😀;,\n\"0"))).Draw(t, "text"), "\x00", "")
		for _, data := range [][]byte{
			[]byte(text),
			utf16Bytes(text, binary.LittleEndian, true),
			utf16Bytes(text, binary.BigEndian, true),
		} {
			if got, _, err := decode(string(data), Guess); got != text || err != nil {
				t.Fatalf("%x became %q, %v; want %q", data, got, err, text)
			}
		}
	})
}

func TestSniffSeparator(t *testing.T) {
	for _, c := range []struct {
		name, text string
		want       byte
	}{
		{"comma", "a,b,c\n1,2,3\n", ','},
		{"semicolon", "a;b;c\n1;2;3\n", ';'},
		{"tab", "a\tb\n1\t2\n", '\t'},
		{"bar", "a|b\n1|2\n", '|'},
		{"decimal commas", "date;item;price\n1.2.2025;Lauch;1,50\n2.2.2025;Salz;0,99\n", ';'},
		{"two decimal commas", "a;b\n1,5;2,5\n3,5;4,5\n", ';'},
		{"semicolons in cells", "date,item,note\n1.2.2025,Lauch,\"a;b;c\"\n2.2.2025,Salz,\"d;e;f\"\n", ','},
		{"titles above", "Statement of account\nfrom 1.1. to 31.1., all\n\ndate;payee;amount\n1.1.25;Hofladen;-12,50\n2.1.25;Markt;-3,20\n", ';'},
		{"one column", "price\n1\n2\n", ','},
		{"nothing", "", ','},
	} {
		if got := sniffSeparator(c.text); got != c.want {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}

func TestSeparatorWords(t *testing.T) {
	for _, s := range separators {
		for _, text := range []string{s.word, strings.ToUpper(s.word), string(s.sep)} {
			if got, err := ParseSeparator(text); got != s.sep || err != nil {
				t.Errorf("%q is read as %q, %v", text, got, err)
			}
		}
		if separatorWord(s.sep) != s.word {
			t.Errorf("%q is written as %q", s.sep, separatorWord(s.sep))
		}
	}
	if _, err := ParseSeparator("-"); err == nil || separatorWord(0) != "" {
		t.Error("a dash was taken for a separator")
	}
}
