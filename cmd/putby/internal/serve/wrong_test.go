package serve

import (
	"fmt"
	"net/http"
	"net/url"
	"regexp"
	"strings"
	"testing"
)

// filledIn are fields given as name, value.
func filledIn(fields ...string) url.Values {
	values := url.Values{}
	for i := 0; i < len(fields); i += 2 {
		values.Set(fields[i], fields[i+1])
	}
	return values
}

// refusal sends a form that is to be refused, and returns the page that says why.
func refusalOf(t *testing.T, link, path string, values url.Values) string {
	t.Helper()
	_, text := ask(t, "GET", link+path, "")
	values.Set("once", onceIn(t, text))
	values.Set("do", "save")
	status, text := post(t, link, path, values)
	if status != http.StatusUnprocessableEntity {
		t.Fatalf("/%s %v: status %d:%s", path, values, status, mainOf(text))
	}
	return text
}

// controls are the tags of fields.
var controls = regexp.MustCompile(`<(?:input|select|textarea) id="([^"]+)"[^>]*>`)

// wrongAt wants a page to say what is wrong on top, with a link to each of some
// fields and to no other, and the same words at the field, tied to it.
func wrongAt(t *testing.T, text string, fields ...string) {
	t.Helper()
	marked := map[string]string{}
	for _, m := range controls.FindAllStringSubmatch(text, -1) {
		if strings.Contains(m[0], `aria-invalid="true"`) {
			marked[m[1]] = m[0]
		}
	}
	for _, field := range fields {
		if !strings.Contains(text, `<a href="#`+field+`">`) {
			t.Errorf("the summary has no link to %s:%s", field, mainOf(text))
		}
		if !strings.Contains(marked[field], fmt.Sprintf(`aria-describedby="%s-wrong`, field)) || !strings.Contains(text, `<p class="wrong" id="`+field+`-wrong">`) {
			t.Errorf("%s does not say what is wrong with it: %s", field, marked[field])
		}
		delete(marked, field)
	}
	for field := range marked {
		t.Errorf("%s is told to be wrong:%s", field, mainOf(text))
	}
	for _, want := range []string{`role="alert" tabindex="-1" autofocus`, "Nothing was saved"} {
		if !strings.Contains(text, want) {
			t.Errorf("the page does not have %q", want)
		}
	}
	if said := mainOf(text); regexp.MustCompile(`--[a-z]|putby [a-z]|\.csv`).MatchString(said) {
		t.Errorf("it is said in the words of the command line:%s", said)
	}
}

// What a person mistypes is told at the field, all of it at once, in the form's
// words: a day to come, a comma that could be thousands, a name that is not known, a
// blank, less than nothing, an amount that cannot be.
func TestMistakesAreToldAtTheirFields(t *testing.T) {
	dir := sample(t)
	link, _ := start(t, dir, "127.0.0.1:0")
	before := content(t, dir)
	const ahead = "2036-11-16"
	for _, c := range []struct {
		path   string
		fields url.Values
		wrong  []string
	}{
		{"start", filledIn("loads", "", "at", "teatime"), []string{"loads", "at"}},
		{"start", filledIn("loads", "1,500 kg apples\n2 kg turnips\n-1 kg onions", "tariff", "none"), []string{"loads", "tariff"}},
		{"start", filledIn("loads", "99999 kg apples", "at", ahead+" 09:00"), []string{"loads", "at"}},
		{"finish", filledIn("run", "c47", "kwh", "much", "hands", "long", "dry", "turnips 1 kg"), []string{"kwh", "hands", "dry"}},
		{"finish", filledIn("run", "c99"), []string{"run"}},
		{"more", filledIn("more", ""), []string{"more"}},
		{"more", filledIn("more", "secondary soon", "run", "c47"), nil},
		{"pack", filledIn("packs", "chicken broth -1 x 1 L\nturnips 2 x 1 kg", "date", ahead), []string{"packs", "date"}},
		{"pack", filledIn("item", "turnips", "count", "-1", "each", "much", "dry", "1,500 g"), []string{"item", "count", "each", "dry"}},
		{"pack", filledIn("item", "apples", "count", "999999999", "each", "1 kg", "cost", "cheap"), []string{"count", "cost"}},
		{"take", filledIn("things", "2 turnips\n500 chicken-broth", "date", ahead), []string{"things", "date"}},
		{"take", filledIn("things", "", "quantity", "-1"), []string{"things", "quantity"}},
		{"freeze", filledIn("things", "-1 kg onions\n2 kg turnips", "date", "soon"), []string{"things", "date"}},
		{"receipt", filledIn("shop", "", "said", "2 kg carrots\nfood turnips 2 kg 1.00", "date", ahead), []string{"shop", "said", "date"}},
		{"receipt", filledIn("shop", "S", "said", "soap 1.99", "total", "9.99"), []string{"total"}},
		{"receipt", filledIn("shop", "S", "item-1", "turnips", "kind-1", "food", "size-1", "1 kg", "price-1", "1.00", "item-2", "apples", "kind-2", "food", "size-2", "heap", "price-2", "1,500"), []string{"item-1", "size-2", "price-2"}},
		{"receipt", filledIn("shop", "S", "item-2", "apples", "kind-2", "food", "price-2", "1.00"), []string{"size-2"}},
		{"receipt", filledIn("shop", "", "kind-1", "food", "size-1", "1 kg", "item-2", "carots", "kind-2", "food"), []string{"shop", "item-1", "price-1", "item-2", "size-2", "price-2"}},
		{"price", filledIn("shop", "", "item", "turnips", "size", "-1 kg", "price", "1,500", "date", ahead), []string{"shop", "item", "size", "price", "date"}},
		{"price", filledIn("shop", "S", "item", "", "size", "", "price", ""), []string{"item", "size", "price"}},
		{"batch", filledIn("item", "turnips", "quantity", "", "from", "2 kg swedes", "date", ahead), []string{"item", "quantity", "from", "date"}},
		{"batch", filledIn("item", "Squash purée", "quantity", "2 L", "from", "99999 kg squash"), []string{"from"}},
		{"stocktake", filledIn("count-pack-c46-b", "-1", "count-pack-c39-b", "700", "count-pack-c33-b", "1.5"), []string{"count-pack-c46-b", "count-pack-c39-b", "count-pack-c33-b"}},
		{"food", filledIn("name", "", "water", "130", "fresh_days", "soon", "kcal", "1,500"), []string{"name", "water", "fresh_days", "kcal"}},
		{"supplies", filledIn("supply", "", "price", "much", "count", "some", "date", ahead), []string{"supply", "price", "count", "date"}},
		{"supplies", filledIn("new-name", "Crock", "new-kind", "", "new-uses", "-1", "price", "1"), []string{"new-kind", "new-uses"}},
		{"run", filledIn("start", "teatime", "machine", "rimewell", "load-1-item", "turnips", "load-1-quantity", "-1 kg", "phases", "thawing 20h\nprimary long"), []string{"start", "load-1-item", "load-1-quantity", "phases"}},
	} {
		if c.path == "supplies" || c.path == "price" {
			if c.fields.Get("shop") == "" && !c.fields.Has("shop") {
				c.fields.Set("shop", "S")
			}
		}
		t.Run(c.path+" "+c.fields.Encode(), func(t *testing.T) {
			text := refusalOf(t, link, c.path, c.fields)
			wrongAt(t, text, c.wrong...)
			if c.path == "run" && !strings.Contains(text, "Load 1, food: ") {
				t.Errorf("it is not said of which load:%s", mainOf(text))
			}
			for name, values := range c.fields {
				if name != "once" && name != "do" && values[0] != "" && !strings.Contains(strings.ReplaceAll(text, "\r", ""), values[0]) {
					t.Errorf("%s no longer holds %q", name, values[0])
				}
			}
		})
	}
	if !equal(before, content(t, dir)) {
		t.Error("something was written")
	}
}

// What is wrong with a question is told at its field too, in the form's words, and
// shows it where it was folded.
func TestWrongQuestionsAreToldAtTheirFields(t *testing.T) {
	link, _ := start(t, sample(t), "127.0.0.1:0")
	for _, c := range []struct {
		fields url.Values
		field  string
	}{
		{filledIn("item", "strawberries", "price", "2.49", "size", "1g", "limit", "5000000", "cycles", "99999", "use", "1000kg", "keep-months", "99"), "limit"},
		{filledIn("item", "strawberries", "price", "2.49", "size", "454 g", "cycle-hours", "abc"), "cycle-hours"},
		{filledIn("item", "strawberries", "price", "cheap", "size", "454 g"), "price"},
		{filledIn("item", "turnips", "price", "2.49", "size", "454 g"), "item"},
		{filledIn("item", "strawberries", "price", "2.49", "size", "454 g", "as-of", "teatime"), "as-of"},
	} {
		answer, text := ask(t, "GET", link+"worth?"+c.fields.Encode(), "")
		if answer.StatusCode != http.StatusUnprocessableEntity {
			t.Errorf("%v: status %d", c.fields, answer.StatusCode)
		}
		marked := 0
		for _, m := range controls.FindAllStringSubmatch(text, -1) {
			if strings.Contains(m[0], `aria-invalid="true"`) {
				marked++
				if m[1] != c.field {
					t.Errorf("%s is told to be wrong, not %s", m[1], c.field)
				}
			}
		}
		if marked != 1 || !strings.Contains(text, `<a href="#`+c.field+`">`) || !strings.Contains(text, `<p class="wrong" id="`+c.field+`-wrong">`) {
			t.Errorf("%v is not told at %s:%s", c.fields, c.field, mainOf(text))
		}
		if said := mainOf(text); regexp.MustCompile(`--[a-z]|putby [a-z]|\.csv`).MatchString(said) {
			t.Errorf("it is said in the words of the command line:%s", said)
		}
	}
}

// What is odd and may be so is saved, and said: a figure ten times the usual.
func TestOddAmountsAreSaid(t *testing.T) {
	link, _ := start(t, sample(t), "127.0.0.1:0")
	saves(t, link, "price", []string{"shop", "Corner Shop", "item", "carrots", "size", "1 kg", "price", "99,00"}, "Look again: ", "far from the usual")
}

// What comes off a receipt, and is as much as it is off, is called by what it is.
func TestReceiptOffByACoupon(t *testing.T) {
	dir := sample(t)
	link, _ := start(t, dir, "127.0.0.1:0")
	refuses(t, dir, link, "receipt", slip{[]string{"shop", "Oat Quay", "date", "2025-11-15", "said", "1 kg carrots 2.99\nsoap 1.99\ncoupon 2.00", "total", "4.98"},
		"line 3, discount 2.00, is as much: is it on the receipt?"})
}
