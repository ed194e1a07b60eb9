package serve

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// sampleIn is the sample ledger of a household that writes as in a locale.
func sampleIn(t *testing.T, tag string) string {
	t.Helper()
	dir := sample(t)
	file := filepath.Join(dir, "settings.csv")
	text, err := os.ReadFile(file)
	if err == nil {
		err = os.WriteFile(file, append(text, "locale,"+tag+"\n"...), 0o600)
	}
	if err != nil {
		t.Fatal(err)
	}
	return dir
}

// A figure that can be read in two ways is asked about at its field, in whatever
// form and wherever in a line it stands, in one sentence.
func TestTwoReadingsAreAskedAbout(t *testing.T) {
	dir := sampleIn(t, "de-DE")
	link, _ := start(t, dir, "127.0.0.1:0")
	before := content(t, dir)
	for _, c := range []struct {
		path, field, text string
		rest              []string
	}{
		{"take", "things", "2 apples\n1.500 kg onions", nil},
		{"take", "quantity", "1.500 kg", []string{"item", "onions"}},
		{"freeze", "things", "0,5 kg onions\n1.500 kg squash", nil},
		{"start", "loads", "0,2 kg onions wet 1.500 kg", nil},
		{"finish", "kwh", "1.500", []string{"run", "c47"}},
		{"finish", "dry", "1.500 kg", []string{"run", "c47"}},
		{"pack", "packs", "chicken broth 2 x 1 L dry 1.500 g", nil},
		{"pack", "dry", "1.500 g", []string{"item", "apples", "count", "1", "each", "1 kg"}},
		{"receipt", "said", "carrots 2 kg 4,00\n1.500 kg carrots 3,99", []string{"shop", "S"}},
		{"receipt", "total", "1.500", []string{"shop", "S", "said", "soap 1,99"}},
		{"receipt", "offer-1", "3 for 1.500", []string{"shop", "S", "item-1", "apples", "kind-1", "food", "size-1", "1 kg", "price-1", "1,00"}},
		{"receipt", "price-1", "CAD1.500", []string{"shop", "S", "item-1", "apples", "kind-1", "food", "size-1", "1 kg"}},
		{"price", "size", "1.500 kg", []string{"shop", "S", "item", "carrots", "price", "3,99"}},
		{"batch", "from", "1.500 kg squash", []string{"item", "Squash purée", "quantity", "2 L"}},
		{"supplies", "price", "1.500", []string{"supply", "jar-1l", "shop", "S"}},
		{"stocktake", "count-item-onions", "1.500 kg", nil},
		{"run", "phases", "primary 22h 1.500 W", []string{"start", "2025-11-16 01:00", "machine", "rimewell", "load-1-item", "carrots", "load-1-quantity", "1 kg"}},
	} {
		t.Run(c.path+" "+c.field, func(t *testing.T) {
			text := refusalOf(t, link, c.path, filledIn(append(c.rest, c.field, c.text)...))
			wrongAt(t, text, c.field)
			if said := mainOf(text); !strings.Contains(said, `: "1.500" can be read in two ways: write 1500 or 1,500`+"\n") {
				t.Errorf("it is not said, or with more:%s", said)
			}
		})
	}
	if !equal(before, content(t, dir)) {
		t.Error("something was written")
	}
	_, text := ask(t, "GET", link+"worth?item=strawberries&price=1.500&size=454g", "")
	if !strings.Contains(text, "can be read in two ways") {
		t.Errorf("worth does not ask:%s", mainOf(text))
	}
}

// What is typed as the locale writes it is read so, in fields and in lines.
func TestFormsInALocale(t *testing.T) {
	dir := sampleIn(t, "de-DE")
	link, _ := start(t, dir, "127.0.0.1:0")
	saves(t, link, "take", []string{"item", "onions", "quantity", "0,3"}, "0,3 kg Onions")
	saves(t, link, "take", []string{"things", "0,1 kg onions", "date", "16.11.2025"}, "0,1 kg Onions")
	saves(t, link, "receipt", []string{"shop", "S", "item-1", "apples", "kind-1", "food", "size-1", "1,5 kg", "count-1", "3", "price-1", "2,50", "offer-1", "3 for 6,00", "total", "6,00"}, "6,00")
	saves(t, link, "receipt", []string{"shop", "S", "said", "carrots 2 kg 4,00\nsoap CAD1,99", "total", "5,99"}, "5,99")
	_, text := ask(t, "GET", link+"worth?item=strawberries&price=2,49&size=454g&limit=30", "")
	if !strings.Contains(text, "2,49") || strings.Contains(text, "Nothing was") || strings.Contains(text, `role="alert"`) {
		t.Errorf("worth does not read 2,49:%s", mainOf(text))
	}
	shows(t, link, "start", ",")
}
