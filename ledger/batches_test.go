package ledger_test

import "testing"

// A batch draws on lots, and what they cost is what it made, with its own
// cost; one batch may use another, on the same day too if that stands before it.
func TestBatchChain(t *testing.T) {
	g := book(t, `-- receipts.csv --
receipt,date,line,kind,item,count,size,price
a,2025-01-01,1,food,leek,1,5 kg,10.00
a,2025-01-01,2,food,egg,12,1 ea,0.25
-- batches.csv --
batch,date,item,quantity,from,cost
one,2025-01-02,stock,3 L,"2 kg leek, 3 egg",0.75
two,2025-01-02,soup,4 L,"1.5 L stock, 1000 g leek",
-- runs.csv --
run,machine,start,kwh
r,dryer,2025-01-02 20:00,0
named,dryer,2025-01-03 20:00,0
-- loads.csv --
run,item,quantity,receipt
r,soup,1 L,
named,soup,1 L,two
`)
	// 5 kg less 20 % refuse is 4 kg at 2.50; 3 eggs are 0.75.
	figures(t, map[string]any{
		"one": g.Batch[0].Food, "one's own": g.Batch[0].Own, "one made": g.Batch[0].Made, "parts": g.Batch[0].Parts,
		"two": g.Batch[1].Food, "loaded": run(t, g, "r").Loads[0].Costs[0], "named": run(t, g, "named").Loads[0].Costs[0],
	}, map[string]string{
		"one": "5.75", "one's own": "0.75", "one made": "3", "parts": "[2 3]",
		"two": "5.75", "loaded": "1.4375", "named": "1.4375", // 3.25 of 1.5 L of stock and 2.50
	})
}

func TestBatchFaults(t *testing.T) {
	wantFaults(t, `-- receipts.csv --
receipt,date,line,kind,item,count,size,price
a,2025-01-01,1,food,leek,1,5 kg,10.00
-- batches.csv --
batch,date,item,quantity,from
early,2024-12-31,stock,3 L,1 kg leek
much,2025-01-02,stock,3 L,5 kg leek
later,2025-01-02,soup,1 L,7 L stock
a,2025-01-04,soup,1 L,1 kg egg
what,2025-01-04,pie,1 L,"1 egg, 1 kg flour"
unit,2025-01-04,soup,1 kg,1 kg egg
`,
		"batches.csv:2 from batch early takes 1 kg of leek on 2024-12-31, but none is in hand",
		"batches.csv:3 from batch much takes 5 kg of leek on 2025-01-02, but only 4 kg is in hand: 1 kg missing",
		"batches.csv:4 from batch later takes 7 L of stock on 2025-01-02, but only 6 L is in hand: 1 L missing",
		"batches.csv:5 batch a is a receipt too",
		"batches.csv:5 from from: egg is counted in pieces, and 1 kg is a mass",
		"batches.csv:6 from batch what takes 1 ea of egg on 2025-01-04, but none is in hand",
		`batches.csv:6 from from: no food is called "flour"`,
		`batches.csv:6 item item: no food is called "pie"`,
		"batches.csv:7 from from: egg is counted in pieces, and 1 kg is a mass",
		"batches.csv:7 quantity quantity: soup is counted by volume, and 1 kg is a mass: to convert it needs a density",
	)
}
