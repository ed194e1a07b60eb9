package intake

import (
	"slices"
	"strings"
	"testing"

	"putby/ledger"
)

// diary is a household's own list of cycles, with two foods in the second.
const diary = `No,Date,Time,Food,Loaded,Wet (g),Dry (g),Freezing (h),Primary drying (h),Energy (kWh),Hands on (min),Result
1,02.03.2025,18:30,Oat drink,4 L,4120,412.5,9,"24,5","38,2",40,ok
2,14.03.2025,7:05,leeks,2 kg,2000,180,8,20,30,50,ok
2,14.03.2025,7:05,eggs,10,,,8,20,30,50,ok
3,20.03.2025,22:00,leeks,1 kg,1000,,8,3,6,,failed
`

func TestRuns(t *testing.T) {
	rec := household()
	p := planOf(t, diary, Runs, nil, PlanOptions{Records: rec})
	if len(p.Bad) > 0 {
		t.Fatal(p.Bad)
	}
	for _, c := range []struct {
		file    string
		columns []string
		want    string
	}{
		{ledger.RunsFile, []string{"run", "machine", "start", "kwh", "hands", "outcome"},
			"1 icebox 2025-03-02 18:30 38.2 40m good; 2 icebox 2025-03-14 07:05 30 50m good; 3 icebox 2025-03-20 22:00 6  spoiled"},
		{ledger.PhasesFile, []string{"run", "step", "phase", "duration"},
			"1 1 freezing 9h; 1 2 primary 24h30m; 2 1 freezing 8h; 2 2 primary 20h; 3 1 freezing 8h; 3 2 primary 3h"},
		{ledger.LoadsFile, []string{"run", "item", "quantity", "wet", "dry"},
			"1 oat-drink 4 L 4120 g 412.5 g; 2 leeks 2 kg 2000 g 180 g; 2 eggs 10  ; 3 leeks 1 kg 1000 g "},
	} {
		if got := rowsOf(p, c.file, c.columns...); got != c.want {
			t.Errorf("%s: got  %s\nwant %s", c.file, got, c.want)
		}
	}
	carryOut(t, rec, p)
	p = planOf(t, diary, Runs, nil, PlanOptions{Records: rec})
	if p.Rows() != 0 || len(p.Differ) > 0 || len(p.There) != 3+6+4 {
		t.Errorf("again: %d rows, differ %v, there %v", p.Rows(), p.Differ, p.There)
	}
}

// TestRunsGrow: a diary read each week brings what is new of it; what was
// weighed or amended in the ledger meanwhile stays.
func TestRunsGrow(t *testing.T) {
	rec := household()
	carryOut(t, rec, planOf(t, diary, Runs, nil, PlanOptions{Records: rec}))
	loads := rec.Loads.Slice()
	loads[3].Dry = loads[0].Dry // weighed late, in the ledger alone
	rec.Loads = ledger.LoadList{}.With(loads...)
	text := strings.Replace(diary, "38,2", "38,3", 1)
	text += "4,22.03.2025,8:00,eggs,30,,,8,20,30,,\n3,20.03.2025,22:00,eggs,12,,,8,3,6,,failed\n"
	p := planOf(t, text, Runs, nil, PlanOptions{Records: rec})
	if got := rowsOf(p, ledger.RunsFile, "run"); got != "4" {
		t.Errorf("runs: %s", got)
	}
	if got := rowsOf(p, ledger.LoadsFile, "run", "item"); got != "3 eggs; 4 eggs" {
		t.Errorf("loads: %s", got)
	}
	if len(p.Differ) != 1 || p.Differ[0] != (Differ{2, ledger.RunsFile, 2, "kwh", "38.2", "38.3"}) {
		t.Errorf("differ: %v", p.Differ)
	}
}

// TestRunsByTime: without numbers a run is its machine and start, and gets an
// identifier of them.
func TestRunsByTime(t *testing.T) {
	rec := household()
	m := mustMap(t, "d,runs,machine,Machine,,\nd,runs,start,Start,,\nd,runs,kwh,kWh,,\nd,runs,load.item,Food,,\nd,runs,load.quantity,Amount,,kg\n")
	text := "Machine,Start,kWh,Food,Amount\nthe ice box,2025-03-02T18:30,30,leeks,2\nicebox,2025-03-02 18:30,,eggs,12 ea\n" +
		"icebox,2025-03-05 18:30:20,1,leeks,1\nbarn dryer,2025-03-05 18:30,1,leeks,1\nicebox,,1,leeks,1\nicebox,2025-03-06 18:30,1,Lauch,1\n"
	p := planOf(t, text, Runs, m, PlanOptions{Records: rec})
	if got := rowsOf(p, ledger.RunsFile, "run", "start"); got !=
		"icebox-2025-03-02-18-30 2025-03-02 18:30; icebox-2025-03-05-18-30 2025-03-05 18:30:20; icebox-2025-03-06-18-30 2025-03-06 18:30" {
		t.Errorf("runs: %s", got)
	}
	if got := rowsOf(p, ledger.LoadsFile, "run", "item", "quantity"); got !=
		"icebox-2025-03-02-18-30 leeks 2 kg; icebox-2025-03-02-18-30 eggs 12 ea; icebox-2025-03-05-18-30 leeks 1 kg" {
		t.Errorf("loads: %s", got)
	}
	if got := badLines(p); !slices.Equal(got, []int{5, 6, 7}) {
		t.Errorf("bad: %v", p.Bad)
	}
	// A run typed in under a name of its own is the same run.
	carryOut(t, rec, p)
	loads := rec.Loads.Slice()
	rec.Runs[0].ID, loads[0].Run, loads[1].Run = "first", "first", "first"
	rec.Loads = ledger.LoadList{}.With(loads...)
	p = planOf(t, text, Runs, m, PlanOptions{Records: rec})
	if p.Rows() != 0 || len(p.Differ) > 0 {
		t.Errorf("again: %d rows, differ %v", p.Rows(), p.Differ)
	}
}

// TestLoadsOfKnownRuns: a list of loads names runs of the ledger.
func TestLoadsOfKnownRuns(t *testing.T) {
	rec := household()
	carryOut(t, rec, planOf(t, diary, Runs, nil, PlanOptions{Records: rec}))
	text := "run,load.item,load.quantity,load.trays\n3,eggs,6 ea,2\n3,leeks,1 kg,\n3,leeks,0.5 kg,\n9,leeks,1 kg,\n"
	m := mustMap(t, "d,runs,run,run,,\nd,runs,load.item,load.item,,\nd,runs,load.quantity,load.quantity,,\nd,runs,load.trays,load.trays,,\n")
	p := planOf(t, text, Runs, m, PlanOptions{Records: rec})
	if got := rowsOf(p, ledger.LoadsFile, "run", "item", "quantity", "trays"); got != "3 eggs 6 ea 2; 3 leeks 0.5 kg " {
		t.Errorf("loads: %s", got)
	}
	if len(p.Bad) == 0 || p.Bad[0].Line != 5 || rowsOf(p, ledger.RunsFile, "run") != "" {
		t.Errorf("bad: %v", p.Bad)
	}
}

func TestRunRowsDisagree(t *testing.T) {
	text := strings.Replace(diary, "2,14.03.2025,7:05,eggs", "2,14.03.2025,7:15,eggs", 1)
	p := planOf(t, text, Runs, nil, PlanOptions{Records: household()})
	if got := badLines(p); !slices.Equal(got, []int{4}) || p.Bad[0].Field != "start" {
		t.Errorf("bad: %v", p.Bad)
	}
}

func TestEndBesidePhases(t *testing.T) {
	text := "run,start,end,phase.primary\n1,2025-03-02 18:30,2025-03-04 18:30,40h\n2,2025-03-05 18:30,2025-03-06 18:30,\n"
	p := planOf(t, text, Runs, nil, PlanOptions{Records: household()})
	if got := rowsOf(p, ledger.RunsFile, "run", "end"); got != "2 2025-03-06 18:30" || len(p.Bad) != 1 || p.Bad[0].Field != "end" {
		t.Errorf("runs: %s, bad %v", got, p.Bad)
	}
}

// TestPhasesDiffer: phases of a run that has some are compared, not added.
func TestPhasesDiffer(t *testing.T) {
	rec := household()
	text := "run,start,phase.freezing,phase.primary\n1,2025-03-02 18:30,8h,\n"
	carryOut(t, rec, planOf(t, text, Runs, nil, PlanOptions{Records: rec}))
	p := planOf(t, strings.Replace(text, "8h,", "9h,20h", 1), Runs, nil, PlanOptions{Records: rec})
	if p.Rows() != 0 || len(p.Differ) != 2 || p.Differ[0].Column != "duration" || p.Differ[1].Gives != "primary" {
		t.Errorf("%d rows, differ %v", p.Rows(), p.Differ)
	}
}

// TestSpanOfWorkbook: a stored time of day is not taken for hours.
func TestSpanOfWorkbook(t *testing.T) {
	rows := [][]any{{"Run", "Start", "Hold (h)"}, {1, 45718.5, 38.5}, {2, 45719.5, 1.6020833333333333}, {3, 45725.5, "1:30"}, {4, 45726.5, "2 h"}}
	table, err := Read(strings.NewReader(string(workbook(t, "S", false, rows...))), Options{})
	if err != nil {
		t.Fatal(err)
	}
	m, err := Propose(table, Runs, "x", household())
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		how  string
		want string
		bad  []int
	}{
		{"h", "1 38h30m; 3 1h30m; 4 2h", []int{3}},
		{"d", "2 38h27m; 3 1h30m; 4 2h", []int{2}},
		{"", "3 1h30m; 4 2h", []int{2, 3}},
	} {
		m.Fills[len(m.Fills)-1].How, _ = ParseHow(c.how)
		p, err := m.Plan(table, PlanOptions{Records: household()})
		if err != nil {
			t.Fatal(err)
		}
		if got := rowsOf(p, ledger.PhasesFile, "run", "duration"); got != c.want || !slices.Equal(badLines(p), c.bad) {
			t.Errorf("%s: %s, bad %v", c.how, got, p.Bad)
		}
	}
}

func TestTargets(t *testing.T) {
	for _, target := range []Target{Receipts, Runs, Prices} {
		if got, err := parseTarget(target.String()); got != target || err != nil {
			t.Errorf("%v: %v, %v", target, got, err)
		}
		for _, column := range needs[target] {
			if !slices.Contains(target.Columns(), column) {
				t.Errorf("%v needs %s", target, column)
			}
		}
	}
	if _, err := parseTarget("packs"); err == nil {
		t.Error("packs was taken")
	}
}
