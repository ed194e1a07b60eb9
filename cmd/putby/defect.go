package main

import (
	"fmt"
	"os"
	"runtime"
	"runtime/debug"
	"strings"
	"time"

	"putby/ledger"
	"putby/ledger/folder"
)

// defect reports the trace of a command that was ended by a mistake of putby's own.
// What is known of it is in a file, so that people are spared it and whoever mends it
// is not.
func defect(trace, command string) error {
	file, err := writeReport(trace, command)
	if err != nil {
		return &ledger.Fault{What: "putby has a defect and had to stop; a report on it could not be written: " + folder.Cause(err).Error()}
	}
	return &ledger.Fault{
		What: "putby has a defect and had to stop; what is known of it is in " + file,
		Hint: "send that file to whoever looks after putby for you; it holds the command line, and none of your records",
	}
}

// What is said where memory ends.
const (
	notEnough  = "there is not enough memory for this"
	memoryHint = "close other programs, or import the file in parts"
)

// outOfMemory reports a command that was stopped before the system stops it.
func (a *app) outOfMemory(used, may uint64) error {
	const mb = 1_000_000
	what := fmt.Sprintf("%s: the command had taken %d MB of the %d MB that it can have", notEnough, used/mb, may/mb)
	return &ledger.Fault{What: what + reported(string(stacks()), commandLine(a.args)), Hint: memoryHint}
}

// reported says where a report is, if it could be written.
func reported(trace, command string) string {
	file, err := writeReport(trace, command)
	if err != nil {
		return ""
	}
	return "; more on that is in " + file
}

// stacks is what every goroutine does.
func stacks() []byte {
	text := make([]byte, 256<<10)
	return text[:runtime.Stack(text, true)]
}

// writeReport writes what may help to mend putby into a new file for its owner
// alone, where passing files are kept.
func writeReport(trace, command string) (string, error) {
	f, err := os.CreateTemp("", "putby-report-*.txt")
	if err != nil {
		return "", err
	}
	_, err = fmt.Fprintf(f, "putby %s, %s for %s/%s\n%s\nputby %s\n\n%s\n",
		version(), runtime.Version(), runtime.GOOS, runtime.GOARCH, time.Now().UTC().Format("2006-01-02 15:04:05 UTC"), command, strings.TrimSpace(trace))
	if closing := f.Close(); err == nil {
		err = closing
	}
	return f.Name(), err
}

// catchPanic does what may panic, and returns that as an error.
func (a *app) catchPanic(do func() error) (err error) {
	defer func() {
		if v := recover(); v != nil {
			err = defect(fmt.Sprintf("panic: %v\n\n%s", v, debug.Stack()), commandLine(a.args))
		}
	}()
	return do()
}
