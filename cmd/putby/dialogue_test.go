package main

import (
	"bytes"
	"maps"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"putby/ledger/folder"
)

// A house is a ledger to run commands on.
type house struct {
	t   *testing.T
	dir string
	now time.Time

	browser *http.Client // that its server has let in; nil: none yet
	address string       // of the server
}

// sampleHouse is the sample as a household's own, which stands at no day but
// today, four days after its last record.
func sampleHouse(t *testing.T) *house {
	t.Helper()
	files, err := sampleFiles("sample")
	if err != nil {
		t.Fatal(err)
	}
	files["settings.csv"] = bytes.ReplaceAll(files["settings.csv"], []byte("as_of,2025-11-16\n"), nil)
	dir := filepath.Join(t.TempDir(), "ledger")
	if err := folder.Create(t.Context(), dir, "sample", files); err != nil {
		t.Fatal(err)
	}
	return &house{t: t, dir: dir, now: time.Date(2025, 11, 20, 16, 30, 0, 0, time.UTC)}
}

// A said is what a command said, and its exit status.
type said struct {
	stdout, prompt, stderr string
	status                 int
}

// run runs a command with nobody to ask.
func (h *house) run(args ...string) said { return h.answer("", false, args...) }

// ask runs a command with a person who gives the answers, a line each, and
// then ends the input.
func (h *house) ask(answers string, args ...string) said { return h.answer(answers, true, args...) }

func (h *house) answer(answers string, ask bool, args ...string) said {
	var stdout, stderr, prompt bytes.Buffer
	status := run(h.t.Context(), append(args, "--ledger", h.dir), environment{
		stdin: strings.NewReader(answers), stdout: &stdout, stderr: &stderr, prompt: &prompt, ask: ask,
		getenv: func(string) string { return "" }, now: func() time.Time { return h.now },
	})
	return said{stdout.String(), prompt.String(), stderr.String(), status}
}

// must fails the test unless the command was done.
func (h *house) must(s said) said {
	h.t.Helper()
	if s.status != exitDone {
		h.t.Fatalf("exit status %d\n%s%s%s", s.status, s.prompt, s.stdout, s.stderr)
	}
	return s
}

// files are all files of the ledger but the house's own, by name.
func (h *house) files() map[string]string {
	h.t.Helper()
	files := map[string]string{}
	err := filepath.WalkDir(h.dir, func(path string, d os.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		text, err := os.ReadFile(path)
		files[path] = string(text)
		return err
	})
	if err != nil {
		h.t.Fatal(err)
	}
	return files
}

// last returns the last n lines of a file of the ledger.
func (h *house) last(name string, n int) string {
	h.t.Helper()
	text, err := os.ReadFile(filepath.Join(h.dir, name))
	if err != nil {
		h.t.Fatal(err)
	}
	lines := strings.Split(strings.TrimRight(string(text), "\n"), "\n")
	return strings.Join(lines[max(0, len(lines)-n):], "\n")
}

// has fails the test unless text holds every part, in order.
func has(t *testing.T, text string, parts ...string) {
	t.Helper()
	rest := text
	for _, part := range parts {
		_, after, found := strings.Cut(rest, part)
		if !found {
			t.Fatalf("after what was found, it does not say %q:\n%s", part, text)
		}
		rest = after
	}
}

func TestAskReceipt(t *testing.T) {
	h := sampleHouse(t)
	got := h.must(h.ask(strings.Join([]string{
		"", "yesterday", "", // Muddleby Foods, the day before, and its next name
		"carrots", "2", "", "", // at the size and price of last time
		"3 x 500 g strawberries at 1.99 offer 3 for 5.00",
		"1.5 kg apples at 3.20/kg",
		"other bus fare home at 2.40",
		"discount 1.00 on 1",
		"", "18.87", // which is not what the lines come to
		"", "", "yes",
	}, "\n")+"\n", "receipt", "add"))
	has(t, got.prompt, "Ctrl-C ends it", "shop [Muddleby Foods]: ", "date [2025-11-20]: ", "receipt [mb-251119]: ",
		"line 1: ", "last time 2 kg carrots at 3.29 (Muddleby Foods on 2025-07-10)", "how many [1]: ", "size of one [2 kg]: ", "price of one [3.29]: ",
		"2 x 2 kg carrots at 3.29: 6.58   so far 6.58", "5.00   so far 11.58", "4.80   so far 16.38",
		"2.40   so far 18.78", "-1.00   so far 17.78", "printed total [17.78]: ",
		"the lines come to 17.78 and the receipt says 18.87", "printed total [17.78]: ",
		"mb-251119, 2025-11-19, Muddleby Foods", "food 2 x 2 kg carrots at 3.29", "in all", "17.78  CAD", "save it [yes]: ")
	want := `mb-251119,2025-11-19,Muddleby Foods,1,food,carrots,2,2 kg,3.29,,,,
mb-251119,2025-11-19,Muddleby Foods,2,food,strawberries,3,500 g,1.99,0.97,,,offer 3 for 5.00
mb-251119,2025-11-19,Muddleby Foods,3,food,apples,1.5,1 kg,3.20,,,,
mb-251119,2025-11-19,Muddleby Foods,4,other,bus fare home,,,2.40,,,,
mb-251119,2025-11-19,Muddleby Foods,5,discount,,,,1.00,,,1,
mb-251119,2025-11-19,Muddleby Foods,6,total,,,,17.78,,,,`
	if have := h.last("receipts.csv", 6); have != want {
		t.Errorf("recorded\n%s\nwant\n%s", have, want)
	}
	changes := h.must(h.run("changes", "--format", "csv"))
	has(t, changes.stdout, `receipt add --shop 'Muddleby Foods' --date 2025-11-19 --receipt mb-251119 --food '2 x 2 kg carrots at 3.29'`,
		`--food '3 x 500 g strawberries at 1.99 offer 3 for 5.00'`, `--food '1.5 kg apples at 3.20/kg'`, `--discount '1.00 on 1'`)
}

// What the ledger does not have is asked about: a slip is mended, a new thing
// becomes known in the same change, and anything else is spending.
func TestAskReceiptOfNewThings(t *testing.T) {
	h := sampleHouse(t)
	before := h.files()
	got := h.must(h.ask(strings.Join([]string{
		"Corner Shop", "", "",
		"2 x 500 g carots at 1.20", "", // what is offered, since it is called nearly so
		"1 kg plums at 3.00", "food", "weight", "mass", // after an answer that is none
		"bag-2l", "supply", "bag", "10", "", "0.40",
		"kettle descaler at 2.10", "other", "back", "-", // takes the line out
		"food 1 kg quinces at 4", "", "mass", "back", "-", // and the new food with it
		"supply carrots at 1", // which are a food
		"food 1 kg carrotts at 1", "", "back", "-",
		"candle at 1.00", "",
		"", "", "y",
	}, "\n")+"\n", "receipt", "add"))
	has(t, got.prompt, "receipt [cs-251120]: ", "what is carots: its name in the ledger, food, supply, service or other [carrots]: ", "2 x 500 g carrots at 1.20: 2.40",
		"what is plums: its name in the ledger, food, supply, service or other [other]: ", "basis (what amounts are counted in",
		"is not one of its words", "1 kg plums at 3.00: 3.00   so far 5.40", "how many [1]: ", "size of one: ", "price of one: ",
		"10 x bag-2l at 0.40: 4.00   so far 9.40", "kettle descaler at 2.10: 2.10", "line 4 [kettle descaler at 2.10]: ",
		"line 4: ", "what is quinces: its name in the ledger or food [food]: ", "basis", "line 4 [1 kg quinces at 4]: ", "carrots is a food, not a supply",
		"what is carrotts: its name in the ledger or food [carrots]: ", "line 4 [1 kg carrots at 1]: ", "10.40  CAD")
	has(t, h.last("foods.csv", 1), "plums,,mass")
	has(t, h.last("supplies.csv", 1), "bag-2l,,bag")
	if names := h.files()[filepath.Join(h.dir, "names.csv")]; !strings.Contains(names, "carots,,carrots,") || !strings.Contains(names, "candle,other,,") || strings.Contains(names, "carrotts") || strings.Contains(names, "kettle") {
		t.Errorf("kept of what was said:\n%s", names)
	}
	if n := strings.Count(h.must(h.run("changes", "--format", "csv")).stdout, "receipt add"); n != 1 {
		t.Errorf("%d changes", n)
	}
	h.must(h.run("undo"))
	for name, text := range h.files() {
		if !strings.Contains(name, ".putby") && before[name] != text {
			t.Errorf("undo leaves %s changed", name)
		}
	}
}

// A line in words is asked about: a thing that the ledger knows by name is that,
// and what it does not know is never spending alone without a word.
func TestAskReceiptInWords(t *testing.T) {
	h := sampleHouse(t)
	got := h.must(h.ask(strings.Join([]string{
		"Corner Shop", "", "",
		"2 x 1 kg Chicken Backs at 4.00",
		"rice dry at 4.29", "food", "mass", "2 kg",
		"", "12.30", // a cent more than it comes to
		"charge 0.01", "", "", "y",
	}, "\n")+"\n", "receipt", "add"))
	has(t, got.prompt, "2 x 1 kg chicken-backs at 4.00: 8.00", "what is rice dry: its name in the ledger", "basis",
		"size of one: ", "2 kg rice-dry at 4.29: 4.29", "the lines come to 12.29 and the receipt says 12.30",
		"0.01 may be rounding, of a line or of cash: then add a charge of 0.01", "charge 0.01")
	has(t, h.last("foods.csv", 1), "rice-dry,rice dry,mass")
	has(t, h.last("receipts.csv", 4), ",food,chicken-backs,2,1 kg,4.00,", ",food,rice-dry,,2 kg,4.29,", ",charge,,,,0.01,", ",total,,,,12.30,")
}

func TestAskPack(t *testing.T) {
	h := sampleHouse(t)
	got := h.must(h.ask("\nyes\n\n", "pack", "add")) // all that is offered
	// 6.3 L of broth were loaded; its packs are of 1 L.
	has(t, got.prompt, "what was packed, with ; between [chicken-broth 6 x 1 L]: ", "Taken as pack c44-a: with 0.5 L jar, Jar lid with gasket, Oxygen absorber 100 cc, Label.",
		"6 needed, and only 1 free", "is that right", "Pack c47-a: 6 containers of 1 L Chicken broth", "Caution, Chicken broth: ", "save it")
	byDialogue := h.last("packs.csv", 1)
	if byWords := sampleHouse(t); byWords.must(byWords.run("pack", "add", "6")).status == exitDone && byWords.last("packs.csv", 1) != byDialogue {
		t.Errorf("recorded\n%s\nand by the command\n%s", byDialogue, byWords.last("packs.csv", 1))
	}
}

// What is in store without a run is packed by the same act as any pack: lids that are
// lacking are asked about, what the label says is shown, and its sheet is written.
func TestAskOpeningStock(t *testing.T) {
	h := sampleHouse(t)
	labels := filepath.Join(t.TempDir(), "labels.html")
	got := h.must(h.ask("-\n\n4\n500 g\n43 g\n\n\n\nyes\n\n", "pack", "add", "--item", "chicken-broth", "--cost", "3", "--labels", labels))
	has(t, got.prompt, "run (the run it came from; blank: opening stock): ", "count (containers): ", "Jar lid with gasket: 4 needed, and only 1 free", "is that right",
		"Pack old-3: 4 containers of ", "On the label of old-3: add ", "Caution, Chicken broth: ", "save it")
	has(t, got.stdout, "Their labels are in ")
	has(t, h.last("packs.csv", 1), "old-3,,chicken-broth,2025-11-20,4,500 g,43 g,")
	if text, err := os.ReadFile(labels); err != nil || !strings.Contains(string(text), "old-3") {
		t.Errorf("the sheet of labels: %v", err)
	}
}

func TestAskRun(t *testing.T) {
	h := sampleHouse(t)
	got := h.must(h.ask(strings.Join([]string{
		"rime", "2025-11-19 18:05", "", "14.9", "25 of them", "25m", // a name begun, an answer that is none
		"1 kg aples", "1.4 kg apples dry 230 g", "", // a slip
		"", "y",
	}, "\n")+"\n", "run", "add"))
	has(t, got.prompt, "machine [rimewell]: ", "start (local date and time, or with an offset) [2025-11-20 12:30]: ",
		"run (identifier) [c48]: ", "kwh (metered total): ", "hands-on time", "hands-on time", "load, such as",
		"the ledger has no aples; did you mean apples?", "another load (none): ",
		"phases, with ; between [freezing ", "primary ", "secondary ", "]: ", "save it")
	if have, want := h.last("runs.csv", 1), `c48,rimewell,2025-11-19 18:05,,,14.9,25m,,`; have != want {
		t.Errorf("recorded %s, want %s", have, want)
	}
	if have, want := h.last("loads.csv", 1), `c48,apples,1.4 kg,,,,,230 g,`; have != want {
		t.Errorf("recorded %s, want %s", have, want)
	}
	// The phases are those of the machine's last run with apples, c46.
	wants := strings.ReplaceAll(h.must(h.run("phase", "list", "run=c46", "--format", "csv", "--table", "rows")).stdout, "c46", "c48")
	has(t, wants, strings.Split(strings.SplitN(h.last("phases.csv", 4), "\n", 2)[0], ",,")[0])
}

func TestAskDraw(t *testing.T) {
	h := sampleHouse(t)
	got := h.must(h.ask("sweetco\n2\n\n\nyes\n", "draw", "add"))
	has(t, got.prompt, "what was taken (a pack, a food or a supply): ", "containers in store, those with the first best-by", "quantity", "[1]: ", "reason", "[used]: ")
	has(t, got.prompt, "Used: 2 containers of ", "from pack c35-a, ", "best by ", "save it")
	has(t, got.stdout, "Caution, Sweetcorn: ")
	has(t, h.must(h.run("changes", "--format", "csv")).stdout, "draw add --date 2025-11-20 --quantity 2 --reason used --food sweetcorn")

	got = h.must(h.ask("jar-half\n1\nspoiled\n-\n2025-11-19\nyes\n", "draw", "add"))
	has(t, got.prompt, "this cannot be left blank", "date (")
	if have, want := h.last("draws.csv", 1), "2025-11-19,,jar-half,1,spoiled,"; have != want {
		t.Errorf("recorded %s, want %s", have, want)
	}
}

func TestAskFood(t *testing.T) {
	h := sampleHouse(t)
	got := h.must(h.ask(strings.Join([]string{
		"kale", "", "", "", "mass", "5", "18", "-", "yes",
	}, "\n")+"\n", "food", "add"))
	has(t, got.prompt, "food (identifier): ", "from the open table: words, or a number (- for none) [kale]: ",
		"1  11233  Kale, raw", "[1]: ", "name (name for people) [Kale]: ", "basis",
		"caution (printed wherever the food is packed, opened or reported) [Low in acid: keep it bone dry and sealed. Once wetted, treat it as fresh.]: ")
	has(t, got.prompt, "From the table: Kale, raw (11233). Source: USDA National Nutrient Database for Standard Reference, Release 28")
	if have, want := h.last("foods.csv", 1), `kale,Kale,mass,0.0676,,84.04,28,,49,4.28,0.93,5,,18,`; have != want {
		t.Errorf("recorded %s, want %s", have, want)
	}
}

// A number that is offered chooses its row; it is no word to search for.
func TestAskFoodByRow(t *testing.T) {
	h := sampleHouse(t)
	got := h.must(h.ask(strings.Join([]string{
		"broth", "stock home", "3", "", "volume", "3", "24", "-", "yes",
	}, "\n")+"\n", "food", "add"))
	has(t, got.prompt, "1  06170  Soup, stock, beef, home-prepared", "3  06172  Soup, stock, chicken, home-prepared", "[1]: ", "name (name for people) [Broth]: ")
	has(t, got.prompt, "From the table: Soup, stock, chicken, home-prepared (06172)")
}

// The caution that the table's group proposes is taken by Enter, or replaced by
// what is typed.
func TestAskFoodCaution(t *testing.T) {
	for answer, want := range map[string]string{"": `"Low in acid: keep it bone dry and sealed. Once wetted, treat it as fresh."`, "Blanch it.": "Blanch it."} {
		h := sampleHouse(t)
		h.must(h.ask(strings.Join([]string{"kale", "11233", "", "mass", "5", "18", answer, "yes"}, "\n")+"\n", "food", "add"))
		if have := h.last("foods.csv", 1); !strings.HasSuffix(have, ",18,"+want) {
			t.Errorf("%q recorded %s", answer, have)
		}
	}
}

// Whoever breaks off, by the end of input at any question or by a no, leaves
// the ledger as it was, and is told so.
func TestAskBrokenOff(t *testing.T) {
	for _, test := range []struct{ answers, command string }{
		{"\n\n\ncarrots\n2\n\n\n\n\nyes\n", "receipt add"},
		{"\nyes\nyes\n", "pack add"},
		{"\n\n\n\n\n1 kg apples\n\n\nyes\n", "run add"},
		{"chicken-broth\n\n\n\nyes\n", "draw add"},
		{"kale\n11233\n\nmass\n\n\n\nyes\n", "food add"},
	} {
		h := sampleHouse(t)
		before := h.files()
		lines := strings.SplitAfter(strings.TrimSuffix(test.answers, "\n"), "\n")
		for n := range lines {
			got := h.ask(strings.Join(lines[:n], ""), strings.Fields(test.command)...)
			if got.status != exitBroken || !strings.Contains(got.stderr, "broken off: nothing was saved") {
				t.Errorf("%s after %d answers: status %d, %s", test.command, n, got.status, got.stderr)
			}
		}
		got := h.ask(strings.Join(lines[:len(lines)-1], "")+"no\n", strings.Fields(test.command)...)
		if got.status != exitBroken {
			t.Errorf("%s, then no: status %d", test.command, got.status)
		}
		if !maps.Equal(before, h.files()) {
			t.Errorf("%s: broken off, the ledger is changed", test.command)
		}
		if got = h.ask(test.answers, strings.Fields(test.command)...); got.status != exitDone {
			t.Errorf("%s: with all answers status %d\n%s%s", test.command, got.status, got.prompt, got.stderr)
		}
	}
}

// A run that would overlap another is told at its start, not once all is
// answered. The answers are not lost when the person gives up: they are given back
// as one command.
func TestAskTogether(t *testing.T) {
	h := sampleHouse(t)
	got := h.ask("\n2025-11-13 22:00\n2025-11-16 22:00\n\n\n\n", "run", "add")
	if got.status != exitBroken {
		t.Fatalf("status %d\n%s%s", got.status, got.prompt, got.stderr)
	}
	has(t, got.prompt, "start", "while run c47 is on until 2025-11-15 10:13", "start", "run (identifier) [c48]: ", "load, such as")
	has(t, got.stderr, "broken off: nothing was saved", "as one command to go on from:",
		"putby run add --run c48 --machine rimewell --start '2025-11-16 22:00'")
}

// --dry-run asks and shows, and writes nothing.
func TestAskDryRun(t *testing.T) {
	h := sampleHouse(t)
	before := h.files()
	got := h.must(h.ask("\n", "pack", "add", "--dry-run"))
	has(t, got.stdout, "Would save:", "Pack c47-a: 6 containers of 1 L Chicken broth", "CAD each, and the shelf asks 3.99 for as much.")
	if !maps.Equal(before, h.files()) {
		t.Error("the ledger is changed")
	}
}

// A new ledger's currency and zone are asked for where they are not given.
func TestAskInit(t *testing.T) {
	h := &house{t: t, dir: filepath.Join(t.TempDir(), "new"), now: time.Now()}
	init := func(answers string, args ...string) said {
		var stdout, stderr, prompt bytes.Buffer
		status := run(t.Context(), append([]string{"init", h.dir}, args...), environment{
			stdin: strings.NewReader(answers), stdout: &stdout, stderr: &stderr, prompt: &prompt, ask: true,
			getenv: func(name string) string { return map[string]string{"TZ": "Europe/Ljubljana"}[name] }, now: time.Now,
		})
		return said{stdout.String(), prompt.String(), stderr.String(), status}
	}
	if got := init("CAD\n"); got.status != exitBroken {
		t.Errorf("broken off: %v", got)
	}
	if _, err := os.Stat(h.dir); err == nil {
		t.Error("broken off, it leaves a folder")
	}
	got := h.must(init("dollars\ncad\n\n"))
	has(t, got.prompt, "currency (ISO 4217 code) [EUR]: ", "currency (ISO 4217 code) [EUR]: ", "time zone (IANA name, such as Europe/Vienna) [Europe/Ljubljana]: ")
	if have := h.last("settings.csv", 2); have != "currency,CAD\nzone,Europe/Ljubljana" {
		t.Error(have)
	}
}

// How figures are shown is asked for where the machine says how the place writes
// them, with money and a day as an example; - is plain, and a place that is not
// known is said.
func TestAskInitLocale(t *testing.T) {
	for _, test := range []struct{ lang, answers, prompt, locale string }{
		{"de_AT.UTF-8", "\n\n\n", "figures as in (€\u00a01.234,50, 28.02.2025; - for plain ones) [de-AT]: ", "locale,de-AT"},
		{"de_AT.UTF-8", "chf\n\nde_CH\n", "figures as in (CHF\u00a01.234,50, 28.02.2025; - for plain ones) [de-AT]: ", "locale,de-CH"},
		{"en_US", "\n\n\n-\n", "figures as in ($1,234.50, Feb 28, 2025; - for plain ones) [en-US]: ", "show_mass,lb"},
		{"en_US", "\n\nlitres\n-\n", "what you measure in [quarts and pounds]: ", "show_mass,kg"},
		{"fr_FR", "\n\n?\nxx\nfr-be\n", "\"xx\" is not a locale that is known here: write one of cs-CZ", "locale,fr-BE"},
		{"fr_FR", "\n\n?\n\n", "Plain is 1234.50 EUR, 2025-02-28.", "locale,fr-FR"},
		{"eo_US", "\n\nlitres\n", "How figures are written in eo-US is not known here: they are shown plain", "show_mass,kg"},
		{"C", "\n\n", "time zone", "zone,Europe/Ljubljana"},
	} {
		h := &house{t: t, dir: filepath.Join(t.TempDir(), "new"), now: time.Now()}
		var stdout, stderr, prompt bytes.Buffer
		status := run(t.Context(), []string{"init", h.dir}, environment{
			stdin: strings.NewReader(test.answers), stdout: &stdout, stderr: &stderr, prompt: &prompt, ask: true,
			getenv: func(name string) string { return map[string]string{"TZ": "Europe/Ljubljana", "LANG": test.lang}[name] }, now: time.Now,
		})
		if status != exitDone {
			t.Fatalf("%s: status %d: %s", test.lang, status, stderr.String())
		}
		has(t, prompt.String(), test.prompt)
		if have := h.last("settings.csv", 1); have != test.locale {
			t.Errorf("%s, answered %q: %s", test.lang, test.answers, have)
		}
	}
}

// changes is how many changes the ledger's history has; the first made it.
func (h *house) changes() int {
	h.t.Helper()
	list, err := folder.LastChanges(h.dir, 0)
	if err != nil {
		h.t.Fatal(err)
	}
	return len(list)
}

// A mistyped year is told before the faults that come of it: what is packed before it was
// dried, with jars that nobody had bought.
func TestDialogueTellsTheYearFirst(t *testing.T) {
	h := sampleHouse(t)
	h.must(h.run("start", "0.5 kg onions", "--at", "2025-11-18 08:00"))
	h.must(h.run("finish", "--kwh", "15", "--at", "2025-11-19 16:00"))
	got := h.ask("onions 1 x 0.5 kg\n-\n", "pack", "add", "--date", "2024-11-19")
	year, fault := strings.Index(got.prompt, "2024-11-19 is about a year before"), strings.Index(got.prompt, "before its run")
	if year < 0 || fault < year {
		t.Errorf("%s\n%s", got.prompt, got.stderr)
	}
}
