package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"syscall"
	"time"
	_ "time/tzdata" // zones are part of the ledger's contract, so of the binary
)

func main() { start(system()) }

// start carries out the command line of this process, and ends it.
func start(env environment) {
	if command, watching := os.LookupEnv(watchVariable); watching {
		watchOver(os.Stdin, env.stderr, command)
		return
	}
	// A reader of the output who has gone is an error like others, so that it
	// cannot end a command that has saved as one that has not.
	signal.Notify(make(chan os.Signal, 1), syscall.SIGPIPE)
	// Signals are caught to the end: one that comes last must not change the status.
	ctx, _ := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	env.memory = guardMemory()
	os.Exit(run(ctx, os.Args[1:], env))
}

// errBroken ends a command that was interrupted.
var errBroken = errors.New("broken off")

// run carries out one command line and returns the exit status.
func run(ctx context.Context, args []string, env environment) int {
	out := &outlet{w: env.stdout}
	env.stdout = out
	if env.prompt == nil {
		env.prompt = env.stderr
	}
	if env.memory.may == nil { // nothing is known of this world's
		env.memory.may = func() uint64 { return 0 }
	}
	a := &app{environment: env, args: args}
	defer env.keys.Restore()
	done := make(chan error, 1)
	go func() {
		err := a.catchPanic(func() error { return a.execute(ctx) })
		if out.err != nil && (err == nil || errors.Is(err, out.err)) {
			err = unwritten(out.err)
		}
		done <- err
	}()
	ended := make(chan struct{})
	defer close(ended)
	if env.spoken != nil {
		a.watchSoon(env.spoken, commandLine(args), ended)
	}
	var err error
	select {
	case err = <-done:
	case <-ctx.Done():
		env.keys.Restore()
		err = a.broken(done)
	case used := <-env.memory.exceeded(ended):
		return report(env.stderr, a.saves.now().after(a.outOfMemory(used, env.memory.may())))
	}
	return report(env.stderr, a.saves.stop().after(err))
}

// broken ends a command that is interrupted. It does not wait for the command,
// which may be asking a person; but a save that has begun is made, and then the
// command may say so.
func (a *app) broken(done <-chan error) error {
	if a.endsItself.Load() {
		return <-done
	}
	if a.saves.stop().what == "" {
		fmt.Fprintln(a.prompt)
		return a.saves.broken()
	}
	select {
	case err := <-done:
		return err
	case <-time.After(lastWords):
		return errBroken
	}
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
