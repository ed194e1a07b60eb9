package main

import (
	"encoding/json"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// newHouse is a household without a ledger.
func newHouse(t *testing.T) *house {
	return &house{t: t, dir: filepath.Join(t.TempDir(), "larder"), now: time.Date(2026, 6, 1, 12, 0, 0, 0, time.UTC)}
}

func lines(answers ...string) string { return strings.Join(answers, "\n") + "\n" }

// What setup asks is all that a first cost needs. The figures are worked by hand:
// wear 3450 / 900; 14 kWh of 24 h from 6:00, two thirds of them at 0.24 and a
// third at 0.18; 2.4 kg of strawberries at 2.50 a 500 g, 6 % of them thrown
// away, of which 2.256 kg went in.
func TestSetupToFirstCost(t *testing.T) {
	h := newHouse(t)
	got := h.must(h.ask(lines(
		"euros", "EUR", "Europe/Viena", "Europe/Vienna", "litres", "", // slips are told at once
		"yes", "Shed dryer", "5", "7 kg", "900", "", "3450", "2025-09-04", "-", "",
		"yes", "days 0.24 from 6 to 22, nights 0.18", "",
		"yes", "24 jars 1 L 38.40", "", "60 lids 9", "", "2 oil 50", "", "", "",
		"yes", "strawberries", "09316", "", "mass", "5", "24", "", "",
		"later",
	), "setup"))
	has(t, got.prompt, "currency (ISO 4217 code): ", `"EUROS" is not`, "currency", "time zone", `"Europe/Viena" is not a time zone`, "what you measure in [litres and kilograms]: ",
		"A ledger in ", "EUR, Europe/Vienna, litres and kilograms.", "save it", "The freeze-dryer", "describe it now", "What a kWh costs", "0.24 a kWh: from 06:00 to 22:00",
		"Jars, bags, lids and absorbers in the house", "how often one serves [20]: ", `Each run of Shed dryer uses 1 oil. Where it is another number, change it: putby edit machine shed-dryer "with=1 oil"`, "The first foods", "another food (yes or later) [later]: ")
	has(t, got.stdout, "A ledger is in ", "Saved as change 2", "Caution: a freeze-dryer is a mains appliance with a vacuum pump.", "hot pump oil", "Setting tariff: home.",
		"24 ea", "38.40", "Food strawberries", "What comes next:", "putby receipt add", `putby start "1 kg strawberries"`)
	if again := h.must(h.ask("", "setup")); strings.Contains(again.prompt, "yes or later") || !strings.Contains(again.prompt, "There already: the first foods (strawberries).") {
		t.Errorf("set up again, it says\n%s", again.prompt)
	}

	h.must(h.run("receipt", "add", "--shop", "Fiddle & Co", "--date", "2026-05-30", "--food", "5 x 500 g strawberries at 2.50"))
	h.must(h.run("run", "add", "--start", "2026-05-31 06:00", "--kwh", "14", "--load", "2.256 kg strawberries", "--phase", "primary 24h"))
	h.must(h.run("pack", "add", "--run", "run-1", "--count", "2", "--each", "1.1 kg", "--with", "1 jar-1l, 1 lid"))
	var cost struct {
		Rows []map[string]any
	}
	if err := json.Unmarshal([]byte(h.must(h.run("cost", "--format", "json")).stdout), &cost); err != nil || len(cost.Rows) != 1 {
		t.Fatal(err, cost)
	}
	for key, want := range map[string]string{
		"wear": "3.833333", "electricity": "3.080000", // 14 x (16 x 0.24 + 8 x 0.18) / 24
		"food":     "12.000000", // 12.50 x 2.256 / (2.5 x 0.94)
		"supplies": "1.197500",  // 2 x (38.40 / 24 / 20 + 9 / 60 / 8), and of oil 50 / 2 / 25
	} {
		if have := cost.Rows[0][key]; have != want {
			t.Errorf("%s is %v, not %s", key, have, want)
		}
	}
}

// Each step can be left for later, and is taken up by the same command; what was
// saved before it is broken off stays.
func TestSetupLater(t *testing.T) {
	h := newHouse(t)
	got := h.must(h.ask(lines("USD", "America/Denver", "quarts", "", "later", "later", "no", "later"), "setup"))
	has(t, got.stdout, "What comes next:", "putby setup, for the freeze-dryer")
	has(t, h.last("settings.csv", 2), "show_volume,qt", "show_mass,lb")

	got = h.ask(lines("later", "yes", "0.31", "", "yes", "12 bags"), "setup")
	if got.status != exitBroken {
		t.Fatalf("status %d", got.status)
	}
	has(t, got.prompt, "it does not say how large one is", "What was saved before stays. putby setup", "goes on from there.")
	has(t, got.stderr, "broken off: nothing was saved of this step")
	has(t, h.last("tariffs.csv", 1), "home,,,,,,,0.31,")

	got = h.ask(lines("yes", "", "", "5 h", "15 lb", "back", "7 qt", "back", "back", "4", "", "1000", "0", "2000", "2026-05-01", "freezing 450, primary 700 W", "no", "6", "1900", "yes"), "setup")
	if got.status != exitBroken {
		t.Fatalf("status %d", got.status)
	}
	has(t, got.prompt, "There already: what a kWh costs (home).", "Jars")
	has(t, h.last("machines.csv", 1), "freeze-dryer,Freeze-dryer,4,7 qt,,1000,0,")
	has(t, h.last("receipts.csv", 1), ",2026-05-01,before these books,1,machine,freeze-dryer,1,,1900,")
	has(t, h.last("wattage.csv", 2), "freeze-dryer,freezing,450", "freeze-dryer,primary,700")
}

// An empty line ends the step of what is in the house, its first line too.
func TestSetupNothingInTheHouse(t *testing.T) {
	h := newHouse(t)
	got := h.must(h.ask(lines("EUR", "Europe/Vienna", "", "", "later", "later", "yes", "", "later"), "setup"))
	if strings.Contains(got.prompt, "name one") {
		t.Errorf("it insists:\n%s", got.prompt)
	}
	has(t, got.stdout, "What comes next:")
}

// Without anybody to ask it names the commands that do the same.
func TestSetupUnattended(t *testing.T) {
	h := newHouse(t)
	got := h.run("setup")
	if got.status != exitUsage {
		t.Errorf("status %d", got.status)
	}
	has(t, got.stderr, "setup is a conversation, and there is nobody here to answer", "try: putby init DIR, then putby machine add, tariff add, supply add, receipt add and food add")
}
