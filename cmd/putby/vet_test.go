package main

import (
	"maps"
	"strings"
	"testing"
)

// A person who gives a day that is still to come is asked again at once, and
// where a flag gives it nobody is asked anything.
func TestAskedAgainForADateAhead(t *testing.T) {
	h := sampleHouse(t) // on 2025-11-20
	got := h.must(h.ask("c46-a\n1\nused\n2036-11-20\nyesterday\nyes\n", "draw", "add"))
	has(t, got.prompt, "2036-11-20 is 11 years ahead", "date (")
	if have, want := h.last("draws.csv", 1), "2025-11-19,c46-a,,1,used,"; have != want {
		t.Errorf("recorded %s, want %s", have, want)
	}
	before := h.files()
	for _, args := range [][]string{
		{"draw", "add", "--date", "2036-11-20"}, {"receipt", "add", "--date", "2036-11-20"}, {"run", "add", "--start", "2036-11-20 08:00"},
	} {
		got = h.ask("c46-a\n", args...)
		if got.status != exitUsage || !strings.Contains(got.stderr, "2036-11-20 is 11 years ahead") || strings.Contains(got.prompt, "[") {
			t.Errorf("%v: status %d, asks %q, says %q", args, got.status, got.prompt, got.stderr)
		}
	}
	h.unchanged(before)
	got = h.must(h.ask("c46-a\n1\nused\n2025-12-24\nyes\n", "draw", "add", "--ahead"))
	has(t, h.must(h.run("changes", "--format", "csv")).stdout, "draw add --date 2025-12-24 --pack c46-a --quantity 1 --reason used --ahead")
}

// What is unlikely is asked about, and only yes will do.
func TestAskedAboutTheUnlikely(t *testing.T) {
	h := sampleHouse(t)
	before := h.files()
	dear := []string{"receipt", "add", "--shop", "Corner Shop", "--food", "5 kg carrots at 599"}
	got := h.ask("\nmaybe\nno\n", dear...)
	has(t, got.prompt, "Look again: carrots is at 119.8000 CAD per kg, far from the usual", "is that right (yes or no): ", "one of: yes, no", "is that right", "one of: yes, no", "is that right")
	if got.status != exitBroken {
		t.Errorf("status %d", got.status)
	}
	old := []string{"draw", "add", "--pack", "c46-a", "--date", "2015-11-20"}
	got = h.ask("no\n", old...)
	has(t, got.prompt, "Look again: 2015-11-20 is 10 years before the last record, which is of 2025-11-16.", "is that right")
	h.unchanged(before)
	h.must(h.ask("yes\n", dear...))
	if have, want := h.last("receipts.csv", 1), "cs-251120,2025-11-20,Corner Shop,1,food,carrots,,5 kg,599,,,,"; have != want {
		t.Errorf("recorded %s, want %s", have, want)
	}
	// To look at it first nobody is asked.
	got = h.must(h.ask("", "price", "add", "--shop", "Corner Shop", "--item", "carrots", "--size", "5 kg", "--price", "6", "--date", "2024-11-01", "--dry-run"))
	has(t, got.stdout, "Look again: 2024-11-01 is 13 months before", "Would save")
}

// A cell that is changed to something unlikely is asked about as well, by edit and by
// finish, and only yes changes it.
func TestAskedAboutUnlikelyChanges(t *testing.T) {
	h := sampleHouse(t)
	before := h.files()
	for _, args := range [][]string{{"edit", "run", "c46", "kwh=900"}, {"finish", "c46", "--kwh", "900"}} {
		got := h.ask("no\n", args...)
		has(t, got.prompt, "Look again: run c46 has 900 kWh, far from the usual 17.12 kWh on rimewell (the median of 30 runs).", "is that right (yes or no): ")
		if got.status != exitBroken {
			t.Errorf("%v: status %d", args, got.status)
		}
	}
	h.unchanged(before)
	got := h.must(h.ask("", "edit", "run", "c46", "kwh=15.1"))
	if strings.Contains(got.prompt, "Look again") {
		t.Errorf("asked %q", got.prompt)
	}
	h.must(h.ask("yes\n", "edit", "run", "c46", "kwh=900"))
	has(t, h.must(h.run("run", "show", "c46")).stdout, "900")
}

// A receipt that is there is asked about; what was agreed to stands in the list
// of changes as a command that adds it again.
func TestAskedAboutTheSameReceipt(t *testing.T) {
	h := sampleHouse(t)
	bus := []string{"receipt", "add", "--shop", "Corner Shop", "--other", "bus fare at 2.40"}
	h.must(h.ask("", bus...))
	before := h.files()
	got := h.ask("no\n", bus...)
	has(t, got.prompt, "Look again: receipt cs-251120 of 2025-11-20 from Corner Shop has the same lines already.", "was it bought twice (yes or no): ")
	h.unchanged(before)
	h.must(h.ask("yes\n", bus...))
	h.must(h.ask("", append(bus, "--again")...))
	got = h.must(h.ask("Corner Shop\n\n\nother bus fare at 2.40\n\n\nyes\nyes\n", "receipt", "add"))
	has(t, got.prompt, "was it bought twice", "save it")
	has(t, h.must(h.run("changes", "--format", "csv")).stdout, "--other 'bus fare at 2.40' --total 2.40 --again")
}

// unchanged fails the test unless the ledger's files are as they were.
func (h *house) unchanged(before map[string]string) {
	h.t.Helper()
	if !maps.Equal(before, h.files()) {
		h.t.Error("something was written")
	}
}
