package ledger_test

import "testing"

// backBooks are two dozen jars and one dozen more, each at 2.00 and good for 20
// fillings, of which ten are used.
const backBooks = `-- supplies.csv --
supply,kind,uses
jar,jar,20
absorber,absorber,1
-- packs.csv --
pack,item,date,count,each,cost,with
p,egg,2025-01-02,10,1,5.00,1 jar
-- receipts.csv --
receipt,date,line,kind,item,count,size,price
a,2025-01-01,1,supply,jar,2,12 ea,24.00
b,2025-01-05,1,supply,jar,1,12 ea,24.00
`

// Three jars go back for what they cost, on a receipt with a sack of leeks, a
// discount and a crate of bottles: its printed total is what was paid, 4.00 -
// 6.00 - 0.50 - 0.80. The jars leave the newest lot as they came, unused.
func TestTakenBack(t *testing.T) {
	g := book(t, backBooks+`c,2025-01-06,1,food,leek,1,2 kg,4.00
c,2025-01-06,2,supply,jar,-3,,2.00
c,2025-01-06,3,discount,,,,0.50
c,2025-01-06,4,deposit,,-8,,0.10
c,2025-01-06,5,total,,,,-3.30
`)
	figures(t, map[string]any{"leeks": g.Spends[2], "jars": g.Spends[3], "bottles": g.Spends[5], "notes": noted(g, g.SpendNotes(3)),
		"moves": moved(g), "newest": g.Lots[1].Left, "bought": g.Flows.Bought},
		map[string]string{"leeks": "3.5", "jars": "-6", "bottles": "-0.8", "notes": "",
			"moves": "returned 3 for 0", "newest": "180", "bought": "69.5"})
	if have, want := pieces(t, g, "jar"), "33 owned, 10 in store, 23 free, 650 uses, 65"; have != want {
		t.Errorf("have %s, want %s", have, want)
	}
}

// What is given back for jars that are worth less or more by the books is not
// lost: the difference is drawn, and noted. All of them take all uses along.
func TestTakenBackForLess(t *testing.T) {
	g := book(t, backBooks+"c,2025-01-05,2,supply,jar,-36,,1.50\n")
	figures(t, map[string]any{"moves": moved(g), "left": g.LeftInLots(), "notes": noted(g, g.SpendNotes(2))},
		map[string]string{"moves": "returned 36 for 17", "left": "0", // 71 left of 72, for 54
			"notes": "jar taken back for less by 17"})
	g = book(t, backBooks+"c,2025-01-05,2,supply,jar,-1,,2.25\n")
	figures(t, map[string]any{"moves": moved(g), "notes": noted(g, g.SpendNotes(2))},
		map[string]string{"moves": "returned 1 for -0.25", "notes": "jar taken back for less by -0.25"})
}

// A jar that is bought and taken back on one day is bought first, wherever its
// line stands.
func TestTakenBackTheSameDay(t *testing.T) {
	g := book(t, "-- receipts.csv --\nreceipt,date,line,kind,item,count,size,price\na,2025-01-01,1,supply,jar,-2,,2.00\na,2025-01-01,2,supply,jar,6,,2.00\n")
	if have, want := pieces(t, g, "jar"), "4 owned, 0 in store, 4 free, 80 uses, 8"; have != want {
		t.Errorf("have %s, want %s", have, want)
	}
}

// More than there are, food, and discounts on what goes back are refused.
func TestTakenBackRefused(t *testing.T) {
	wantFaults(t, backBooks+`c,2025-01-05,2,supply,jar,-37,,2.00
c,2025-01-05,3,supply,absorber,-1,,0.20
`,
		"receipts.csv:4 count 37 of jar are taken back on 2025-01-05, but only 36 are owned by then",
		"receipts.csv:5 count 1 of absorber are taken back on 2025-01-05, but only 0 are owned by then")
	wantFaults(t, `-- receipts.csv --
receipt,date,line,kind,item,count,size,price,discount,on
c,2025-01-05,1,supply,jar,9,,2.00,,
c,2025-01-05,2,supply,jar,-1,,2.00,0.10,
c,2025-01-05,3,food,egg,-1,6 ea,2.00,,
c,2025-01-05,4,other,bag,-1,,2.00,,
d,2025-01-05,1,supply,jar,-1,,2.00,,
d,2025-01-05,2,discount,,,,1.00,,1
`,
		"receipts.csv:3 price price: what is taken back has no discount or tax of its own",
		"receipts.csv:4 count count: -1 is below 0",
		"receipts.csv:5 count count: -1 is below 0",
		"receipts.csv:7 on receipt d: what was taken back bears no share of the amount")
}
