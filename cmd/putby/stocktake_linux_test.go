package main

import (
	"strings"
	"testing"
)

// A walk through the store on a terminal, with a wrong answer, a way back and
// something that is not looked at; what was counted is saved in one change.
func TestStocktakeWalk(t *testing.T) {
	h := sampleHouse(t)
	before := h.changes()
	term := onTerminalAt(t, "2025-11-19T12:00:00Z", "stocktake", "--place", "cellar", "--fresh", "--ledger", h.dir)
	term.expect("cellar")
	for _, step := range [][2]string{
		{"Chicken broth, pack c22-a, 1 L each, best by 2027-03-02 [3]: ", "4"},
		{"the books have 3. A record may be lacking: a pack, or a draw too many", "three"},
		{"it is not a number, such as 3", "?"},
		{"How much is there now.", "2"},
		{"pack c23-a, 1 L each, best by 2027-03-10 [5]: ", "back"},
		{"pack c22-a, 1 L each, best by 2027-03-02 [2]: ", "3"}, // it was there after all
		{"pack c23-a, 1 L each, best by 2027-03-10 [5]: ", "4"},
		{"pack c29-a", ""}, {"pack c40-a", ""}, {"pack c44-a", ""}, {"pack c27-a", "-"}, {"pack c43-a", ""}, {"pack c41-a", ""},
		{"pack c45-a", ""}, {"pack c35-a", ""}, {"pack c36-a", ""},
		{"Fresh food", ""}, // apples
		{"Eggs in the shell [24 ea]: ", "20"},
		{"the rest was eaten, given or spoiled (missing: nobody knows) [eaten]: ", ""},
		{"Onions [0.9 kg]: ", "0.5 lb"},
		{"the rest was eaten", "missing"},
		{"Butternut squash [6.7 kg]: ", "-"},
	} {
		term.expect(step[0])
		term.send(step[1] + "\r")
	}
	term.expect("Stocktake of 13 things: 11 as the books have them; missing and written off: ")
	term.expect("Missing: 1 container of pack c23-a, ")
	term.expect("save it [yes]: ")
	term.send("\r")
	if status := term.status(); status != exitDone {
		t.Fatalf("exit status %d\n%s", status, term.said())
	}
	if counts := h.last("counts.csv", 13); !strings.HasPrefix(counts, "2025-11-19,c22-a,,3,\n2025-11-19,c23-a,,4,\n") || !strings.HasSuffix(counts, "onions,0.226796185 kg,") {
		t.Errorf("counted\n%s", counts)
	}
	if draw := h.last("draws.csv", 1); draw != "2025-11-19,,eggs,4 ea,used," {
		t.Errorf("drawn %s", draw)
	}
	if n := h.changes() - before; n != 1 {
		t.Errorf("%d changes", n)
	}
}

// Ctrl-C at any question of the walk writes nothing.
func TestStocktakeBrokenOff(t *testing.T) {
	h := sampleHouse(t)
	before := h.files()
	packs := []string{"c22-a", "c23-a", "c29-a", "c40-a", "c44-a", "c27-a", "c43-a", "c41-a", "c45-a", "c35-a", "c36-a"}
	for _, answers := range []int{0, 3, len(packs)} {
		term := onTerminal(t, "stocktake", "--place", "cellar", "--ledger", h.dir, "--date", "2025-11-19")
		for _, pack := range packs[:answers] {
			term.expect("pack " + pack)
			term.send("\r")
		}
		if answers < len(packs) {
			term.expect("pack " + packs[answers])
		} else {
			term.expect("all as the books have them")
			term.expect("save it [yes]: ")
		}
		term.send("\x03")
		if status := term.status(); status != exitBroken {
			t.Errorf("after %d answers: exit status %d\n%s", answers, status, term.said())
		}
		term.expect("broken off: nothing was saved")
	}
	h.unchanged(before)
}
