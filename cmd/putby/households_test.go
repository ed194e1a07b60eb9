package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"

	"putby/ledger/folder"
	"putby/ledger/ledgertest"
)

// coop makes a folder of so many households: each has the sample's records in a
// currency of its own, some of them shorter, so that some are ready before others.
func coop(t *testing.T, households int) (dir string, names []string) {
	t.Helper()
	dir = t.TempDir()
	for n := range households {
		files, err := sampleFiles("sample")
		if err != nil {
			t.Fatal(err)
		}
		currency := []string{"CAD", "EUR", "SEK"}[n%3]
		files["settings.csv"] = bytes.Replace(files["settings.csv"], []byte("currency,CAD"), []byte("currency,"+currency), 1)
		if n%2 == 1 {
			for _, name := range []string{"draws.csv", "counts.csv"} {
				delete(files, name)
			}
		}
		name := fmt.Sprintf("house-%02d", n)
		if err := folder.Create(t.Context(), filepath.Join(dir, name), "sample", files); err != nil {
			t.Fatal(err)
		}
		names = append(names, name)
	}
	return dir, names
}

// asked runs a command that is to end well.
func asked(t *testing.T, watched bool, args ...string) (stdout, stderr string) {
	t.Helper()
	var out, told bytes.Buffer
	status := run(t.Context(), args, environment{
		stdin: strings.NewReader(""), stdout: &out, stderr: &told, watched: watched, width: 120,
		getenv: func(string) string { return "" }, now: func() time.Time { return time.Date(2025, 11, 16, 12, 0, 0, 0, time.UTC) },
	})
	if status != exitDone {
		t.Fatalf("%q: exit status %d\n%s", args, status, told.String())
	}
	return out.String(), told.String()
}

var manyReports = [][]string{
	{"cost"}, {"cost", "--by", "item"}, {"cost", "--by", "household"}, {"month"}, {"month", "--by", "shop"}, {"compare"}, {"onhand"}, {"payback"}, {"offers", "strawberries"},
}

// Whatever the number of workers, the output is the same to the byte, and in order of
// name.
func TestHouseholdsWhateverTheWorkers(t *testing.T) {
	households, formats := 7, []string{"csv", "json", "table", "md"}
	if ledgertest.Small() {
		households, formats = 4, []string{"csv"}
	}
	dir, names := coop(t, households)
	for _, report := range manyReports {
		for _, format := range formats {
			args := append(append([]string{}, report...), "--households", dir, "--format", format)
			var want string
			for _, workers := range []int{1, 2, 5} {
				before := runtime.GOMAXPROCS(workers)
				got, _ := asked(t, false, args...)
				runtime.GOMAXPROCS(before)
				if want == "" {
					want = got
				}
				if got != want {
					t.Errorf("%q with %d workers says something else", args, workers)
				}
			}
			at := 0
			for _, name := range names {
				next := strings.Index(want[at:], name)
				if next < 0 {
					t.Fatalf("%q: %s comes too early, or not at all", args, name)
				}
				at += next
			}
		}
	}
}

// In JSON each household's part is its own report, and in CSV its rows are those of
// its own, to the last digit.
func TestHouseholdsSayWhatEachSays(t *testing.T) {
	dir, names := coop(t, 3)
	for _, report := range manyReports {
		if report[len(report)-1] == byHousehold {
			continue
		}
		text, _ := asked(t, false, append(append([]string{}, report...), "--households", dir, "--format", "json")...)
		var all struct{ Households []map[string]any }
		if err := json.Unmarshal([]byte(text), &all); err != nil || len(all.Households) != len(names) {
			t.Fatalf("%q: %d households, %v", report, len(all.Households), err)
		}
		rows, _ := asked(t, false, append(append([]string{}, report...), "--households", dir, "--format", "csv")...)
		var want strings.Builder
		for n, name := range names {
			alone := append(append([]string{}, report...), "--ledger", filepath.Join(dir, name))
			text, _ := asked(t, false, append(alone, "--format", "json")...)
			own := map[string]any{}
			if err := json.Unmarshal([]byte(text), &own); err != nil {
				t.Fatal(err)
			}
			own["household"] = name
			if got, want := fmt.Sprint(all.Households[n]), fmt.Sprint(own); got != want {
				t.Errorf("%q: of %s it says\n%.2000s\nand alone\n%.2000s", report, name, got, want)
			}
			lines, _ := asked(t, false, append(alone, "--format", "csv")...)
			header, lines, _ := strings.Cut(lines, "\n")
			if n == 0 {
				want.WriteString("household,currency," + header + "\n")
			}
			for line := range strings.Lines(lines) {
				want.WriteString(name + "," + own["currency"].(string) + "," + line)
			}
		}
		if rows != want.String() {
			t.Errorf("%q: the rows are\n%.2000s\nand of each alone\n%.2000s", report, rows, want.String())
		}
	}
}

// How far it is, is shown where a person watches, and never stays among the figures.
func TestHouseholdsProgress(t *testing.T) {
	dir, _ := coop(t, 3)
	for _, watched := range []bool{true, false} {
		stdout, stderr := asked(t, watched, "cost", "--households", dir)
		if shown := strings.Contains(stderr, "\r2 of 3 households read"); shown != watched {
			t.Errorf("watched %v: it shows %q", watched, stderr)
		}
		if watched && !strings.HasSuffix(stderr, "\r\x1b[K") || strings.Contains(stdout, "\r") {
			t.Errorf("the progress stays on the screen: %q", stderr)
		}
	}
}
