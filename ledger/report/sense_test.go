package report_test

import (
	"strings"
	"testing"

	"putby/ledger/figures"
	"putby/ledger/report"
	"putby/pricing/exact"
)

// notesFound are the notes of the rows of a ledger's cost report, and of what
// explains each run.
func notesFound(t *testing.T, text string) map[string]string {
	t.Helper()
	g := whole(t, write(t, text), exact.NoDate)
	d, err := report.Cost(g, figures.CostQuery{}, false)
	if err != nil {
		t.Fatal(err)
	}
	notes, rows := map[string]string{}, table(t, d, "rows")
	for i, row := range rows.Rows {
		run := cell(t, rows, i, "run").Text()
		notes[run] = strings.Join(row.Notes, "; ")
		e, err := report.Explain(g, run)
		if err != nil {
			t.Fatal(err)
		}
		for _, note := range report.Stated(g, g.Runs[i].Notes) {
			if !noted(e.Notes, note) {
				t.Errorf("explain %s does not say %q", run, note)
			}
		}
	}
	return notes
}

// A kilogram of water takes 2834 kJ, 0.787222 kWh, to turn from ice to vapour
// (Rogers and Yau, A Short Course in Cloud Physics): 4 kg take 3.149 kWh.
func TestBelowLatentHeat(t *testing.T) {
	notes := notesFound(t, runsOf([]metered{{"5", "3.148", "5 kg,1 kg"}, {"5", "3.149", "5 kg,1 kg"}, {"5", "0.1", ","}}))
	if !strings.Contains(notes["r0"], "the metered 3.148 kWh are less than the 3.149 kWh that it takes to turn the 4 kg of water") {
		t.Errorf("3.148 kWh for 4 kg says %q", notes["r0"])
	}
	for _, run := range []string{"r1", "r2"} {
		if strings.Contains(notes[run], "kWh") {
			t.Errorf("%s says %q", run, notes[run])
		}
	}
}

// A phase that draws nothing is noted, and one of no length is not.
func TestPhaseOfNoPower(t *testing.T) {
	notes := notesFound(t, blockLedger("1", "1", "1")+`-- phases.csv --
run,step,phase,duration,watts
r,1,freezing,5h,0
r,2,primary,12h,
r,3,hold,0m,0
`)
	if want := "phase 1 (freezing) draws nothing in 5h"; strings.Count(notes["r"], "draws nothing") != 1 || !strings.Contains(notes["r"], want) {
		t.Errorf("says %q, want %q", notes["r"], want)
	}
}

// A cycle three times the usual is noted: against the others of its food where
// there are three, else against all others of the machine.
func TestFarAboveUsual(t *testing.T) {
	far := func(notes map[string]string) (runs string) {
		for run, note := range notes {
			if strings.Contains(note, "times the usual") {
				runs += run + ": " + note
			}
		}
		return runs
	}
	four := []metered{{"1", "10", ","}, {"1", "12", ","}, {"1", "11", ","}, {"1", "33", ","}}
	if have := far(notesFound(t, runsOf(four))); !strings.HasPrefix(have, "r3: 33 kWh are 3 times the usual 11 kWh: is it one run") {
		t.Errorf("says %q", have)
	}
	four[3].kwh = "32.999"
	if have := far(notesFound(t, runsOf(four))); have != "" {
		t.Errorf("less than three times says %q", have)
	}
	if have := far(notesFound(t, runsOf(four[:3]))); have != "" {
		t.Errorf("too few others say %q", have)
	}
	// Beans take long, and there are enough of them to say so.
	text := runsOf([]metered{{"1", "10", ","}, {"1", "10", ","}, {"1", "10", ","}, {"1", "10", ","}, {"1", "40", ","}, {"1", "41", ","}, {"1", "42", ","}, {"1", "43", ","}, {"1", "9", ","}})
	beans := text
	for _, run := range []string{"r4", "r5", "r6", "r7"} {
		beans = strings.Replace(beans, run+",peas", run+",beans", 1)
	}
	if have := far(notesFound(t, beans)); have != "" {
		t.Errorf("beans say %q", have)
	}
	// Of one run of beans alone, all others of the machine say what is usual.
	if have := far(notesFound(t, strings.Replace(text, "r7,peas", "r7,beans", 1))); !strings.Contains(have, "r7: 43 kWh are 4.3 times the usual 10 kWh") {
		t.Errorf("one run of beans says %q", have)
	}
}

// That a run may be unusual shows against the lowest of the machine, wherever
// that stands: 12 kWh are three times the usual 4, though not of the first run's
// 10.
func TestFarAboveUsualAfterAHighOne(t *testing.T) {
	notes := notesFound(t, runsOf([]metered{{"1", "10", ","}, {"1", "4", ","}, {"1", "4", ","}, {"1", "4", ","}, {"1", "12", ","}}))
	if !strings.HasPrefix(notes["r4"], "12 kWh are 3 times the usual 4 kWh") || strings.Contains(notes["r0"], "usual") {
		t.Errorf("notes are %q", notes)
	}
}

// What is usual on a day is what was known by then: later runs say nothing of
// an earlier one.
func TestUsualAsKnownThen(t *testing.T) {
	dir := write(t, runsOf([]metered{{"1", "33", ","}, {"1", "10", ","}, {"1", "12", ","}, {"1", "11", ","}}))
	last := whole(t, dir, exact.NoDate)
	for day, want := range map[exact.Date]bool{last.Runs[2].Date: false, last.Runs[3].Date: true} {
		g := whole(t, dir, day)
		if have := noted(report.Stated(g, g.Runs[0].Notes), "times the usual"); have != want {
			t.Errorf("as of %v the notes are %q", day, report.Stated(g, g.Runs[0].Notes))
		}
	}
}
