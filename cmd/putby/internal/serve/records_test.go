package serve

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// Records are listed the newest first, so many at a time, and found by words of theirs
// and of the foods that they name.
func TestRecordsAreListed(t *testing.T) {
	link, _ := start(t, sample(t), "127.0.0.1:0")
	shows(t, link, "", `href="/records">Records`)
	shows(t, link, "changes", `href="/records">All records`)
	shows(t, link, "records", "298 in draws.csv", `href="/take">Add`, `href="/records/draw">Look through`, `href="/add/machine">Add`, `href="/settings">`)
	_, text := ask(t, "GET", link+"records/draw", "")
	days := regexp.MustCompile(`<p class="when">(\d{4}-\d\d-\d\d)`).FindAllStringSubmatch(text, -1)
	if len(days) != recordsShown || days[0][1] != "2025-11-16" || days[recordsShown-1][1] >= days[0][1] {
		t.Errorf("%d draws are listed, from %v", len(days), days)
	}
	shows(t, link, "records/draw", "1 to 50 of 298", `href="/records/draw?find=&from=50">Older`)
	shows(t, link, "records/draw?from=250", "251 to 298 of 298", `from=200">Newer`)
	shows(t, link, "records/draw?from=9999", "298 to 298 of 298")
	shows(t, link, "records/draw?find=CHICKEN+broth+2025-11-0", "1 to 1 of 1", `value="CHICKEN broth 2025-11-0"`)
	shows(t, link, "records/phase?find=apple+primary", "of run c46, step 3")
	shows(t, link, "records/draw?find=turnips", "There are none")
	for _, path := range []string{"records/nothing", "records/setting", "records/draws.csv", "record/draw/x", "record/setting/2", "add/food", "add/setting", "remove/nothing/2"} {
		if answer, _ := ask(t, "GET", link+path, ""); answer.StatusCode != 404 {
			t.Errorf("/%s: status %d", path, answer.StatusCode)
		}
	}
}

// A list that was shown before its file changed leads to the record that it showed, and
// a form of one that was changed meanwhile refuses, with what changed.
func TestRecordsThatChangeMeanwhile(t *testing.T) {
	dir := sample(t)
	link, _ := start(t, dir, "127.0.0.1:0")
	path := filepath.Join(dir, "draws.csv")
	data, _ := os.ReadFile(path)
	lines := strings.SplitAfter(string(data), "\n")
	_, list := ask(t, "GET", link+"records/draw?find=c22-a", "")
	to := unescape(regexp.MustCompile(`href="/(record/draw/\d+\?was=\w+)"`).FindStringSubmatch(list)[1])
	_, before := ask(t, "GET", link+to, "")
	write := func(lines ...string) {
		t.Helper()
		if err := os.WriteFile(path, []byte(strings.Join(lines, "")), 0o600); err != nil {
			t.Fatal(err)
		}
	}

	write(append([]string{lines[0]}, lines[2:]...)...)
	_, moved := ask(t, "GET", link+to, "")
	if !strings.Contains(moved, `value="2025-11-15"`) || !strings.Contains(moved, `value="c22-a"`) {
		t.Errorf("it leads to another record: %s", mainOf(moved))
	}
	gone := strings.Replace(strings.Split(to, "?")[0], "record", "remove", 1)
	saves(t, link, strings.Split(to, "?")[0], []string{"record-1", hiddenIn(t, before, "record-1"), "draw-1-reason", "given"}, "Given away")
	for _, form := range [][]string{
		{strings.Split(to, "?")[0], "record-1", hiddenIn(t, before, "record-1"), "draw-1-reason", "spoiled"},
		{gone, "record-1", hiddenIn(t, before, "record-1")},
	} {
		refuses(t, dir, link, form[0], slip{form[1:], "somebody has changed this draw meanwhile, or taken it out"})
	}
	shows(t, link, to, "It is no longer there")

	_, settings := ask(t, "GET", link+"settings", "")
	were := hiddenIn(t, settings, recordName(1))
	saves(t, link, "settings", []string{recordName(1), were, "setting-hour_value", "12", "setting-locale", "de-DE"}, "Setting worth of an hour of work: 12")
	refuses(t, dir, link, "settings",
		slip{[]string{recordName(1), were, "setting-hour_value", "13"}, "somebody has changed this setting meanwhile"},
		slip{[]string{recordName(1), were, "setting-zone", "Nowhere"}, `id="setting-zone-wrong"`},
		slip{nil, "nothing of it differs from what is recorded"},
	)
}

// A receipt is taken out whole or line by line, and once, however often that is sent; a
// fault stands at the field of the record that has it.
func TestRecordsAreTakenOut(t *testing.T) {
	dir := sample(t)
	link, _ := start(t, dir, "127.0.0.1:0")
	saves(t, link, "receipt", []string{"shop", "Oat Quay", "said", "soap 1.00\nbrush 3.00", "total", "4.00", "date", "2025-11-15", "receipt", "oq"})
	rows := func() int { return strings.Count(content(t, dir)[filepath.Join(dir, "receipts.csv")], "\noq,") }
	last := strings.Count(content(t, dir)[filepath.Join(dir, "receipts.csv")], "\n")
	line := fmt.Sprintf("/receipt/%d", last-1)
	shows(t, link, "record"+line, "Take this line out: brush", "Take the whole receipt out", "&whole=yes")
	_, one := ask(t, "GET", link+"remove"+line, "")
	refuses(t, dir, link, "remove"+line, slip{[]string{"record-1", hiddenIn(t, one, "record-1")}, "4.00"})
	_, text := ask(t, "GET", link+"record"+line, "")
	refuses(t, dir, link, "record"+line, slip{[]string{"record-1", hiddenIn(t, text, "record-1"), "receipt-1-price", ""}, `id="receipt-1-price-wrong"`})
	_, whole := ask(t, "GET", link+"remove"+line+"?whole=yes", "")
	form := []string{"once", onceIn(t, whole)}
	for i := 1; i <= 3; i++ {
		form = append(form, recordName(i), hiddenIn(t, whole, recordName(i)))
	}
	for range 2 {
		saves(t, link, "remove"+line, form, "Saved")
	}
	if _, text := ask(t, "GET", link+"changes", ""); strings.Contains(text, "Correct change 2") || !strings.Contains(text, "Correct change 1") {
		t.Error("what was taken out is to be corrected")
	}
	if n := rows(); n != 0 {
		t.Errorf("%d lines of the receipt are left", n)
	}
	shows(t, link, "changes", "Change 2: Take a record out")
	if _, text := ask(t, "GET", link+"changes", ""); strings.Contains(text, "Change 3") {
		t.Error("it was taken out twice")
	}
}

// A new food or supply leads to the line of a receipt that has it as spending alone, with
// what makes it one filled in; what is taken out of a receipt leaves the rest, which is
// told whole.
func TestSpendingLeadsToItsLine(t *testing.T) {
	dir := sample(t)
	link, _ := start(t, dir, "127.0.0.1:0")
	saves(t, link, "receipt", []string{"receipt", "r9", "shop", "Oat Quay", "date", "2025-11-15", "said", "1.2 kg big quinces 2.99\n12 corks 6.00\ncoupon 1.00"}, "3 lines, 7.99 CAD")
	leads := func(text string) string {
		t.Helper()
		to := regexp.MustCompile(`href="/(record/receipt\?[^"]*)"`).FindStringSubmatch(text)
		if to == nil {
			t.Fatalf("nothing leads to the receipt: %s", mainOf(text))
		}
		return followed(t, link, unescape(to[1]))
	}
	for _, is := range []struct {
		path   string
		fields []string
		shown  []string
		said   string
	}{
		{"food", []string{"name", "Big quinces", "basis", "mass"}, []string{`value="big-quinces"`, `value="1.2 kg"`, `value="2.99"`, `value="food" selected`}, "Big quinces, 1.2 kg; 2.99; 2.2"},
		{"add/supply", []string{"supply", "cork", "name", "Cork stopper", "kind", "lid"}, []string{`value="cork"`, `value="12"`, `value="0.50"`, `value="supply" selected`}, "Cork stopper, 12 at 0.50; 6.00; 0."},
	} {
		status, text := send(t, link, is.path, append(is.fields, "do", "save")...)
		if status != 303 {
			t.Fatalf("status %d: %s", status, mainOf(text))
		}
		text = leads(text)
		for _, want := range is.shown {
			if !strings.Contains(text, want) {
				t.Errorf("%s leads to a form without %s: %s", is.path, want, mainOf(text))
			}
		}
		record, line := hiddenIn(t, text, "record-1"), regexp.MustCompile(`action="/(record/receipt/\d+)"`).FindStringSubmatch(text)[1]
		fields := []string{"record-1", record}
		for _, m := range regexp.MustCompile(`name="(receipt-1-\w+)" type="\w+" value="([^"]*)"`).FindAllStringSubmatch(text, -1) {
			fields = append(fields, m[1], unescape(m[2]))
		}
		fields = append(fields, "receipt-1-kind", strings.TrimPrefix(is.path, "add/"))
		saves(t, link, line, fields, "Receipt r9, Oat Quay, 2025-11-15: 3 lines, 7.99 CAD.", is.said, "in all; 7.99")
	}
	text := followed(t, link, "record/receipt?which=r10")
	if !strings.Contains(text, "There are none") {
		t.Errorf("a receipt that is not there: %s", mainOf(text))
	}
	text = followed(t, link, "remove/receipt?which=r9")
	if strings.Count(text, "<fieldset>") != 3 {
		t.Errorf("a whole receipt to take out: %s", mainOf(text))
	}
}

// followed is the page that an address sends the browser on to.
func followed(t *testing.T, link, path string) string {
	t.Helper()
	answer, _ := ask(t, "GET", link+path, "")
	_, text := ask(t, "GET", link+strings.TrimPrefix(answer.Header.Get("Location"), "/"), "")
	return text
}

// Containers given away count as returned: the form says so, and leads to where it is
// recorded that they are not.
func TestGivenAwayWithItsContainer(t *testing.T) {
	link, _ := start(t, sample(t), "127.0.0.1:0")
	_, text := send(t, link, "take", "things", "2 chicken broth", "reason", "given", "date", "2025-11-16", "do", "save")
	if !strings.Contains(text, `The containers count as returned. Record those that are not: <a href="/take?date=2025-11-16&reason=given&things=2+jar-half`) {
		t.Errorf("it says %s", mainOf(text))
	}
}

// What a question lacks is told at the field that would give it.
func TestMissingFactsAreTold(t *testing.T) {
	link, _ := start(t, sample(t), "127.0.0.1:0")
	saves(t, link, "food", []string{"name", "Big quinces", "basis", "mass"}, "Food big-quinces")
	_, text := ask(t, "GET", link+"worth?item=big-quinces&price=2.20&size=2+kg", "")
	for _, want := range []string{`href="#shelf"`, `id="shelf-wrong"`, `href="#each"`, `id="each-wrong"`} {
		if !strings.Contains(text, want) {
			t.Errorf("the page has no %s: %s", want, mainOf(text))
		}
	}
}
