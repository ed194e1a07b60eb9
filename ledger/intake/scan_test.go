package intake

import (
	"encoding/binary"
	"encoding/csv"
	"errors"
	"io"
	"slices"
	"strings"
	"testing"
	"testing/iotest"

	"pgregory.net/rapid"

	"putby/ledger"
)

// scanAll returns the records that can be split, and what is wrong with the
// others as "first-last: why".
func scanAll(text string, sep byte) (records [][]string, bad []string) {
	s := newScanner(text, sep)
	for s.next() {
		if s.why != "" {
			bad = append(bad, ledger.Fault{Line: s.first, Last: s.last, What: s.why}.Error())
			continue
		}
		records = append(records, slices.Clone(s.cells))
	}
	return records, bad
}

// TestScanSpectrum goes through what RFC 4180 allows, on invented cells laid
// out as the public set npm csv-spectrum (BSD-2-Clause) does: commas, empty
// cells, quotes, line breaks and JSON in cells, with LF and with CR LF.
func TestScanSpectrum(t *testing.T) {
	for _, c := range []struct {
		name, text string
		want       [][]string
	}{
		{"simple", "a,b,c\n1,2,3\n", [][]string{{"a", "b", "c"}, {"1", "2", "3"}}},
		{"simple crlf", "a,b,c\r\n1,2,3\r\n", [][]string{{"a", "b", "c"}, {"1", "2", "3"}}},
		{"no last line end", "a,b\n1,2", [][]string{{"a", "b"}, {"1", "2"}}},
		{"comma in quotes", "shop,street\n\"Hofladen\",\"Am Bach 3, hinten\"\n",
			[][]string{{"shop", "street"}, {"Hofladen", "Am Bach 3, hinten"}}},
		{"empty", "a,b,c\n1,\"\",\"\"\n2,3,4\n,,\n", [][]string{{"a", "b", "c"}, {"1", "", ""}, {"2", "3", "4"}, {"", "", ""}}},
		{"empty crlf", "a,b,c\r\n1,\"\",\"\"\r\n2,3,4\r\n", [][]string{{"a", "b", "c"}, {"1", "", ""}, {"2", "3", "4"}}},
		{"escaped quotes", "a,b\n1,\"ha \"\"ha\"\" ha\"\n3,4\n", [][]string{{"a", "b"}, {"1", `ha "ha" ha`}, {"3", "4"}}},
		{"json", "key,val\n1,\"{\"\"type\"\": \"\"leek\"\", \"\"kg\"\": [1.5, 2]}\"\n",
			[][]string{{"key", "val"}, {"1", `{"type": "leek", "kg": [1.5, 2]}`}}},
		{"newlines", "a,b,c\n1,2,3\n\"Once upon \na time\",5,6\n7,8,9\n",
			[][]string{{"a", "b", "c"}, {"1", "2", "3"}, {"Once upon \na time", "5", "6"}, {"7", "8", "9"}}},
		{"newlines crlf", "a,b\r\n\"Once upon \r\na time\",6\r\n7,8\r\n",
			[][]string{{"a", "b"}, {"Once upon \na time", "6"}, {"7", "8"}}},
		{"quotes and newlines", "a,b\n1,\"ha \n\"\"ha\"\" \nha\"\n3,4\n", [][]string{{"a", "b"}, {"1", "ha \n\"ha\" \nha"}, {"3", "4"}}},
		{"utf-8", "a,b\n1,Möhren\n4,ʤ\n", [][]string{{"a", "b"}, {"1", "Möhren"}, {"4", "ʤ"}}},
		{"blank lines", "\n\na,b\n\n\r\n1,2\n\n", [][]string{{"a", "b"}, {"1", "2"}}},
		// Beyond RFC 4180.
		{"cr alone", "a,b\r1,2\r", [][]string{{"a", "b"}, {"1", "2"}}},
		{"bare quote", "tray,note\n12\" tray,the 3\" one\n", [][]string{{"tray", "note"}, {`12" tray`, `the 3" one`}}},
		{"nothing", "", nil},
		{"only line ends", "\r\n\n\r", nil},
	} {
		got, bad := scanAll(c.text, ',')
		if !slices.EqualFunc(got, c.want, slices.Equal) || bad != nil {
			t.Errorf("%s: got %q (bad %q), want %q", c.name, got, bad, c.want)
		}
	}
}

// TestScanGoesOn: a record that cannot be split costs no other.
func TestScanGoesOn(t *testing.T) {
	long := strings.Repeat("x", MaxCell+1)
	for _, c := range []struct {
		name, text string
		want       [][]string
		bad        []string
	}{
		{"never closed", "a,b\n1,\"two\n3,4\n", [][]string{{"a", "b"}, {"3", "4"}}, []string{"line 2: the quote is not closed"}},
		{"never closed at the end", "a,b\n1,\"", [][]string{{"a", "b"}}, []string{"line 2: the quote is not closed"}},
		{"text behind", "a,b\n1,\"two\" three\n5,6\n", [][]string{{"a", "b"}, {"5", "6"}},
			[]string{"line 2: there is text after the quote that closes a cell"}},
		{"closed by another's", "a,b\n1,\"two\n3,\"four\"\n5,6\n", [][]string{{"a", "b"}, {"5", "6"}},
			[]string{"lines 2 to 3: there is text after the quote that closes a cell"}},
		{"long cell", "a,b\n" + long + ",2\n3,4\n", [][]string{{"a", "b"}, {"3", "4"}}, []string{"line 2: a cell is longer than 64 KiB"}},
		{"long quoted cell", "a,b\n\"" + long + "\",2\n3,4\n", [][]string{{"a", "b"}, {"3", "4"}}, []string{"line 2: the quote is not closed"}},
		{"many cells", strings.Repeat(",", MaxCells+5) + "\n3,4\n", [][]string{{"3", "4"}},
			[]string{"line 1: the row has more than 1,000 cells"}},
	} {
		got, bad := scanAll(c.text, ',')
		if !slices.EqualFunc(got, c.want, slices.Equal) || !slices.Equal(bad, c.bad) {
			t.Errorf("%s: got %.200q and %q, want %q and %q", c.name, got, bad, c.want, c.bad)
		}
	}
}

// What is scanned as it comes is what is scanned as a whole, at the same lines
// and places, wherever the pieces end.
func TestStreamIsWhole(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cell := rapid.SampledFrom([]string{"", "a", "12,5", "\"b\"\"c\"", "\"d\ne\"", "\"f\"g", "\"h", "Grün", strings.Repeat("x", 9000)})
		var in strings.Builder
		in.WriteString("time;watts;note\n")
		for size := rapid.IntRange(0, 3*streamChunk).Draw(t, "size"); in.Len() < size; {
			row := strings.Join(rapid.SliceOfN(cell, 1, 5).Draw(t, "row"), ";") + rapid.SampledFrom([]string{"\n", "\r\n", "\n\n\n"}).Draw(t, "end")
			in.WriteString(strings.Repeat(row, rapid.SampledFrom([]int{1, 1, 40}).Draw(t, "times")))
		}
		encoded := rapid.SampledFrom([]string{in.String(), "\ufeff" + in.String(), string(utf16Bytes(in.String(), binary.BigEndian, true))}).Draw(t, "encoded")
		text := in.String()
		whole, stream := newScanner(text, ';'), openStream(iotest.HalfReader(strings.NewReader(encoded)))
		stream.sep = ';'
		for whole.next() {
			if whole.at-whole.begin > MaxCell {
				return
			}
			if !stream.next() || stream.first != whole.first || stream.last != whole.last || stream.why != whole.why || !slices.Equal(stream.cells, whole.cells) {
				t.Fatalf("line %d: %.80q %q of the stream (%v), %.80q %q of the whole", whole.first, stream.cells, stream.why, stream.err, whole.cells, whole.why)
			}
			for i := range whole.cells {
				line, column := whole.place(i)
				if l, c := stream.place(i); l != line || c != column {
					t.Fatalf("cell %d is at %d:%d of the stream, %d:%d of the whole", i, l, c, line, column)
				}
			}
		}
		if stream.next() || stream.err != nil {
			t.Fatalf("the stream goes on: %q %v", stream.cells, stream.err)
		}
	})
}

// FuzzScan holds the scanner to encoding/csv: what that splits, this splits
// alike, with the same lines; and every byte belongs to one record.
func FuzzScan(f *testing.F) {
	for _, s := range []string{"a,b\n1,2\n", "\"a\"\"b\",\"c\nd\"\r\n", "a\r\rb\n", "\"", "a,\"b\"c\n", "x;y\t|\n", "\r", "a\r\n\r\nb"} {
		f.Add(s, byte(','))
		f.Add(s, byte(';'))
	}
	f.Fuzz(func(t *testing.T, text string, sep byte) {
		if !slices.Contains([]byte{',', ';', '\t', '|'}, sep) {
			sep = ','
		}
		s := newScanner(text, sep)
		last := 0
		for s.next() {
			if s.first <= last || s.last < s.first || s.at > len(text) {
				t.Fatalf("record of lines %d to %d after line %d", s.first, s.last, last)
			}
			last = s.last
		}
		if strings.Contains(text, "\r") && !strings.Contains(text, "\n") {
			return // lines that end in a carriage return are this package's own
		}
		want, lines, ok := standard(text, sep)
		if !ok {
			return
		}
		got, bad := scanAll(text, sep)
		if !slices.EqualFunc(got, want, slices.Equal) || bad != nil {
			t.Fatalf("got %q (bad %q), encoding/csv %q", got, bad, want)
		}
		s = newScanner(text, sep)
		for _, line := range lines {
			if s.next(); s.first != line {
				t.Fatalf("line %d, encoding/csv %d", s.first, line)
			}
		}
	})
}

// standard splits text with encoding/csv.
func standard(text string, sep byte) (records [][]string, lines []int, ok bool) {
	r := csv.NewReader(strings.NewReader(text))
	r.Comma, r.FieldsPerRecord = rune(sep), -1
	for {
		record, err := r.Read()
		if errors.Is(err, io.EOF) {
			return records, lines, true
		}
		if err != nil || len(record) > MaxCells {
			return nil, nil, false
		}
		line, _ := r.FieldPos(0)
		records, lines = append(records, record), append(lines, line)
	}
}
