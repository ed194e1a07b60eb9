package ledger_test

import (
	"testing"
)

// Sizes are as bought: refuse comes off, but never of pieces. They are
// converted and rounded to 12 decimals, then multiplied by count and edible part.
func TestLotQuantities(t *testing.T) {
	for _, c := range []struct{ name, food, count, size, want string }{
		{"mass less refuse", "leek,mass,,20", "3", "500 g", "1.2"},
		{"volume", "x,volume,,", "2", "1.5 L", "3"},
		{"a US quart (NIST Handbook 44)", "x,volume,,", "2", "1 qt", "1.892705892"},
		{"an imperial pint", "x,volume,,", "1", "1 ukpt", "0.56826125"},
		{"a pound", "x,mass,,", "1", "1 lb", "0.45359237"},
		{"pieces have no refuse", "x,count,,20", "2", "6 ea", "12"},
		{"dozens", "x,count,,", "1.5", "1 doz", "18"},
		{"a bare number of pieces", "x,count,,", "2", "10", "20"},
		{"mass to volume, rounded half to even at 12 decimals", "x,volume,1.03,", "3", "1 kg", "2.912621359224"}, // 0.970873786408 each
		{"rounded before the count", "x,volume,0.3,", "3", "1 kg", "9.999999999999"},
		{"loose goods", "x,mass,,12.5", "1.234", "1 kg", "1.07975"},
		{"an ounce and a half has 13 decimals", "x,mass,,", "10", "1.5 oz", "0.42524284688"}, // 0.0425242846875, half to even
	} {
		t.Run(c.name, func(t *testing.T) {
			g := book(t, "-- foods.csv --\nfood,basis,density,refuse\n"+c.food+"\n-- receipts.csv --\nreceipt,date,line,kind,item,count,size,price\nr,2025-01-01,1,food,"+
				g1(c.food)+","+c.count+","+c.size+",1\n")
			if have := g.Lots[0].Quantity.String(); have != c.want {
				t.Errorf("%s, want %s", have, c.want)
			}
		})
	}
}

// g1 is what stands before the first comma.
func g1(s string) string {
	for i := range s {
		if s[i] == ',' {
			return s[:i]
		}
	}
	return s
}

func TestUnitsThatDoNotFit(t *testing.T) {
	wantFaults(t, `-- receipts.csv --
receipt,date,line,kind,item,count,size,price
r,2025-01-01,1,food,leek,1,1 L,1
r,2025-01-01,2,food,leek,1,500,1
r,2025-01-01,3,food,egg,1,1 kg,1
r,2025-01-01,4,food,soup,1,1 ea,1
-- shelf.csv --
date,shop,item,size,price
2025-01-01,s,leek,1 L,1
2025-01-01,s,egg,10,1
`,
		"receipts.csv:2 size size: leek is counted by mass, and 1 L is a volume: to convert it needs a density",
		"receipts.csv:3 size size: 500 has no unit; leek is counted by mass",
		"receipts.csv:4 size size: egg is counted in pieces, and 1 kg is a mass",
		"receipts.csv:5 size size: soup is counted by volume, and 1 ea is a count",
		"shelf.csv:2 size size: leek is counted by mass, and 1 L is a volume",
	)
}

// A shortage that follows from a lot that could not be counted is not told.
func TestNoShortageOfWhatCannotBeCounted(t *testing.T) {
	wantFaults(t, `-- receipts.csv --
receipt,date,line,kind,item,count,size,price
r,2025-01-01,1,food,leek,1,1 L,1
-- draws.csv --
date,item,quantity
2025-01-02,leek,1 kg
`, "receipts.csv:2 size size: leek is counted by mass")
}
