package entry

import (
	"strings"
	"testing"
	"time"

	"putby/ledger"
	"putby/pricing/exact"
	"putby/pricing/locale"
)

func TestHereOf(t *testing.T) {
	for _, test := range []struct {
		env   string
		zones []string
		want  Locality
	}{
		{"", nil, Locality{}},
		{"LANG=C.UTF-8", nil, Locality{}},
		{"LANG=de_AT.UTF-8", []string{"Europe/Vienna\n"}, Locality{"EUR", "Europe/Vienna", false, locale.Must("de-AT"), ""}},
		{"LANG=en_US.UTF-8 TZ=America/Denver", []string{"Europe/Vienna"}, Locality{"USD", "America/Denver", true, locale.Must("en-US"), ""}},
		{"LC_MONETARY=en_CA LANG=fr_FR.UTF-8 TZ=:Europe/Paris", nil, Locality{"CAD", "Europe/Paris", false, locale.Must("en-CA"), ""}},
		{"LC_ALL=ca_ES@valencia LANG=en_US", []string{"/usr/share/zoneinfo/Europe/Madrid"}, Locality{"EUR", "Europe/Madrid", false, locale.Plain, "ca-ES"}},
		{"LANG=en_GB TZ=localtime", []string{"nowhere", "../usr/share/zoneinfo/Europe/London"}, Locality{"GBP", "Europe/London", false, locale.Must("en-GB"), ""}},
		{"LANG=xx_YY TZ=CET-1CEST", nil, Locality{}},
	} {
		env := map[string]string{}
		for pair := range strings.FieldsSeq(test.env) {
			name, value, _ := strings.Cut(pair, "=")
			env[name] = value
		}
		if got := GuessLocality(func(name string) string { return env[name] }, test.zones...); got != test.want {
			t.Errorf("%s %q: %+v, want %+v", test.env, test.zones, got, test.want)
		}
	}
}

// house is an empty household in euros.
func house() *ledger.Records {
	rec := &ledger.Records{}
	rec.Settings.Zone, rec.Settings.Currency = time.UTC, exact.MustCurrency("EUR")
	return rec
}

func TestParseHouse(t *testing.T) {
	for text, want := range map[string]string{
		"24 jars 1 L 38.40":                   "24 jar jar-1l 1 L 38.40",
		"24 x 1 L jars, 38,40 EUR":            "24 jar jar-1l 1 L 38.40",
		"12 500ml jars for €15":               "12 jar jar-500ml 500 mL 15",
		"100 oxygen absorbers of 300 cc 18.0": "100 absorber absorber-300 300 cc 18.0",
		"60 lids 9":                           "60 lid lid  9",
		"1 bag 1 qt":                          "1 bag bag-1qt 1 qt ",
		"2 oil changes 55":                    "2 oil oil  55",
	} {
		h, err := ParseOwned(house(), text)
		if got := strings.Join([]string{h.Count.String(), h.Kind, h.ID, h.Capacity, h.Paid}, " "); err != nil || got != want {
			t.Errorf("%q: %s, %v; want %s", text, got, err, want)
		}
	}
	for text, want := range map[string]string{
		"":                  "write how many and what",
		"jars 1 L":          "is not how many",
		"0 jars 1 L":        "is not how many",
		"2.5 jars 1 L":      "is not how many",
		"24 kettles":        "it does not say what",
		"24 jars":           "how large one is",
		"24 jars 1 L 3 4":   "neither a size nor what was paid",
		"24 jars 1 L cheap": "is not a number",
		"24 jars 3 kg 4":    "is no volume",
	} {
		if h, err := ParseOwned(house(), text); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %+v, %v; want %s", text, h, err, want)
		}
	}
	rec, _ := house().With(ledger.MustKind("supply"), map[string]string{"supply": "jar-1l", "kind": "jar"})
	if h, err := ParseOwned(rec, "6 jars 1 L 9"); err != nil || h.ID != "jar-1l-2" {
		t.Errorf("a second sort of jar is %s, %v", h.ID, err)
	}
}

func TestParseWatts(t *testing.T) {
	rows, err := ParseWatts("m", "freezing 450, prim 700 W; secondary 600W")
	if err != nil || len(rows) != 3 || rows[1].Cells["phase"] != "primary" || rows[1].Cells["watts"] != "700" || rows[2].Cells["watts"] != "600" {
		t.Errorf("%v, %v", rows, err)
	}
	for _, text := range []string{"450", "boiling 450", "freezing many", "freezing -5"} {
		if rows, err := ParseWatts("m", text); err == nil {
			t.Errorf("%q: %v", text, rows)
		}
	}
}
