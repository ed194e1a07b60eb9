package figures_test

import (
	"errors"
	"testing"

	"putby/ledger/figures"
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
	var beyond *figures.BeyondError
	if _, err := figures.Payback(whole(t, "small"), figures.PaybackQuery{Query: figures.Query{To: exact.MustDate("2001-01-01")}}); !errors.As(err, &beyond) {
		t.Errorf("up to a day before all records: %v", err)
	}
}
