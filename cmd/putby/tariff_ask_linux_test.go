package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// A price that is a thousand times too high, as of a MWh in a file that says kWh,
// is asked about on a terminal: with yes the prices are taken as per MWh, with no,
// or Ctrl-C, nothing is saved.
func TestTerminalUnlikelyPrices(t *testing.T) {
	for _, test := range []struct {
		answer string
		status int
		rate   string // in the file of rates, where there is one
	}{{"yes\r", exitDone, ",0.0854"}, {"no\r", -1, ""}, {"\x03", exitBroken, ""}} {
		h := sampleHouse(t)
		before, tariffs := h.files(), filepath.Join(h.dir, "tariffs.csv")
		file := filepath.Join(t.TempDir(), "day.csv")
		if err := os.WriteFile(file, []byte("time,CAD/kWh\n2025-11-18 00:00,85.40\n2025-11-18 01:00,91.20\n"), 0o600); err != nil {
			t.Fatal(err)
		}
		term := onTerminal(t, "tariff", "import", file, "--as", "spot", "--ledger", h.dir)
		term.expectNext("91.2 CAD is hardly what a kWh costs")
		term.expectNext("Take the prices as per MWh?")
		term.send(test.answer)
		if test.status == exitDone {
			term.expectNext("in CAD a MWh")
		}
		if status := term.status(); status != test.status && (test.status >= 0 || status == exitDone) {
			t.Errorf("%q: exit status %d\n%s", test.answer, status, term.said())
		}
		after := h.files()
		if rates := after[filepath.Join(h.dir, "rates", "spot.csv")]; test.rate != "" && !strings.Contains(rates, test.rate) || test.rate == "" && rates != "" {
			t.Errorf("%q: rates are %q", test.answer, rates)
		}
		if test.rate == "" && after[tariffs] != before[tariffs] {
			t.Errorf("%q: a tariff is saved", test.answer)
		}
	}
}
