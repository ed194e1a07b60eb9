package figures_test

import (
	"errors"
	"reflect"
	"testing"

	"putby/ledger"
	"putby/ledger/figures"
	"putby/ledger/ledgertest"
	"putby/pricing/exact"
)

// What the months earned comes to what has been earned, whichever of them are
// shown; what is left with it to what there is to earn back; and what would make
// it sooner does.
func TestPayback(t *testing.T) {
	g := whole(t, "sample")
	all, err := figures.Payback(g, figures.PaybackQuery{})
	if err != nil || all.Outlay.Machines == 0 || !all.Pace.Known() {
		t.Fatalf("asked for everything: %+v (%v)", all, err)
	}
	var sum exact.Ratio
	for _, m := range all.Months {
		sum = sum.Add(m.Earned)
	}
	if !sum.Equal(all.Earned()) || !sum.Add(all.Left()).Equal(all.Outlay.Target().Ratio()) {
		t.Errorf("months earned %v, in all %v, of %v", sum, all.Earned(), all.Outlay.Target())
	}
	last := all.Months[all.Last].From
	some, err := figures.Payback(g, figures.PaybackQuery{Query: figures.Query{From: last, To: last}})
	if err != nil || len(some.Shown()) != 1 || !some.Earned().Equal(all.Earned()) {
		t.Errorf("of the last month %d rows, which earned %v in all (%v)", len(some.Shown()), some.Earned(), err)
	}
	for i := 1; i < len(all.Foods); i++ {
		a, b := all.Foods[i-1].PerRun().Or(exact.Ratio{}), all.Foods[i].PerRun().Or(exact.Ratio{})
		if a.Cmp(b) < 0 {
			t.Errorf("food %d, which earns %v a run, stands before one that earns %v", all.Foods[i-1].Food, a, b)
		}
	}
	for i, s := range all.Sooner {
		if now := all.Sooner[0]; s.What != figures.AsNow && s.What != figures.UseStore && (s.PerMonth.Cmp(now.PerMonth) <= 0 || s.Paid.From > now.Paid.From) {
			t.Errorf("step %d earns %v a month and pays in %s, as now %v in %s", i, s.PerMonth, s.Paid.Key, now.PerMonth, now.Paid.Key)
		}
	}
}

// Before all records there is nothing to earn back, which is no fault; to ask of
// days before all records is.
func TestPaybackOfNothing(t *testing.T) {
	g := through(t, "small", exact.MustDate("2024-01-01"))
	r, err := figures.Payback(g, figures.PaybackQuery{})
	if err != nil || r.Outlay.Machines != 0 || r.Months != nil || r.Shown() != nil || r.Earned().Sign() != 0 {
		t.Errorf("before all records: %+v (%v)", r, err)
	}
	var beyond *figures.FactError
	if _, err := figures.Payback(whole(t, "small"), figures.PaybackQuery{Query: figures.Query{To: exact.MustDate("2001-01-01")}}); !errors.As(err, &beyond) || beyond.Fault != figures.Beyond || beyond.Fact != figures.ToFact {
		t.Errorf("up to a day before all records: %v", err)
	}
}

// Each machine earned, among the others, what it earned where it alone is asked about;
// and a day's month is the same whether the months of payback are at hand or not.
func TestPaybackOfMachines(t *testing.T) {
	rec, faults, err := ledgertest.Read(ledgertest.Files(3, 3))
	if err != nil || len(faults) > 0 {
		t.Fatal(err, faults)
	}
	day := exact.MustDate("2020-05-17")
	g, faults := ledger.Join(rec, ledger.Options{Through: day})
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	all, err := figures.Payback(g, figures.PaybackQuery{})
	if err != nil || len(all.ByMachine) < 3 {
		t.Fatalf("%d machines (%v)", len(all.ByMachine), err)
	}
	for _, m := range all.ByMachine {
		if m.Machine < 0 {
			continue
		}
		alone, err := figures.Payback(g, figures.PaybackQuery{Machine: g.Machines[m.Machine].ID})
		runs := 0
		for _, month := range alone.Months {
			runs += month.Runs
		}
		if err != nil || m.Earned.IsZero() || !alone.Earned().Equal(m.Earned) || runs != m.Runs || alone.Outlay != m.Outlay {
			t.Errorf("machine %d earned %v in %d runs, alone %v in %d (%v)", m.Machine, m.Earned, m.Runs, alone.Earned(), runs, err)
		}
	}
	today, err := figures.Today(g, figures.TodayQuery{Now: day.Midnight(g.Settings.Zone), Payback: all})
	if err != nil {
		t.Fatal(err)
	}
	month, err := figures.Month(g, figures.MonthQuery{Query: figures.Query{From: day, To: day}})
	if err != nil {
		t.Fatal(err)
	}
	so, _ := today.Month.Get()
	if want := (figures.MonthSoFar{This: month.Rows[0], Last: month.Last.Before, HasLast: month.Last.HasBefore}); !reflect.DeepEqual(so, want) || !so.HasLast || so.This.Runs == 0 {
		t.Errorf("the month so far is %+v, and by itself %+v", so, want)
	}
}
