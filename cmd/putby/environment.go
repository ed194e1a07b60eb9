package main

import (
	"io"
	"os"
	"strconv"
	"time"

	"golang.org/x/term"

	"putby/cmd/putby/internal/ask"
)

// environment is all that a command sees of the world.
type environment struct {
	stdin    io.Reader
	stdout   io.Writer
	stderr   io.Writer
	prompt   io.Writer // where a person is asked: standard error, or the terminal itself
	getenv   func(string) string
	now      func() time.Time
	terminal bool          // a person reads standard output
	ask      bool          // a person can be asked: standard input is a terminal, and there is one to ask on
	keys     *ask.Terminal // where a person edits answers; nil: answers are the lines of stdin
	watched  bool          // a person watches standard error
	width    int           // columns of the terminal; 0: no limit
	memory   memoryGuard
	spoken   *os.File // standard error, where file 2 is left to traces; nil: it is not
}

// system is the real world.
func system() environment {
	spoken := ownStderr()
	if spoken != nil {
		os.Stderr = spoken
	}
	env := environment{
		stdin: os.Stdin, stdout: os.Stdout, stderr: os.Stderr, getenv: os.Getenv, now: time.Now,
		terminal: term.IsTerminal(int(os.Stdout.Fd())),
		spoken:   spoken,
		watched:  term.IsTerminal(int(os.Stderr.Fd())),
	}
	env.prompt, env.ask = promptOn(env.watched)
	if env.ask && os.Getenv("TERM") != "dumb" {
		env.keys = ask.OnTerminal(os.Stdin, env.prompt)
	}
	if env.terminal {
		env.width, _, _ = term.GetSize(int(os.Stdout.Fd()))
	}
	// A person may say how wide it is to be, even in a pipe.
	if n, err := strconv.Atoi(os.Getenv("COLUMNS")); err == nil && n >= 20 && n <= 1000 {
		env.width = n
	}
	return env
}

// promptOn finds where a person can be asked. Standard error does where a person
// watches it; else the terminal that answers come from is asked directly.
func promptOn(watched bool) (io.Writer, bool) {
	if answers := term.IsTerminal(int(os.Stdin.Fd())); watched || !answers {
		return os.Stderr, answers
	}
	tty, err := os.OpenFile("/dev/tty", os.O_WRONLY, 0)
	if err != nil {
		return os.Stderr, false
	}
	return tty, true
}

// colour reports whether output may be bold or dim: only on a terminal, and
// not where NO_COLOR or TERM=dumb say otherwise.
func (e environment) colour() bool {
	return e.terminal && e.getenv("NO_COLOR") == "" && e.getenv("TERM") != "dumb"
}
