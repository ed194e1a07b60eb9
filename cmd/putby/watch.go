package main

import (
	"io"
	"os"
	"os/exec"
	"os/signal"
	"strings"
	"syscall"
	"time"

	"putby/ledger"
)

// Go cannot say a last word of its own when no memory is left, or when two
// goroutines write one map: it prints a trace on file 2 and is gone. So a command
// that takes longer than a moment has a second process listen there, which makes
// a report of the trace and says the sentence.
const (
	watchVariable = "PUTBY_WATCH"          // set in that process, to the command line
	watchAfter    = 200 * time.Millisecond // commands that are done by then have none
	watchAtOnce   = 1 << 30                // bytes; with less to take there may be no such moment
	mostTrace     = 1 << 20
)

// watchSoon has the command watched, if it goes on. What it says itself then has
// to go to the environment's stderr, not to file 2.
func (a *app) watchSoon(real *os.File, command string, ended <-chan struct{}) {
	go func() {
		if may := a.memory.may(); may > 0 && may < watchAtOnce {
			watch(real, command)
			return
		}
		select {
		case <-time.After(watchAfter):
			watch(real, command)
		case <-ended:
		}
	}()
}

// watch starts the process that listens. If that cannot be, all is as without it.
func watch(real *os.File, command string) {
	self, err := os.Executable()
	if err != nil {
		return
	}
	listen, speak, err := os.Pipe()
	if err != nil {
		return
	}
	defer listen.Close()
	defer speak.Close()
	watcher := exec.Command(self)
	watcher.Args[0] = os.Args[0]
	watcher.Env = append(os.Environ(), watchVariable+"="+command)
	watcher.Stdin, watcher.Stderr = listen, real
	if watcher.Start() == nil {
		_ = redirectTraces(speak)
	}
}

// watchOver is what the second process does: it waits for a trace, or for the end
// of the command, which mostly comes without one.
func watchOver(trace io.Reader, stderr io.Writer, command string) {
	signal.Ignore(os.Interrupt, syscall.SIGTERM, syscall.SIGHUP, syscall.SIGQUIT)
	text, _ := io.ReadAll(io.LimitReader(trace, mostTrace))
	if len(text) == 0 {
		return
	}
	_, _ = io.Copy(io.Discard, trace)
	report(stderr, fatal(string(text), command))
}

// fatal is what a trace says to people.
func fatal(trace, command string) error {
	if !strings.Contains(trace, "out of memory") && !strings.Contains(trace, "cannot allocate memory") {
		return defect(trace, command)
	}
	return &ledger.Fault{What: notEnough + reported(trace, command), Hint: memoryHint}
}
