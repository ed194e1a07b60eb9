package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// goldenReports are the reports of the two ledgers of testdata, and how they
// are asked: the name of a file, and the command line.
var goldenReports = []struct{ ledger, name, args string }{
	{"both", "cost", "cost"},
	{"both", "cost-item", "cost --by item"},
	{"both", "cost-month", "cost --by month"},
	{"both", "cost-machine", "cost --by machine"},
	{"both", "cost-marginal", "cost --by item --without wear,labour"},
	{"both", "cost-preserved", "cost --by item --against preserved"},
	{"both", "month", "month"},
	{"both", "month-year", "month --by year"},
	{"both", "month-week", "month --by week"},
	{"both", "month-shop", "month --by shop"},
	{"both", "month-kind", "month --by kind"},
	{"both", "compare", "compare"},
	{"both", "today", "today"},
	{"both", "onhand", "onhand"},
	{"both", "onhand-soon", "onhand --soon 400"},
	{"both", "payback", "payback"},
	{"both", "machine", "worth machine --price 2400 --residual 600 --cycles 800"},
	{"both", "energy", "energy"},
	{"both", "prove", "prove"},
	{"both", "labels", "labels --left"},
	{"both", "card", "card"},
	{"small", "offers", "offers tomato-soup"},
	{"small", "explain-run", "explain d1"},
	{"small", "explain-pack", "explain d1-a"},
	{"small", "trace", "trace r2"},
	{"small", "worth", "worth tomato-soup --price 1.80 --size 700mL --limit 40"},
	{"sample", "offers", "offers strawberries"},
	{"sample", "explain-run", "explain c30"},
	{"sample", "explain-pack", "explain c30-a"},
	{"sample", "trace", "trace c30-a"},
	{"sample", "worth", "worth strawberries --price 2.49 --size 454g --limit 30"},
	{"sample", "when", "when chicken-broth"},
}

// goldenForms are how each is written.
var goldenForms = []struct {
	ending, format string
	width          int
}{{".txt", "table", 80}, {".json", "json", 80}, {".60.txt", "table", 60}, {".120.txt", "table", 120}}

// TestGolden holds every report on the sample and the small ledger, as a table
// of 80 columns and as JSON, and on the sample as a table of 60 and of 120, to the
// files in testdata/golden, so that no figure, note or sentence changes unseen.
// UPDATE_GOLDEN=1 renews them: read the diff.
func TestGolden(t *testing.T) {
	for _, ledger := range []string{"sample", "small"} {
		for _, r := range goldenReports {
			if r.ledger != "both" && r.ledger != ledger {
				continue
			}
			for _, form := range goldenForms {
				if form.width != 80 && ledger != "sample" {
					continue
				}
				file := filepath.Join("testdata", "golden", ledger, r.name+form.ending)
				have := toldIn(t, form.width, append(strings.Fields(r.args), "--format", form.format, "--ledger", "../../testdata/"+ledger))
				golden(t, file, have)
			}
		}
	}
}

// told is what a command prints at noon of 1 December 2025.
func told(t *testing.T, args []string) string {
	t.Helper()
	return toldIn(t, 80, args)
}

// toldIn is what it prints in so many columns.
func toldIn(t *testing.T, width int, args []string) string {
	t.Helper()
	var out, complaints bytes.Buffer
	env := environment{
		stdin: strings.NewReader(""), stdout: &out, stderr: &complaints, getenv: func(string) string { return "" }, width: width,
		now: func() time.Time { return time.Date(2025, 12, 1, 12, 0, 0, 0, time.UTC) },
	}
	if status := run(t.Context(), args, env); status != exitDone {
		t.Fatalf("%v: status %d: %s", args, status, complaints.String())
	}
	return out.String()
}

// golden holds a text to a file, or renews that.
func golden(t *testing.T, file, have string) {
	t.Helper()
	if os.Getenv("UPDATE_GOLDEN") != "" {
		if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(file, []byte(have), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if have != string(want) {
		t.Errorf("it differs from %s: %s", file, firstDifference(have, string(want)))
	}
}

// firstDifference shows the first line that is not the same.
func firstDifference(have, want string) string {
	a, b := strings.Split(have, "\n"), strings.Split(want, "\n")
	for i := range min(len(a), len(b)) {
		if a[i] != b[i] {
			return "\n" + a[i] + "\nwant\n" + b[i]
		}
	}
	return "one has more lines"
}
