package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"strings"
	"syscall"
	"testing"
	"time"

	"putby/ledger"
	"putby/ledger/folder"
	"putby/ledger/ledgertest"
)

// The table of statuses: whether something was saved, held against what went
// wrong after. A status that says that it was not saved is never that of a
// change which is in the history, nor the other way round.
func TestSavedOrNot(t *testing.T) {
	const saved, not = true, false
	for _, c := range []struct {
		why   string
		saved bool
		args  string // of draw add
		with  func(t *testing.T, cmd *exec.Cmd, interrupt func())
		want  int
		says  []string
	}{
		{"nothing goes wrong", not, "--food chicken-broth --dry-run", nil, exitDone, nil},
		{"nothing goes wrong", saved, "--food chicken-broth", nil, exitDone, nil},
		{"the command line is wrong", not, "--nonsense", nil, exitUsage, []string{"nonsense"}},
		{"the record is wrong", not, "--pack c46-a --quantity 5000", nil, exitFaults, []string{"nothing was saved"}},
		{"there is no such ledger", not, "--food chicken-broth --ledger nowhere", nil, exitNone, nil},
		{"a full disk for the output", not, "--food chicken-broth --dry-run", toFull, exitFailed, []string{"the output could not be written: no space left on device"}},
		{"a full disk for the output", saved, "--food chicken-broth", toFull, exitSaved, []string{"is saved, but its report could not be written: no space left on device", "try: do not run it again"}},
		{"a reader who has gone", not, "--food chicken-broth --dry-run", toNobody, exitFailed, nil},
		{"a reader who has gone", saved, "--food chicken-broth", toNobody, exitSaved, []string{"is saved, but its report could not be written: broken pipe"}},
		{"an interruption while it says so", saved, "--pack c46-a --quantity 1 --reason used", interruptedReport, exitSaved, []string{"is saved, but it was broken off before it had said so in full"}},
		{"a full disk for what is said of errors", saved, "--food chicken-broth", func(t *testing.T, cmd *exec.Cmd, _ func()) { toFull(t, cmd, nil); cmd.Stderr = cmd.Stdout }, exitSaved, nil},
	} {
		t.Run(fmt.Sprintf("%s, saved %v", c.why, c.saved), func(t *testing.T) {
			t.Parallel()
			h := sampleHouse(t)
			args := append([]string{"draw", "add", "--ledger", h.dir}, strings.Fields(c.args)...)
			ctx, interrupt := context.WithCancel(t.Context())
			defer interrupt()
			cmd := exec.CommandContext(ctx, "putby", args...)
			cmd.Cancel = func() error { return cmd.Process.Signal(os.Interrupt) }
			cmd.Env = append(os.Environ(), "HOME="+t.TempDir(), clock+"=2025-11-20T12:00:00Z")
			var stderr bytes.Buffer
			cmd.Stderr = &stderr
			if c.with != nil {
				c.with(t, cmd, interrupt)
			}
			if err := cmd.Run(); err != nil && !errors.As(err, new(*exec.ExitError)) && !errors.Is(err, context.Canceled) {
				t.Fatal(err)
			}
			if got := cmd.ProcessState.ExitCode(); got != c.want {
				t.Errorf("status %d, want %d: %s", got, c.want, stderr.String())
			}
			if got := h.changes() > 1; got != c.saved {
				t.Errorf("saved: %v, want %v", got, c.saved)
			}
			has(t, stderr.String(), c.says...)
			if c.saved && strings.Contains(stderr.String(), "nothing was saved") {
				t.Error(stderr.String())
			}
		})
	}
}

// toFull lets a command write to a disk that is full.
func toFull(t *testing.T, cmd *exec.Cmd, _ func()) {
	full, err := os.OpenFile("/dev/full", os.O_WRONLY, 0)
	if err != nil {
		t.Skip(err)
	}
	t.Cleanup(func() { full.Close() })
	cmd.Stdout = full
}

// toNobody lets a command write to a pipe whose reader has gone.
func toNobody(t *testing.T, cmd *exec.Cmd, _ func()) {
	r, w, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { w.Close() })
	r.Close()
	cmd.Stdout = w
}

// interruptedReport interrupts a command that has saved, and cannot go on saying
// so since nobody reads.
func interruptedReport(t *testing.T, cmd *exec.Cmd, interrupt func()) {
	r, w, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { r.Close(); w.Close() })
	fd := int(w.Fd())
	if err := syscall.SetNonblock(fd, true); err != nil {
		t.Fatal(err)
	}
	for block := make([]byte, 512); err == nil; { // so full that the report does not fit
		_, err = syscall.Write(fd, block)
	}
	if err := syscall.SetNonblock(fd, false); err != nil {
		t.Fatal(err)
	}
	cmd.Stdout = w
	dir := cmd.Args[4]
	go func() {
		for range 500 {
			if list, _ := folder.LastChanges(dir, 0); len(list) > 1 {
				break
			}
			time.Sleep(10 * time.Millisecond)
		}
		time.Sleep(100 * time.Millisecond)
		interrupt()
	}()
}

// Interrupted at any moment, a command's status says whether its change is in
// the history.
func TestInterrupted(t *testing.T) {
	tries := 80
	if ledgertest.Small() {
		tries = 10
	}
	h := sampleHouse(t)
	start := time.Now()
	if out, err := h.addPrice("signal 0").CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	usual := time.Since(start)
	got := map[int]int{}
	for i := 1; i <= tries; i++ {
		before := h.changes()
		cmd := h.addPrice(fmt.Sprintf("signal %d", i))
		var stderr bytes.Buffer
		cmd.Stderr = &stderr
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		signal := []os.Signal{os.Interrupt, syscall.SIGTERM}[i%2]
		// The first thing that a program does is to listen for signals; one that
		// comes before ends it as the system ends programs, with nothing saved.
		wait := time.Duration(rand.Int64N(int64(usual)))
		timer := time.AfterFunc(wait, func() { _ = cmd.Process.Signal(signal) })
		_ = cmd.Wait()
		timer.Stop()
		status, saved := cmd.ProcessState.ExitCode(), h.changes() > before
		got[status]++
		if says := status == exitDone || status == exitSaved; says != saved {
			t.Errorf("%v after %v: status %d, and the change is saved: %v\n%s", signal, wait, status, saved, stderr.String())
		}
		if saved && strings.Contains(stderr.String(), "nothing was saved") {
			t.Errorf("it is saved, and it says: %s", stderr.String())
		}
	}
	t.Logf("statuses of %d: %v", tries, got)
	if _, faults, err := folder.Load(h.dir, ledger.Options{}); err != nil || len(faults) > 0 {
		t.Errorf("the ledger cannot be read: %v %v", err, faults)
	}
}

// A new ledger that is there is never told of as broken off.
func TestInterruptedInit(t *testing.T) {
	for i := range 20 {
		dir := t.TempDir() + "/new"
		cmd := exec.Command("putby", "sample", dir)
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		timer := time.AfterFunc(time.Duration(i)*time.Millisecond*2, func() { _ = cmd.Process.Signal(syscall.SIGTERM) })
		_ = cmd.Wait()
		timer.Stop()
		_, _, err := folder.Read(dir)
		status := cmd.ProcessState.ExitCode()
		if says := status == exitDone || status == exitSaved; says != (err == nil) {
			t.Errorf("status %d, and the ledger: %v", status, err)
		}
	}
}
