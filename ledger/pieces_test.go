package ledger_test

import (
	"fmt"
	"testing"

	"putby/ledger"
)

// jarBooks are 24 jars that each serve 20 times, bought at 2.00, of which five
// were filled; two of those stand in store.
const jarBooks = `-- supplies.csv --
supply,kind,uses,price
jar,jar,20,
lid,lid,8,
oil,oil,25,
absorber,absorber,1,
-- receipts.csv --
receipt,date,line,kind,item,count,size,price
a,2025-01-01,1,supply,jar,2,12 ea,24.00
a,2025-01-01,2,supply,oil,3,1 ea,25.00
a,2025-01-01,3,supply,absorber,1,50 ea,10.00
-- packs.csv --
pack,item,date,count,each,cost,with
p,egg,2025-01-02,5,1,5.00,"1 jar, 1 absorber"
`

func pieces(t testing.TB, g *ledger.Ledger, id string) string {
	t.Helper()
	i, ok := g.FindSupply(id)
	if !ok {
		t.Fatalf("no supply %s", id)
	}
	p := g.Pieces(i)
	owned, _ := p.Owned.Number()
	free, _ := p.Free.Number()
	return fmt.Sprintf("%v owned, %v in store, %v free, %v uses, %v", owned, p.InStore, free, p.UsesLeft, g.SupplyStock(i).Cost)
}

// A draw or a count of jars is in jars. Of 480 uses at 0.10 five are gone; 22
// empty ones are in the books, and whoever finds 18 of them misses four of 24:
// 4/24 of the 475 uses left, 79.166666666667, for 7.916667. A broken one more
// takes 1/20 of what is left then.
func TestJarsByThePiece(t *testing.T) {
	const taken = "-- draws.csv --\ndate,pack,item,quantity,reason\n2025-01-03,p,,3,used\n"
	g := book(t, jarBooks+taken)
	if have, want := pieces(t, g, "jar"), "24 owned, 2 in store, 22 free, 475 uses, 47.5"; have != want {
		t.Errorf("have %s, want %s", have, want)
	}
	g = book(t, jarBooks+taken+"-- counts.csv --\ndate,pack,item,quantity\n2025-01-04,,jar,18\n")
	if have, want := moved(g), "used 3 for 3.9, missing 4 for 7.916667"; have != want {
		t.Errorf("have %s, want %s", have, want)
	}
	if have, want := pieces(t, g, "jar"), "20 owned, 2 in store, 18 free, 395.833333333333 uses, 39.583333"; have != want {
		t.Errorf("have %s, want %s", have, want)
	}
	g = book(t, jarBooks+taken+"2025-01-05,,jar,1,spoiled\n2025-01-05,,jar,23,given\n")
	if have, want := moved(g), "used 3 for 3.9, spoiled 1 for 1.979167, given 23 for 45.520833"; have != want {
		t.Errorf("have %s, want %s", have, want)
	}
	if have, want := pieces(t, g, "jar"), "0 owned, 2 in store, 0 free, 0 uses, 0"; have != want {
		t.Errorf("have %s, want %s", have, want)
	}
}

// Two jars taken, of the 15 that a household has: a fifteenth of what is left
// each, not two uses of 300.
func TestTwoJarsAreNotTwoUses(t *testing.T) {
	g := book(t, `-- receipts.csv --
receipt,date,line,kind,item,count,size,price
a,2025-01-01,1,supply,jar,15,,2.00
-- draws.csv --
date,item,quantity,reason
2025-01-02,jar,2,given
`)
	if have, want := moved(g), "given 2 for 4"; have != want {
		t.Errorf("have %s, want %s", have, want)
	}
	if have, want := pieces(t, g, "jar"), "13 owned, 0 in store, 13 free, 260 uses, 26"; have != want {
		t.Errorf("have %s, want %s", have, want)
	}
}

// Of what is used up a piece is as many uses as a new one has: half a can of
// oil is gone of three, and then one more is spilled.
func TestCansOfOil(t *testing.T) {
	g := book(t, jarBooks+`-- counts.csv --
date,item,quantity
2025-01-03,oil,2.5
2025-01-03,absorber,40
-- draws.csv --
date,item,quantity,reason
2025-01-04,oil,1,spoiled
`)
	if have, want := moved(g), "missing 0.5 for 12.5, missing 5 for 1, spoiled 1 for 25"; have != want {
		t.Errorf("have %s, want %s", have, want)
	}
	if have, want := pieces(t, g, "oil"), "1.5 owned, 0 in store, 1.5 free, 37.5 uses, 37.5"; have != want {
		t.Errorf("have %s, want %s", have, want)
	}
	if have, want := pieces(t, g, "absorber"), "40 owned, 0 in store, 40 free, 40 uses, 8"; have != want {
		t.Errorf("have %s, want %s", have, want)
	}
}

// What cannot be: more than the books have, half a jar, a litre of jars.
func TestPiecesRefused(t *testing.T) {
	wantFaults(t, jarBooks+`-- counts.csv --
date,item,quantity
2025-01-03,jar,20
2025-01-03,jar,19.5
2025-01-03,oil,4
-- draws.csv --
date,item,quantity
2025-01-03,jar,0.5
2025-01-03,oil,1 L
`,
		"counts.csv:2 quantity 20 of jar are counted empty, but the books have 19: 24 owned, less 5 full in store",
		"counts.csv:3 quantity quantity: 19.5 is no whole number of jar",
		"counts.csv:4 quantity 4 of oil are counted, but the books have 3",
		"draws.csv:2 quantity quantity: 0.5 is no whole number of jar",
		"draws.csv:3 quantity quantity: 1 L is no number of pieces of oil",
	)
}
