package main

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"putby/ledger"
)

// A recordStep is a change of a record by a command, and by the form of any record.
type recordStep struct {
	args   []string
	path   string
	fields []string // name and text of each
	says   string   // the form; where it is refused, the command too
}

// recordSteps are a record's life, for each kind that has no other form, and what may
// be done to records of the others: added, corrected, taken out, refused.
var recordSteps = map[string][]recordStep{
	"nothing yet": {
		{[]string{"machine", "add", "--machine", "shed", "--cycles", "900"}, "add/machine", []string{"machine", "shed", "cycles", "900"}, "vacuum pump"},
		{[]string{"tariff", "add", "0.31"}, "add/tariff", []string{"words", "0,31"}, "home"},
		{[]string{"tariff", "add", "0.33"}, "add/tariff", []string{"tariff", "", "words", "0.33"}, "the ledger has prices of the tariff home"},
		{[]string{"wattage", "add", "--phase", "primary", "--watts", "640"}, "add/wattage", []string{"phase", "primary", "watts", "640"}, "640"},
		{[]string{"wattage", "add", "--phase", "primry", "--watts", "640"}, "add/wattage", []string{"phase", "primry", "watts", "640"}, "primary"},
		{[]string{"supply", "add", "--supply", "jar", "--kind", "jar"}, "add/supply", []string{"supply", "jar", "kind", "jar"}, "jar"},
		{[]string{"edit", "setting", "budget_food", "250"}, "settings", []string{"setting-budget_food", "250"}, "250"},
	},
	"supply": {
		{[]string{"supply", "add", "--supply", "jar-2l", "--name", "2 L jar", "--kind", "jar", "--uses", "20", "--capacity", "2 L", "--price", "3.20"},
			"add/supply", []string{"supply", "jar-2l", "name", "2 L jar", "kind", "jar", "uses", "20", "capacity", "2 l", "price", "3,20"}, "2 L jar"},
		{[]string{"edit", "supply", "jar-2l", "price=3.50"}, "record/supply/LINE", []string{"supply-1-price", "3.50"}, "3.5"},
		{[]string{"remove", "supply", "jar-2l"}, "remove/supply/LINE", nil, "Take a record out"},
	},
	"machine": {
		{[]string{"machine", "add", "--machine", "shed", "--name", "Shed dryer", "--load-mass", "7 kg", "--cycles", "900", "--residual", "300"},
			"add/machine", []string{"machine", "shed", "name", "Shed dryer", "load_mass", "7 kg", "cycles", "900", "residual", "300"}, "earthed"},
		{[]string{"wattage", "add", "--machine", "shed", "--phase", "primary", "--watts", "640"},
			"add/wattage", []string{"machine", "shed", "phase", "primary", "watts", "640"}, "640"},
		{[]string{"remove", "machine", "shed"}, "remove/machine/LINE", nil, "machine shed is named by wattage shed:primary"},
		{[]string{"edit", "wattage", "shed:primary", "watts=655"}, "record/wattage/LINE", []string{"wattage-1-watts", "655"}, "655"},
		{[]string{"remove", "wattage", "shed:primary"}, "remove/wattage/LINE", nil, "Take a record out"},
		{[]string{"edit", "machine", "shed", "machine=barn"}, "record/machine/LINE", []string{"machine-1-machine", "barn"}, "Correct a record"},
		{[]string{"edit", "machine", "rimewell", "cycles="}, "record/machine/LINE", []string{"machine-1-cycles", ""}, "cycles"},
	},
	"tariff": {
		{[]string{"tariff", "add", "days 0.24 from 6 to 22, nights 0.18", "--tariff", "home", "--from", "2026-01-01", "--tax", "5"},
			"add/tariff", []string{"words", "days 0.24 from 6 to 22, nights 0.18", "tariff", "home", "from", "2026-01-01", "tax", "5"}, "Record a band"},
		{[]string{"tariff", "add", "--tariff", "home", "--from", "2026-07-01", "--rate", "0.2"},
			"add/tariff", []string{"tariff", "home", "from", "2026-07-01", "rate", "0.2"}, "Record a band"},
		{[]string{"holiday", "add", "--tariff", "harbour", "--date", "2026-12-26"},
			"add/holiday", []string{"tariff", "harbour", "date", "2026-12-26"}, "Record a day"},
		{[]string{"remove", "holiday", "harbour:2026-12-26"}, "remove/holiday/LINE", nil, "Take a record out"},
		{[]string{"tariff", "add", "days 0.24 from 6"}, "add/tariff", []string{"tariff", "", "words", "days 0.24 from 6"}, `"days 0.24 from 6"`},
	},
	"run": {
		{[]string{"phase", "add", "--run", "c47", "--phase", "hold", "--duration", "40m", "--watts", "150"},
			"add/phase", []string{"run", "c47", "phase", "hold", "duration", "40m", "watts", "150"}, "Record a phase"},
		{[]string{"load", "add", "--run", "c47", "--item", "apples", "--quantity", "0.4 kg", "--trays", "1", "--wet", "0.4 kg", "--dry", "50 g"},
			"add/load", []string{"run", "c47", "item", "apples", "quantity", "0.4 kg", "trays", "1", "wet", "0.4 kg", "dry", "50 g"}, "Apple slices"},
		{[]string{"edit", "run", "c47", "start=2025-11-13 21:45", "note=in a hurry"}, "record/run/LINE", []string{"run-1-start", "2025-11-13T21:45", "run-1-note", "in a hurry"}, "c47"},
		{[]string{"edit", "run", "c47", "run=c46"}, "record/run/LINE", []string{"run-1-run", "c46"}, "c46"},
		{[]string{"remove", "run", "c40"}, "remove/run/LINE", nil, "run c40 is named by pack c40-a and pack c40-b"},
		{[]string{"remove", "run", "c47"}, "remove/run/LINE", nil, "Take a record out"},
	},
	"food": {
		{[]string{"edit", "food", "onions", "keep_months=18"}, "record/food/LINE", []string{"food-1-keep_months", "18"}, "18"},
		{[]string{"remove", "food", "onions"}, "remove/food/LINE", nil, "food onions is named by 43 records, the first of them receipt mb-240910:2"},
	},
	"receipt": {
		{[]string{"remove", "receipt", "oh-251101"}, "remove/receipt/LINE?whole=yes", nil, "without receipt oh-251101 there is not enough for batch squash-5 and run c46"},
		{[]string{"edit", "receipt", "mb-251112", "shop=Corner Barn"}, "record/receipt/LINE", []string{"receipt-1-shop", "Corner Barn"}, "Corner Barn"},
		{[]string{"edit", "receipt", "mb-251112:3", "item=salt", "note=for the steps"}, "record/receipt/LINE", []string{"receipt-1-item", "salt", "receipt-1-note", "for the steps"}, "salt"},
	},
	"pack": {
		{[]string{"edit", "pack", "c46-a", "place=cellar, left shelf"}, "record/pack/LINE", []string{"pack-1-place", "cellar, left shelf"}, "cellar"},
		{[]string{"edit", "pack", "c46-a", "count=0"}, "record/pack/LINE", []string{"pack-1-count", "0"}, "0"},
	},
	"draw": {
		{[]string{"edit", "draw", "@LINE", "reason=given"}, "record/draw/LINE", []string{"draw-1-reason", "given"}, "given"},
		{[]string{"remove", "draw", "@LINE"}, "remove/draw/LINE", nil, "Taken out:"},
	},
	"setting": {
		{[]string{"edit", "setting", "hour_value", "12"}, "settings", []string{"setting-hour_value", "12"}, "12"},
		{[]string{"edit", "setting", "hour_value", "lots"}, "settings", []string{"setting-hour_value", "lots"}, "lots"},
		{[]string{"edit", "setting", "zone", "Nowhere/Land"}, "settings", []string{"setting-zone", "Nowhere/Land"}, "Nowhere/Land"},
		{[]string{"edit", "setting", "household_kwh_month", "300;310;280;250;240;230;220;230;240;260;280;300"}, "settings",
			[]string{"setting-household_kwh_month", "300;310;280;250;240;230;220;230;240;260;280;300"}, "300;310"},
	},
}

// What a command does to a record of any kind a form does too, to the last byte, and
// what the one refuses the other does; undone one by one the ledger is as it was.
func TestAnyRecordByForms(t *testing.T) {
	for kind, steps := range recordSteps {
		t.Run(kind, func(t *testing.T) {
			byCommand, byForm := sampleHouse(t), sampleHouse(t)
			if kind == "nothing yet" {
				for _, h := range []*house{byCommand, byForm} {
					h.dir += "-new"
					h.must(h.run("init", h.dir, "--currency", "EUR", "--zone", "Europe/Vienna"))
				}
			}
			before := byForm.records()
			for _, s := range steps {
				line := byForm.lineOf(s)
				s.args, s.path = append([]string{}, s.args...), strings.Replace(s.path, "LINE", line, 1)
				for i := range s.args {
					s.args[i] = strings.Replace(s.args[i], "LINE", line, 1)
				}
				done := byCommand.run(s.args...)
				said := byForm.send(s.path, s.fields...)
				if refused := done.status != exitDone; strings.Contains(said, "Nothing was saved") != refused || !strings.Contains(said, s.says) || refused && !strings.Contains(done.stderr, s.says) {
					t.Errorf("%q: %s%s\n/%s: %s", s.args, done.stdout, done.stderr, s.path, strings.Split(said, "use strict")[0])
				}
				if strings.Contains(said, "putby ") || strings.Contains(said, " --") {
					t.Errorf("/%s speaks of commands: %s", s.path, said)
				}
				want, forms := byCommand.records(), byForm.records()
				for name, text := range want {
					if forms[name] != text {
						t.Errorf("%q: by the command %s ends\n%s\nand by the form\n%s", s.args, name, lastLines(text, 4), lastLines(forms[name], 4))
					}
				}
			}
			for n := byForm.changes(); n > 0; n-- { // the first, which made the ledger, cannot be taken back
				byForm.send("undo", "number", fmt.Sprint(n))
			}
			if after := byForm.records(); fmt.Sprint(after) != fmt.Sprint(before) {
				t.Error("undone one by one the ledger is not as it was")
			}
		})
	}
}

// lineOf is the line of the record that a step is of: that which its command names, or
// else the last.
func (h *house) lineOf(s recordStep) string {
	h.t.Helper()
	if !strings.Contains(s.path, "LINE") {
		return ""
	}
	lines := strings.Split(strings.TrimSpace(h.records()[ledger.MustKind(s.args[1]).File]), "\n")
	id, part, _ := strings.Cut(s.args[2], ":")
	for i, line := range lines {
		if cells := strings.Split(line, ","); cells[0] == id && (part == "" || slices.Contains(cells, part)) {
			return fmt.Sprint(i + 1)
		}
	}
	return fmt.Sprint(len(lines))
}
