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
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"putby/ledger"
	"putby/ledger/ledgertest"
)

// addedColumns are what a developer would write to have two more columns of a kind.
const addedColumns = `
		word("seal", words{"pressed", "welded"}, func(*RECORD, uint8) {}, "").blank("pressed").ask(1),
		number("tare", func(*RECORD, exact.Number) {}, "of the empty container").in("kg"),
`

// aKind is where a kind says what type its records are of, and where its columns end.
var aKind = regexp.MustCompile(`(?s)(func \w+Kind\(\) Kind \{.*?func\(line int\) )(\w+)( \{.*?\n)(\t\)\n\})`)

// TestAddColumn adds columns to every kind in the one place where its columns are,
// builds that, and sees TestAddedColumn find them everywhere. One build has them all,
// made as fast as it can be: nothing in it is to run for long.
func TestAddColumn(t *testing.T) {
	if ledgertest.Small() {
		t.Skip("it builds the program anew")
	}
	dir, kinds := t.TempDir(), 0
	replace := map[string]string{}
	files, err := filepath.Glob("../../ledger/kinds*.go")
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range files {
		source, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		kinds += len(aKind.FindAll(source, -1))
		source = aKind.ReplaceAll(source, []byte("${1}${2}${3}"+strings.ReplaceAll(addedColumns[1:], "RECORD", "${2}")+"${4}"))
		changed := filepath.Join(dir, filepath.Base(name))
		if name, err = filepath.Abs(name); err != nil {
			t.Fatal(err)
		}
		if replace[name] = changed; os.WriteFile(changed, source, 0o600) != nil {
			t.Fatal(changed)
		}
	}
	if kinds != len(ledger.Kinds()) {
		t.Fatalf("%d of %d kinds are found in %v", kinds, len(ledger.Kinds()), files)
	}
	list, err := json.Marshal(map[string]map[string]string{"Replace": replace})
	overlay := filepath.Join(dir, "overlay.json")
	if err != nil || os.WriteFile(overlay, list, 0o600) != nil {
		t.Fatal(err)
	}
	cmd := exec.Command("go", "test", "-overlay", overlay, "-vet=off", "-gcflags=putby/...=-N -l", "-ldflags=-s -w", "-count=1", "-v", "-run", "^TestAddedColumn$", ".")
	cmd.Env = append(os.Environ(), "PUTBY_ADDED=1")
	if out, err := cmd.CombinedOutput(); err != nil || !strings.Contains(string(out), "--- PASS: TestAddedColumn") {
		t.Errorf("%v\n%s", err, out)
	}
}

// addedTo is for each kind a command that adds a record of it, of which the last
// argument is what a person is asked for first; and the form with all of its columns.
var addedTo = map[string]struct {
	form string
	args []string
}{
	"food":    {"food", []string{"--food", "quinces", "--name", "Quinces", "--basis", "mass"}},
	"supply":  {"add/supply", []string{"--kind", "jar", "--supply", "jar-3l"}},
	"machine": {"add/machine", []string{"--cycles", "800", "--machine", "shed"}},
	"wattage": {"add/wattage", []string{"--machine", "attic", "--watts", "150", "--phase", "hold"}},
	"tariff":  {"add/tariff", []string{"--rate", "0.2", "--tariff", "summer"}},
	"holiday": {"add/holiday", []string{"--date", "2026-12-28", "--tariff", "harbour"}},
	"receipt": {"receipt", []string{"--shop", "Ferryside Tools", "oil rag 1.50"}},
	"price":   {"price", []string{"--item", "onions", "--size", "1 kg", "--price", "1.15", "--shop", "Corner"}},
	"batch":   {"batch", []string{"--quantity", "0.05 L", "--from", "1 eggs", "--item", "beaten-egg"}},
	"run":     {"run", []string{"--machine", "rimewell", "--load", "0.1 kg onions", "--phase", "primary 8h", "--start", "2025-11-18 9:00"}},
	"phase":   {"add/phase", []string{"--phase", "hold", "--duration", "40m", "--watts", "150", "--run", "c47"}},
	"load":    {"add/load", []string{"--item", "apples", "--quantity", "0.1 kg", "--wet", "0.1 kg", "--dry", "15 g", "--run", "c47"}},
	"pack":    {"pack", []string{"--run", "c47", "--count", "1"}},
	"draw":    {"record/draw/2", []string{"--quantity", "1", "--pack", "c46-a"}},
	"frozen":  {"record/frozen/2", []string{"--quantity", "0.1 kg", "--item", "onions"}},
	"count":   {"record/count/2", []string{"--pack", "c46-a", "--quantity", "2"}},
}

// TestAddedColumn finds the added columns of every kind in flags, help, completion,
// reading, writing, dialogues and forms.
func TestAddedColumn(t *testing.T) {
	if os.Getenv("PUTBY_ADDED") == "" {
		t.Skip("there is no added column; TestAddColumn runs it where there is")
	}
	for _, k := range ledger.Kinds() {
		t.Run(k.Name, func(t *testing.T) {
			h, add := withAttic(t), append([]string{k.Name, "add"}, addedTo[k.Name].args...)
			said := h.must(h.run(k.Name, "add", "--help")).stdout
			has(t, said, "--seal SEAL", "pressed or welded (pressed)", "--tare NUMBER", "of the empty container, kg")
			has(t, h.complete(k.Name, "add", "--seal", "w"), "welded\n")
			has(t, h.run(append(slices.Clone(add), "--seal", "waxed")...).stderr, "one of: pressed, welded")

			unasked, asked := add[:len(add)-1], add[len(add)-1]
			if k.Name != "receipt" { // whose lines need no flag
				unasked = add[:len(add)-2]
			}
			if k.Name == "food" { // the open table is asked about first
				asked = "-\n" + asked
			}
			got := h.ask(asked+strings.Repeat("\n", 30), slices.Clone(unasked)...)
			has(t, got.prompt, "seal (pressed or welded (pressed))")
			h = withAttic(t)
			h.must(h.run(append(slices.Clone(add), "--seal", "welded", "--tare", "0,31")...))
			text := h.files()[filepath.Join(h.dir, k.File)]
			has(t, text, ",seal,tare\n", ",welded,0.31\n")
			has(t, h.must(h.run(k.Name, "list", "seal=welded", "--format", "csv")).stdout, "welded,0.31")

			has(t, h.form(addedTo[k.Name].form), `seal" aria-describedby="`, `<option value="welded">welded</option>`,
				`tare" type="text" value="" inputmode="decimal"`, "of the empty container, kg")
		})
	}
	h := sampleHouse(t)
	has(t, h.complete("edit", "pack", "c46-a", "seal=w"), "seal=welded\n")
	h.must(h.run("edit", "pack", "c46-a", "tare=0.3"))
	has(t, h.run("edit", "pack", "c46-a", "tare=light").stderr, "tare")
	for path, fields := range map[string][]string{
		"food":    {"name", "Quinces", "basis", "mass", "seal", "welded", "tare", "0.32"},
		"batch":   {"item", "beaten-egg", "quantity", "0.05 L", "from", "1 eggs", "seal", "welded", "tare", "0.33"},
		"receipt": {"shop", "Ferryside Tools", "kind-1", "other", "item-1", "oil rag", "price-1", "1.50", "seal-1", "welded", "tare-1", "0.34"},
	} {
		h.send(path, fields...)
		has(t, h.files()[filepath.Join(h.dir, ledger.MustKind(path).File)], ",welded,"+fields[len(fields)-1]+"\n")
	}
}

// withAttic is the sample with a second machine, of which nothing is known.
func withAttic(t *testing.T) *house {
	t.Helper()
	h := sampleHouse(t)
	h.must(h.run("machine", "add", "--machine", "attic", "--cycles", "800"))
	return h
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
