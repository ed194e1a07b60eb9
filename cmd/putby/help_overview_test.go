package main

import (
	"strings"
	"testing"
)

// The overview fits a screen, and each command in it is one, which the whole list
// has in the same group.
func TestOverview(t *testing.T) {
	lines := strings.Split(strings.TrimSuffix(overview(), "\n"), "\n")
	if len(lines) > 24 {
		t.Errorf("it has %d lines", len(lines))
	}
	for _, line := range lines {
		if len(line) > 80 {
			t.Errorf("%d columns: %s", len(line), line)
		}
	}
	root := newRootCommand(&app{environment: environment{getenv: func(string) string { return "" }}})
	for _, w := range wants {
		for _, c := range w.commands {
			for name := range strings.SplitSeq(c[0], ", ") {
				if cmd, rest, err := root.Find(strings.Fields(name)); err != nil || len(rest) > 0 || cmd == root {
					t.Errorf("%s: there is no %s", w.what, name)
				}
				if cmd, _, _ := root.Find(strings.Fields(name)[:1]); cmd.GroupID != w.id {
					t.Errorf("%s is not under %s in putby --help", name, w.what)
				}
			}
		}
	}
}
