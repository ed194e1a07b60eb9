package report_test

import (
	"strings"
	"testing"

	"putby/ledger/figures"
	"putby/ledger/report"
)

// fifty is a machine of 50.00 and ten jars of gold at 5.00 each, for which the
// shop asks 55.00: whoever uses one has earned 50.00. Its draws follow.
const fifty = `-- foods.csv --
food,basis
gold,volume
-- machines.csv --
machine,cycles,residual
m,10,
-- receipts.csv --
receipt,date,line,kind,item,price
a,2024-01-01,1,machine,m,50.00
-- shelf.csv --
date,shop,item,size,price
2024-01-01,Mint,gold,1 L,55.00
-- packs.csv --
pack,item,date,count,each,cost
p,gold,2024-01-01,10,1 L,50.00
-- draws.csv --
date,pack,quantity,reason
`

// What payback says of fifty, as of a day.
func saysOfFifty(t *testing.T, asOf, text string) string {
	t.Helper()
	d := payback(t, join(t, write(t, text), date(asOf)), func(q *figures.PaybackQuery) { q.AsOf = date(asOf) })
	return strings.Join(d.Words, " ")
}

// A target that is met exactly is met; a loss takes that back, and the sentence,
// the pace and the table say so alike; what is earned then meets it again.
func TestPaybackMetLostAndMetAgain(t *testing.T) {
	const met = fifty + "2024-01-20,p,1,\n"
	const lost = met + "2024-02-10,p,1,spoiled\n"
	const again = lost + "2024-03-05,p,1,\n"
	for _, c := range []struct{ text, asOf, words, paidIn, left, sooner string }{
		{met, "2024-01-31", "Of 50.00 EUR to earn back, 50.00 has been earned by 2024-01-31. It was paid for in 2024-01.", "2024-01", "0.000000000000", "It is paid for."},
		{lost, "2024-02-29", "Of 50.00 EUR to earn back, 45.00 has been earned by 2024-02-29. It was paid for until 2024-01; what was lost since is to be earned again. " +
			"A pace takes 3 whole months since the machine came; 2 are recorded.", "", "5.000000000000", "A pace takes 3 whole months since the machine came; 2 are recorded."},
		{again, "2024-03-31", "Of 50.00 EUR to earn back, 95.00 has been earned by 2024-03-31. It was paid for in 2024-03.", "2024-03", "-45.000000000000", "It is paid for."},
	} {
		d := payback(t, join(t, write(t, c.text), date(c.asOf)), func(q *figures.PaybackQuery) { q.AsOf = date(c.asOf) })
		if d.Words[0] != c.words {
			t.Errorf("as of %s it says %q, want %q", c.asOf, d.Words[0], c.words)
		}
		if have := value(t, part[report.Object](t, d, "pace"), "paid_in").Text(); have != c.paidIn {
			t.Errorf("as of %s paid in %q, want %q", c.asOf, have, c.paidIn)
		}
		if have := value(t, part[report.Object](t, d, "machine"), "left").Exact(euro); have != c.left {
			t.Errorf("as of %s left is %s, want %s", c.asOf, have, c.left)
		}
		if sooner := table(t, d, "sooner"); len(sooner.Rows) > 0 || sooner.Empty != c.sooner {
			t.Errorf("as of %s the table of what is sooner has %d rows and says %q, want %q", c.asOf, len(sooner.Rows), sooner.Empty, c.sooner)
		}
	}
}

// A machine that cost nothing has nothing to earn back, and what was lost with
// it is said beside that; so is one that brings back what it cost.
func TestPaybackOfFreeMachine(t *testing.T) {
	free, used := strings.Replace(fifty, "m,50.00", "m,0.00", 1), "2024-01-20,p,1,used\n"
	kept := strings.Replace(fifty, "m,10,", "m,10,50.00", 1)
	for _, c := range []struct{ text, want string }{
		{free, "There is nothing to earn back, since the machine cost nothing; nothing has been earned and nothing lost by 2024-01-31."},
		{free + used, "There is nothing to earn back, since the machine cost nothing; 50.00 EUR has been earned by 2024-01-31."},
		{strings.Replace(free+used, "used", "spoiled", 1), "There is nothing to earn back, since the machine cost nothing; but 5.00 EUR has been lost by 2024-01-31."},
		{kept + used, "There is nothing to earn back, since the machine brings at its end what it cost; 50.00 EUR has been earned by 2024-01-31."},
	} {
		if have := saysOfFifty(t, "2024-01-31", c.text); have != c.want {
			t.Errorf("says %q, want %q", have, c.want)
		}
	}
}

// Which months the pace counts: all that are over, the first one too if the
// machine came on its 1st; those without records earned nothing. The rows of
// months of which only a part counts say which part.
func TestPaybackCountsWholeMonths(t *testing.T) {
	text := func(bought string) string {
		return strings.Replace(fifty, "a,2024-01-01,", "a,"+bought+",", 1) + "2024-02-20,p,1,spoiled\n"
	}
	first := "the machine came on 2024-01-02: part of a month, which the pace leaves out"
	last := "up to 2024-03-30: part of a month, which the pace leaves out"
	for _, c := range []struct {
		bought, asOf string
		months       string
		notes        [][]string
	}{
		{"2024-01-01", "2024-03-31", "3", [][]string{nil, nil, nil}},
		{"2024-01-02", "2024-03-31", "2", [][]string{{first}, nil, nil}},
		{"2024-01-01", "2024-03-30", "2", [][]string{nil, nil, {last}}},
		{"2024-01-02", "2024-03-30", "1", [][]string{{first}, nil, {last}}},
		{"2024-01-01", "2025-01-31", "12", make([][]string, 13)},
	} {
		d := payback(t, join(t, write(t, text(c.bought)), date(c.asOf)), func(q *figures.PaybackQuery) { q.AsOf = date(c.asOf) })
		if have := value(t, part[report.Object](t, d, "pace"), "months").Exact(euro); have != c.months {
			t.Errorf("bought %s, as of %s: %s whole months, want %s", c.bought, c.asOf, have, c.months)
		}
		rows := table(t, d, "rows").Rows
		if len(rows) != len(c.notes) {
			t.Fatalf("bought %s, as of %s: %d months", c.bought, c.asOf, len(rows))
		}
		for i, want := range c.notes {
			if have := strings.Join(rows[i].Notes, "; "); have != strings.Join(want, "; ") {
				t.Errorf("bought %s, as of %s: month %d says %q, want %q", c.bought, c.asOf, i+1, have, want)
			}
		}
	}
	for asOf, want := range map[string]string{
		"2024-01-15": "none is recorded. 2024-01 has earned nothing so far.",
		"2024-02-25": "1 is recorded. 2024-02 has lost 5.00 so far.",
		"2024-03-15": "2 are recorded. 2024-03 has earned nothing so far.",
	} {
		if have := saysOfFifty(t, asOf, text("2024-01-01")); !strings.HasSuffix(have, "A pace takes 3 whole months since the machine came; "+want) {
			t.Errorf("as of %s it says %q, want %q", asOf, have, want)
		}
	}
}
