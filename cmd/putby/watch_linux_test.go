package main

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// Where Go itself ends the program, as it does when the system gives no more
// memory, a person reads a sentence and not its trace; and nothing is saved.
func TestNoTrace(t *testing.T) {
	if raceDetector {
		t.Skip("the race detector takes addresses of its own, and ends the program in its own words")
	}
	h := sampleHouse(t)
	limited := func(args ...string) (*exec.Cmd, *bytes.Buffer) {
		cmd := exec.Command("sh", append([]string{"-c", `ulimit -v 1900000; exec putby "$@"`, "sh"}, args...)...)
		cmd.Env = append(os.Environ(), "TMPDIR="+t.TempDir())
		var stderr bytes.Buffer
		cmd.Stderr = &stderr
		return cmd, &stderr
	}
	if cmd, stderr := limited("version"); cmd.Run() != nil {
		t.Skip("with so few addresses this build does not begin: ", stderr.String()[:min(200, stderr.Len())])
	}
	var prices strings.Builder
	prices.WriteString("Date,Shop,Item,Size,Price\n")
	for i := range 900_000 {
		fmt.Fprintf(&prices, "2025-11-%02d,Corner shop %d,carrots,2 kg,2.79\n", i%28+1, i)
	}
	file := filepath.Join(t.TempDir(), "leaflet.csv")
	if err := os.WriteFile(file, []byte(prices.String()), 0o600); err != nil {
		t.Fatal(err)
	}
	before := h.files()
	cmd, stderr := limited("import", "prices", file, "--save", "--ledger", h.dir)
	err := cmd.Run()
	if !errors.As(err, new(*exec.ExitError)) || cmd.ProcessState.ExitCode() == exitSaved {
		t.Fatalf("%v: %s", err, stderr)
	}
	has(t, stderr.String(), "putby: there is not enough memory for this", "try: close other programs, or import the file in parts")
	has(t, oneSentence(t, stderr.String()), "putby import prices", "goroutine")
	for name, text := range h.files() {
		if before[name] != text && !strings.Contains(name, "lock") && !strings.Contains(name, "queue") {
			t.Errorf("%s is changed", name)
		}
	}
}

// A command whose process goes on for long is watched, and a defect that Go ends
// itself is told as one.
func TestWatchOver(t *testing.T) {
	t.Setenv("TMPDIR", t.TempDir())
	var stderr bytes.Buffer
	watchOver(strings.NewReader(""), &stderr, "page")
	if stderr.Len() > 0 {
		t.Errorf("at a good end: %s", stderr.String())
	}
	watchOver(strings.NewReader("fatal error: concurrent map writes\n\ngoroutine 7 [running]:\n"), &stderr, "page")
	has(t, stderr.String(), "putby: putby has a defect and had to stop")
	has(t, oneSentence(t, stderr.String()), "putby page", "concurrent map writes")
}
