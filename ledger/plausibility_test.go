package ledger_test

import (
	"strings"
	"testing"

	"putby/energy"
)

// A run is worth a note from three times the median of the others on, and it takes
// three others to say what that is. One of 0 kWh, whose meter was off, is none of them.
func TestUnusualRuns(t *testing.T) {
	const text = `-- receipts.csv --
receipt,date,line,kind,item,count,size,price
a,2025-01-01,1,food,stock,1,24 L,24.00
-- runs.csv --
run,machine,start,kwh
1,dryer,2025-01-02 08:00,FIRST
2,dryer,2025-01-03 08:00,10
3,dryer,2025-01-04 08:00,12
4,dryer,2025-01-05 08:00,LAST
-- loads.csv --
run,item,quantity
1,stock,6 L
2,stock,6 L
3,stock,6 L
4,stock,6 L
`
	for kwh, want := range map[[2]string]string{
		{"11", "33"}:   "33 kWh, usual 11",
		{"11", "32.9"}: "",
		{"0", "99"}:    "",
	} {
		g := book(t, strings.NewReplacer("FIRST", kwh[0], "LAST", kwh[1]).Replace(text))
		var have []string
		for i := range g.Runs {
			for _, n := range g.Runs[i].Notes {
				if n.Power.Kind == energy.FarAbove {
					have = append(have, n.Power.KWh.Round(3, 0).String()+" kWh, usual "+n.Power.Usual.Round(3, 0).String())
				}
			}
		}
		if got := strings.Join(have, "; "); got != want {
			t.Errorf("%v kWh: %q, want %q", kwh, got, want)
		}
	}
}
