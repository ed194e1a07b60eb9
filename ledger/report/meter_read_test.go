package report

import (
	"slices"
	"testing"
	"time"

	"putby/ledger"
	"putby/ledger/intake"
	"putby/pricing/exact"
)

// What was passed over or changed in a log is said, and nothing else.
func TestMeterReadNotes(t *testing.T) {
	t.Parallel()
	about := func(unit exact.Unit, gaps int) intake.LogReport {
		return intake.LogReport{ValueColumn: "power (W)", Unit: unit, GapCount: gaps, MaxGap: 10 * time.Minute}
	}
	passed := about(exact.W, 0)
	passed.Blank, passed.Rounded, passed.Unread = 1, 3, []string{"total (kWh)", "day (kWh)"}
	for what, c := range map[string]struct {
		about   intake.LogReport
		bridged bool
		want    []string
	}{
		"nothing": {about(exact.W, 0), true, nil},
		"passed over": {passed, false, []string{
			`read the watts in "power (W)", not the kWh in "total (kWh)", "day (kWh)"`,
			"1 row without a value, passed over", "3 values with digits finer than the ninth place, rounded half to even",
		}},
		"a gap":         {about(exact.W, 1), false, []string{"1 gap longer than 10m: nothing is drawn in them"}},
		"bridged":       {about(exact.KW, 2), true, []string{"2 gaps longer than 10m: bridged by a straight line"}},
		"running total": {about(exact.KWh, 4), true, []string{"4 gaps longer than 10m: what the running total rose by is spread evenly over them"}},
	} {
		if have := (&MeterRead{About: c.about, Bridged: c.bridged, Settings: &ledger.Settings{}}).notes(); !slices.Equal(have, c.want) {
			t.Errorf("%s: %q, want %q", what, have, c.want)
		}
	}
}
