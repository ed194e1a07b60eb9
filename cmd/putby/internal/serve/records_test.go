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
	saves(t, link, "settings", []string{recordName(1), were, "setting-hour_value", "12", "setting-locale", "de-DE"}, "Setting hour_value: 12.")
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
	shows(t, link, "record"+line, "Take the first line out", "Take the whole receipt out", "&whole=yes")
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
