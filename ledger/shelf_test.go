package ledger_test

import (
	"fmt"
	"strings"
	"testing"

	"putby/ledger"
	"putby/pricing"
	"putby/pricing/exact"
)

// price returns the shelf price of a food on a day, and where it is from.
func price(t *testing.T, g *ledger.Ledger, food, day string, form pricing.Form) string {
	t.Helper()
	i, ok := g.FindFood(food)
	if !ok {
		t.Fatalf("no food %s", food)
	}
	p, ok := g.ShelfPrice(i, exact.MustDate(day), form)
	if !ok {
		return "none"
	}
	from := p.Batch
	if from == "" {
		from = fmt.Sprint("line ", p.Ask.Line)
	}
	return fmt.Sprintf("%v %s", p.PerUnit.Round(6, exact.HalfEven), from)
}

const shelves = `-- shelf.csv --
date,shop,item,size,price,terms,form,makes
2025-02-01,a,leek,500 g,2.00,,,
2025-02-01,b,leek,1 kg,3.00,regular,fresh,
2025-03-01,a,leek,1 kg,1.00,offer,,
2025-04-01,a,leek,1 kg,8.00,,,
2025-04-01,b,leek,1 kg,4.00,,,
2025-02-10,a,leek,60 g,2.00,regular,preserved,0.5 kg
2025-02-10,a,egg,10,4.00,,,9 L
`

// The regular price of the form asked: the last in file order of the newest
// date not after the day, else of the next date after; per edible unit, but of
// the preserved form per unit that it makes. What a fresh row makes is not read.
func TestShelfPrices(t *testing.T) {
	g := book(t, shelves)
	for _, c := range []struct {
		food, day string
		form      pricing.Form
		want      string
	}{
		{"leek", "2025-01-01", pricing.Fresh, "3.75 line 3"}, // 3.00 for 0.8 kg
		{"leek", "2025-02-01", pricing.Fresh, "3.75 line 3"},
		{"leek", "2025-03-31", pricing.Fresh, "3.75 line 3"},
		{"leek", "2025-04-01", pricing.Fresh, "5 line 6"},
		{"leek", "2025-01-01", pricing.Preserved, "4 line 7"},
		{"egg", "2025-01-01", pricing.Fresh, "0.4 line 8"},
		{"soup", "2025-04-01", pricing.Fresh, "none"},
	} {
		if have := price(t, g, c.food, c.day, c.form); have != c.want {
			t.Errorf("%s on %s, %v: %s, want %s", c.food, c.day, c.form, have, c.want)
		}
	}
	// As of a date, later prices do not count, whatever else does.
	early, faults := ledger.Join(records(t, shelves), ledger.Options{Through: exact.NoDate, PricesThrough: exact.MustDate("2025-02-15")})
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	if have := price(t, early, "leek", "2025-04-01", pricing.Fresh); have != "3.75 line 3" {
		t.Errorf("as of February: %s", have)
	}
	wantFaults(t, "-- shelf.csv --\ndate,shop,item,size,price,form\n2025-01-01,s,pie,1 kg,1,\n2025-01-01,s,leek,1 kg,1,preserved\n",
		`shelf.csv:2 item item: no food is called "pie"`, "shelf.csv:3 makes makes: a preserved package needs what it makes")
}

// A food that no shop sells has the price of what its latest batch took, per
// unit made, through and through; one made of itself has none.
func TestShelfPricesOfBatches(t *testing.T) {
	const text = `-- foods.csv --
food,basis,refuse
leek,mass,20
egg,count,
stock,volume,
soup,volume,
loop,volume,
-- receipts.csv --
receipt,date,line,kind,item,count,size,price
a,2025-01-01,1,food,leek,1,50 kg,1
a,2025-01-01,2,food,egg,1,50 ea,1
a,2025-01-01,3,food,loop,1,1 L,1
-- batches.csv --
batch,date,item,quantity,from,cost
one,2025-01-05,stock,2 L,1 kg leek,9.00
two,2025-02-05,stock,4 L,"1 kg leek, 2 egg",
both,2025-02-05,stock,5 L,1 kg leek,
meal,2025-02-06,soup,1 L,"0.5 L stock, 0.5 L stock",
self,2025-02-07,loop,1 L,1 L loop,
` + shelves
	g := book(t, text)
	for _, c := range []struct{ food, day, want string }{
		{"stock", "2024-01-01", "1.875 one"}, // the next after: 1 kg at 3.75 makes 2 L
		{"stock", "2025-02-04", "1.875 one"},
		{"stock", "2025-02-05", "0.75 both"}, // the last in file order of that day
		{"soup", "2025-02-06", "0.75 meal"},
		{"loop", "2025-02-07", "none"},
	} {
		if have := price(t, g, c.food, c.day, pricing.Fresh); have != c.want {
			t.Errorf("%s on %s: %s, want %s", c.food, c.day, have, c.want)
		}
	}
	early, _ := ledger.Join(records(t, text), ledger.Options{Through: exact.NoDate, PricesThrough: exact.MustDate("2025-02-04")})
	if have := price(t, early, "stock", "2025-03-01", pricing.Fresh); have != "1.875 one" {
		t.Errorf("as of a day before the last batches: %s", have)
	}
}

// A chain of batches that each take the one before twice over is worked out once
// through, not 2^60 times.
func TestShelfPriceOfADeepChain(t *testing.T) {
	foods, batches := "food,basis\nx0,volume\n", "batch,date,item,quantity,from\n"
	for i := 1; i <= 60; i++ {
		foods += fmt.Sprintf("x%d,volume\n", i)
		batches += fmt.Sprintf("b%d,2025-01-02,x%d,2 L,\"1 mL x%d, 1 mL x%d\"\n", i, i, i-1, i-1)
	}
	g := book(t, "-- foods.csv --\n"+foods+"-- batches.csv --\n"+batches+`-- receipts.csv --
receipt,date,line,kind,item,count,size,price
a,2025-01-01,1,food,x0,1,2 L,1
-- shelf.csv --
date,shop,item,size,price
2025-01-01,s,x0,1 mL,1
`)
	if have := price(t, g, "x1", "2025-01-02", pricing.Fresh); have != "1 b1" {
		t.Errorf("x1: %s", have)
	}
	if have := price(t, g, "x60", "2025-01-02", pricing.Fresh); !strings.HasSuffix(have, "b60") {
		t.Errorf("x60: %s", have)
	}
}
