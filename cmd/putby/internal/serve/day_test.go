package serve

import (
	"errors"
	"fmt"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// A price is written down as it is seen, with the size and price of last time where
// they are asked for.
func TestPriceForm(t *testing.T) {
	dir := sample(t)
	link, _ := start(t, dir, "127.0.0.1:0")
	refuses(t, dir, link, "price",
		slip{[]string{"item", "Carrots", "size", "2 kg", "price", "2.80", "date", "2036-11-16"}, `name="ahead"`},
		slip{[]string{"item", "turnips", "size", "2 kg", "price", "2.80"}, `no food is called "turnips"`},
		slip{[]string{"item", "Carrots", "size", "heap", "price", "2.80"}, "heap"},
		slip{[]string{"item", "Carrots", "size", "2 kg", "price", "-1"}, "-1 is below 0"},
		slip{[]string{"item", "", "size", "2 kg", "price", "2.80"}, "this cannot be left blank"},
		slip{[]string{"item", "Carrots", "size", "2 kg", "price", "1,500"}, "1,500"},
	)
	if text := pressed(t, link, "price", "last", "item", "Carrots"); !strings.Contains(text, `name="size" type="text" value="5 kg"`) {
		t.Errorf("the size of last time is not filled in: %s", text)
	}
	saves(t, link, "price", []string{"shop", "Brine & Bramble", "item", "carrots", "size", "2 kg", "price", "2,85"}, "Carrots", "2.85")
}

// pressed is what a form shows once another of its buttons is pressed.
func pressed(t *testing.T, link, path, button string, fields ...string) string {
	t.Helper()
	_, text := ask(t, "GET", link+path, "")
	form := url.Values{"once": {onceIn(t, text)}, "do": {button}}
	for i := 0; i < len(fields); i += 2 {
		form.Set(fields[i], fields[i+1])
	}
	_, text = post(t, link, path, form)
	return text
}

// Kitchen work draws on the fresh food in hand, which it calls by its names.
func TestBatchForm(t *testing.T) {
	dir := sample(t)
	link, _ := start(t, dir, "127.0.0.1:0")
	refuses(t, dir, link, "batch",
		slip{[]string{"item", "Squash purée", "quantity", "2 L", "from", "400 kg squash"}, "in hand"},
		slip{[]string{"item", "Squash purée", "quantity", "2 L", "from", "2 kg turnips"}, "turnips"},
		slip{[]string{"item", "Squash purée", "quantity", "2 L", "from", ""}, "this cannot be left blank"},
		slip{[]string{"item", "Squash purée", "quantity", "2 L", "from", "1 kg squash", "date", "2036-01-01"}, `name="ahead"`},
	)
	saves(t, link, "batch", []string{"item", "Squash purée", "quantity", "1,5 L", "from", "2 kg Butternut squash\n0.1 kg Onions"}, "Squash purée", "1.5 L")
	if text := pressed(t, link, "batch", "last", "item", "leek-soup"); !regexp.MustCompile(`(?s)<textarea id="from".*Leeks`).MatchString(text) {
		t.Errorf("what the last batch took is not filled in by name: %s", text)
	}
}

// A stocktake is a list of what is in store, recorded in one change.
func TestStocktakeForm(t *testing.T) {
	dir := sample(t)
	link, _ := start(t, dir, "127.0.0.1:0")
	shows(t, link, "stocktake", `id="count-pack-c46-b"`, `data-from="6"`, "the books have 6", `aria-label="one less: `)
	refuses(t, dir, link, "stocktake",
		slip{[]string{"count-pack-c46-b", "-1", "count-pack-c39-b", "7"}, "it is below 0"},
		slip{[]string{"count-pack-c46-b", "5", "count-pack-c39-b", "7"}, "A record may be lacking"},
		slip{[]string{"count-pack-c46-b", "2.5"}, "it is not a whole number"},
		slip{nil, "nothing was counted"},
		slip{[]string{"count-pack-c46-b", "5", "date", "2036-01-01"}, `name="ahead"`},
	)
	saves(t, link, "stocktake", []string{"count-pack-c46-b", "5", "rest-box-under-the-stairs", "yes", "count-item-apples", "1,2 kg", "gone-apples", "eaten"},
		"Stocktake of 6 things: 5 as the books have them", "Missing: ", "Apple slices")
	if n := strings.Count(content(t, dir)[filepath.Join(dir, "counts.csv")], "\n2025-11-16,"); n != 6 {
		t.Errorf("%d counts are recorded", n)
	}
}

// A food is found in the open table, which fills in what is known of it and
// proposes a caution, to be taken, changed or declined.
func TestFoodForm(t *testing.T) {
	dir := sample(t)
	link, _ := start(t, dir, "127.0.0.1:0")
	refuses(t, dir, link, "food",
		slip{[]string{"name", ""}, "say what it is called"},
		slip{[]string{"name", "Kale", "water", "130", "fresh_days", "soon"}, `href="#water"`},
	)
	text := pressed(t, link, "food", "find", "name", "Trout")
	if !strings.Contains(text, `<select id="table"`) || !strings.Contains(text, ">Trout, rainbow, wild, raw<") {
		t.Fatalf("the table is not searched: %s", mainOf(text))
	}
	ndb := regexp.MustCompile(`<option value="(\d+)">Trout, rainbow, wild, raw<`).FindStringSubmatch(text)[1]
	caution := "never taste it raw"
	text = pressed(t, link, "food", "fill", "name", "Trout", "basis", "mass", "words", "trout", "table", ndb)
	if !strings.Contains(text, caution) || !strings.Contains(text, `name="filled" value="`+ndb+`"`) || !strings.Contains(text, `value="71.87"`) {
		t.Errorf("the table fills nothing in: %s", text)
	}
	saves(t, link, "food", []string{"name", "Trout", "basis", "mass", "table", ndb}, "Trout", "Proposed caution: Fish")
	saves(t, link, "food", []string{"name", "Trout", "basis", "mass", "table", ndb, "filled", ndb, "caution", ""}, "Trout")
	foods := content(t, dir)[filepath.Join(dir, "foods.csv")]
	if !strings.Contains(foods, "\ntrout,Trout,mass") || !strings.Contains(foods, "\ntrout-2,Trout,mass") || strings.Count(foods, "Fish: drying kills no germs") != 1 {
		t.Errorf("the foods are not as they were typed: %s", foods)
	}
}

// Supplies come with their receipt; a new kind in the same change.
func TestSuppliesForm(t *testing.T) {
	dir := sample(t)
	link, _ := start(t, dir, "127.0.0.1:0")
	refuses(t, dir, link, "supplies",
		slip{[]string{"supply", "", "price", "4.50"}, "say what was bought"},
		slip{[]string{"supply", "jar-1l", "price", ""}, "this cannot be left blank"},
		slip{[]string{"supply", "jar-1l", "price", "4.50", "count", "-1.5"}, "-1.5"},
		slip{[]string{"new-name", "Two-litre jar", "new-kind", "", "price", "4.50"}, "this cannot be left blank"},
		slip{[]string{"supply", "jar-1l", "price", "4.50", "date", "2036-01-01"}, `name="ahead"`},
	)
	saves(t, link, "supplies", []string{"supply", "jar-1l", "count", "2", "size", "6", "price", "14,40", "shop", "Corner Shop"}, "28.80")
	saves(t, link, "supplies", []string{"new-name", "Two-litre jar", "new-kind", "jar", "new-uses", "20", "new-capacity", "2 L", "count", "6", "price", "3.20", "shop", "Corner Shop"}, "Two-litre jar", "19.20")
}

// A change is taken back by its button, done again, and corrected; each once,
// however often it is sent.
func TestUndoRedoAndChange(t *testing.T) {
	dir := sample(t)
	link, _ := start(t, dir, "127.0.0.1:0")
	first := content(t, dir)
	saves(t, link, "take", []string{"food", "chicken-broth", "quantity", "2"}, `action="/undo"`, `href="/change/1"`)
	before := content(t, dir)
	_, text := ask(t, "GET", link+"changes", "")
	if !strings.Contains(text, "Change 1: Take something out") || !strings.Contains(text, "2 containers of 1 L Chicken broth") {
		t.Errorf("the change is not told: %s", mainOf(text))
	}
	undo := url.Values{"once": {onceIn(t, text)}, "number": {"1"}}
	for range 2 {
		if status, text := post(t, link, "undo", undo); status != 200 || !strings.Contains(text, "Change 1 undone.") || !strings.Contains(text, "Do change 1 again") {
			t.Errorf("status %d: %s", status, mainOf(text))
		}
	}
	if !equal(first, content(t, dir)) {
		t.Error("it is not undone")
	}
	_, text = ask(t, "GET", link+"changes", "")
	if status, text := post(t, link, "redo", url.Values{"once": {onceIn(t, text)}, "number": {"2"}}); status != 200 || !strings.Contains(text, "Change 1 done again.") {
		t.Errorf("status %d: %s", status, mainOf(text))
	}
	if !equal(before, content(t, dir)) {
		t.Error("it is not done again")
	}
	_, text = ask(t, "GET", link+"changes", "")
	if status, text := post(t, link, "redo", url.Values{"once": {onceIn(t, text)}, "number": {"2"}}); status != 422 || !strings.Contains(text, "something else was saved since") {
		t.Errorf("an undo is done again twice: status %d: %s", status, mainOf(text))
	}

	_, text = ask(t, "GET", link+"change/1", "")
	record := hiddenIn(t, text, "record-1")
	saves(t, link, "change/1", []string{"record-1", record, "draw-1-quantity", "3", "draw-1-reason", "given", "draw-1-date", "2025-11-16"}, "3 containers of 1 L Chicken broth", "Given away")
	refuses(t, dir, link, "change/1",
		slip{[]string{"record-1", record, "draw-1-quantity", "4"}, "somebody has changed this draw meanwhile"},
	)
}

// A record of the history that is damaged or gone hides no other change, and takes no
// other's number.
func TestChangesWithoutSome(t *testing.T) {
	dir := sample(t)
	link, _ := start(t, dir, "127.0.0.1:0")
	for range 3 {
		saves(t, link, "take", []string{"food", "chicken-broth", "quantity", "1"})
	}
	record := func(n int) string { return filepath.Join(dir, ".putby", "changes", fmt.Sprintf("%06d.json", n)) }
	if err := errors.Join(os.Remove(record(1)), os.WriteFile(record(2), []byte("x"), 0o600)); err != nil {
		t.Fatal(err)
	}
	_, text := ask(t, "GET", link+"changes?done=3", "")
	for _, want := range []string{"Change 3: Take something out.", "Undo change 3", "Change 2: its record is damaged, so it cannot be undone"} {
		if !strings.Contains(text, want) {
			t.Errorf("it does not say %q: %s", want, mainOf(text))
		}
	}
	if _, text := ask(t, "GET", link+"changes?before=3", ""); strings.Contains(text, "Undo change 3") || !strings.Contains(text, "Change 2") {
		t.Errorf("before 3: %s", mainOf(text))
	}
	if _, text := ask(t, "GET", link+"changes?done=1", ""); strings.Contains(mainOf(text), "Take something out.") {
		t.Errorf("done 1, which is gone: %s", mainOf(text))
	}
}

// A slip in a cell that is changed is told of, by the form of what a run was and by
// that of a change; what a receipt noted of the shelf goes with it.
func TestFormsTellOfUnlikelyChanges(t *testing.T) {
	dir := sample(t)
	link, _ := start(t, dir, "127.0.0.1:0")
	saves(t, link, "finish", []string{"run", "c46", "kwh", "900"}, "Look again: run c46 has 900 kWh, far from the usual 17.12 kWh on rimewell (the median of 30 runs).")
	saves(t, link, "receipt", []string{"shop", "Oat Quay", "said", "6 kg carrots 12.00 regular", "date", "2025-11-15"}, "Noted as what the shelf asks: Carrots")
	_, text := ask(t, "GET", link+"change/2", "")
	saves(t, link, "change/2", []string{"record-1", hiddenIn(t, text, "record-1"), "receipt-1-price", "120.00"},
		"Look again: carrots is at 20.0000 CAD per kg, far from the usual", "Noted as what the shelf asks: now Carrots, 120.00 CAD for 6 kg")
	if shelf := content(t, dir)[filepath.Join(dir, "shelf.csv")]; !strings.Contains(shelf, "2025-11-15,Oat Quay,carrots,6 kg,120") || strings.Contains(shelf, "6 kg,12.00") {
		t.Errorf("shelf.csv ends in %s", shelf[len(shelf)-200:])
	}
}

// hiddenIn is what a hidden field of a page holds.
func hiddenIn(t *testing.T, text, name string) string {
	t.Helper()
	m := regexp.MustCompile(`name="` + name + `" value="([^"]*)"`).FindStringSubmatch(text)
	if m == nil {
		t.Fatalf("the page has no %s: %s", name, text)
	}
	return unescape(m[1])
}

// An empty ledger says what to begin with, by forms; the form that finishes a run says
// which is on.
func TestWhatToBeginWith(t *testing.T) {
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "settings.csv"), []byte("setting,value\nformat,1\ncurrency,EUR\nzone,Europe/Vienna\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	link, _ := start(t, dir, "127.0.0.1:0")
	_, text := ask(t, "GET", link, "")
	for _, path := range []string{"food", "add/machine", "add/tariff", "supplies", "receipt"} {
		if !strings.Contains(text, `<a href="/`+path+`">`) {
			t.Errorf("the page of an empty ledger does not lead to /%s", path)
		}
		if answer, _ := ask(t, "GET", link+path, ""); answer.StatusCode != 200 {
			t.Errorf("/%s: status %d", path, answer.StatusCode)
		}
	}
	link, _ = start(t, sample(t), "127.0.0.1:0")
	saves(t, link, "start", []string{"loads", "1 kg apples", "at", "2025-11-16 07:00", "run", "r9"}, "Run r9 is running")
	shows(t, link, "finish", "On now:", "Run r9 is running since Sun 2025-11-16 at 07:00: 1 kg Apple")
}
