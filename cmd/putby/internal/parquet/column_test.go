package parquet

import (
	"bytes"
	"errors"
	"testing"

	"putby/pricing/exact"
)

// Decimals are whole numbers of their last place, the highest byte first, in as
// few bytes as their digits need (parquet-format, LogicalTypes.md, DECIMAL).
func TestDecimals(t *testing.T) {
	ten38 := exact.New(1, -38)
	for _, c := range []struct {
		digits, places int
		number         exact.Number
		want           string
	}{
		{4, 2, exact.MustNumber("1.23"), "\x00\x7b"},
		{4, 2, exact.MustNumber("-1"), "\xff\x9c"},
		{4, 2, exact.MustNumber("99.99"), "\x27\x0f"},
		{2, 0, exact.MustNumber("-99"), "\x9d"},
		{9, 0, exact.MustNumber("999999999"), "\x3b\x9a\xc9\xff"},
		{18, 18, exact.MustNumber("0.000000001"), "\x00\x00\x00\x00\x3b\x9a\xca\x00"},
		{24, 9, exact.MustNumber("0"), "\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00"},
		{38, 24, ten38.Sub(exact.Int(1)).Mul(exact.New(1, 24)), "\x4b\x3b\x4c\xa8\x5a\x86\xc4\x7a\x09\x8a\x22\x3f\xff\xff\xff\xff"},
		{38, 0, exact.Int(1).Sub(ten38), "\xb4\xc4\xb3\x57\xa5\x79\x3b\x85\xf6\x75\xdd\xc0\x00\x00\x00\x01"},
	} {
		column := Column{Type: Decimal, Digits: c.digits, Places: c.places}
		k := chunk{Column: column, bytes: column.width()}
		if err := k.add(Value{Number: c.number}); err != nil || string(k.plain) != c.want {
			t.Errorf("%v of %d digits is % x %v, want % x", c.number, c.digits, k.plain, err, c.want)
		}
	}
}

// A decimal that does not fit is refused, and not rounded.
func TestDecimalsThatDoNotFit(t *testing.T) {
	for _, c := range []struct {
		digits, places int
		number         exact.Number
	}{
		{4, 2, exact.MustNumber("100")},
		{4, 2, exact.MustNumber("0.001")},
		{4, 2, exact.MustNumber("-100")},
		{38, 24, exact.New(1, -14)},
		{38, 24, exact.New(1, 25)},
		{38, 0, exact.New(1, -60)},
	} {
		var out bytes.Buffer
		w, err := NewWriter(&out, []Column{{Name: "n", Type: Decimal, Digits: c.digits, Places: c.places}})
		if err != nil {
			t.Fatal(err)
		}
		if err := w.Add([]Value{{Number: c.number}}); !errors.Is(err, ErrDigits) {
			t.Errorf("%v of %d digits, %d places: %v", c.number, c.digits, c.places, err)
		}
	}
}

// Which values are blank is told in runs, with its length before (parquet-format,
// Encodings.md, RLE); nothing is told where none may be.
func TestBlanks(t *testing.T) {
	k := chunk{Column: Column{Type: Whole}}
	for _, blank := range []bool{false, false, true, false} {
		if err := k.add(Value{Blank: blank}); err != nil {
			t.Fatal(err)
		}
	}
	if have, want := string(k.encodeLevels()), "\x06\x00\x00\x00\x04\x01\x02\x00\x02\x01"; have != want {
		t.Errorf("runs are % x, want % x", have, want)
	}
	if k.Need = true; k.encodeLevels() != nil {
		t.Error("a column without blanks tells of them")
	}
}
