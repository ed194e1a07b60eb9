package exact

import (
	"errors"
	"strings"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"
)

func TestParseNumberReads(t *testing.T) {
	for in, want := range map[string]string{
		"0":                          "0",
		"-0":                         "0",
		"0.000":                      "0",
		"7":                          "7",
		"007.50":                     "7.5",
		"-12.5":                      "-12.5",
		"1.234567890":                "1.23456789",
		"1.234567891":                "1.234567891",
		"999999999999999":            "999999999999999",
		"999999999999999.999999999":  "999999999999999.999999999",
		"-999999999999999.999999999": "-999999999999999.999999999",
		"000000000000001.000000000":  "1",
		"922337203685477.580700000":  "922337203685477.5807",
		"-922337203.685477580":       "-922337203.68547758",
		"9223372036.854775807":       "9223372036.854775807",
		"9223372036.854775808":       "9223372036.854775808",
	} {
		n, err := ParseNumber(in)
		if err != nil {
			t.Errorf("%q: %v", in, err)
			continue
		}
		wellFormed(t, n)
		if n.String() != want {
			t.Errorf("%q = %v, want %s", in, n, want)
		}
	}
}

// What a careless parser takes, or eats all memory over: each is refused with a
// reason.
func TestParseNumberRefuses(t *testing.T) {
	for _, c := range []struct{ in, why string }{
		{"", "no digits"},
		{"-", "no digits"},
		{".", "a misplaced point"},
		{"-.", "a misplaced point"},
		{".5", "a misplaced point"},
		{"-.5", "a misplaced point"},
		{"5.", "no digits after the point"},
		{"1.2.3", "a misplaced point"},
		{"1..2", "a misplaced point"},
		{"--5", "a misplaced '-'"},
		{"5-", "a misplaced '-'"},
		{"1-2", "a misplaced '-'"},
		{"+5", "a plus sign"},
		{"1e999999999", "an exponent"},
		{"1E5", "an exponent"},
		{"1e-5", "an exponent"},
		{"1,5", "a comma"},
		{"1,234.50", "a comma"},
		{"1 000", "a space"},
		{" 1", "a space"},
		{"1 ", "a space"},
		{"1_000", "only digits"},
		{"1'000", "only digits"},
		{"NaN", "only digits"},
		{"Inf", "only digits"},
		{"0x10", "only digits"},
		{"\u22125", "a typographic minus"}, // minus sign
		{"5\u00a0000", "only digits"},      // no-break space
		{"\u0661\u0662", "only digits"},    // Arabic-Indic digits
		{"\uff11", "only digits"},          // full-width digit
		{"1\x00", "only digits"},
		{"\xff", "only digits"},
		{"1\n", "only digits"},
		{"1234567890123456", "more than 15 digits before the point"},
		{"0000000000000001", "more than 15 digits before the point"},
		{"1.2345678901", "more than 9 digits after the point"},
		{"0.0000000000", "more than 9 digits after the point"},
		{strings.Repeat("9", 40), "more than 15 digits before the point"},
		{"0." + strings.Repeat("9", 40), "more than 9 digits after the point"},
		{strings.Repeat("1", 10<<20), "more than 15 digits before the point"},
	} {
		n, err := ParseNumber(c.in)
		switch {
		case err == nil:
			t.Errorf("%s was read as %v", Quote(c.in), n)
		case !errors.Is(err, ErrNumber):
			t.Errorf("%s: %v is not ErrNumber", Quote(c.in), err)
		case !strings.Contains(err.Error(), c.why):
			t.Errorf("%s: %v; want %q", Quote(c.in), err, c.why)
		case len(err.Error()) > 300:
			t.Errorf("%s: an error of %d bytes", Quote(c.in), len(err.Error()))
		case !n.IsZero():
			t.Errorf("%s: refused, yet %v came back", Quote(c.in), n)
		}
	}
}

func TestMustPanics(t *testing.T) {
	for name, must := range map[string]func(){
		"MustNumber":   func() { MustNumber("1e5") },
		"MustMoney":    func() { MustMoney("1,50") },
		"MustQuantity": func() { MustQuantity("5") },
		"MustCurrency": func() { MustCurrency("EURO") },
		"MustDate":     func() { MustDate("2025-02-30") },
		"MustDuration": func() { MustDuration("soon") },
	} {
		func() {
			defer func() {
				if _, ok := recover().(error); !ok {
					t.Errorf("%s did not panic with an error", name)
				}
			}()
			must()
		}()
	}
	if MustNumber("1.50") != New(150, 2) || !MustMoney("1.50").Equal(MoneyOf(New(15, 1))) {
		t.Error("a constant is not what it says")
	}
}

// parse(print(x)) = x, however x is printed.
func TestParsePrinted(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := recorded().Draw(t, "x")
		for _, s := range []string{x.String(), x.Fixed(rapid.IntRange(0, MaxFraction).Draw(t, "places"))} {
			got, err := ParseNumber(s)
			if err != nil || !got.Equal(x) {
				t.Fatalf("%q, printed from %v, reads as %v (%v)", s, x, got, err)
			}
		}
		if got := parseBig(x.Fixed(9)); !got.Equal(x) {
			t.Fatalf("the slow parser reads %s as %v", x.Fixed(9), got)
		}
	})
}

func TestQuote(t *testing.T) {
	for _, c := range []struct{ in, want string }{
		{"", `""`},
		{"milk", `"milk"`},
		{"a\x1b[31mred", `"a\x1b[31mred"`},
		{"a\nb\t\x00", `"a\nb\t\x00"`},
		{"\u202eright to left", `"\u202eright to left"`},
		{"\xff\xfe", `"\xff\xfe"`},
		{`say "so"`, `"say \"so\""`},
		{strings.Repeat("x", 40), `"` + strings.Repeat("x", 40) + `"`},
		{strings.Repeat("x", 41), `"` + strings.Repeat("x", 40) + `…"`},
		{strings.Repeat("é", 41), `"` + strings.Repeat("é", 40) + `…"`},
		{strings.Repeat("\U0001F95A", 1<<20), `"` + strings.Repeat("\U0001F95A", 40) + `…"`},
		{strings.Repeat("\xff", 41), `"` + strings.Repeat(`\xff`, 40) + `…"`},
	} {
		if got := Quote(c.in); got != c.want {
			t.Errorf("Quote(%.60q) = %.200s, want %s", c.in, got, c.want)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		got := Quote(string(rapid.SliceOf(rapid.Byte()).Draw(t, "bytes")))
		if !utf8.ValidString(got) || strings.ContainsFunc(got, func(r rune) bool { return r < ' ' || r == 0x7f }) {
			t.Fatalf("Quote lets %q through", got)
		}
	})
}
