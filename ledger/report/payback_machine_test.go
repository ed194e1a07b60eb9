package report_test

import (
	"strings"
	"testing"

	"putby/ledger/figures"
	"putby/ledger/question"
)

// twoMachines has the second run of each month on a machine of its own, bought
// for 60.00 of which 20.00 comes back after 4 runs; 2 kg of peas spoil fresh.
func twoMachines() string {
	change := []string{"machine,cycles\nm,100\n", "machine,name,cycles,residual\nm,Big dryer,100,\nn,Old dryer,4,20.00\n",
		"2,machine,m,1,,1000.00\n", "2,machine,m,1,,1000.00\nr,2025-01-01,3,machine,n,1,,60.00\n",
		"date,pack,quantity,reason\n", "date,pack,item,quantity,reason\n", "a,5,used\n", "a,,5,used\n"}
	for _, month := range []string{"1", "2", "3", "4"} {
		change = append(change, "\n"+month+"b,m,", "\n"+month+"b,n,")
	}
	return strings.NewReplacer(change...).Replace(twoRunsAMonth()) + "2025-04-29,,peas,2 kg,spoiled\n2025-04-30,1b,,5,used\n"
}

// By hand. A run that is used earns 35 on either machine, as both wear off 10: four
// on the big one 140 of 1000, one on the old one 35 of 40. What spoiled fresh, 2 kg
// at 2.00, belongs to none. In all 171 of 1040.
func TestPaybackByMachine(t *testing.T) {
	d := paybackAt(t, twoMachines(), "2025-04-30")
	rows := table(t, d, "by_machine")
	wants(t, rows, 0, map[string]string{"machine": "m", "runs": "4", "earned": "140.000000000000", "target": "1000.000000", "left": "860.000000000000"})
	wants(t, rows, 1, map[string]string{"machine": "n", "runs": "4", "earned": "35.000000000000", "target": "40.000000", "left": "5.000000000000"})
	wants(t, rows, 2, map[string]string{"machine": "", "runs": "0", "earned": "-4.000000000000", "target": "0.000000", "left": "4.000000000000"})
	if len(rows.Rows) != 3 || !strings.HasPrefix(d.Words[0], "The 2 machines: of 1040.00 EUR to earn back, 171.00 has been earned by 2025-04-30. ") {
		t.Errorf("%d rows; says %q", len(rows.Rows), d.Words)
	}
}

// Asked about one machine, all is of its own runs and price: at 35 every fourth
// month, from the store that waits for it, and with its hours alone.
func TestPaybackOfOneMachine(t *testing.T) {
	g := join(t, write(t, twoMachines()), date("2025-04-30"))
	d := payback(t, g, func(q *figures.PaybackQuery) { q.Machine = "old dryer" })
	if want := "Old dryer: of 40.00 EUR to earn back, 35.00 has been earned by 2025-04-30. At the pace of the last 4 whole months, ~8.75 a month, it is paid in ~2025-05;"; !strings.HasPrefix(d.Words[0], want) {
		t.Errorf("says %q", d.Words[0])
	}
	wants(t, table(t, d, "rows"), 3, map[string]string{"earned": "35.000000000000", "so_far": "35.000000000000", "left": "5.000000000000"})
	wants(t, table(t, d, "foods"), 0, map[string]string{"runs": "4", "earned": "140.000000000000", "runs_to_pay": "1"})
	wants(t, table(t, d, "sooner"), 1, map[string]string{"once": "105.000000000000"}) // 2b, 3b and 4b
	for _, f := range d.Fields {
		if f.Key == "by_machine" {
			t.Error("one machine is listed as if it were several")
		}
	}
	if _, err := question.Payback(g, figures.PaybackQuery{Machine: "shed"}); question.OptionOf(err).Field != "machine" {
		t.Errorf("an unknown machine: %v", err)
	}
}
