package main

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"io"
	"net/http"
	"net/http/cookiejar"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"putby/ledger/ledgertest"
)

// addedColumns are what a developer would write to have two more columns of packs.
const addedColumns = `
	word("seal", words{"pressed", "welded"}, func(*Pack, uint8) {}, "").blank("pressed").ask(1),
	number("tare", func(*Pack, exact.Number) {}, "of the empty container").in("kg"),
`

// TestAddColumn adds columns to packs in the one place where columns are, builds
// that, and sees TestAddedColumn find them everywhere.
func TestAddColumn(t *testing.T) {
	if ledgertest.Small() {
		t.Skip("it builds the program anew")
	}
	kinds, err := filepath.Abs("../../ledger/kinds_run.go")
	if err != nil {
		t.Fatal(err)
	}
	source, err := os.ReadFile(kinds)
	if err != nil {
		t.Fatal(err)
	}
	const before = "\tmoney(\"cost\", func(r *Pack"
	if bytes.Count(source, []byte(before)) != 1 {
		t.Fatal("packs have no column cost")
	}
	dir := t.TempDir()
	changed, overlay := filepath.Join(dir, "kinds_run.go"), filepath.Join(dir, "overlay.json")
	list, err := json.Marshal(map[string]map[string]string{"Replace": {kinds: changed}})
	if err != nil {
		t.Fatal(err)
	}
	for name, text := range map[string]string{changed: strings.Replace(string(source), before, addedColumns[1:]+before, 1), overlay: string(list)} {
		if err := os.WriteFile(name, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	cmd := exec.Command("go", "test", "-overlay", overlay, "-vet=off", "-gcflags=putby/...=-l", "-count=1", "-v", "-run", "^TestAddedColumn$", ".")
	cmd.Env = append(os.Environ(), "PUTBY_ADDED=1")
	if out, err := cmd.CombinedOutput(); err != nil || !strings.Contains(string(out), "--- PASS: TestAddedColumn") {
		t.Errorf("%v\n%s", err, out)
	}
}

// TestAddedColumn finds the added columns in flags, help, completion, reading,
// writing, dialogues and forms.
func TestAddedColumn(t *testing.T) {
	if os.Getenv("PUTBY_ADDED") == "" {
		t.Skip("there is no added column; TestAddColumn runs it where there is")
	}
	h := sampleHouse(t)
	has(t, h.must(h.run("pack", "add", "--help")).stdout,
		"--seal SEAL", "pressed or welded (pressed)", "--tare NUMBER", "of the empty container, kg")
	has(t, h.complete("pack", "add", "--seal", "w"), "welded\n")
	has(t, h.complete("edit", "pack", "c46-a", "seal=w"), "seal=welded\n")

	has(t, h.run("pack", "add", "--run", "c47", "--count", "1", "--seal", "waxed").stderr, "one of: pressed, welded")
	h.must(h.run("pack", "add", "--run", "c47", "--count", "1", "--seal", "welded", "--tare", "0,31"))
	has(t, h.files()[filepath.Join(h.dir, "packs.csv")], ",seal,tare\n", ",welded,0.31\n")
	has(t, h.must(h.run("pack", "list", "seal=welded", "--format", "csv")).stdout, "c47-a", "welded,0.31")
	h.must(h.run("edit", "pack", "c47-a", "tare=0.3"))
	has(t, h.run("edit", "pack", "c47-a", "tare=light").stderr, "tare")

	got := h.must(h.ask("1\npress\nyes\nyes\n", "pack", "add", "--run", "c47"))
	has(t, got.prompt, "seal (pressed or welded (pressed)): ", "seal pressed")

	has(t, h.form("pack"), `<select id="seal" name="seal" aria-describedby="seal-help">`, `<option value="welded">welded</option>`,
		`name="tare" type="text" value="" inputmode="decimal"`, "of the empty container, kg")
}

// complete is what the shell is offered.
func (h *house) complete(args ...string) string {
	h.t.Helper()
	var offered bytes.Buffer
	if status := run(h.t.Context(), append([]string{"__complete"}, args...), environment{
		stdout: &offered, stderr: io.Discard, now: func() time.Time { return h.now },
		getenv: func(name string) string { return map[string]string{"PUTBY_LEDGER": h.dir}[name] },
	}); status != exitDone {
		h.t.Errorf("completing %q: exit status %d", args, status)
	}
	return offered.String()
}

// form is a form of the server.
func (h *house) form(name string) string {
	h.t.Helper()
	ctx, stop := context.WithCancel(h.t.Context())
	out, in := io.Pipe()
	done := make(chan int)
	go func() {
		done <- run(ctx, []string{"serve", "--addr", "127.0.0.1:0", "--ledger", h.dir}, environment{
			stdin: strings.NewReader(""), stdout: in, stderr: in, prompt: in,
			getenv: func(string) string { return "" }, now: func() time.Time { return h.now },
		})
	}()
	lines := bufio.NewScanner(out)
	link := ""
	for link == "" && lines.Scan() {
		if at := strings.Index(lines.Text(), "http://"); at >= 0 {
			link = strings.Fields(lines.Text()[at:])[0]
		}
	}
	go func() { _, _ = io.Copy(io.Discard, out) }()
	defer func() { stop(); <-done }()
	jar, err := cookiejar.New(nil)
	if err != nil {
		h.t.Fatal(err)
	}
	client := &http.Client{Jar: jar}
	text := ""
	base, _, _ := strings.Cut(link, "?")
	for _, url := range []string{link, base + name} {
		answer, err := client.Get(url)
		if err != nil {
			h.t.Fatal(err)
		}
		body, err := io.ReadAll(answer.Body)
		if err != nil {
			h.t.Fatal(err)
		}
		answer.Body.Close()
		text = string(body)
	}
	return text
}
