package intake

import (
	"errors"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"putby/pricing/exact"
)

// TestReadNumber has the ways of writing amounts that shops and banks use.
func TestReadNumber(t *testing.T) {
	for _, c := range []struct{ text, point, comma string }{ // empty: refused
		{"12", "12", "12"},
		{"-12", "-12", "-12"},
		{"+12", "12", "12"},
		{"12.50", "12.50", ""},
		{"12,50", "", "12.50"},
		{"1,234.50", "1234.50", ""},
		{"1.234,50", "", "1234.50"},
		{"1.234", "1.234", "1234"},
		{"1,234", "1234", "1.234"},
		{"1.234.567", "", "1234567"},
		{"1,234,567.8", "1234567.8", ""},
		{"1'234.50", "1234.50", ""},
		{"1’234.50", "1234.50", ""},
		{"1 234,50", "", "1234.50"},
		{"1\u00a0234,50", "", "1234.50"},
		{"1\u202f234,50", "", "1234.50"},
		{"12,34,567.5", "1234567.5", ""}, // Indian grouping
		{"12,3,456", "", ""},
		{"1234,567.5", "", ""},
		{"1,23.5", "", ""},
		{"0,5", "", "0.5"},
		{",5", "", "0.5"},
		{".5", "0.5", ""},
		{"5.", "5", ""},
		{"0,500", "", "0.500"},
		{"(12.50)", "-12.50", ""},
		{"( 12,50 € )", "", "-12.50"},
		{"12.50-", "-12.50", ""},
		{"12,50 -", "", "-12.50"},
		{"\u221212.50", "-12.50", ""},
		{"\u201312.50", "-12.50", ""},
		{"- 12.50", "-12.50", ""},
		{"€ 12,50", "", "12.50"},
		{"12,50€", "", "12.50"},
		{"12,50 EUR", "", "12.50"},
		{"EUR 12,50", "", "12.50"},
		{"EUR -12,50", "", "-12.50"},
		{"-€12,50", "", "-12.50"},
		{"€-12.50", "-12.50", ""},
		{"$1,234.50", "1234.50", ""},
		{"US$ 12.50", "12.50", ""},
		{"12.50 kr.", "12.50", ""},
		{"kr 12,50", "", "12.50"},
		{"Fr. 12.50", "12.50", ""},
		{"12,50 zł", "", "12.50"},
		{"12,-", "12", "12"},
		{"12.-", "12", "12"},
		{"¥1200", "1200", "1200"},
		{"", "", ""},
		{"-", "", ""},
		{"€", "", ""},
		{"--5", "", ""},
		{"5--", "", ""},
		{"-5-", "", ""},
		{"1e5", "", ""},
		{"NaN", "", ""},
		{"12.50.1", "", ""},
		{"12 ea", "", ""},
		{"twelve", "", ""},
		{"1234567890123456", "", ""},
		{"0.1234567891", "", ""},
		{"1e999999999", "", ""},
	} {
		for _, d := range []struct {
			sign Decimal
			want string
		}{{Point, c.point}, {Comma, c.comma}} {
			got, err := readNumber(c.text, d.sign)
			if got != d.want || (err == nil) != (d.want != "") {
				t.Errorf("%q with a decimal %s is %q, %v; want %q", c.text, d.sign, got, err, d.want)
			}
		}
	}
}

func TestDecimalSense(t *testing.T) {
	for _, c := range []struct {
		cells string
		want  Decimal
		err   error
	}{
		{"1 2 300", AnyDecimal, nil},
		{"", AnyDecimal, nil},
		{"n/a x", AnyDecimal, nil},
		{"1.5 2 3", Point, nil},
		{"1,5 2 3", Comma, nil},
		{"1,234 1.5", Point, nil},
		{"1.234 1,5", Comma, nil},
		{"1,234 1,234,567", Point, nil},
		{"0,500", Comma, nil},
		{"1234,567", Comma, nil},
		{"1,234 12", AnyDecimal, ErrAmbiguous},
		{"1.5 1,5", AnyDecimal, ErrMixed},
		{"1,23.5 1.2", Point, nil}, // the malformed one is a bad row later
	} {
		var x evidence
		for i, cell := range strings.Fields(c.cells) {
			x.seeNumber(i+1, cell)
		}
		got, err := x.sign()
		if got != c.want || (err == nil) != (c.err == nil) || err != nil && !errors.Is(err, c.err) {
			t.Errorf("%s: %q, %v", c.cells, got, err)
		}
	}
}

// TestNumberComesBack: a number written with either sign, grouped or not, with
// a currency or without, is read as the number that it is.
func TestNumberComesBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		coef := rapid.Int64Range(-99_999_999_999, 99_999_999_999).Draw(t, "coef")
		n := exact.New(coef, rapid.IntRange(0, 4).Draw(t, "places"))
		sign := rapid.SampledFrom([]Decimal{Point, Comma}).Draw(t, "sign")
		text := foreignNumber(t, n, sign)
		got, err := readNumber(text, sign)
		if err != nil {
			t.Fatalf("%q: %v", text, err)
		}
		if m, err := exact.ParseNumber(got); err != nil || !m.Equal(n) {
			t.Fatalf("%q is read as %q, want %v", text, got, n)
		}
	})
}

// foreignNumber writes a number in one of the many ways.
func foreignNumber(t *rapid.T, n exact.Number, sign Decimal) string {
	whole, fraction, point := strings.Cut(n.Abs().String(), ".")
	marks := map[Decimal][]string{Point: {"", ",", "'", " ", "\u00a0"}, Comma: {"", ".", "'", " ", "\u202f"}}
	mark := rapid.SampledFrom(marks[sign]).Draw(t, "mark")
	grouped := ""
	for i, c := range whole {
		if i > 0 && (len(whole)-i)%3 == 0 {
			grouped += mark
		}
		grouped += string(c)
	}
	if point {
		grouped += string(sign.sign()) + fraction
	}
	wrap := rapid.SampledFrom([]string{"%", "€%", "% €", "EUR %", "% USD"}).Draw(t, "currency")
	text := strings.Replace(wrap, "%", grouped, 1)
	if n.Sign() < 0 {
		text = strings.Replace(rapid.SampledFrom([]string{"-%", "(%)", "%-", "\u2212 %"}).Draw(t, "minus"), "%", text, 1)
	}
	return text
}
