package main

import (
	"bytes"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// weekSaid is the week of the script week.txtar told to dialogues: the commands
// that begin them, and a person's answers. What differs from Enter is what only
// a person can know.
var weekSaid = []struct{ at, command, answers string }{
	{"2025-11-17T22:00:00Z", "pack add", "|yes|"}, // the books have too few lids
	{"2025-11-18T15:00:00Z", "receipt add", "|||2 kg carrots 2.79|10 lb chicken-backs 9.90|soap 1.99||coupon 1.00||-|"},
	{"2025-11-19T20:00:00Z", "batch add", "squash-puree|5.6 L|6.5 kg squash|-|||"},
	{"2025-11-19T20:00:00Z", "start", "5.6 L squash puree|"},
	{"2025-11-21T13:00:00Z", "finish", "15.8|||"},
	{"2025-11-21T13:00:00Z", "receipt add", "Quillet & Daughters|||2 kg apples 3.60|cream 2.49|||-|"},
	{"2025-11-21T13:00:00Z", "start", "1.7 kg carrots; 3 kg apples|"},
	{"2025-11-23T16:00:00Z", "finish", "as usual||||"},
	{"2025-11-23T16:00:00Z", "pack add", "squash-puree 5; carrots 2 x 0.7 kg; apples 6|yes|"},
	{"2025-11-23T16:00:00Z", "take", "2 chicken-broth; leek-soup; strawberries; chives; 2 squash-puree|"},
}

// answering hands out one answer a question, and counts them.
type answering struct {
	left  []string
	asked int
}

func (a *answering) Read(p []byte) (int, error) {
	if len(a.left) == 0 {
		return 0, io.EOF
	}
	n := copy(p, a.left[0]+"\n")
	a.left = a.left[1:]
	a.asked++
	return n, nil
}

// A week told to dialogues takes few answers, and records what the commands do.
func TestWeekSaid(t *testing.T) {
	h := sampleHouse(t)
	asked := 0
	for _, w := range weekSaid {
		person := &answering{left: strings.Split(w.answers, "|")}
		var stdout, stderr, prompt bytes.Buffer
		at, err := time.Parse(time.RFC3339, w.at)
		if err != nil {
			t.Fatal(err)
		}
		status := run(t.Context(), append(strings.Fields(w.command), "--ledger", h.dir), environment{
			stdin: person, stdout: &stdout, stderr: &stderr, prompt: &prompt, ask: true,
			getenv: func(string) string { return "" }, now: func() time.Time { return at },
		})
		if status != exitDone || len(person.left) > 0 {
			t.Errorf("%s: status %d, answers that nothing asked for %q\n%s\n%s%s", w.command, status, person.left, prompt.String(), stdout.String(), stderr.String())
		}
		asked += person.asked
	}
	const most = 48
	if asked > most {
		t.Errorf("a week takes %d answers; %d are the most", asked, most)
	}
	want := weekTyped(t)
	for name, text := range h.records() {
		if name == "names.csv" { // that soap is spending only is kept, since it was asked
			continue
		}
		if text != want[name] {
			t.Errorf("by dialogue %s ends\n%s\nand by commands\n%s", name, h.last(name, 8), lastLines(want[name], 8))
		}
	}
}

// weekTyped are the records of the week as the script types it.
func weekTyped(t *testing.T) map[string]string {
	t.Helper()
	text, err := os.ReadFile("testdata/script/week.txtar")
	if err != nil {
		t.Fatal(err)
	}
	_, week, _ := strings.Cut(string(text), "# the week\n")
	week, _, _ = strings.Cut(week, "# the week is over\n")
	h := sampleHouse(t)
	for line := range strings.Lines(week) {
		line = strings.TrimSpace(line)
		if at, is := strings.CutPrefix(line, "env CLOCK="); is {
			h.now, _ = time.Parse(time.RFC3339, at)
		}
		if typed, is := strings.CutPrefix(line, "exec putby "); is {
			typed, _, _ = strings.Cut(typed, " --labels")
			h.must(h.run(shellWords(strings.ReplaceAll(typed, "'", `"`))...))
		}
	}
	return h.records()
}

// records are the ledger's files of records, by name.
func (h *house) records() map[string]string {
	h.t.Helper()
	list, err := filepath.Glob(filepath.Join(h.dir, "*.csv"))
	if err != nil || list == nil {
		h.t.Fatal(err, "no records")
	}
	files := map[string]string{}
	for _, path := range list {
		text, err := os.ReadFile(path)
		if err != nil {
			h.t.Fatal(err)
		}
		files[filepath.Base(path)] = string(text)
	}
	return files
}

func lastLines(text string, n int) string {
	lines := strings.Split(strings.TrimRight(text, "\n"), "\n")
	return strings.Join(lines[max(0, len(lines)-n):], "\n")
}

// Of a food that was never packed before it is asked what goes with a container,
// and what is answered is kept as the line that says it.
func TestAskPackNew(t *testing.T) {
	for answer, want := range map[string]string{"1 jar-1l, 2 label": `"1 jar-1l, 2 label"`, "": ""} {
		h := sampleHouse(t)
		h.must(h.run("start", "0.5 kg onions"))
		h.now = h.now.Add(40 * time.Hour)
		h.must(h.run("finish", "--kwh", "12"))
		got := h.ask(lines("onions 2 x 0.2 kg", answer, ""), "pack", "add", "--run", "c48")
		if got.status != exitDone {
			t.Fatalf("%s%s%s", got.prompt, got.stdout, got.stderr)
		}
		has(t, got.prompt, "[onions 1 x ", "what goes with a container of onions", "save it")
		has(t, h.last("packs.csv", 1), ",c48,onions,2025-11-22,2,0.2 kg,,"+want+",")
		changes := h.must(h.run("changes")).stdout
		if answer != "" && !strings.Contains(changes, "with "+answer) {
			t.Errorf("the change is kept as\n%s", changes)
		}
	}
}
