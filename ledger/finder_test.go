package ledger

import (
	"fmt"
	"slices"
	"strconv"
	"testing"

	"pgregory.net/rapid"
)

// A finder finds what a map does: of doubled identifiers the first, the empty one
// too, and none that was not added.
func TestFinder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ids := rapid.SliceOf(rapid.Map(rapid.IntRange(-1, 60), func(n int) string {
			if n < 0 {
				return ""
			}
			return strconv.Itoa(n)
		})).Draw(t, "ids")
		f, want := newFinder(len(ids), func(i int32) string { return ids[i] }), map[string]int32{}
		for i, id := range ids {
			first, doubled := want[id]
			if !doubled {
				first = int32(i)
				want[id] = first
			}
			if have, there := f.add(int32(i)); have != first || there != doubled {
				t.Fatalf("adding %q at %d: %d %v, want %d %v", id, i, have, there, first, doubled)
			}
		}
		for n := range 70 {
			id := strconv.Itoa(n)
			first, known := want[id]
			if have, ok := f.find(id); have != first || ok != known {
				t.Fatalf("%q: %d %v, want %d %v", id, have, ok, first, known)
			}
			if have, ok := f.findNear(first-1, id); have != first || ok != known {
				t.Fatalf("%q, near: %d %v, want %d %v", id, have, ok, first, known)
			}
			if have, ok := f.findNear(int32(n)-1, id); have != first || ok != known {
				t.Fatalf("%q, near %d: %d %v, want %d %v", id, n-1, have, ok, first, known)
			}
		}
		names := slices.Sorted(f.names())
		if f.len() != len(want) || len(names) != len(want) || len(slices.Compact(names)) != len(want) {
			t.Fatalf("%d names %q, want %d", f.len(), names, len(want))
		}
	})
}

// Rows share the values of cells that say the same: what is read, and what is
// wrong, is as of each row alone.
func TestRepeatedCells(t *testing.T) {
	cells := map[string][]string{
		"pack": {"p1", "p2", "p 3", ""}, "run": {"r1", "r2", ""}, "item": {"leeks", "milk", "l,eeks"},
		"date": {"2025-02-03", "2025-02-30", "2025-02-04"}, "count": {"2", "0", "two"}, "each": {"0.5 L", "1 kg", "1 x"},
		"with": {"1 jar, 1 lid", "0 jar", "2 lid", ""}, "best_by": {"", "2026-01-01", "never"},
	}
	header := []string{"pack", "run", "item", "date", "count", "each", "with", "best_by"}
	rapid.Check(t, func(t *rapid.T) {
		all := &Records{}
		reader, _ := MustKind("pack").Read(all, nil, header)
		for n := range rapid.IntRange(1, 20).Draw(t, "rows") {
			row := make([]string, len(header))
			for i, name := range header {
				row[i] = rapid.SampledFrom(cells[name]).Draw(t, name)
			}
			alone := &Records{}
			one, _ := MustKind("pack").Read(alone, nil, header)
			want, have := slices.Clone(one.Row(n+2, row)), reader.Row(n+2, row)
			if len(want) != len(have) {
				t.Fatalf("%q: %v, alone %v", row, have, want)
			}
			for i := range want {
				if have[i].Error() != want[i].Error() {
					t.Fatalf("%q: %v, alone %v", row, have[i], want[i])
				}
			}
			if have, want := fmt.Sprintf("%+v", all.Packs.At(n)), fmt.Sprintf("%+v", alone.Packs.At(0)); have != want {
				t.Fatalf("%q: %s, alone %s", row, have, want)
			}
		}
	})
}
