package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/ledger/question"
	reports "putby/ledger/report"
	"putby/pricing/exact"
)

// powerReports are those about electricity, as they are asked.
func powerReports(t *testing.T, g *ledger.Ledger) (list []reports.Doc) {
	t.Helper()
	add := func(d reports.Doc, err error) {
		if err != nil {
			t.Fatal(err)
		}
		list = append(list, d)
	}
	for _, date := range []string{"2025-01-08", "2025-07-09"} {
		add(question.TariffWeek(g.Records, figures.TariffQuery{Date: exact.MustDate(date)}))
	}
	item := g.Foods[0].ID
	for _, texts := range []question.WhenTexts{
		{From: "2026-02-20 18:00", Hours: "30h", KWh: "16.2"},
		{From: "2026-02-20 18:00", FinishBetween: "07:00-22:00"},
		{From: "2026-02-20 18:00", FinishBetween: "07:00-07:01", StartBetween: "08:00-08:01", Days: "1"},
	} {
		q, err := question.ParseWhen(item, texts)
		if err != nil {
			t.Fatal(err)
		}
		add(question.When(g, q))
	}
	add(question.Energy(g, figures.EnergyQuery{}))
	one := figures.Query{}
	one.Item = item
	add(question.Energy(g, figures.EnergyQuery{Query: one}))
	return list
}

// The examples in the help of the commands about electricity run on the sample,
// but for those that take a file in.
func TestPowerExamplesRun(t *testing.T) {
	var out bytes.Buffer
	env := environment{
		stdin: strings.NewReader(""), stdout: &out, stderr: &out, getenv: func(string) string { return "" },
		now: func() time.Time { return time.Date(2025, 11, 20, 22, 0, 0, 0, time.UTC) },
	}
	root := newRootCommand(&app{environment: env})
	ran := 0
	for _, name := range []string{"when", "energy", "tariff check", "run meter"} {
		cmd, _, err := root.Find(strings.Fields(name))
		if err != nil {
			t.Fatal(err)
		}
		for line := range strings.Lines(cmd.Example) {
			if strings.Contains(line, "plug.csv") {
				continue
			}
			out.Reset()
			args := append(shellWords(strings.TrimSpace(line))[1:], "--ledger", sampleDir)
			if status := run(t.Context(), args, env); status != exitDone {
				t.Errorf("%s ends with %d: %s", strings.TrimSpace(line), status, out.String())
			}
			ran++
		}
	}
	if ran != 11 {
		t.Errorf("%d examples ran", ran)
	}
}

// A long log shows how far its reading is where a person watches, and leaves the
// line as it was; where nobody does, it shows nothing.
func TestRunMeterProgress(t *testing.T) {
	dir := t.TempDir()
	if err := os.CopyFS(dir, os.DirFS(sampleDir)); err != nil {
		t.Fatal(err)
	}
	var log strings.Builder
	log.WriteString("time,W\n")
	start := time.Date(2025, 11, 14, 1, 15, 0, 0, time.UTC).Unix() // that of c47
	for i := range int64(150_000) {
		fmt.Fprintf(&log, "%d,%d\n", start+i, 400+i%2)
	}
	file := filepath.Join(dir, "plug.txt")
	if err := os.WriteFile(file, []byte(log.String()), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, watched := range []bool{true, false} {
		var stdout, stderr bytes.Buffer
		env := environment{
			stdin: strings.NewReader(""), stdout: &stdout, stderr: &stderr, watched: watched,
			getenv: func(string) string { return "" }, now: time.Now,
		}
		if status := run(t.Context(), []string{"run", "meter", "c47", file, "--dry-run", "--ledger", dir}, env); status != exitDone {
			t.Fatalf("status %d: %s", status, stderr.String())
		}
		shown := stderr.String()
		if watched && (!strings.Contains(shown, "65536 rows read") || !strings.HasSuffix(shown, "\r\x1b[K")) || !watched && shown != "" {
			t.Errorf("watched %v: shows %q", watched, shown)
		}
		if !strings.Contains(stdout.String(), "150000 rows") {
			t.Errorf("says %q", stdout.String()[:200])
		}
	}
}
