package folder

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// TestStrays: what looks like a ledger's file and is none is named, with how to
// bring it in; what a person keeps there for something else is not.
func TestStrays(t *testing.T) {
	for name, want := range map[string]string{
		"receipts (conflicted copy 2025-11-02).csv":  "looks like a copy of receipts.csv",
		"receipts.sync-conflict-20251102-101010.csv": "looks like a copy of receipts.csv",
		"Copy of foods.csv":                          "looks like a copy of foods.csv",
		"draws-kitchen.csv":                          "looks like a copy of draws.csv",
		"Draws.csv":                                  "may be meant for draws.csv",
		"foods.CSV":                                  "may be meant for foods.csv",
		"recepits.csv":                               "may be meant for receipts.csv",
		"settings 2.csv":                             "looks like a copy of settings.csv",
		"run.csv":                                    "may be meant for runs.csv",
		"till.csv":                                   "",
		"maps.csv":                                   "",
		"names.csv":                                  "",
		"shopping.csv":                               "",
		"overloads-of-mail.csv":                      "",
		".#draws.csv":                                "",
		"draws.txt":                                  "",
	} {
		dir := household(t)
		put(t, dir, name, "x\n")
		list, err := Warnings(dir)
		if err != nil {
			t.Fatal(err)
		}
		switch {
		case want == "" && len(list) > 0:
			t.Errorf("%s: %v", name, list)
		case want != "" && (len(list) != 1 || !strings.Contains(list[0].What, want) || !strings.Contains(list[0].What, name) || list[0].Hint == ""):
			t.Errorf("%s: %v, want %s", name, list, want)
		}
		b := openBook(t, dir)
		if len(b.Warnings()) != len(list) {
			t.Errorf("%s: a save warns of %v", name, b.Warnings())
		}
		b.Close()
	}
	dir := household(t)
	if err := os.MkdirAll(filepath.Join(dir, "receipts (2).csv"), 0o700); err != nil {
		t.Fatal(err)
	}
	if list, err := Warnings(dir); err != nil || len(list) > 0 {
		t.Errorf("a folder: %v %v", list, err)
	}
}

// TestEditorsNotes: what editors leave beside a meter log is passed over.
func TestEditorsNotes(t *testing.T) {
	dir := household(t)
	put(t, dir, "meter/R1.csv", "time,watts\n2025-01-01 10:00,5\n")
	for _, name := range []string{".#R1.csv", "._R1.csv", "#R1.csv#", "R1.csv~", "R1.csv.bak", "~$R1.csv", ".R1.csv.swp", "#R1.csv"} {
		put(t, dir, "meter/"+name, "\x00")
	}
	if rec, faults := read(t, dir); len(faults) > 0 || len(rec.Meters) != 1 {
		t.Errorf("%v %v", rec.Meters, faults)
	}
}
