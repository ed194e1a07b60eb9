package report

import "testing"

// Each fresh food has a day of its own, which it is past.
func TestPastTheirDay(t *testing.T) {
	for _, c := range []struct {
		past, of int
		want     string
	}{
		{0, 2, ""}, {1, 1, " (past its day)"}, {1, 3, " (1 past its day)"}, {2, 2, " (both past their day)"},
		{2, 3, " (2 past their day)"}, {3, 3, " (all past their day)"},
	} {
		if said := pastTheirDay(c.past, c.of); said != c.want {
			t.Errorf("%d of %d: %q", c.past, c.of, said)
		}
	}
}
