package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// Long imports show how far they are, where a person watches and nowhere else.
func TestImportProgress(t *testing.T) {
	h := sampleHouse(t)
	path := filepath.Join(t.TempDir(), "long.csv")
	var b strings.Builder
	b.WriteString("date,shop,item,price\n")
	for i := range 30000 {
		fmt.Fprintf(&b, "2025-11-%02d,Tea House,tea,%d.00\n", 1+i%20, i)
	}
	if err := os.WriteFile(path, []byte(b.String()), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, watched := range []bool{true, false} {
		var stdout, stderr bytes.Buffer
		status := run(t.Context(), []string{"import", "receipts", path, "--ledger", h.dir}, environment{
			stdin: strings.NewReader(""), stdout: &stdout, stderr: &stderr, watched: watched,
			getenv: func(string) string { return "" }, now: time.Now,
		})
		if status != exitDone || !strings.Contains(stdout.String(), "30000 rows to add") {
			t.Fatalf("exit status %d\n%s%s", status, stdout.String(), stderr.String())
		}
		shown := strings.Contains(stderr.String(), " rows read") && strings.Contains(stderr.String(), " rows held against the ledger")
		if shown != watched {
			t.Errorf("watched %v: %q", watched, stderr.String())
		}
		if watched && !strings.HasSuffix(stderr.String(), "\r\x1b[K") {
			t.Errorf("the progress stays on the screen: %q", stderr.String()[max(0, stderr.Len()-40):])
		}
	}
}
