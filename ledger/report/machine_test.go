package report_test

import (
	"errors"
	"strings"
	"testing"

	"putby/ledger/figures"
	"putby/ledger/question"
	"putby/ledger/report"
	"putby/pricing/exact"
)

func machineOf(t *testing.T, dir string, texts question.MachineTexts) report.Doc {
	t.Helper()
	q, err := question.ParseMachineQuery(texts)
	if err != nil {
		t.Fatal(err)
	}
	d, err := question.Machine(whole(t, dir, exact.NoDate), q)
	if err != nil {
		t.Fatal(err)
	}
	if err := d.Check(); err != nil {
		t.Error(err)
	}
	return d
}

// OpenStax, Principles of Accounting 2, cost-volume-profit analysis: fixed costs
// of 18,000 at 80 a unit break even with 225 units; for 40,000 more, 725. A
// payback of 150,000 at 20,000 a year takes 7.5 years (chapter 11).
func TestMachineWorthAgainstPublishedFigures(t *testing.T) {
	for _, c := range []struct {
		texts question.MachineTexts
		want  map[string]string
	}{
		{question.MachineTexts{Price: "18000", Cycles: "725", Saving: "80"}, map[string]string{"pays_after": "225", "pays": "yes", "gain": "40000.000000000000"}},
		{question.MachineTexts{Price: "150000", Cycles: "1000", Saving: "400", PerYear: "50"}, map[string]string{"pays_after": "375", "years": "7.500000000000"}},
	} {
		worthFigures(t, machineOf(t, small, c.texts), c.want)
	}
}

// By hand: 2400 with 600 back wear 2.25 a cycle over 800; at 3.10 they are paid
// with cycle 581, and 4.00 more of the price costs 4.00 of the gain.
func TestMachineWorthByHand(t *testing.T) {
	d := machineOf(t, small, question.MachineTexts{Price: "2400", Residual: "600", Cycles: "800", Saving: "3.10", PerYear: "40"})
	worthFigures(t, d, map[string]string{"wear_per_cycle": "2.250000000000", "saving_per_cycle": "3.100000000000", "pays_after": "581", "pays": "yes",
		"gain": "680.000000000000", "highest_price": "3080.000000000000", "cycles_a_year": "40.000000000000", "years": "14.516129032258"})
	d = machineOf(t, small, question.MachineTexts{Price: "2400", Cycles: "800", Saving: "2.10"})
	worthFigures(t, d, map[string]string{"pays_after": "1143", "pays": "no", "gain": "-720.000000000000", "years": ""}) // beyond its life there is no such year
	if !strings.Contains(d.Words[0], "does not pay within its life of 800 cycles: that would take 1143. At 2.10 EUR a run it pays below 1680.00 EUR.") {
		t.Error(d.Words)
	}
	d = machineOf(t, small, question.MachineTexts{Price: "2400", Cycles: "800", Saving: "0"})
	worthFigures(t, d, map[string]string{"pays_after": "", "pays": "no", "years": ""})
}

// What a cycle saves comes from the runs that are packed and have shelf prices,
// less what was lost, and from spoiled runs, which only lose.
func TestMachineWorthFromRuns(t *testing.T) {
	// The small ledger's run saves 2.029583 with 1.666667 of wear in it, and lost 2.769083, of
	// which 0.333333 is wear.
	d := machineOf(t, small, question.MachineTexts{Price: "100", Cycles: "100"})
	worthFigures(t, d, map[string]string{"saving_per_cycle": "1.260500000000", "runs": "1", "pays_after": "80", "cycles_a_year": "12.000000000000"})
	if want := "It has paid after ~80 runs, at ~1.26 EUR saved a run: in ~6.6 years at 12.0 runs a year. Over its life of 100 it gains ~26.05 EUR; it pays below ~126.05 EUR."; d.Words[0] != want {
		t.Errorf("says %q, want %q", d.Words[0], want)
	}
	// Five runs of stock: 6.00 - 1.00 - (8 + 2 x load) x 0.25 a litre of those packed; k2 to k4 are
	// not packed, k5 is, and k6 spoiled here: its 5 kg at 2.00 and 13 kWh are lost.
	dir := write(t, kiln+"-- runs.csv --\n"+strings.Replace(kiln[strings.Index(kiln, "run,machine"):strings.Index(kiln, "-- loads.csv --")], ",13,,,", ",13,,spoiled,", 1))
	d = machineOf(t, dir, question.MachineTexts{Price: "100", Cycles: "100"})
	// k1: 6 - 1 - 2.50 = 2.50; k5: 45 - 10 - 2.75 = 32.25; k6: -10 - 3.25 = -13.25.
	// 21.50 in three runs.
	worthFigures(t, d, map[string]string{"saving_per_cycle": "7.166666666667", "runs": "3", "pays_after": "14"})
	tab := table(t, d, "range")
	for i, want := range []map[string]string{
		{"case": "the mean, less losses", "saving_per_cycle": "7.166666666667", "pays_after": "14", "gain": "616.666666666667"},
		{"case": "the least", "saving_per_cycle": "-13.250000000000", "pays_after": "", "years": "", "gain": "-1425.000000000000"},
		{"case": "one run in four saves less", "saving_per_cycle": "-5.375000000000"}, // half of the way to the second
		{"case": "half of them save less", "saving_per_cycle": "2.500000000000", "pays_after": "40", "years": "0.555555555556", "gain": "150.000000000000"},
		{"case": "three in four save less", "saving_per_cycle": "17.375000000000"},
		{"case": "the most", "saving_per_cycle": "32.250000000000"},
	} {
		wants(t, tab, i, want)
	}
	worthFigures(t, d, map[string]string{"cycles_a_year": "72.000000000000"}) // 6 in the one month recorded
	if !noted(d.Notes, "3 of 6 runs tell") {
		t.Error(d.Notes)
	}
}

// What is said of a machine that pays at the very end of its life, that does
// not, that never pays and that costs nothing. A saving that is given is no
// estimate. By hand: 800 cycles at 3.00 earn 2400.
func TestMachineWorthInWords(t *testing.T) {
	for _, c := range []struct{ price, residual, saving, want string }{
		{"2400", "", "3.00", "It has paid after 800 runs, at 3.00 EUR saved a run: in 66.7 years at 12.0 runs a year. Over its life of 800 it gains 0.00 EUR; it pays below 2400.00 EUR."},
		{"2400.01", "", "3.00", "It does not pay within its life of 800 cycles: that would take 801. At 3.00 EUR a run it pays below 2400.00 EUR."},
		{"2400", "", "0", "It never pays: a run saves nothing before wear, and must save 3.00 EUR."},
		{"2400", "", "-1.50", "It never pays: a run loses 1.50 EUR before wear, and must save 3.00 EUR."},
		{"0", "", "-1.50", "It has nothing to earn back: it brings at its end what it costs."},
		{"500", "500", "3.00", "It has nothing to earn back: it brings at its end what it costs."},
	} {
		texts := question.MachineTexts{Price: c.price, Residual: c.residual, Cycles: "800"}
		q, err := question.ParseMachineQuery(texts)
		if err != nil {
			t.Fatal(err)
		}
		q.Saving = exact.Some(exact.MustNumber(c.saving)) // a loss can come from runs alone
		d, err := question.Machine(whole(t, small, exact.NoDate), q)
		if err != nil {
			t.Fatal(err)
		}
		if d.Words[0] != c.want {
			t.Errorf("%s at %s a run says %q, want %q", c.price, c.saving, d.Words[0], c.want)
		}
		sameNotes(t, d.Foot(), "Putby counts money; it does not say that food is safe: follow the makers' manuals and your food-safety authority.")
	}
}

// The pace is that of the last 12 months.
func TestMachineWorthPace(t *testing.T) {
	d := machineOf(t, sample, question.MachineTexts{Price: "100", Cycles: "100"})
	n := 0
	for _, r := range whole(t, sample, exact.NoDate).Runs {
		if r.Date > date("2024-11-13") { // the last run is of 2025-11-13
			n++
		}
	}
	if have := figure(t, d, "cycles_a_year"); have != halfEven(count(n), 12).FloatString(12) {
		t.Errorf("%s runs a year, want %d", have, n)
	}
}

// Months without a run count too: the pace is that up to the day stood at. The
// small ledger's one run is of 2025-03.
func TestMachineWorthPaceStands(t *testing.T) {
	for day, want := range map[string]string{
		"2025-03-20": "12.000000000000", "2025-08-20": "2.000000000000", "2026-02-28": "1.000000000000", "2026-03-03": "0.000000000000",
	} {
		q := figures.MachineQuery{Price: exact.MustMoney("100"), Cycles: 100, AsOf: date(day)}
		d, err := question.Machine(whole(t, small, exact.NoDate), q)
		if err != nil {
			t.Fatal(err)
		}
		if have := figure(t, d, "cycles_a_year"); have != want {
			t.Errorf("on %s it is %s runs a year, want %s", day, have, want)
		}
	}
}

func TestMachineWorthRefuses(t *testing.T) {
	for _, c := range []struct {
		texts question.MachineTexts
		says  string
	}{
		{question.MachineTexts{Price: "-5", Cycles: "10"}, "--price: -5 is below 0"},
		{question.MachineTexts{Price: "5", Cycles: "0"}, `--cycles: "0" is not a whole number above 0`},
		{question.MachineTexts{Price: "5", Cycles: "1.5"}, `--cycles: "1.5" is not a whole number`},
		{question.MachineTexts{Price: "5", Cycles: "10", PerYear: "0"}, "--per-year: "},
		{question.MachineTexts{Price: "5", Cycles: "10", Residual: "x"}, "--residual: "},
	} {
		_, err := question.ParseMachineQuery(c.texts)
		if !errors.Is(err, question.ErrOption) || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%v, want %s", err, c.says)
		}
	}
	_, err := question.ParseMachineQuery(question.MachineTexts{})
	var missing *question.MissingError
	if !errors.As(err, &missing) || len(missing.Facts) != 2 {
		t.Error(err)
	}
	_, err = question.Machine(bare(t), figures.MachineQuery{Price: exact.MustMoney("5"), Cycles: 10, AsOf: exact.NoDate})
	if !errors.As(err, &missing) || missing.Facts[0].Give[0].Name != "saving" {
		t.Error(err)
	}
	if _, err := question.Machine(bare(t), figures.MachineQuery{}); err == nil {
		t.Error("a machine of no runs was worked out")
	}
}
