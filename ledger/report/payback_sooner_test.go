package report_test

import (
	"fmt"
	"strings"
	"testing"

	"putby/ledger/figures"
	"putby/ledger/report"
	"putby/pricing/exact"
)

// twoRunsAMonth is a machine of 1000.00 for 100 runs, bought on 2025-01-01, and
// two runs of 243 h 20 min in each of four months, without electricity: three of
// those fit a month of 730 h to the minute. Each dries 5 kg of peas at 2.00, and
// wears off 10.00; the shop asks 9.00 a kg. Those of the month's first run are
// used in it, those of the second stay in store.
func twoRunsAMonth() string {
	var runs, loads, packs, draws strings.Builder
	for month := 1; month <= 4; month++ {
		for n, day := range []int{2, 13} {
			id := fmt.Sprintf("%d%c", month, 'a'+n)
			fmt.Fprintf(&runs, "%s,m,2025-%02d-%02d 00:00,2025-%02d-%02d 03:20,0,\n", id, month, day, month, day+10)
			fmt.Fprintf(&loads, "%s,peas,5 kg\n", id)
			fmt.Fprintf(&packs, "%s,%s,peas,2025-%02d-%02d,5,1 kg\n", id, id, month, day+11)
		}
		fmt.Fprintf(&draws, "2025-%02d-28,%da,5,used\n", month, month)
	}
	return `-- foods.csv --
food,basis
peas,mass
-- machines.csv --
machine,cycles
m,100
-- receipts.csv --
receipt,date,line,kind,item,count,size,price
r,2025-01-01,1,food,peas,100,1 kg,2.00
r,2025-01-01,2,machine,m,1,,1000.00
-- shelf.csv --
date,shop,item,size,price
2025-01-01,Mill,peas,1 kg,9.00
-- runs.csv --
run,machine,start,end,kwh,outcome
` + runs.String() + "-- loads.csv --\nrun,item,quantity\n" + loads.String() + "-- packs.csv --\npack,run,item,date,count,each\n" + packs.String() +
		"-- draws.csv --\ndate,pack,quantity,reason\n" + draws.String()
}

// paybackAt asks about a ledger as of a day.
func paybackAt(t *testing.T, text, asOf string) report.Doc {
	t.Helper()
	return payback(t, join(t, write(t, text), date(asOf)), func(q *figures.PaybackQuery) { q.AsOf = date(asOf) })
}

// By hand. A run saves 5 x 9 - 5 x 2 - 10 = 25, with 10 of wear in it: it earns
// 35, and so does a month. After four, 140 of 1000 are earned and 860 are left:
// at 35 a month 24.57, so in the 25th. The four runs in store earn 140 once they
// are used: 720 take 20.57 months. 70 a month take 12.29, 105 8.19, 175 4.91. To
// pay in a year takes 860/12 a month, in two 860/24, by as many more runs as 35
// go into what is beyond 35; 860/60 a month is less than now.
func TestPaybackSooner(t *testing.T) {
	d := paybackAt(t, twoRunsAMonth(), "2025-04-30")
	want := "Of 1000.00 EUR to earn back, 140.00 has been earned by 2025-04-30. At the pace of the last 4 whole months, ~35.00 a month, it is paid in ~2027-05; it may be as early as ~2027-05 or as late as ~2027-05."
	if d.Words[0] != want {
		t.Errorf("says %q, want %q", d.Words[0], want)
	}
	sooner := table(t, d, "sooner")
	for i, row := range []struct{ step, once, perMonth, cycles, paidIn, note string }{
		{"as now", "0.000000000000", "35.000000000000", "2.000000000000", "2027-05", ""},
		{"and use up the store", "140.000000000000", "35.000000000000", "2.000000000000", "2027-01", ""},
		{"1 more run a month", "0.000000000000", "70.000000000000", "3.000000000000", "2026-05", ""},
		{"2 more runs a month", "0.000000000000", "105.000000000000", "4.000000000000", "2026-01", "more runs than fit a month, back to back"},
		{"4 more runs a month", "0.000000000000", "175.000000000000", "6.000000000000", "2025-09", "more runs than fit a month, back to back"},
		{"to pay in 1 year", "0.000000000000", "71.666666666667", "3.047619047619", "2026-04", "more runs than fit a month, back to back"},
		{"to pay in 2 years", "0.000000000000", "35.833333333333", "2.023809523810", "2027-04", ""},
	} {
		wants(t, sooner, i, map[string]string{"step": row.step, "once": row.once, "per_month": row.perMonth, "cycles_a_month": row.cycles, "paid_in": row.paidIn})
		if have := strings.Join(sooner.Rows[i].Notes, "; "); have != row.note {
			t.Errorf("%s: note %q, want %q", row.step, have, row.note)
		}
		for _, key := range []string{"once", "per_month", "paid_in"} {
			if !cell(t, sooner, i, key).IsEstimate() {
				t.Errorf("%s of %s is not marked as an estimate", key, row.step)
			}
		}
	}
	if len(sooner.Rows) != 7 {
		t.Errorf("%d rows", len(sooner.Rows))
	}
	wants(t, table(t, d, "foods"), 0, map[string]string{"item": "peas", "runs": "8", "whole_runs": "8.000000000000", "earned": "280.000000000000",
		"per_run": "35.000000000000", "runs_to_pay": "25"})
	sameNotes(t, d.Notes, paceNote(4))
}

// With 20.00 back at its end 840 are left, which take two years at 35 a month: no
// more is needed for that, and only a year takes more.
func TestPaybackSoonerAtThePaceAlready(t *testing.T) {
	d := paybackAt(t, strings.NewReplacer("machine,cycles\nm,100", "machine,cycles,residual\nm,100,20.00").Replace(twoRunsAMonth()), "2025-04-30")
	sooner := table(t, d, "sooner")
	wants(t, sooner, 0, map[string]string{"per_month": "35.000000000000", "paid_in": "2027-04"})
	wants(t, sooner, 5, map[string]string{"step": "to pay in 1 year", "per_month": "70.000000000000", "cycles_a_month": "3.000000000000"})
	if len(sooner.Rows) != 6 {
		t.Errorf("%d rows", len(sooner.Rows))
	}
}

// paceNote is the note about a pace of so many months.
func paceNote(months int) string {
	return fmt.Sprintf("the pace is the mean of the last %d whole months; its range holds in 95 cases of 100 if the months to come are like those (Student's t), and seasons may move it further", months)
}

// sameNotes holds the notes of a report to all that there must be.
func sameNotes(t *testing.T, have []string, want ...string) {
	t.Helper()
	if strings.Join(have, "\n") != strings.Join(want, "\n") {
		t.Errorf("notes:\n%s\nwant:\n%s", strings.Join(have, "\n"), strings.Join(want, "\n"))
	}
}

// Two machines have twice the hours, and what each wears adds up: four more
// runs a month fit then, two of them on each.
func TestPaybackSoonerOnTwoMachines(t *testing.T) {
	text := strings.NewReplacer("m,100\n", "m,100\nn,50\n", "2,machine,m,1,,1000.00\n", "2,machine,m,1,,1000.00\nr,2025-01-01,3,machine,n,1,,500.00\n").Replace(twoRunsAMonth())
	d := paybackAt(t, text, "2025-04-30")
	for i, row := range table(t, d, "sooner").Rows {
		if i < 5 && row.Notes != nil {
			t.Errorf("row %d: %q", i, row.Notes)
		}
	}
	wants(t, table(t, d, "foods"), 0, map[string]string{"runs_to_pay": "39"}) // 1360 / 35
	sameNotes(t, d.Notes, "all 2 machines together: what fresh food was lost belongs to none of them", paceNote(4))
}

// Where an average run earns nothing, more of them are not proposed, and why is
// said; where none tells, there is nothing to say.
func TestPaybackSoonerByRunsThatEarnNothing(t *testing.T) {
	for _, c := range []struct{ price, note string }{
		{"2.00", "an average run earns nothing: more of the same do not pay sooner, other foods may"}, // 5 x 2 - 10 = 0
		{"1.00", "an average run earns nothing: more of the same do not pay sooner, other foods may"},
	} {
		d := paybackAt(t, strings.Replace(twoRunsAMonth(), "peas,1 kg,9.00", "peas,1 kg,"+c.price, 1), "2025-04-30")
		if rows := table(t, d, "sooner").Rows; len(rows) != 2 {
			t.Errorf("at %s a kg: %d rows", c.price, len(rows))
		}
		sameNotes(t, d.Notes, c.note, paceNote(4))
		wants(t, table(t, d, "foods"), 0, map[string]string{"runs_to_pay": ""})
	}
	d := paybackAt(t, strings.Replace(twoRunsAMonth(), "2025-01-01,Mill,peas,1 kg,9.00\n", "", 1), "2025-04-30")
	if rows := table(t, d, "sooner").Rows; len(rows) != 2 || len(table(t, d, "foods").Rows) != 0 {
		t.Errorf("without a shelf price: %d rows", len(rows))
	}
	sameNotes(t, d.Notes, "no fresh shelf price of peas is known: what was used of it counts neither as saved nor as dearer",
		"no fresh shelf price of peas is known: what it earns is left out", "no fresh shelf price of peas is known", paceNote(4))
}

// A month's pace varies: 30, 40 and 35 have the mean 35 and the standard
// deviation 5, so that the mean may be 4.303 x 5 / sqrt(3) off to each side. (The
// 0.975 quantile of Student's t with 2 degrees of freedom is 4.303: tables of the
// distribution, such as the NIST/SEMATECH e-Handbook's; from memory.)
func TestPaybackRange(t *testing.T) {
	text := strings.Replace(fifty, "m,50.00", "m,5000.00", 1)
	text = strings.Replace(text, "2024-01-01,Mint,gold,1 L,55.00\n", "2024-01-01,Mint,gold,1 L,35.00\n2024-02-01,Mint,gold,1 L,45.00\n2024-03-01,Mint,gold,1 L,40.00\n", 1)
	d := paybackAt(t, text+"2024-01-20,p,1,\n2024-02-20,p,1,\n2024-03-20,p,1,\n", "2024-03-31")
	pace := part[report.Object](t, d, "pace")
	if have := value(t, pace, "per_month").Exact(euro); have != "35.000000000000" {
		t.Errorf("per month %s", have)
	}
	for key, want := range map[string]string{"low": "22.579", "high": "47.421"} {
		off := value(t, pace, key).Ratio().Sub(ratio(want))
		if off.Cmp(ratio("0.001")) > 0 || off.Cmp(ratio("-0.001")) < 0 {
			t.Errorf("%s is %s, want about %s", key, value(t, pace, key).Exact(euro), want)
		}
	}
	// 4895 are left: 139.86 months at 35, 103.2 at 47.42, 216.8 at 22.58.
	for key, want := range map[string]string{"paid_in": "2035-11", "earliest": "2032-11", "latest": "2042-04"} {
		if have := value(t, pace, key).Text(); have != want {
			t.Errorf("%s is %s, want %s", key, have, want)
		}
	}
}

// A pace whose low end loses may never pay; what takes more than 100 years is not
// named. By hand: 40.00 in 3 months; 960 / 13.33 takes 72 months, at the high
// end of 92.2 (13.33 + 4.303 x 31.75 / sqrt(3)) 10.4, and 16,000 takes 1200.
func TestPaybackSaysWhenItMayNever(t *testing.T) {
	some := "2024-01-20,p,1,\n2024-02-20,p,1,spoiled\n2024-03-20,p,1,spoiled\n" // 50, -5, -5
	text := strings.Replace(fifty, "m,50.00", "m,1000.00", 1)
	have := saysOfFifty(t, "2024-03-31", text+some)
	if want := "~13.33 a month, it is paid in ~2030-03; it may be as early as ~2025-02 or never."; !strings.HasSuffix(have, want) {
		t.Errorf("says %q, want %q", have, want)
	}
	have = saysOfFifty(t, "2024-03-31", strings.Replace(fifty, "m,50.00", "m,16040.00", 1)+some)
	if want := "~13.33 a month, it is paid in ~2124-03; it may be as early as ~2038-09 or never."; !strings.HasSuffix(have, want) {
		t.Errorf("says %q, want %q", have, want)
	}
	have = saysOfFifty(t, "2024-03-31", strings.Replace(fifty, "m,50.00", "m,16040.01", 1)+some)
	if want := "~13.33 a month, it is not paid within 100 years."; !strings.HasSuffix(have, want) {
		t.Errorf("says %q, want %q", have, want)
	}
}

// What was earned before the machine came counts towards it, from the month in
// which it came, be that its last day.
func TestPaybackEarnedBefore(t *testing.T) {
	text := strings.Replace(fifty, "a,2024-01-01,", "a,2024-02-29,", 1) + "2024-01-20,p,2,\n"
	if have := saysOfFifty(t, "2024-02-29", text); have != "Of 50.00 EUR to earn back, 100.00 has been earned by 2024-02-29. It was paid for in 2024-02." {
		t.Errorf("says %q", have)
	}
	if have := saysOfFifty(t, "2024-02-28", text); have != "No receipt has a machine by 2024-02-28, so there is nothing to earn back." {
		t.Errorf("says %q", have)
	}
}

// Payback of one food says that it is.
func TestPaybackOfOneFood(t *testing.T) {
	d := payback(t, join(t, sample, exact.NoDate), func(q *figures.PaybackQuery) { q.Item = "leek-soup" })
	if foods := table(t, d, "foods"); len(foods.Rows) != 1 || d.Title != "What the machine has earned back: Leek and potato soup" {
		t.Errorf("%d foods in %q", len(foods.Rows), d.Title)
	}
	var soups int
	g := join(t, sample, exact.NoDate)
	for i := range g.Runs {
		for _, item := range g.Runs[i].Items {
			if g.Foods[item.Food].ID == "leek-soup" && g.Runs[i].Date > date("2024-10-31") && g.Runs[i].Date <= date("2025-10-31") {
				soups++
			}
		}
	}
	if have := value(t, part[report.Object](t, d, "pace"), "cycles_a_month").Ratio(); !have.Equal(exact.Int(int64(soups)).Over(exact.Int(12))) {
		t.Errorf("%v runs a month of %d in 12", have, soups)
	}
	sameNotes(t, d.Foot(), "only Leek and potato soup earns here; what there is to earn back is the whole machine", paceNote(12),
		"Caution, Leek and potato soup: Holds cream, and fat turns: eat within the year. Bring to the boil.",
		"Caution, Leek and potato soup: Rich in fat (25 % of its dry matter): do not store on absorbers alone.")
}
