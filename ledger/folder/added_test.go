package folder

import (
	"fmt"
	"maps"
	"slices"
	"testing"
)

// What was saved last is told by the lines as they are now: those edited since count as
// edited, and what was taken back does not count at all.
func TestAddedTo(t *testing.T) {
	change := func(n int, kind string, of int, removed, added string) Change {
		return Change{Number: n, Kind: kind, Of: of, Files: []FileChange{{Name: "draws.csv", Hunks: []Hunk{{Removed: Text(removed), Added: Text(added)}}}}}
	}
	list := []Change{
		change(1, Created, 0, "", "head\nz\n"),
		change(2, Edited, 0, "", "a\r\n"),
		change(3, Edited, 0, "", "b\nc\n"),
		change(4, Edited, 0, "", "d\n"),
		change(5, Edited, 0, "b\n", "b2\n"),
		change(6, Undone, 4, "d\n", ""),
		change(7, Edited, 0, "b2\n", "b3\n"),
		change(8, Edited, 0, "z\n", ""),
		change(9, Edited, 0, "", "e\n"),
		change(10, Undone, 9, "e\n", ""),
		change(11, Redone, 9, "", "e\n"),
		{Number: 12, Kind: Edited, Files: []FileChange{{Name: "packs.csv", Hunks: []Hunk{{Added: "p\n"}}}}},
		{Number: 13, Kind: Damaged},
	}
	var told []string
	for _, lines := range addedTo("draws.csv", list) {
		told = append(told, fmt.Sprint(slices.Sorted(maps.Keys(lines))))
	}
	if got, want := fmt.Sprint(told), "[[e] [b3 c] [a]]"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
}
