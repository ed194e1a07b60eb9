package ledger_test

import (
	"fmt"
	"testing"
)

// spends returns what each row of receipts.csv cost.
func spends(t *testing.T, rows string) string {
	t.Helper()
	g := book(t, "-- receipts.csv --\nreceipt,date,shop,line,kind,item,count,size,price,discount,tax,on\n"+rows)
	var list []string
	for _, s := range g.Spends {
		list = append(list, s.String())
	}
	return fmt.Sprint(list)
}

func TestReceipts(t *testing.T) {
	for _, c := range []struct{ name, rows, want string }{
		// IAS 2, paragraph 11: trade discounts and rebates are deducted from
		// the costs of purchase.
		{"a rebate is deducted", `r,2025-01-01,s,1,food,egg,10,1 ea,1.00,2.50,,
r,2025-01-01,s,2,discount,,,,0.50,,,`, "[7 0]"},
		// Directive 98/6/EC, article 2: a price includes VAT and all taxes.
		{"tax of a line is cost", "r,2025-01-01,s,1,food,egg,10,1 ea,1.00,,0.70,", "[10.7]"},
		{"loose goods round half away", `r,2025-01-01,s,1,food,leek,1.234,1 kg,2.50,,,
r,2025-01-01,s,2,food,leek,0.5,1 kg,0.01,,,`, "[3.09 0.01]"}, // 3.085 and 0.005
		{"a price may have more decimals", "r,2025-01-01,s,1,food,egg,30,1 ea,0.185,,,", "[5.55]"},
		// The formulas of moneyphp's allocation: 5 by 70/30 is 4 and 1.
		{"amounts go by the base", `r,2025-01-01,s,1,other,a,1,,0.70,,,
r,2025-01-01,s,2,other,b,1,,0.30,,,
r,2025-01-01,s,3,charge,,,,0.05,,,`, "[0.74 0.31 0]"},
		{"the base is less discount, before tax", `r,2025-01-01,s,1,other,a,1,,3.00,2.00,9.00,
r,2025-01-01,s,2,other,b,1,,1.00,,,
r,2025-01-01,s,3,tax,,,,1.00,,,`, "[10.5 1.5 0]"},
		{"each amount by itself, on the same base", `r,2025-01-01,s,1,other,a,1,,1.00,,,
r,2025-01-01,s,2,other,b,1,,1.00,,,
r,2025-01-01,s,3,discount,,,,0.01,,,
r,2025-01-01,s,4,discount,,,,0.01,,,`, "[0.98 1 0 0]"},
		{"for the lines named", `r,2025-01-01,s,1,other,a,1,,1.00,,,
r,2025-01-01,s,2,other,b,1,,1.00,,,
r,2025-01-01,s,3,other,c,1,,2.00,,,
r,2025-01-01,s,4,charge,,,,0.30,,,"2,3"`, "[1 1.1 2.2 0]"},
		{"equally where all bases are zero", `r,2025-01-01,s,1,other,a,1,,0,,,
r,2025-01-01,s,2,other,b,1,,0,,,
r,2025-01-01,s,3,charge,,,,0.03,,,`, "[0.02 0.01 0]"},
		{"rows of a receipt may stand apart", `r,2025-01-01,s,1,other,a,1,,1.00,,,
q,2025-01-02,s,1,other,x,1,,5.00,,,
r,2025-01-01,s,2,other,b,1,,3.00,,,
q,2025-01-02,s,2,total,,,,5.00,,,
r,2025-01-01,s,3,discount,,,,0.40,,,
r,2025-01-01,s,4,total,,,,3.60,,,`, "[0.9 5 2.7 0 0 0]"},
		{"a deposit is no cost, but is paid", `r,2025-01-01,s,1,other,a,1,,1.00,,,
r,2025-01-01,s,2,deposit,,6,,0.25,,,
r,2025-01-01,s,3,deposit,back,,,-0.50,,,
r,2025-01-01,s,4,total,,,,2.00,,,`, "[1 1.5 -0.5 0]"},
		{"lines need no number", `r,2025-01-01,s,,other,a,1,,1.00,,,
r,2025-01-01,s,,other,a,1,,1.00,,,`, "[1 1]"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if have := spends(t, c.rows); have != c.want {
				t.Errorf("have %s, want %s", have, c.want)
			}
		})
	}
}

func TestReceiptFaults(t *testing.T) {
	const head = "-- receipts.csv --\nreceipt,date,shop,line,kind,item,count,size,price,discount,tax,on\n"
	for _, c := range []struct {
		name, rows string
		want       []string
	}{
		{"a total that does not come out", `r,2025-01-01,s,1,other,a,1,,1.00,,,
r,2025-01-01,s,2,total,,,,1.10,,,`, []string{"receipts.csv:3 price receipt r adds up to 1.00, its printed total is 1.10: 0.10 too little"}},
		{"too much", `r,2025-01-01,s,1,other,a,1,,1.00,,,
r,2025-01-01,s,2,total,,,,0.75,,,`, []string{"receipts.csv:3 price receipt r adds up to 1.00, its printed total is 0.75: 0.25 too much"}},
		{"two totals", `r,2025-01-01,s,1,other,a,1,,1.00,,,
r,2025-01-01,s,2,total,,,,1.00,,,
r,2025-01-01,s,3,total,,,,1.00,,,`, []string{"receipts.csv:4 kind receipt r has a total already"}},
		{"a negative base bears nothing", `r,2025-01-01,s,1,other,a,1,,1.00,1.50,,
r,2025-01-01,s,2,other,b,1,,1.00,,,
r,2025-01-01,s,3,charge,,,,0.10,,,`, []string{"receipts.csv:2 discount receipt r: the line's discount is more than its amount"}},
		{"nothing to bear it", "r,2025-01-01,s,1,charge,,,,0.10,,,", []string{"receipts.csv:2 price receipt r: there is no line"}},
		{"finer than a till", `r,2025-01-01,s,1,other,a,1,,1.00,0.001,0.001,
r,2025-01-01,s,2,charge,,,,0.105,,,
r,2025-01-01,s,3,deposit,,,,0.105,,,
r,2025-01-01,s,4,total,,,,0.105,,,`, []string{
			"receipts.csv:2 discount discount: 0.001 has more than the 2 decimals of EUR", "receipts.csv:2 tax tax: 0.001 has more",
			"receipts.csv:3 price price: 0.105 has more", "receipts.csv:4 price price: 0.105 has more", "receipts.csv:5 price price: 0.105 has more"}},
		{"lines that are not there", `r,2025-01-01,s,1,other,a,1,,1.00,,,
r,2025-01-01,s,2,charge,,,,0.10,,,"1,7"
r,2025-01-01,s,3,charge,,,,0.10,,,2
r,2025-01-01,s,4,charge,,,,0.10,,,"1,1"`, []string{
			`receipts.csv:3 on on: receipt r has no such line "7"`, `receipts.csv:4 on on: receipt r has no such line "2"`,
			"receipts.csv:5 on on: line 1 is named twice"}},
		{"a line number used twice", `r,2025-01-01,s,1,other,a,1,,1.00,,,
r,2025-01-01,s,1,other,b,1,,1.00,,,`, []string{"receipts.csv:3 line receipt r has a line 1 already"}},
		{"another day, another shop", `r,2025-01-01,s,1,other,a,1,,1.00,,,
r,2025-01-02,t,2,other,b,1,,1.00,,,`, []string{
			`receipts.csv:3 shop receipt r is of "s" in line 2`, "receipts.csv:3 date receipt r is of 2025-01-01 in line 2"}},
		{"below zero", `r,2025-01-01,s,1,other,a,1,,-1.00,,,
r,2025-01-01,s,2,discount,,,,-1.00,,,`, []string{"receipts.csv:2 price price: -1 is below 0", "receipts.csv:3 price price: -1 is below 0"}},
		{"a discount in the wrong column", `r,2025-01-01,s,1,other,a,1,,1.00,,,
r,2025-01-01,s,2,discount,,,,0,0.50,,
r,2025-01-01,s,3,total,,,,1.00,,0.20,`, []string{
			"receipts.csv:3 discount discount: only a line of things bought has its own discount and tax, not a discount",
			"receipts.csv:4 tax tax: only a line of things bought has its own discount and tax, not a total"}},
		{"an amount has no count", `r,2025-01-01,s,1,other,a,1,,1.00,,,
r,2025-01-01,s,2,charge,,2,,0.50,,,`, []string{"receipts.csv:3 count count: a charge is one amount"}},
		{"only amounts are for other lines", `r,2025-01-01,s,1,other,a,1,,1.00,,,
r,2025-01-01,s,2,total,,,,1.00,,,1
r,2025-01-01,s,3,other,b,1,,0,,,1`, []string{"receipts.csv:3 on on: only receipt-wide", "receipts.csv:4 on on: only receipt-wide"}},
		{"what things need", `r,2025-01-01,s,1,food,egg,1,,1.00,,,
r,2025-01-01,s,2,food,,1,1 ea,1.00,,,
r,2025-01-01,s,3,supply,jar,1,1 kg,1.00,,,
r,2025-01-01,s,4,machine,dryer,1,1 ea,1.00,,,
r,2025-01-01,s,5,machine,dryer,2,,1.00,,,`, []string{
			"receipts.csv:2 size size: a food line needs a size", "receipts.csv:3 item item: a food line needs",
			"receipts.csv:4 size size: a supply's size is a number of pieces", "receipts.csv:5 size size: a machine has no size",
			"receipts.csv:6 count count: a machine line is for 1 machine"}},
	} {
		t.Run(c.name, func(t *testing.T) { wantFaults(t, head+c.rows, c.want...) })
	}
}

// A receipt of more lines than are looked through one by one finds its lines
// all the same.
func TestLongReceipt(t *testing.T) {
	rows := ""
	for i := range 100 {
		rows += fmt.Sprintf("r,2025-01-01,s,%d,other,x,1,,1.00,,,\n", i+1)
	}
	rows += "r,2025-01-01,s,101,charge,,,,5.00,,,100\nr,2025-01-01,s,102,total,,,,105.00,,,\n"
	g := book(t, "-- receipts.csv --\nreceipt,date,shop,line,kind,item,count,size,price,discount,tax,on\n"+rows)
	if cost := g.Spends[99].String(); cost != "6" {
		t.Errorf("line 100 cost %s, want 6", cost)
	}
}
