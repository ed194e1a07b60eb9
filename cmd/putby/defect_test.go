package main

import (
	"bytes"
	"io"
	"os"
	"regexp"
	"strings"
	"testing"
	"time"

	"putby/ledger"
)

// oneSentence holds what a command says of a defect to one sentence and a hint,
// without a trace, and returns the report that it names.
func oneSentence(t *testing.T, said string) string {
	t.Helper()
	if strings.Contains(said, "goroutine") || strings.Count(said, "\n") > 2 {
		t.Errorf("that is more than a sentence: %s", said)
	}
	name := regexp.MustCompile(`[^" ]*putby-report-[^" ;]*\.txt`).FindString(said)
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatalf("no report: %v: %s", err, said)
	}
	if info, err := os.Stat(name); err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("others can read the report: %v %v", info.Mode(), err)
	}
	return string(text)
}

// A mistake of putby's own ends in a sentence and a report, and in a status that
// says that nothing was saved.
func TestDefect(t *testing.T) {
	t.Setenv("TMPDIR", t.TempDir())
	h := sampleHouse(t)
	for _, fail := range []func(){
		func() { panic("a mistake") },
		func() { list := []int{}; _ = list[len(os.Args)] },
		func() { ledger.Parallel(func() {}, func() { panic("a mistake beside others") }) },
	} {
		var stderr bytes.Buffer
		status := run(t.Context(), []string{"draw", "add", "--pack", "c46-a", "--ledger", h.dir}, environment{
			stdin: strings.NewReader(""), stdout: io.Discard, stderr: &stderr,
			getenv: func(string) string { return "" }, now: func() time.Time { fail(); return time.Time{} },
		})
		if status != exitFailed || h.changes() != 1 {
			t.Errorf("status %d, %d changes", status, h.changes())
		}
		has(t, oneSentence(t, stderr.String()), "putby draw add --pack c46-a", "panic: ", "goroutine", "defect_test.go")
		has(t, stderr.String(), "putby has a defect and had to stop; what is known of it is in", "try: send that file")
	}
}

// Where all memory is taken the command ends before the system ends it.
func TestOutOfMemory(t *testing.T) {
	t.Setenv("TMPDIR", t.TempDir())
	h := sampleHouse(t)
	never, answers := io.Pipe()
	defer answers.Close()
	var stderr bytes.Buffer
	status := run(t.Context(), []string{"draw", "add", "--ledger", h.dir}, environment{
		stdin: never, stdout: io.Discard, stderr: &stderr, prompt: io.Discard, ask: true,
		getenv: func(string) string { return "" }, now: time.Now, memory: memoryGuard{may: func() uint64 { return 3_000_000 }},
	})
	if status != exitFailed || h.changes() != 1 {
		t.Errorf("status %d, %d changes", status, h.changes())
	}
	has(t, stderr.String(), "there is not enough memory for this: the command had taken", "of the 3 MB that it can have")
	has(t, oneSentence(t, stderr.String()), "putby draw add", "goroutine")
}

// What a process may have is the least of what the system says.
func TestFreeMemory(t *testing.T) {
	files := map[string]string{
		"/proc/meminfo":                "MemTotal:  9000000 kB\nMemAvailable:    5000000 kB\n",
		"/proc/self/status":            "VmPeak:\t 1300000 kB\nVmSize:\t 1200000 kB\n",
		"/proc/self/limits":            "Limit  Soft Limit  Hard Limit  Units\nMax address space         unlimited            unlimited            bytes\n",
		"/sys/fs/cgroup/memory.max":    "max\n",
		"/sys/fs/cgroup/not-asked-for": "1\n",
	}
	read := func(name string) ([]byte, error) {
		if text, ok := files[name]; ok {
			return []byte(text), nil
		}
		return nil, os.ErrNotExist
	}
	for _, c := range []struct {
		file, text string
		want       uint64
	}{
		{"", "", 5000000 * 1024},
		{"/sys/fs/cgroup/memory.max", "2000000000\n", 2000000000},
		{"/sys/fs/cgroup/memory/memory.limit_in_bytes", "9223372036854771712\n", 2000000000},
		{"/sys/fs/cgroup/memory/memory.limit_in_bytes", "1500000000\n", 1500000000},
		{"/proc/self/limits", "Max address space         1800000000           unlimited            bytes\n", 1800000000 - 1200000*1024},
		{"/proc/self/limits", "Max address space         1000           unlimited            bytes\n", 1},
	} {
		files[c.file] = c.text
		if got := freeMemory(read); got != c.want {
			t.Errorf("with %s %q: %d, want %d", c.file, c.text, got, c.want)
		}
	}
	if got := freeMemory(func(string) ([]byte, error) { return nil, os.ErrNotExist }); got != 0 {
		t.Errorf("where nothing is known: %d", got)
	}
}
