package serve

import (
	"html"
	"net/http"
	"net/url"
	"regexp"
	"strings"
	"testing"
)

// send fills in a form and saves it; the fields come as name, value. It returns
// the status of the answer, and what the page says that it leads to.
func send(t *testing.T, link, path string, fields ...string) (status int, text string) {
	t.Helper()
	_, text = ask(t, "GET", link+path, "")
	form := url.Values{"once": {onceIn(t, text)}, "do": {"save"}}
	for i := 0; i < len(fields); i += 2 {
		form.Set(fields[i], fields[i+1])
	}
	return post(t, link, path, form)
}

// post sends a form, and follows to the page that it leads to. The status is that
// of the page, or See Other where it was saved.
func post(t testing.TB, link, path string, form url.Values) (status int, text string) {
	t.Helper()
	answer, text := ask(t, "POST", link+path, form.Encode(), "Origin", originOf(link))
	if answer.StatusCode != http.StatusSeeOther {
		return answer.StatusCode, html.UnescapeString(text)
	}
	to := answer.Header.Get("Location")
	page, text := ask(t, "GET", originOf(link)+to, "")
	if strings.HasPrefix(to, "/saved/") && page.StatusCode == http.StatusOK {
		return http.StatusSeeOther, html.UnescapeString(text)
	}
	return page.StatusCode, html.UnescapeString(text)
}

// mainOf is what a page says.
func mainOf(text string) string {
	_, text, _ = strings.Cut(text, "<main")
	_, text, _ = strings.Cut(text, ">")
	text, _, _ = strings.Cut(text, "<form action=\"/")
	return tags.ReplaceAllString(text, "")
}

var tags = regexp.MustCompile(`<[^>]*>`)

// saves wants a form to be saved, and the page after it to say all of want.
func saves(t *testing.T, link, path string, fields []string, want ...string) {
	t.Helper()
	status, text := send(t, link, path, fields...)
	if status != http.StatusSeeOther {
		t.Fatalf("/%s %q: status %d%s", path, fields, status, mainOf(text))
	}
	for _, say := range want {
		if !strings.Contains(text, say) {
			t.Errorf("/%s %q does not say %q:%s", path, fields, say, mainOf(text))
		}
	}
}

// A slip is what a form refuses, and what it says.
type slip struct {
	fields []string
	says   string
}

// refuses wants a form to refuse slips in words, with what was typed kept and
// nothing written.
func refuses(t *testing.T, dir, link, path string, slips ...slip) {
	t.Helper()
	before := content(t, dir)
	for _, s := range slips {
		status, text := send(t, link, path, s.fields...)
		if status != http.StatusUnprocessableEntity || !strings.Contains(text, s.says) || !strings.Contains(text, `role="alert"`) {
			t.Errorf("/%s %q: status %d, and it does not say %q:%s", path, s.fields, status, s.says, mainOf(text))
		}
		for i := 1; i < len(s.fields); i += 2 {
			if !strings.Contains(text, s.fields[i]) {
				t.Errorf("/%s %q does not keep %q", path, s.fields, s.fields[i])
			}
		}
	}
	if !equal(before, content(t, dir)) {
		t.Errorf("/%s: something was written", path)
	}
}

// shows wants a page to hold all of want.
func shows(t *testing.T, link, path string, want ...string) {
	t.Helper()
	_, text := ask(t, "GET", link+path, "")
	text = html.UnescapeString(text)
	for _, say := range want {
		if !strings.Contains(text, say) {
			t.Errorf("/%s does not show %q:%s", path, say, mainOf(text))
		}
	}
}

// A run begins by its form: with what is likely filled in, and the form that
// finishes it is then the first link of every page.
func TestStartForm(t *testing.T) {
	dir := sample(t)
	link, _ := start(t, dir, "127.0.0.1:0")
	refuses(t, dir, link, "start",
		slip{[]string{"loads", "1 kg apples", "at", "2036-11-16 09:00"}, `name="ahead"`},
		slip{[]string{"loads", "2 kg turnips"}, `no food is called "turnips"`},
		slip{[]string{"loads", "500 kg apples"}, "only 1.4 kg is in hand"},
		slip{[]string{"loads", ""}, "say what goes in"},
		slip{[]string{"loads", "1 kg apples", "at", "teatime"}, "is not a time that can be read"},
	)
	shows(t, link, "start", "1.4 kg Apple slices</textarea>", `href="/run"`, `<textarea id="loads" name="loads" rows="3" aria-describedby="loads-help">`, `<p id="loads-help">`)
	saves(t, link, "start", []string{"loads", "1 kg apples\n0.4 kg onions"}, "Run c48 is running since Sun 2025-11-16 at 08:00", "earthed socket", `href="/finish">Finish a run`)
	for _, path := range []string{"", "start", "pack", "worth"} {
		shows(t, link, path, `<nav aria-label="Record and ask"><a href="/finish">Finish</a>`)
	}
	refuses(t, dir, link, "start", slip{[]string{"loads", "0.2 kg apples"}, "is on with run c48"})
}

// A run is given more time, ended, and added to when it is over, by one form.
func TestFinishForm(t *testing.T) {
	dir := sample(t)
	link, _ := start(t, dir, "127.0.0.1:0")
	refuses(t, dir, link, "finish", slip{[]string{"kwh", "12"}, "no run is running"})
	saves(t, link, "start", []string{"loads", "1.2 kg apples", "at", "2025-11-15 10:15"}, "Run c48 is running")
	shows(t, link, "finish", `<option value="c48">`, `value="c48"`)
	saves(t, link, "more", []string{"more", "freezing 5h"}, "is running since", "c48,1,freezing,5h")
	saves(t, link, "more", []string{"run", "c48", "more", "primary 10h"}, "c48,2,primary,10h")
	refuses(t, dir, link, "finish",
		slip{[]string{"kwh", "12", "at", "2036-11-16 09:00"}, `name="ahead"`},
		slip{[]string{"kwh", "12", "dry", "turnips 0.2 kg"}, "not loaded with that"},
		slip{[]string{"kwh", "12", "lost", "7 kg"}, "was loaded"},
		slip{[]string{"kwh", "12", "at", "2025-11-01 09:00"}, "2025-11-01"},
		slip{[]string{"as-usual", "yes", "phases", "primary 22h"}, "as usual stands for phases: give one of the two"},
	)
	saves(t, link, "finish", []string{"phases", "secondary 4h", "kwh", "12.6", "dry", "apples 0.19 kg", "hands", "25m"}, "c48", "12.6", `href="/pack?packs=`, `">Pack it`)
	saves(t, link, "finish", []string{"run", "c48", "lost", "apples 0.1 kg"}, "lost")
	if text := content(t, dir)[dir+"/runs.csv"]; !strings.Contains(text, "\nc48,") || strings.Contains(text, "running") {
		t.Errorf("the run is not finished:\n%s", text)
	}
}

// What awaits packing stands in the form of packs, and several foods go in at
// once, each with its labels.
func TestPackForm(t *testing.T) {
	dir := sample(t)
	link, _ := start(t, dir, "127.0.0.1:0")
	shows(t, link, "pack", "Chicken broth 6 x 1 L</textarea>")
	refuses(t, dir, link, "pack",
		slip{[]string{"packs", "chicken-broth 6 x 1 L", "date", "2036-11-16"}, `name="ahead"`},
		slip{[]string{"packs", "turnips 2 x 1 kg"}, `no food is called "turnips"`},
		slip{[]string{"packs", "chicken-broth -1 x 1 L"}, "-1"},
		slip{[]string{"packs", "chicken-broth 2.5 x 1 L"}, "whole number"},
	)
	if text := looked(t, link, "pack", map[string]string{"packs": "chicken-broth 60 x 1 L"}); !strings.Contains(text, "can have come out of it") {
		t.Error("packs of more than can have come out are not told")
	}
	saves(t, link, "pack", []string{"packs", "chicken-broth 4 x 1 L\nchicken-broth 2 x 1 L", "run", "c47", "place", "cellar"},
		"c47-a", "c47-b", `href="/labels/c47-a,c47-b"`, "Skim off all the fat")
	shows(t, link, "labels/c47-b", "Chicken broth")
	saves(t, link, "pack", []string{"item", "carrots", "count", "4", "each", "500 g", "cost", "6.40", "bare", "yes"}, "Carrots")
}

// Things are taken out by choice or by words, several at once.
func TestTakeForm(t *testing.T) {
	dir := sample(t)
	link, _ := start(t, dir, "127.0.0.1:0")
	shows(t, link, "take", "Chicken broth, 26 left")
	refuses(t, dir, link, "take",
		slip{[]string{"things", "2 apples", "date", "2036-11-16"}, `name="ahead"`},
		slip{[]string{"things", "2 turnips"}, `no food, supply or pack is called "turnips"`},
		slip{[]string{"things", "500 chicken-broth"}, "only 26 containers"},
		slip{[]string{"things", "9 pack c46-a"}, "c46-a"},
		slip{[]string{"things", "", "food", "chicken-broth", "quantity", "-1"}, "-1"},
		slip{[]string{"things", ""}, "say what was taken"},
	)
	saves(t, link, "take", []string{"food", "chicken-broth", "quantity", "2", "things", "2 apples\n0.5 kg onions", "reason", "given"},
		"2 containers of 1 L Chicken broth", "Apple slices", "Onions", "boil")
	saves(t, link, "take", []string{"item", "eggs", "quantity", "6"}, "6 ea")
	saves(t, link, "take", []string{"pack", "c46-b", "quantity", "1"}, "c46-b")
}

// Fresh food goes into the freezer.
func TestFreezeForm(t *testing.T) {
	dir := sample(t)
	link, _ := start(t, dir, "127.0.0.1:0")
	refuses(t, dir, link, "freeze",
		slip{[]string{"things", "0.5 kg onions", "date", "2036-11-16"}, `name="ahead"`},
		slip{[]string{"things", "2 turnips"}, `"turnips"`},
		slip{[]string{"things", "500 kg onions"}, "only 0.9 kg of Onions is in hand"},
		slip{[]string{"things", ""}, "say what went into the freezer"},
	)
	saves(t, link, "freeze", []string{"things", "0.5 kg onions\nsquash"}, "Onions", "Butternut squash")
}

// A receipt is written as it is printed, line by line.
func TestReceiptInWords(t *testing.T) {
	dir := sample(t)
	link, _ := start(t, dir, "127.0.0.1:0")
	head := []string{"shop", "Muddleby Foods", "receipt", "mf-1"}
	with := func(fields ...string) []string { return append(fields, head...) }
	refuses(t, dir, link, "receipt",
		slip{with("date", "2036-11-16", "said", "soap 1.99"), `name="ahead"`},
		slip{with("said", "food turnips 2 kg 1.00"), `no food is called "turnips"`},
		slip{with("said", "2 kg carrots 4.00\nsoap 1.99", "total", "9.99"), "9.99"},
		slip{with("said", "2 kg carrots"), "price"},
		slip{with("said", "soap 1.99", "item-1", "carrots"), "all lines in words, or all by fields"},
		slip{[]string{"shop", "", "said", "soap 1.99"}, "a receipt needs shop"},
	)
	saves(t, link, "receipt", with("said", "2 kg carrots 4.00\n3 x 500 g strawberries 3.99\nsoap 1.99\ncoupon strawberries 1.00", "total", "16.96"),
		"16.96", "soap", "Carrots", "Strawberries")
}

// A receipt by fields is the same as one in words: what was paid tells what the shelf
// asks, unless it is said not to, and the printed total is held against its lines.
func TestReceiptByFields(t *testing.T) {
	dir := sample(t)
	link, _ := start(t, dir, "127.0.0.1:0")
	line := []string{"shop", "Muddleby Foods", "item-2", "carrots", "kind-2", "food", "size-2", "2 kg", "price-2", "9.00"}
	refuses(t, dir, link, "receipt",
		slip{append([]string{"total", "9.50"}, line...), "9.50"},
		slip{append([]string{"offer-2", "a steal"}, line...), "a steal"},
	)
	prices := func() int { return strings.Count(content(t, dir)[dir+"/shelf.csv"], "\n") }
	before := prices()
	saves(t, link, "receipt", append([]string{"no-shelf", "on"}, line...), "9.00")
	if now := prices(); now != before {
		t.Errorf("%d prices were noted that do not tell what the shelf asks", now-before)
	}
	line[5], line[7], line[9] = "food", "3 kg", "13.50"
	saves(t, link, "receipt", append([]string{"total", "13.50"}, line...), "13.50", "Noted as what the shelf asks: Carrots")
	if now := prices(); now != before+1 {
		t.Errorf("%d prices were noted, not 1", now-before)
	}
}

var unescape = html.UnescapeString
