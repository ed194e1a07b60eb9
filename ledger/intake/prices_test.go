package intake

import (
	"slices"
	"strings"
	"testing"

	"putby/ledger"
)

func TestPrices(t *testing.T) {
	rec := household()
	text := "Seen on,Shop,Product,Pack size,Price,terms\n2025-03-02,Hofladen,Oat drink,1 l,1.99,\n2025-03-02,Hofladen,Oat drink,100 cl,1.990,regular\n" +
		"2025-03-02,Hofladen,leeks,1 kg,2.40,offer\n2025-03-02,Hofladen,soap,1 ea,1,\n2025-03-02,,leeks,1 kg,2,\n2025-03-02,Hofladen,leeks,1 kg,2,bargain\n"
	p := planOf(t, text, Prices, nil, PlanOptions{Records: rec})
	if got := rowsOf(p, ledger.ShelfFile, "item", "size", "price", "terms"); got != "oat-drink 1 L 1.99 ; leeks 1 kg 2.40 offer" {
		t.Errorf("rows: %s", got)
	}
	if got := badLines(p); !slices.Equal(got, []int{5, 6, 7}) {
		t.Errorf("bad: %v", p.Bad)
	}
	if len(p.There) != 1 || p.There[0] != (There{3, ledger.ShelfFile, 2, true}) {
		t.Errorf("there: %v", p.There)
	}
	carryOut(t, rec, p)
	text = strings.Replace(text, "2.40", "2.50", 1)
	p = planOf(t, text, Prices, nil, PlanOptions{Records: rec})
	if p.Rows() != 0 || len(p.There) != 2 || len(p.Differ) != 1 || p.Differ[0] != (Differ{4, ledger.ShelfFile, 3, "price", "2.4", "2.5"}) {
		t.Errorf("%d rows, there %v, differ %v", p.Rows(), p.There, p.Differ)
	}
}

func TestPricesByNames(t *testing.T) {
	names := mustNames(t, ",Porree*,food,leeks,500 g\n,Nothing,skip,,\n,Ghost,food,ghost,\n,HL,shop,Hofladen,\n")
	text := "date;shop;item;price\n14.3.2025;HL;Porree bund;1,20\n14.3.2025;HL;Nothing;1\n14.3.2025;HL;Ghost;1\n"
	m := mustMap(t, "p,prices,date,date,,\np,prices,shop,shop,,\np,prices,item,item,,\np,prices,price,price,,\n")
	p := planOf(t, text, Prices, m, PlanOptions{Records: household(), Names: names})
	if got := rowsOf(p, ledger.ShelfFile, "shop", "item", "size", "price"); got != "Hofladen leeks 500 g 1.20" || p.Left != 1 {
		t.Errorf("rows: %s, left %d", got, p.Left)
	}
	if got := badLines(p); !slices.Equal(got, []int{4}) {
		t.Errorf("bad: %v", p.Bad)
	}
}
