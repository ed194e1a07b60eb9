package ledger_test

import (
	"fmt"
	"strings"
	"testing"

	"putby/ledger"
	"putby/ledger/advice"
)

// hourlyRuns are two runs of 6 kWh over 3 h, the first with a plug meter's log
// whose roof gives a third, under prices (invented) that fall below 0.
const hourlyRuns = `-- tariffs.csv --
tariff,rate,tax,hourly
dyn,0.10,20,yes
flat,0.25,,
export,-0.05,,yes
-- rates/dyn.csv --
time,rate
2025-01-02 08:00,0.20
2025-01-02 09:00,-0.04
2025-01-02 10:00,0.08
2025-01-02 11:00,
2025-01-02 20:00,0.30
-- rates/export.csv --
time,rate
2025-01-02 08:00,0.15
2025-01-02 10:00,0.09
-- receipts.csv --
receipt,date,shop,line,kind,item,count,size,price
r,2025-01-01,Shop,1,food,egg,10,1 ea,0
-- runs.csv --
run,machine,start,end,tariff,kwh
sunny,dryer,2025-01-02 08:00,2025-01-02 11:00,dyn,
flat,dryer,2025-01-02 12:00,2025-01-02 13:00,,1
late,dryer,2025-01-02 20:00,2025-01-02 23:00,dyn,6
-- loads.csv --
run,item,quantity
sunny,egg,1
flat,egg,1
late,egg,1
-- meter/sunny.csv --
time,watts,solar
2025-01-02 08:00,2000,0
2025-01-02 09:00,2000,0
2025-01-02 11:00,2000,2000
`

// Runs cost what their hours do, by hand. Late: 6 kWh at (0.30 + 0.10) x 1.2
// are 2.88. Sunny: 2 kWh at 0.36, then 1.5 from the grid at (-0.04 + 0.10) x
// 1.2 and 0.5 at (0.08 + 0.10) x 1.2, 0.72 + 0.108 + 0.108 = 0.936; from the
// roof 0.5 kWh that would have earned 0.10, and 1.5 that would have earned 0.04:
// 0.11. Together 1.046.
func TestHourlyRuns(t *testing.T) {
	for _, itemize := range []bool{false, true} {
		g := bookAt(t, hourlyRuns, ledger.Options{Through: whole.Through, PricesThrough: whole.PricesThrough, Itemize: itemize})
		for i, want := range []string{"1.046", "0.25", "2.88"} {
			if got := g.Runs[i].Electricity.String(); got != want {
				t.Errorf("itemized %v: run %s costs %s, want %s", itemize, g.Records.Runs[i].ID, got, want)
			}
		}
	}
}

// A run that meets an hour without a price is a fault that says where the
// prices are, how far they go, and what to type.
func TestHourlyFaults(t *testing.T) {
	for name, c := range map[string]struct{ from, to, fault, hint string }{
		"after the last price": {
			"2025-01-02 20:00,2025-01-02 23:00", "2025-01-02 20:00,2025-01-02 23:01",
			`runs.csv:4 start run late: tariff "dyn" has no hourly price for Thu 2025-01-02 23:00 UTC`,
			"rates/dyn.csv has prices from 2025-01-02 08:00 until 2025-01-02 23:00: tariff import FILE tariff dyn",
		},
		"no prices at all": {
			"-- rates/dyn.csv --\n", "-- rates/flat.csv --\n",
			`runs.csv:2 start run sunny: tariff "dyn" has no hourly price for Thu 2025-01-02 08:00 UTC`,
			"there are no prices in rates/dyn.csv yet: tariff import FILE tariff dyn",
		},
		"nothing says what the roof's would have earned": {
			"export,-0.05,,yes\n", "old,0,,\n", // its prices are then of no tariff
			`runs.csv:2 start run sunny: some of it came from the roof, and nothing says what that would have earned if sold`,
			"say it, or a rate of 0 where nothing is paid for it: tariff add tariff export rate 0.08",
		},
	} {
		text := strings.Replace(hourlyRuns, c.from, c.to, 1)
		_, faults := ledger.Join(records(t, text), whole)
		found := false
		for _, f := range faults {
			found = found || fmt.Sprintf("%s:%d %s %s", f.File, f.Line, f.Field, f.What) == c.fault && advice.After(advice.Plain{}, f.Hint, f.Do) == c.hint
		}
		if !found {
			t.Errorf("%s: the faults are %+v, want %s (%s)", name, faults, c.fault, c.hint)
		}
	}
}

// A blank rate ends the prices; what ends in a blank row has none from then on,
// and hourly prices that nobody uses change nothing.
func TestHourlyUnused(t *testing.T) {
	text := strings.ReplaceAll(strings.ReplaceAll(hourlyRuns, ",dyn,", ",,"), ",solar", ",other")
	text = strings.NewReplacer(",2000,2000", ",2000", ",2000,0", ",2000", "time,watts,other", "time,watts").Replace(text)
	g := book(t, text)
	for i, want := range []string{"1.5", "0.25", "1.5"} {
		if got := g.Runs[i].Electricity.String(); got != want {
			t.Errorf("run %s costs %s, want %s", g.Records.Runs[i].ID, got, want)
		}
	}
}
