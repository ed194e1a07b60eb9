package intake

import (
	"strings"
	"testing"
)

// TestPropose has headers in several languages.
func TestPropose(t *testing.T) {
	for _, c := range []struct {
		target       Target
		header, want string
	}{
		{Receipts, "Datum,Beleg Nr.,Händler,Artikel,Anzahl,Einzelpreis,Rabatt,Bemerkung",
			"receipt=Beleg Nr. date=Datum shop=Händler item=Artikel count=Anzahl size=Artikel:within price=Einzelpreis discount=Rabatt note=Bemerkung"},
		{Receipts, "Fecha,Tienda,Artículo,Cantidad,Precio,Peso (g)",
			"date=Fecha shop=Tienda item=Artículo count=Cantidad size=Peso (g):g price=Precio"},
		{Receipts, "date,shop,item,price,VAT,total", "date=date shop=shop item=item size=item:within price=price"},
		{Receipts, "Purchase date,Amount (EUR),Payee", "date=Purchase date shop=Payee price=Amount (EUR):total"},
		{Receipts, "price,Price,date", "date=date price=price"},
		// Each column fills one thing, and each thing is filled by the likeliest column.
		{Receipts, "date,product,item,Betrag,amount", "date=date item=item size=item:within price=amount:total"},
		{Runs, "Start,Datum,Machine,kWh", "machine=Machine start=Start kwh=kWh"},
		{Runs, "Start,End,Machine,kWh,Food,Quantity [L],Trays", "machine=Machine start=Start end=End kwh=kWh load.item=Food load.quantity=Quantity [L]:L load.trays=Trays"},
		{Runs, "Date,Start time,End time,Energy (Wh)", "machine='icebox' start=Date + Start time end=End time kwh=Energy (Wh):Wh"},
		{Runs, "Gerät,Datum,Uhrzeit,Haupttrocknung (Std),Frischgewicht (kg)",
			"machine=Gerät start=Datum + Uhrzeit load.wet=Frischgewicht (kg):kg phase.primary=Haupttrocknung (Std):h"},
		{Prices, "Datum,Markt,Produkt,Inhalt,Preis", "date=Datum shop=Markt item=Produkt size=Inhalt price=Preis"},
	} {
		table, err := Read(strings.NewReader("Some title\n"+c.header+"\n"+strings.Repeat(",", strings.Count(c.header, ","))+"x\n"), Options{Separator: ','})
		if err != nil {
			t.Fatal(err)
		}
		m, err := Propose(table, c.target, "x", household())
		if err != nil {
			t.Errorf("%s: %v", c.header, err)
			continue
		}
		var got []string
		for _, f := range m.Fills {
			s := f.Column + "=" + f.From
			if f.Value != "" {
				s += "'" + f.Value + "'"
			}
			if how := f.How.String(); how != "" {
				s += ":" + how
			}
			got = append(got, s)
		}
		if s := strings.Join(got, " "); s != c.want {
			t.Errorf("%s:\ngot  %s\nwant %s", c.header, s, c.want)
		}
	}
}
