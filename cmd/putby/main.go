// Putby is a ledger for a household that buys food while it is cheap,
// freeze-dries it, and wants to know what a litre really costs.
package main

import (
	"os"
	_ "time/tzdata" // zones are part of the ledger's contract, so of the binary
)

func main() { os.Exit(run(os.Args[1:], system())) }

// run carries out one command line and returns the exit status.
func run(args []string, env environment) int {
	root := newRootCommand(&app{environment: env})
	root.SetArgs(args)
	root.SetIn(env.stdin)
	root.SetOut(env.stdout)
	root.SetErr(env.stderr)
	return report(env.stderr, root.Execute())
}
