package main

import (
	"html"
	"io"
	"net/http"
	"net/http/cookiejar"
	"net/url"
	"regexp"
	"strings"
	"testing"
)

// alike are things that a person does by a command or by a form.
var alike = []struct {
	name, path string
	args       []string
	fields     []string // name and text of each
	says       string   // both say it
	refused    bool
	before     [][]string // commands that went before
	differ     bool       // the form records more, by what it asks besides
}{
	{name: "a phase that lasts no time", path: "run",
		args:   []string{"run", "add", "--start", "2025-11-18 18:00", "--kwh", "14", "--load", "1 kg apples", "--phase", "freezing 7h", "--phase", "primary 0h"},
		fields: []string{"start", "2025-11-18T18:00", "kwh", "14", "load-1-item", "apples", "load-1-quantity", "1 kg", "phases", "freezing 7h\nprimary 0h"},
		says:   `"0h" is no length of time: write it as 22h30m or 25m`, refused: true},
	{name: "a phase that is none", path: "run",
		args:   []string{"run", "add", "--start", "2025-11-18 18:00", "--kwh", "14", "--load", "1 kg apples", "--phase", "prmary 20h"},
		fields: []string{"start", "2025-11-18T18:00", "kwh", "14", "load-1-item", "apples", "load-1-quantity", "1 kg", "phases", "prmary 20h"},
		says:   `"prmary" is no phase; did you mean primary?`, refused: true},
	{name: "a run with its loads and phases", path: "run",
		args:   []string{"run", "add", "--start", "2025-11-18 18:00", "--kwh", "14", "--load", "1 kg apples trays 2", "--phase", "freezing 7h", "--phase", "primary 20 hours 640 W"},
		fields: []string{"start", "2025-11-18T18:00", "kwh", "14", "load-1-item", "apples", "load-1-quantity", "1 kg", "load-1-trays", "2", "phases", "freezing 7h\nprimary 20 hours 640 W"},
		says:   "Run c48: 1 kg Apple slices"},
	{name: "a new supply that a receipt has as spending", path: "supplies",
		args:   []string{"supply", "add", "--supply", "wax-seals", "--name", "Wax seals", "--kind", "other"},
		fields: []string{"new-supply", "wax-seals", "new-name", "Wax seals", "new-kind", "other", "shop", "Corner Shop", "price", "3.10", "date", "2025-11-19"},
		says:   "Receipt cs-251118 of 2025-11-18 has wax seals as spending alone", differ: true,
		before: [][]string{{"receipt", "add", "--shop", "Corner Shop", "--date", "2025-11-18", "wax seals 4.29"}}},
	{name: "containers of a pack", path: "take",
		args:   []string{"draw", "add", "--pack", "c46-b", "--quantity", "1", "--reason", "used", "--date", "2025-11-19"},
		fields: []string{"pack", "c46-b", "quantity", "1", "date", "2025-11-19"},
		says:   "Left in store: "},
	{name: "a food that is named by its name", path: "food",
		args:   []string{"food", "add", "--name", "Red kale", "--basis", "mass", "--caution", "Wash it."},
		fields: []string{"name", "Red kale", "basis", "mass", "caution", "Wash it."},
		says:   "Food red-kale"},
	{name: "the end of one of two runs", path: "finish",
		args:   []string{"finish", "--kwh", "12"},
		fields: []string{"kwh", "12"},
		says:   "several runs are running: say which", refused: true,
		before: [][]string{
			{"machine", "add", "--machine", "shed", "--cycles", "900"},
			{"start", "1 kg apples", "--machine", "shed", "--at", "2025-11-19 08:00"},
			{"start", "0.4 kg onions", "--machine", "rimewell", "--at", "2025-11-19 09:00"},
		}},
}

// What a command refuses its form refuses too, in the same words, and what both record
// is the same.
func TestCommandAndFormAreAlike(t *testing.T) {
	for _, c := range alike {
		t.Run(c.name, func(t *testing.T) {
			byCommand, byForm := sampleHouse(t), sampleHouse(t)
			for _, args := range c.before {
				byCommand.must(byCommand.run(args...))
				byForm.must(byForm.run(args...))
			}
			got := byCommand.run(c.args...)
			form := byForm.send(c.path, c.fields...)
			if !strings.Contains(got.stdout+got.stderr, c.says) || (got.status != exitDone) != c.refused {
				t.Errorf("the command says\n%s%s", got.stdout, got.stderr)
			}
			if !strings.Contains(form, c.says) || strings.Contains(form, "Nothing was saved") != c.refused {
				t.Errorf("the form says\n%s", form)
			}
			want, forms := byCommand.records(), byForm.records()
			for name, text := range want {
				if forms[name] != text && !c.differ {
					t.Errorf("by the command %s ends\n%s\nand by the form\n%s", name, lastLines(text, 4), lastLines(forms[name], 4))
				}
			}
		})
	}
}

var formMark, tagsOf = regexp.MustCompile(`name="once" value="([^"]+)"`), regexp.MustCompile(`<[^>]*>`)

// send fills in a form of the server and saves it; it returns what the page then says.
func (h *house) send(path string, fields ...string) string {
	h.t.Helper()
	read := func(answer *http.Response, err error) string {
		h.t.Helper()
		if err != nil {
			h.t.Fatal(err)
		}
		defer answer.Body.Close()
		text, err := io.ReadAll(answer.Body)
		if err != nil {
			h.t.Fatal(err)
		}
		return string(text)
	}
	if h.browser == nil {
		jar, err := cookiejar.New(nil)
		if err != nil {
			h.t.Fatal(err)
		}
		link := h.serve().link()
		h.address, _, _ = strings.Cut(link, "?")
		h.browser = &http.Client{Jar: jar}
		read(h.browser.Get(link))
	}
	client, base := h.browser, h.address
	page := read(client.Get(base + path))
	mark := formMark.FindStringSubmatch(page)
	if mark == nil {
		h.t.Fatalf("/%s is no form:\n%s", path, page)
	}
	values := filledIn(page)
	values.Set("once", mark[1])
	values.Set("do", "save")
	for i := 0; i < len(fields); i += 2 {
		values.Set(fields[i], fields[i+1])
	}
	sent, err := http.NewRequestWithContext(h.t.Context(), http.MethodPost, base+path, strings.NewReader(values.Encode()))
	if err != nil {
		h.t.Fatal(err)
	}
	sent.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	sent.Header.Set("Origin", strings.TrimSuffix(base, "/"))
	said := read(client.Do(sent))
	if _, main, ok := strings.Cut(said, "<main"); ok {
		said = main
	}
	return html.UnescapeString(tagsOf.ReplaceAllString(said, ""))
}

var fieldTags, attributes = regexp.MustCompile(`<input [^>]*>|<option [^>]*selected[^>]*>|<select [^>]*>`), regexp.MustCompile(`(name|value|type)="([^"]*)"`)

// filledIn are the fields of a page that hold something already, as a browser would
// send them.
func filledIn(page string) url.Values {
	values, chosen := url.Values{}, ""
	for _, tag := range fieldTags.FindAllString(page, -1) {
		cells := map[string]string{}
		for _, m := range attributes.FindAllStringSubmatch(tag, -1) {
			cells[m[1]] = html.UnescapeString(m[2])
		}
		switch {
		case strings.HasPrefix(tag, "<select"):
			chosen = cells["name"]
		case strings.HasPrefix(tag, "<option"):
			values.Set(chosen, cells["value"])
		case cells["type"] != "checkbox" && cells["type"] != "radio":
			values.Set(cells["name"], cells["value"])
		}
	}
	return values
}
