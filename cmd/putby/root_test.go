package main

import (
	"testing"

	"github.com/spf13/cobra"

	"putby/cmd/putby/internal/manual"
)

// A command that is built alone is the same as in the whole tree, help and flags
// and all.
func TestCommandBuiltAlone(t *testing.T) {
	whole := helps(newRootCommand(&app{}))
	seen := 0
	for _, b := range branches {
		for _, args := range [][]string{{b.name, "-x"}, {"--ledger", "cost", b.name}} {
			root := newRootCommand(&app{args: args})
			if b.name != "man" && len(root.Commands()) != 1 {
				t.Errorf("%v builds %d commands", args, len(root.Commands()))
			}
			c, _, err := root.Find([]string{b.name})
			if err != nil || c.Name() != b.name {
				t.Fatalf("%v: have %v, %v", args, c.Name(), err)
			}
			for path, have := range helps(c) {
				if seen++; have != whole[path] {
					t.Errorf("%s alone has the help\n%s\nin the whole tree\n%s", path, have, whole[path])
				}
			}
		}
	}
	if want := 2 * (len(whole) - 1); seen < want-20 { // without the root, and help and completion
		t.Errorf("looked at %d commands, there are %d", seen, want)
	}
}

func helps(root *cobra.Command) map[string]string {
	list := map[string]string{}
	everyCommand(root, func(c *cobra.Command) { list[c.CommandPath()] = manual.Help(pageOf(c), 80) })
	return list
}

// What a command line is about is told by its first words alone; anything else
// needs the whole tree.
func TestWholeTreeWhereNeeded(t *testing.T) {
	for _, args := range [][]string{
		nil, {"--help"}, {"help", "cost"}, {"cots"}, {"--ledger"}, {"--ledger", "cost"}, {"--ledger=x", "cots"}, {"man", "x"},
		{"completion", "bash"}, {cobra.ShellCompRequestCmd, "cost", ""}, {"amend", "run"},
	} {
		if n := len(newRootCommand(&app{args: args}).Commands()); n < len(branches) {
			t.Errorf("%v builds %d of %d commands", args, n, len(branches))
		}
	}
}
