package intake

import (
	"slices"
	"strings"
	"testing"
	"time"

	"putby/ledger"
	"putby/pricing/exact"
)

func pointNumber(s string) (string, error) { return readNumber(s, Point) }

func TestReadAmount(t *testing.T) {
	for _, c := range []struct {
		text string
		bare exact.Unit
		want string // empty: refused
	}{
		{"500 g", exact.NoUnit, "500 g"},
		{"500g", exact.NoUnit, "500 g"},
		{"500 G", exact.NoUnit, "500 g"},
		{"1.5 Liter", exact.NoUnit, "1.5 L"},
		{"1.5 l", exact.NoUnit, "1.5 L"},
		{"330ML", exact.NoUnit, "330 mL"},
		{"16 fl. oz.", exact.NoUnit, "16 floz"},
		{"16 FL OZ", exact.NoUnit, "16 floz"},
		{"2 lbs", exact.NoUnit, "2 lb"},
		{"12 Stück", exact.NoUnit, "12 ea"},
		{"1 dozen", exact.NoUnit, "1 doz"},
		{"6 x 330 ml", exact.NoUnit, "1980 mL"},
		{"6x0.33 l", exact.NoUnit, "1.98 L"},
		{"6×1 l", exact.NoUnit, "6 L"},
		{"2", exact.NoUnit, "2"},
		{"500", exact.G, "500 g"},
		{"500 mL", exact.G, "500 mL"},
		{"1,200 g", exact.NoUnit, "1200 g"},
		{"500 parsec", exact.NoUnit, ""},
		{"g", exact.NoUnit, ""},
		{"", exact.G, ""},
		{"x 5 g", exact.NoUnit, ""},
		{"999999999999999 x 9 g", exact.NoUnit, ""},
	} {
		got, err := readAmount(c.text, pointNumber, c.bare)
		if got != c.want || (err == nil) != (c.want != "") {
			t.Errorf("%q (%v) is %q, %v; want %q", c.text, c.bare, got, err, c.want)
		}
	}
}

// TestUnitWords: every unit of the records is known by its own name, and what
// a shop's word stands for measures the same thing in any case.
func TestUnitWords(t *testing.T) {
	for _, d := range []exact.Dimension{exact.Volume, exact.Mass, exact.Count, exact.Energy, exact.Power} {
		for _, u := range exact.Units(d) {
			if got, ok := UnitWord(u.String()); !ok || got != u {
				t.Errorf("%v is taken for %v", u, got)
			}
		}
	}
	for word, u := range unitWords {
		if got, ok := UnitWord(strings.ToUpper(word)); !ok || got.Dimension() != u.Dimension() {
			t.Errorf("%s is %v, its capitals %v", word, u, got)
		}
	}
}

func TestMentions(t *testing.T) {
	for text, want := range map[string][]string{
		"Hafer Drink 1 L":                {"1 L"},
		"Hafer Drink, 6x1 l":             {"6x1 l"},
		"Milk 3.5% 1.5l bottle":          {"1.5l"},
		"Leeks":                          nil,
		"Tomatoes 2 x 400 g (240 g dry)": {"2 x 400 g", "240 g"},
		"Eggs large 10 pcs":              {"10 pcs"},
		"Route 66 jam":                   nil,
		"A4 paper 500":                   nil,
		"Cider 16 fl oz":                 {"16 fl oz"},
		"Flour type 405 1kg":             {"1kg"},
		"1 l":                            {"1 l"},
		"":                               nil,
		"Salz 0,5 kg, fein":              {"0,5 kg"},
		"Beans 3 × 2":                    nil,
		"B12 tablets":                    nil,
	} {
		if got := mentions(text); !slices.Equal(got, want) {
			t.Errorf("%q mentions %q, want %q", text, got, want)
		}
	}
}

func TestReadEnergy(t *testing.T) {
	for _, c := range []struct {
		text string
		bare exact.Unit
		want string
	}{
		{"38.2", exact.KWh, "38.2"},
		{"38.2 kWh", exact.Wh, "38.2"},
		{"38200 Wh", exact.KWh, "38.2"},
		{"38215", exact.Wh, "38.215"},
		{"3 kg", exact.KWh, ""},
		{"much", exact.KWh, ""},
	} {
		got, err := readEnergy(c.text, pointNumber, c.bare)
		if got != c.want || (err == nil) != (c.want != "") {
			t.Errorf("%q (%v) is %q, %v; want %q", c.text, c.bare, got, err, c.want)
		}
	}
}

func TestReadSpan(t *testing.T) {
	for _, c := range []struct {
		text string
		bare time.Duration
		want string
	}{
		{"38h24m", 0, "38h24m"},
		{"38:24", 0, "38h24m"},
		{"38:24:07", 0, "38h24m7s"},
		{"38 h", 0, "38h"},
		{"38.4 h", 0, "38h24m"},
		{"38 h 24 min", 0, "38h24m"},
		{"1 day, 14 hours, 24 minutes", 0, "38h24m"},
		{"38", time.Hour, "38h"},
		{"38.4", time.Hour, "38h24m"},
		{"45", time.Minute, "45m"},
		{"1.6", 24 * time.Hour, "38h24m"},
		{"90 Min", time.Hour, "1h30m"},
		{"0", time.Hour, "0m"},
		{"38", 0, ""},
		{"long", 0, ""},
		{"5 parsec", 0, ""},
		{"-5 h", 0, ""},
		{"32 d", 0, ""},
		{"", time.Hour, "0m"},
	} {
		if c.text == "" {
			continue
		}
		got, err := readSpan(c.text, pointNumber, c.bare)
		if got != c.want || (err == nil) != (c.want != "") {
			t.Errorf("%q (%v) is %q, %v; want %q", c.text, c.bare, got, err, c.want)
		}
		if want := c.want; want != "" {
			if _, err := exact.ParseDuration(got); err != nil {
				t.Errorf("%q: %v", got, err)
			}
		}
	}
}

func TestFolded(t *testing.T) {
	for _, same := range [][]string{
		{"Stückpreis", "STÜCKPREIS", "stu\u0308ckpreis", " Stuckpreis ", "stückpreis!"},
		{"Grösse", "grosse", "Große"},
		{"Preis (EUR)", "preis  eur", "PREIS-EUR"},
	} {
		for _, s := range same[1:] {
			if ledger.Fold(s) != ledger.Fold(same[0]) {
				t.Errorf("%q is %q, %q is %q", same[0], ledger.Fold(same[0]), s, ledger.Fold(s))
			}
		}
	}
	if ledger.Fold("漢字 1") != "漢字 1" || ledger.Fold("--") != "" {
		t.Errorf("%q, %q", ledger.Fold("漢字 1"), ledger.Fold("--"))
	}
}

func TestSlug(t *testing.T) {
	for text, want := range map[string]string{
		"Müller & Söhne": "muller-sohne", "Hofladen": "hofladen", "--": "", "漢字": "", "a/b": "a-b",
		strings.Repeat("x", 80): strings.Repeat("x", 64),
	} {
		if got := slug(text); got != want {
			t.Errorf("%q is %q, want %q", text, got, want)
		}
	}
}

func TestOneLine(t *testing.T) {
	if got := oneLine(" Oat\r\n\tdrink\x1b[31m \u202eevil\u0000 "); got != "Oat drink [31m evil" {
		t.Errorf("%q", got)
	}
}
