package report_test

import (
	"strings"
	"testing"

	"putby/ledger/question"
	"putby/ledger/report"
	"putby/pricing/exact"
)

// turningLedger has peas that keep two days, and a tariff that is cheap on
// Saturdays; 2025-11-20 is a Thursday.
const turningLedger = `-- tariffs.csv --
tariff,days,rate
flat,sat,0.10
flat,,0.20
-- foods.csv --
food,basis,fresh_days
peas,mass,2
-- machines.csv --
machine,cycles
m,100
-- receipts.csv --
receipt,date,line,kind,item,size,price
old,2025-11-01,1,food,peas,4 kg,4.00
`

// A start is never named after the day on which the food in hand turns, unless
// none is in time: then that is said first. Saturday is the cheapest day.
func TestWhenTurns(t *testing.T) {
	const busy = "-- runs.csv --\nrun,machine,start,kwh,end\nr,m,2025-11-20 12:00,10,2025-11-22 06:00\n-- loads.csv --\nrun,item,quantity\nr,peas,4 kg\n"
	eaten := func(kg string) string {
		return "-- draws.csv --\ndate,item,quantity,reason\n2025-11-02,peas," + kg + " kg,used\n"
	}
	for name, c := range map[string]struct {
		bought string // more peas: lines of receipts.csv
		more   string
		texts  question.WhenTexts
		day    string // of the best start
		inTime string
		first  string // words that the answer begins with
		note   string
	}{
		"nothing in hand": {"", eaten("4"), question.WhenTexts{}, "2025-11-22", "", "Start on Sat 2025-11-22", ""},
		"turns on Friday": {"b,2025-11-19,1,food,peas,3 kg,3.00\n", eaten("4"), question.WhenTexts{}, "2025-11-21", "yes", "Start on Fri 2025-11-21 at 23:45",
			"Starts after 2025-11-21 are left out: the 3 kg of peas in hand turns then."},
		"turns today": {"b,2025-11-18,1,food,peas,3 kg,3.00\n", eaten("4"), question.WhenTexts{}, "2025-11-20", "yes",
			"Start at once, on Thu 2025-11-20 at 23:00: its electricity costs 2.00 EUR, and the run is done on Fri 2025-11-21 at 09:00. No start by 2025-11-20 is cheaper.",
			"Starts after 2025-11-20 are left out: the 3 kg of peas in hand turns then."},
		"turns on Saturday": {"b,2025-11-20,1,food,peas,3 kg,3.00\n", eaten("4"), question.WhenTexts{}, "2025-11-22", "yes", "Start on Sat 2025-11-22",
			"Starts after 2025-11-22 are left out: the 3 kg of peas in hand turns then."},
		"turned": {"", "", question.WhenTexts{}, "2025-11-22", "no",
			"No start is in time for the 4 kg of peas in hand: use by 2025-11-03. The starts below are for other food. Start on Sat 2025-11-22", ""},
		"a crumb has turned": {"b,2025-11-20,1,food,peas,3 kg,3.00\n", eaten("3.961"), question.WhenTexts{}, "2025-11-22", "yes", "Start on Sat 2025-11-22",
			"Starts after 2025-11-22 are left out: the 3 kg of peas in hand turns then."},
		"a part has turned": {"b,2025-11-19,1,food,peas,3 kg,3.00\n", eaten("3.96"), question.WhenTexts{}, "2025-11-21", "yes", "Start on Fri 2025-11-21 at 23:45",
			"Of peas 0.04 kg more in hand is past its use-by day: do not dry it; record what became of it."},
		"the machine is busy till then": {"b,2025-11-19,1,food,peas,3 kg,3.00\n", busy, question.WhenTexts{}, "2025-11-22", "no",
			"No start is in time for the 3 kg of peas in hand: use by 2025-11-21. The starts below are for other food.", "m is on with run r until Sat 2025-11-22 at 06:00"},
		"nobody is there in time": {"b,2025-11-18,1,food,peas,3 kg,3.00\n", eaten("4"), question.WhenTexts{StartBetween: "07:00-08:00"}, "2025-11-22", "no",
			"No start is in time for the 3 kg of peas in hand: use by 2025-11-20. The starts below are for other food.", ""},
	} {
		g := join(t, write(t, strings.Replace(turningLedger, "price\n", "price\n"+c.bought, 1)+c.more), exact.NoDate)
		c.texts.KWh, c.texts.Hours, c.texts.Tariff = "10", "10h", "flat"
		d := when(t, g, "peas", c.texts)
		got := starts(t, d)
		if len(got) == 0 || !strings.HasPrefix(got[0].at, c.day) {
			t.Errorf("%s: the best start is %v, want %s", name, got, c.day)
		}
		if have := part[report.Value](t, d, "in_time").Text(); have != c.inTime {
			t.Errorf("%s: in time %q, want %q", name, have, c.inTime)
		}
		if !strings.HasPrefix(d.Words[0], c.first) {
			t.Errorf("%s says %q, want %q first", name, d.Words[0], c.first)
		}
		if c.note != "" && !noted(d.Notes, c.note) || c.note == "" && (noted(d.Notes, "left out") || noted(d.Notes, "past its use-by")) {
			t.Errorf("%s notes %q, want %q", name, d.Notes, c.note)
		}
		for _, s := range got {
			if use := part[report.Value](t, d, "use_by"); c.inTime == "yes" && s.at[:10] > use.Text() {
				t.Errorf("%s names %s, after it turns on %s", name, s.at, use.Text())
			}
		}
	}
}
