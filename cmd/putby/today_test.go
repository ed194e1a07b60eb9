package main

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/clipperhouse/displaywidth"

	"putby/ledger/ledgertest"
	"putby/pricing/exact"
)

// screen is what today prints in a terminal of so many columns, and its lines.
func (h *house) screen(width int, status int, args ...string) (string, []string) {
	h.t.Helper()
	said := h.wide(width, append([]string{"today"}, args...)...)
	if said.status != status || said.stderr != "" {
		h.t.Fatalf("exit status %d\n%s%s", said.status, said.stdout, said.stderr)
	}
	return said.stdout, strings.Split(strings.TrimSuffix(said.stdout, "\n"), "\n")
}

// wide runs a command with nobody to ask, on a screen of so many columns.
func (h *house) wide(width int, args ...string) said {
	var stdout, stderr bytes.Buffer
	status := run(h.t.Context(), append(args, "--ledger", h.dir), environment{
		stdin: strings.NewReader(""), stdout: &stdout, stderr: &stderr, width: width,
		getenv: func(string) string { return "" }, now: func() time.Time { return h.now },
	})
	return said{stdout.String(), "", stderr.String(), status}
}

// Every other week of the sample's year what the day needs fits one screen of 24
// lines, no line is wider than the screen, and no word is cut.
func TestTodayFitsAScreen(t *testing.T) {
	h, step := sampleHouse(t), 14
	if ledgertest.Small() {
		step = 90
	}
	for day := exact.MustDate("2025-01-05"); day < exact.MustDate("2026-01-10"); day = day.AddDays(step) {
		for _, width := range []int{60, 80, 120} {
			text, lines := h.screen(width, exitDone, "--as-of", day.String())
			if len(lines) > screenLines && width >= screenColumns {
				t.Errorf("%v at %d columns: %d lines\n%s", day, width, len(lines), text)
			}
			for _, line := range lines {
				if displaywidth.String(line) > width {
					t.Errorf("%v: wider than %d: %s", day, width, line)
				}
			}
			if !strings.Contains(text, "does not say that") || strings.Contains(text, "…") {
				t.Errorf("%v at %d columns:\n%s", day, width, text)
			}
		}
	}
}

// Names as long as they may be, and much of everything, are cut rather than
// pushed off the screen.
func TestTodayOfAFullHouse(t *testing.T) {
	h := sampleHouse(t)
	long := strings.Repeat("Very long name of a food ", 6)
	var foods, receipts strings.Builder
	for i := range 9 {
		fmt.Fprintf(&foods, "f%d,%d %s,mass,2,%s\n", i, i, long, strings.Repeat("Beware of it. ", 20))
		fmt.Fprintf(&receipts, "r%d,2025-11-19,Mill Lane,food,f%d,1,1 kg,2\n", i, i)
	}
	h.write("foods.csv", "food,name,basis,fresh_days,caution\n"+foods.String())
	for _, name := range []string{"batches", "runs", "phases", "loads", "packs", "draws", "counts", "frozen", "shelf"} {
		if err := os.Remove(filepath.Join(h.dir, name+".csv")); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.RemoveAll(filepath.Join(h.dir, "meter")); err != nil {
		t.Fatal(err)
	}
	h.write("receipts.csv", "receipt,date,shop,kind,item,count,size,price\n"+receipts.String())
	if text, lines := h.screen(80, exitDone); len(lines) > screenLines || !strings.Contains(text, "putby take") {
		t.Errorf("%d lines:\n%s", len(lines), text)
	}
}

// A danger and what to type are never cut, however full the day is and however long
// the names are: the whole still fits one screen.
func TestTodayCutsNoDanger(t *testing.T) {
	h := sampleHouse(t)
	if said := h.wide(80, "pack", "add", "--run", "c47", "--count", "6", "--date", "2025-11-16", "--with", "1 jar-1l, 1 absorber-300", "--dry", "318.5 g"); said.status != exitDone {
		t.Fatal(said)
	}
	long := strings.Repeat("Very long name of a food ", 6)
	var foods, receipts strings.Builder
	for i := range 9 {
		fmt.Fprintf(&foods, "f%d,%d %s,mass,2\n", i, i, long)
		fmt.Fprintf(&receipts, "r%d,2025-11-15,Mill Lane,food,f%d,1,1 kg,2\n", i, i)
	}
	h.extend("foods.csv", "food,name,basis,fresh_days", foods.String())
	h.extend("receipts.csv", "receipt,date,shop,kind,item,count,size,price", receipts.String())
	for width := 40; width <= 140; width += 5 {
		text, lines := h.screen(width, exitDone)
		if len(lines) > screenLines && width >= screenColumns {
			t.Errorf("%d lines at %d columns:\n%s", len(lines), width, text)
		}
		for _, line := range lines {
			if strings.HasSuffix(line, "…") {
				t.Errorf("a command is cut at %d columns:\n%s", width, text)
			}
		}
		danger, _, _ := strings.Cut(text, "\nfresh")
		words := strings.Join(strings.Fields(danger), " ")
		for _, want := range []string{"botulism;", "absorbers", "throw it out", "--spoiled"} {
			have := words
			if width < screenColumns { // the columns run into each other
				have, want = strings.ReplaceAll(words, " ", ""), strings.ReplaceAll(want, " ", "")
			}
			for _, word := range strings.Fields(want) {
				if !strings.Contains(have, word) {
					t.Errorf("no %q at %d columns:\n%s", word, width, text)
				}
			}
		}
	}
}

// extend adds rows of some columns to a file of the ledger.
func (h *house) extend(name, header, rows string) {
	h.t.Helper()
	text, err := os.ReadFile(filepath.Join(h.dir, name))
	if err != nil {
		h.t.Fatal(err)
	}
	there, _, _ := strings.Cut(string(text), "\n")
	var more strings.Builder
	for row := range strings.Lines(rows) {
		cells := strings.Split(strings.TrimSuffix(row, "\n"), ",")
		for i, column := range strings.Split(there, ",") {
			if i > 0 {
				more.WriteByte(',')
			}
			if at := slices.Index(strings.Split(header, ","), column); at >= 0 {
				more.WriteString(cells[at])
			}
		}
		more.WriteByte('\n')
	}
	h.write(name, string(text)+more.String())
}

// Whatever is broken in the files, today says what it can and that there are
// faults.
func TestTodayOfBrokenRecords(t *testing.T) {
	h := sampleHouse(t)
	whole := h.files()
	r := rand.New(rand.NewPCG(1, 2))
	names := []string{"foods", "supplies", "machines", "receipts", "batches", "runs", "phases", "loads", "packs", "draws", "counts", "frozen"}
	tries, broken := 60, 0
	if ledgertest.Small() {
		tries = 15
	}
	for range tries {
		path := filepath.Join(h.dir, names[r.IntN(len(names))]+".csv")
		lines := strings.Split(whole[path], "\n")
		i := 1 + r.IntN(len(lines)-1)
		cells := strings.Split(lines[i], ",")
		cells[r.IntN(len(cells))] = []string{"", "x", "-1", "0", "2031-01-01", "apples", "9 kg", "\""}[r.IntN(8)]
		lines[i] = strings.Join(cells, ",")
		if r.IntN(4) == 0 {
			lines = lines[:i]
		}
		h.write(filepath.Base(path), strings.Join(lines, "\n"))
		said := h.wide(80, "today")
		switch {
		case said.status == exitFaults && strings.Contains(said.stdout, "wrong") && strings.Contains(said.stdout, "putby prove"):
			broken++
		case said.status != exitDone:
			t.Fatalf("%s line %d: exit status %d\n%s%s", path, i+1, said.status, said.stdout, said.stderr)
		}
		h.write(filepath.Base(path), whole[path])
	}
	if broken < tries/3 {
		t.Errorf("only %d of the ledgers had faults", broken)
	}
}

func (h *house) write(name, text string) {
	h.t.Helper()
	if err := os.WriteFile(filepath.Join(h.dir, name), []byte(text), 0o600); err != nil {
		h.t.Fatal(err)
	}
}
