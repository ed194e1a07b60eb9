package main

import (
	"testing"

	"putby/ledger"
)

// What was taken out or frozen is written with one join of the ledger, which checks it
// and says what it comes to. It is not parallel, so that it counts its own alone.
func TestOneJoin(t *testing.T) {
	for _, args := range [][]string{
		{"draw", "add", "--food", "chicken-broth"},
		{"draw", "add", "--pack", "c46-a"},
		{"take", "chicken-broth", "pack c46-a"},
		{"draw", "add", "--food", "chicken-broth", "--dry-run"},
		{"draw", "add", "--item", "onions", "--quantity", "50 g"},
		{"take", "50 g onions", "1 jar-1l"},
		{"freeze", "50 g onions"},
	} {
		h := sampleHouse(t)
		before := ledger.Joins()
		if s := h.run(args...); s.status != exitDone {
			t.Errorf("%q: status %d: %s", args, s.status, s.stderr)
		}
		if n := ledger.Joins() - before; n != 1 {
			t.Errorf("%q joins %d times, want once", args, n)
		}
	}
}
