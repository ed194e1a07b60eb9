// Putby is a ledger for a household that buys food while it is cheap,
// freeze-dries it, and wants to know what a litre really costs.
package main

import (
	"context"
	"os"
	"os/signal"
	"syscall"
	_ "time/tzdata" // zones are part of the ledger's contract, so of the binary
)

func main() {
	// An interrupted command ends as one that failed: nothing half-written.
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	status := run(ctx, os.Args[1:], system())
	stop()
	os.Exit(status)
}

// run carries out one command line and returns the exit status.
func run(ctx context.Context, args []string, env environment) int {
	root := newRootCommand(&app{environment: env, args: args})
	root.SetArgs(args)
	root.SetIn(env.stdin)
	root.SetOut(env.stdout)
	root.SetErr(env.stderr)
	return report(env.stderr, root.ExecuteContext(ctx))
}
