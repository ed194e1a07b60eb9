// Putby is a ledger for a household that buys food while it is cheap,
// freeze-dries it, and wants to know what a litre really costs.
package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"runtime/debug"
	"syscall"
	_ "time/tzdata" // zones are part of the ledger's contract, so of the binary
)

func main() { start(system()) }

// start carries out the command line of this process, and ends it.
func start(env environment) {
	if os.Getenv("GOGC") == "" {
		// A command ends before it is worth while to collect much.
		debug.SetGCPercent(400)
	}
	// An interrupted command ends as one that failed: nothing half-written.
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	status := run(ctx, os.Args[1:], env)
	stop()
	os.Exit(status)
}

// errBroken ends a command that was interrupted.
var errBroken = errors.New("broken off")

// run carries out one command line and returns the exit status. When ctx ends
// it does not wait for the command, which may be asking a person, but for a
// save that has begun.
func run(ctx context.Context, args []string, env environment) int {
	out := &outlet{w: env.stdout}
	env.stdout = out
	if env.prompt == nil {
		env.prompt = env.stderr
	}
	a := &app{environment: env, args: args}
	done := make(chan error, 1)
	go func() { done <- a.execute(ctx) }()
	var err error
	select {
	case err = <-done:
	case <-ctx.Done():
		if !a.endsItself.Load() {
			return report(env.stderr, a.broken())
		}
		err = <-done
	}
	if out.err != nil && (err == nil || errors.Is(err, out.err)) {
		err = fmt.Errorf("the output could not be written: %w", out.err)
	}
	return report(env.stderr, err)
}

// broken waits for a save that has begun, and says how the interruption leaves
// the ledger.
func (a *app) broken() error {
	a.saving.Lock()
	fmt.Fprintln(a.prompt)
	if a.saved {
		return errBroken
	}
	return errNotAnswered
}

func (a *app) execute(ctx context.Context) error {
	root := newRootCommand(a)
	root.SetArgs(a.args)
	root.SetIn(a.stdin)
	root.SetOut(a.stdout)
	root.SetErr(a.stderr)
	return root.ExecuteContext(ctx)
}

// An outlet remembers that output could not be written, so that nobody takes
// half a report for a whole one.
type outlet struct {
	w   io.Writer
	err error
}

// Write writes p, once it has failed never again.
func (o *outlet) Write(p []byte) (int, error) {
	if o.err != nil {
		return 0, o.err
	}
	n, err := o.w.Write(p)
	o.err = err
	return n, err
}
