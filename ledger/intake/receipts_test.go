package intake

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"putby/ledger"
)

// TestReceiptsByNumber imports a till's export that numbers its receipts.
func TestReceiptsByNumber(t *testing.T) {
	rec := household()
	text := "Kaufdatum;Bon;Markt;Artikel;Menge;Einzelpreis;Rabatt\n" +
		"03.02.2025;17;Hofladen;Oat drink;2;1,99;-0,30\n" +
		"03.02.2025;17;Hofladen;Leeks;1,5 kg;2,40;\n" +
		"14.02.2025;18;Hofladen;Kerzen 10 Stk;1;4,00;\n"
	names := mustNames(t, ",Oat drink,,oat-drink,1 L\n")
	p := planOf(t, text, Receipts, nil, PlanOptions{Records: rec, Names: names})
	want := "17 2025-02-03 Hofladen 1 food oat-drink 2 1 L 1.99 0.30; 17 2025-02-03 Hofladen 2 food leeks 1.5 1 kg 2.40 ; " +
		"18 2025-02-14 Hofladen 1 other Kerzen 10 Stk 1  4.00 "
	got := rowsOf(p, ledger.ReceiptsFile, "receipt", "date", "shop", "line", "kind", "item", "count", "size", "price", "discount")
	if got != want || len(p.Bad) > 0 {
		t.Errorf("got  %s\nwant %s\nbad %v", got, want, p.Bad)
	}
	if len(p.Unknown) != 1 || p.Unknown[0] != (UnknownName{"Kerzen 10 Stk", 4, 1}) {
		t.Errorf("unknown: %v", p.Unknown)
	}
	if p.Dates != DayMonthYear || p.Decimal != Comma || p.Header != 1 || p.Rows() != 3 {
		t.Errorf("%v %v %d %d", p.Dates, p.Decimal, p.Header, p.Rows())
	}
}

// TestReceiptsByDay imports a bank's statement: no numbers, titles above the
// header, amounts that are negative, a sum below.
func TestReceiptsByDay(t *testing.T) {
	rec := household()
	text := "Statement of account 0815\nfrom 01/02/2025 to 28/02/2025\n\n" +
		"Posting date,Payee,Description,Amount\n" +
		"02/03/2025,HOFLADEN 0042,card payment,-12.50\n" +
		"02/14/2025,HOFLADEN 0042,card payment,-3.20\n" +
		"02/14/2025,City of Brook,water,-30.00\n" +
		"02/14/2025,HOFLADEN 0042,card payment,-3.20\n" +
		"02/20/2025,,interest,-0.10\n"
	names := mustNames(t, ",HOFLADEN*,shop,Hofladen,\n,interest,skip,,\n")
	o := PlanOptions{Records: rec, Names: names}
	p := planOf(t, text, Receipts, nil, o)
	want := "2025-02-03-hofladen 1 12.50; 2025-02-14-hofladen 1 3.20; 2025-02-14-hofladen 2 3.20; 2025-02-14-city-of-brook 1 30.00"
	if got := rowsOf(p, ledger.ReceiptsFile, "receipt", "line", "price"); got != want || len(p.Bad) > 0 || p.Left != 1 || p.Header != 4 {
		t.Errorf("got  %s\nwant %s\n%+v", got, want, p)
	}
	// Next month's statement has two of these days once more, and a third
	// payment at the Hofladen that the bank was late with.
	carryOut(t, rec, p)
	text = strings.Replace(text, "02/20/2025", "02/14/2025,HOFLADEN 0042,card payment,-3.20\n02/14/2025", 1)
	p = planOf(t, text, Receipts, nil, o)
	if got := rowsOf(p, ledger.ReceiptsFile, "receipt", "line", "price"); got != "2025-02-14-hofladen 3 3.20" || len(p.There) != 4 {
		t.Errorf("got %s, there %v", got, p.There)
	}
}

// TestRecordedByHand: a receipt that was typed in is recognised, however it is
// written.
func TestRecordedByHand(t *testing.T) {
	rec := household()
	rows := FileRows{File: ledger.ReceiptsFile, Columns: columnsOf(ledger.ReceiptsFile, "")}
	rows.Add(NewRow{Cells: []string{"H7", "2025-02-03", "hofladen", "a", "food", "leeks", "2.0", "500 g", "1.20", "", "", "", "the good ones"}})
	rows.Add(NewRow{Cells: []string{"H7", "2025-02-03", "hofladen", "b", "food", "eggs", "1", "1 doz", "3.60", "", "", "", ""}})
	carryOut(t, rec, &Plan{Add: []FileRows{rows}})
	text := "date,shop,item,count,size,price\n2025-02-03,Hofladen,LEEKS,2,0.5 kg,1.2\n2025-02-03,Hofladen,eggs,1,12 ea,3.60\n" +
		"2025-02-03,Hofladen,leeks,2,0.5 kg,1.20\n"
	p := planOf(t, text, Receipts, nil, PlanOptions{Records: rec})
	if len(p.There) != 2 || p.There[0] != (There{2, ledger.ReceiptsFile, 2, false}) || p.There[1].At != 3 {
		t.Errorf("there: %v", p.There)
	}
	// The same leeks a second time are a second purchase.
	if got := rowsOf(p, ledger.ReceiptsFile, "receipt", "line", "item"); got != "2025-02-03-hofladen 3 leeks" {
		t.Errorf("rows: %s", got)
	}
}

// TestAmended: what was changed in the ledger since is left as it is, and told.
func TestAmended(t *testing.T) {
	rec := household()
	text := "receipt,date,shop,item,size,price\nR1,2025-02-03,Hofladen,leeks,500 g,1.20\nR1,2025-02-03,Hofladen,eggs,12 ea,3.60\n"
	p := planOf(t, text, Receipts, nil, PlanOptions{Records: rec})
	carryOut(t, rec, p)
	lines := rec.Receipts.Slice()
	lines[1].Item = "oat-drink"
	rec.Receipts = ledger.ReceiptList{}.With(lines...)
	p = planOf(t, text, Receipts, nil, PlanOptions{Records: rec})
	if p.Rows() != 0 || len(p.There) != 1 || len(p.Differ) != 1 || p.Differ[0] != (Differ{3, ledger.ReceiptsFile, 3, "item", "oat-drink", "eggs"}) {
		t.Errorf("%v there, %v differ, %d rows", p.There, p.Differ, p.Rows())
	}
}

// TestAmendedDay: the same where the file numbers nothing; what only comes on
// the same day is new.
func TestAmendedDay(t *testing.T) {
	rec := household()
	text := "date,shop,item,price\n2025-02-03,Hofladen,tea,1.20\n2025-02-03,Hofladen,salt,3.60\n"
	carryOut(t, rec, planOf(t, text, Receipts, nil, PlanOptions{Records: rec}))
	lines := rec.Receipts.Slice()
	lines[0].Item = "green tea"
	rec.Receipts = ledger.ReceiptList{}.With(lines...)
	p := planOf(t, text+"2025-02-03,Hofladen,soap,1\n", Receipts, nil, PlanOptions{Records: rec})
	if got := rowsOf(p, ledger.ReceiptsFile, "line", "item"); got != "3 soap" || len(p.There) != 1 || len(p.Differ) != 1 || p.Differ[0].Column != "item" {
		t.Errorf("rows %s, %v there, %v differ", got, p.There, p.Differ)
	}
	p = planOf(t, "date,shop,item,price\n2025-02-03,Hofladen,soap,1\n", Receipts, nil, PlanOptions{Records: rec})
	if got := rowsOf(p, ledger.ReceiptsFile, "line", "item"); got != "3 soap" || len(p.Differ) != 0 {
		t.Errorf("rows %s, %v differ", got, p.Differ)
	}
}

// TestReceiptNumbersClash: numbers are each shop's own.
func TestReceiptNumbersClash(t *testing.T) {
	rec := household()
	p := planOf(t, "receipt,date,shop,item,price\n17,2025-02-03,Hofladen,soap,1.20\n", Receipts, nil, PlanOptions{Records: rec})
	carryOut(t, rec, p)
	text := "No,Day,Store,Article,Price\n17,2025-02-05,Krämer,salt,0.80\n"
	m := mustMap(t, "k,receipts,receipt,No,,\nk,receipts,date,Day,,\nk,receipts,shop,Store,,\nk,receipts,item,Article,,\nk,receipts,price,Price,,\n")
	p = planOf(t, text, Receipts, m, PlanOptions{Records: rec})
	if len(p.Bad) != 1 || !strings.Contains(p.Bad[0].What, "a receipt 17 of another day and shop") || p.Rows() != 0 {
		t.Errorf("bad: %v", p.Bad)
	}
	m.Fills[0].From = "Store + No"
	p = planOf(t, text, Receipts, m, PlanOptions{Records: rec})
	if got := rowsOf(p, ledger.ReceiptsFile, "receipt", "item"); got != "Kramer-17 salt" || len(p.Bad) != 0 {
		t.Errorf("rows: %s, bad %v", got, p.Bad)
	}
}

// TestReceiptRowsDisagree: within one file too.
func TestReceiptRowsDisagree(t *testing.T) {
	text := "receipt,date,shop,item,price\n1/7,2025-02-03,Hofladen,soap,1.20\n1/7,,,salt,1\n1-7,2025-02-03,Hofladen,salt,1\n" +
		"1/7,2025-02-04,Hofladen,salt,1\n1/7,2025-02-03,Markt,salt,1\n,,Markt,salt,1\n,2025-02-03,Markt,salt,1\n"
	p := planOf(t, text, Receipts, nil, PlanOptions{})
	if got := rowsOf(p, ledger.ReceiptsFile, "receipt", "date", "shop", "line"); got !=
		"1-7 2025-02-03 Hofladen 1; 1-7 2025-02-03 Hofladen 2; 2025-02-03-markt 2025-02-03 Markt 1" {
		t.Errorf("rows: %s", got)
	}
	if got := badLines(p); !slices.Equal(got, []int{4, 5, 6, 7}) {
		t.Errorf("bad: %v", p.Bad)
	}
}

func TestShopsOfOneSlug(t *testing.T) {
	text := "date,shop,item,price\n2025-02-03,Café A,tea,1\n2025-02-03,Cafe-A!,tea,1\n2025-02-03,漢字,tea,1\n2025-02-03,,tea,1\n"
	p := planOf(t, text, Receipts, nil, PlanOptions{})
	// Café A and Cafe-A! are one shop when compared, so one receipt.
	if got := rowsOf(p, ledger.ReceiptsFile, "receipt", "line", "shop"); got !=
		"2025-02-03-cafe-a 1 Café A; 2025-02-03-cafe-a 2 Café A; 2025-02-03 1 漢字; 2025-02-03-2 1 " {
		t.Errorf("rows: %s", got)
	}
}

// TestBatchesShareIdentifiers: receipts and batches have one set of them.
func TestBatchesShareIdentifiers(t *testing.T) {
	rec := household()
	rec.Batches = []ledger.Batch{{ID: "2025-02-03-hofladen"}, {ID: "S1"}}
	p := planOf(t, "date,shop,item,price\n2025-02-03,Hofladen,tea,1\n", Receipts, nil, PlanOptions{Records: rec})
	if got := rowsOf(p, ledger.ReceiptsFile, "receipt"); got != "2025-02-03-hofladen-2" {
		t.Errorf("rows: %s", got)
	}
	p = planOf(t, "receipt,date,shop,item,price\nS1,2025-02-03,Hofladen,tea,1\n", Receipts, nil, PlanOptions{Records: rec})
	if len(p.Bad) != 1 {
		t.Errorf("bad: %v", p.Bad)
	}
}

func TestTotals(t *testing.T) {
	for _, c := range []struct{ count, total, want string }{
		{"2", "3.98", "1.99"},
		{"3", "5.00", "1.667"},
		{"7", "1.00", "0.143"},
		{"1.234", "4.55", "3.69"},
		{"", "4.50", "4.50"},
		{"12", "0", "0.00"},
	} {
		p := planOf(t, "date,shop,item,qty,total\n2025-02-03,Markt,soap,"+c.count+","+c.total+"\n", Receipts, nil, PlanOptions{Records: household()})
		if got := rowsOf(p, ledger.ReceiptsFile, "price"); got != c.want {
			t.Errorf("%s for %s: %s each, want %s (bad %v)", c.total, c.count, got, c.want, p.Bad)
		}
	}
	p := planOf(t, "date,shop,item,qty,total\n2025-02-03,Markt,soap,0,1.00\n", Receipts, nil, PlanOptions{Records: household()})
	if len(p.Bad) != 1 || p.Bad[0].Field != "count" {
		t.Errorf("bad: %v", p.Bad)
	}
}

func TestKinds(t *testing.T) {
	names := mustNames(t, ",Pfand*,deposit,,\n,Rabatt*,discount,,\n,Gläser,supply,jar-1l,6 ea\n,Bag,skip,,\n,Lauch,,leeks,\n")
	text := "date,shop,item,size,price,kind\n2025-02-03,M,Pfand 0.25,,-0.50,\n2025-02-03,M,Rabatt 10%,,-1.00,\n2025-02-03,M,Gläser,,9.00,\n" +
		"2025-02-03,M,Bag,,0.10,\n2025-02-03,M,Lauch,1 kg,2,\n2025-02-03,M,leeks,1 kg,2,other\n2025-02-03,M,Jar 1 Litre,,2,supply\n" +
		"2025-02-03,M,icebox,,1500,\n2025-02-03,M,Salz,1 kg,2,food\n2025-02-03,M,,,16,Total\n2025-02-03,M,x,,1,fud\n"
	p := planOf(t, text, Receipts, nil, PlanOptions{Records: household(), Names: names})
	want := "1 deposit  -0.50 Pfand 0.25; 2 discount  1.00 Rabatt 10%; 3 supply 6 ea 9.00 jar-1l; 4 food 1 kg 2 leeks; 5 other 1 kg 2 leeks; " +
		"6 supply  2 jar-1l; 7 machine  1500 icebox; 8 total  16 "
	if got := rowsOf(p, ledger.ReceiptsFile, "line", "kind", "size", "price", "item"); got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
	if got := badLines(p); !slices.Equal(got, []int{10, 12}) || p.Left != 1 {
		t.Errorf("bad: %v, left %d", p.Bad, p.Left)
	}
}

// TestSizeInText: the size of a food may stand in its name.
func TestSizeInText(t *testing.T) {
	names := mustNames(t, ",Oat drink*,,oat-drink,\n,Jars*,,jar-1l,\n")
	text := "date;shop;article;qty;price\n1.2.2025;M;Oat drink 1,5 l;2;1,99\n13.2.2025;M;Oat drink big;1;3\n13.2.2025;M;Jars 6 pcs;1;9\n" +
		"13.2.2025;M;Jars 1 l;1;9\n13.2.2025;M;Soap 250 g;1;1\n"
	p := planOf(t, text, Receipts, nil, PlanOptions{Records: household(), Names: names})
	if got := rowsOf(p, ledger.ReceiptsFile, "item", "size"); got != "oat-drink 1.5 L; jar-1l 6 ea; jar-1l ; Soap 250 g " {
		t.Errorf("rows: %s", got)
	}
	if got := badLines(p); !slices.Equal(got, []int{3}) || p.Bad[0].Field != "size" {
		t.Errorf("bad: %v", p.Bad)
	}
}

// TestBadRows: each bad cell is told with its line, and costs no other row.
func TestBadRows(t *testing.T) {
	text := "date,shop,item,count,price\n2025-02-30,M,soap,1,1\n2025-02-03,M,soap,one,1\n2025-02-03,M,soap,1,1e9\n2025-02-03,M,soap,1,-1\n" +
		"2025-02-03,M,soap,1,1,more\n2025-02-03,M,\"soap,1,1\n2025-02-03,M,soap,1,\nTotal,,,,5\n2025-02-03,M,soap\n2025-02-03,M,tea,1,1\n"
	p := planOf(t, text, Receipts, nil, PlanOptions{})
	if got := rowsOf(p, ledger.ReceiptsFile, "item"); got != "tea" {
		t.Errorf("rows: %s", got)
	}
	if got := badLines(p); !slices.Equal(got, []int{2, 3, 4, 5, 6, 7, 8, 9, 10}) {
		t.Errorf("bad: %v", p.Bad)
	}
	for _, b := range p.Bad {
		if b.What == "" || strings.Contains(b.Error(), "\n") {
			t.Errorf("%q", b.Error())
		}
	}
}

// TestRefused: what cannot be told apart is not guessed.
func TestRefused(t *testing.T) {
	for _, c := range []struct {
		name, text string
		kind       error
	}{
		{"ambiguous dates", "date;shop;item;price\n01.02.2025;M;tea;1\n", ErrAmbiguous},
		{"mixed dates", "date;shop;item;price\n14.02.2025;M;tea;1\n02.14.2025;M;tea;1\n", ErrMixed},
		{"ambiguous numbers", "date;shop;item;price\n14.02.2025;M;tea;1,234\n", ErrAmbiguous},
		{"mixed numbers", "date;shop;item;price\n14.02.2025;M;tea;1,50\n14.02.2025;M;tea;1.50\n", ErrMixed},
	} {
		table, err := Read(strings.NewReader(c.text), Options{})
		if err != nil {
			t.Fatal(err)
		}
		m, err := Propose(table, Receipts, "x", nil)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := m.Plan(table, PlanOptions{}); !errors.Is(err, c.kind) {
			t.Errorf("%s: %v", c.name, err)
		}
		m.Dates, m.Decimal = DayMonthYear, Comma
		p, err := m.Plan(table, PlanOptions{})
		if err != nil || p.Rows()+len(p.Bad) != table.Len()-1 {
			t.Errorf("%s: told how, %d rows, %v bad, %v", c.name, p.Rows(), p.Bad, err)
		}
	}
}

// TestMixedColumns: where each column agrees with itself, all are read.
func TestMixedColumns(t *testing.T) {
	text := "date\tshop\titem\tcount\tprice\n2025-02-14\tM\ttea\t1.5\t1,50\n2025-02-14\tM\tsalt\t0.5\t2\n"
	p := planOf(t, text, Receipts, nil, PlanOptions{})
	if got := rowsOf(p, ledger.ReceiptsFile, "count", "price"); got != "1.5 1.50; 0.5 2" || p.Decimal != AnyDecimal {
		t.Errorf("rows: %s", got)
	}
	m := p.Definite()
	if m.Fills[3].How.Decimal != Point || m.Fills[5].How.Decimal != Comma || p.Map.Fills[3].How.Decimal != AnyDecimal {
		t.Errorf("%+v", m)
	}
}

func TestOnly(t *testing.T) {
	m := mustMap(t, "b,receipts,only,Type,Card | Cash,\nb,receipts,only,Amount,<0,\nb,receipts,date,Day,,\nb,receipts,price,Amount,,negate\nb,receipts,item,Text,,\n")
	text := "Day,Type,Text,Amount\n2025-02-03,card,tea,-1.50\n2025-02-03,Cash,salt,-2\n2025-02-03,Card,refund,3\n2025-02-03,Wire,rent,-900\n2025-02-03,Card,fee,n/a\n"
	p := planOf(t, text, Receipts, m, PlanOptions{})
	if got := rowsOf(p, ledger.ReceiptsFile, "item", "price"); got != "tea 1.50; salt 2" || p.Left != 3 {
		t.Errorf("rows: %s, left %d, bad %v", got, p.Left, p.Bad)
	}
}

// A food that the file calls as the ledger does, with the amount in the same
// cell, is that food; nothing else is guessed at.
func TestFoodWithItsAmount(t *testing.T) {
	text := "date,shop,item,price\n2025-02-03,Hofladen,Leeks 1 kg,2.40\n2025-02-03,Hofladen,\"Oat drink, 6x1 l\",9.00\n" +
		"2025-02-03,Hofladen,Jar 1 litre 6 pcs,4.00\n2025-02-03,Hofladen,Leek soup 1 L,3.00\n2025-02-03,Hofladen,leeks 1 kg (2 pcs),2.40\n"
	p := planOf(t, text, Receipts, nil, PlanOptions{Records: household()})
	want := "food leeks 1 kg 2.40; food oat-drink 6 L 9.00; other Jar 1 litre 6 pcs  4.00; other Leek soup 1 L  3.00; other leeks 1 kg (2 pcs)  2.40"
	if got := rowsOf(p, ledger.ReceiptsFile, "kind", "item", "size", "price"); got != want || len(p.Bad) > 0 {
		t.Errorf("got  %s\nwant %s\nbad %v", got, want, p.Bad)
	}
	p = planOf(t, "date,shop,item,price\n2025-02-03,Hofladen,Leeks (500 g),1.40\n", Prices, nil, PlanOptions{Records: household()})
	if got := rowsOf(p, ledger.ShelfFile, "item", "size", "price"); got != "leeks 500 g 1.40" {
		t.Errorf("a price: %s, bad %v", got, p.Bad)
	}
}
