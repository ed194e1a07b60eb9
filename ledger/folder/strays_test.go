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

// TestCopiedLogs: a copy of a meter log that a shared folder made stops no
// report, and is named; a log of a run with a like name counts.
func TestCopiedLogs(t *testing.T) {
	const log = "time,watts\n2025-01-01 10:00,5\n"
	for name, isCopy := range map[string]bool{
		"R1 (conflicted copy 2025-11-02).csv": true,
		"R1 (2).csv":                          true,
		"copy of R1.csv":                      true,
		"r1.conflict-20251102-101010.csv":     true,
		"R1-2.csv":                            false,
		"R11.csv":                             false,
		"R1.b.csv":                            false,
	} {
		dir := household(t)
		put(t, dir, "meter/R1.csv", log)
		put(t, dir, "meter/"+name, log)
		rec, faults := read(t, dir)
		list, err := Warnings(dir)
		if err != nil || len(faults) > 0 {
			t.Fatal(name, err, faults)
		}
		if isCopy != (len(rec.Meters) == 1) || isCopy != (len(list) == 1) {
			t.Errorf("%s: %d logs, warnings %v", name, len(rec.Meters), list)
		}
		if isCopy && (!strings.Contains(list[0].What, name) || !strings.Contains(list[0].What, "meter/R1.csv") || list[0].Hint == "") {
			t.Errorf("%s: %v", name, list)
		}
	}
	dir := household(t)
	put(t, dir, "meter/R9 (2).csv", log)
	if _, faults := read(t, dir); len(faults) != 1 {
		t.Errorf("a log of no run: %v", faults)
	}
}
