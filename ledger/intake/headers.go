package intake

import "sync"

// headerNames are what a header may be called that fills a column of the
// ledger: folded, the likeliest first.
type headerNames struct {
	column string
	names  []string
}

// dateNames and the like are shared by several targets.
var (
	dateNames = []string{"date", "purchase date", "bought", "bought on", "date of purchase", "transaction date",
		"booking date", "posting date", "day", "datum", "kaufdatum", "buchungsdatum", "buchungstag", "fecha", "data", "jour", "giorno"}
	shopNames = []string{"shop", "store", "shop name", "store name", "merchant", "seller", "vendor", "payee", "supermarket", "market", "where",
		"handler", "geschaft", "laden", "markt", "empfanger", "zahlungsempfanger", "magasin", "tienda", "negozio", "winkel"}
	itemNames = []string{"item", "article", "product", "food", "goods", "name", "item name", "product name", "article name",
		"description", "what", "artikel", "artikelbezeichnung", "bezeichnung", "produkt", "ware", "lebensmittel",
		"verwendungszweck", "produit", "libelle", "articulo", "producto", "prodotto", "articolo", "omschrijving"}
	sizeNames = []string{"size", "pack size", "package size", "package", "content", "contents", "net weight", "weight",
		"volume", "inhalt", "packung", "packungsgrosse", "gewicht", "fullmenge", "contenu", "contenido", "peso", "inhoud"}
	priceNames = []string{"price", "unit price", "price each", "each", "preis", "einzelpreis", "stuckpreis", "prix",
		"prix unitaire", "precio", "prezzo", "prijs"}
	noteNames = []string{"note", "notes", "comment", "remark", "memo", "bemerkung", "notiz", "kommentar", "remarque", "nota"}
)

// totalNames are headers of what a whole line costs.
var totalNames = []string{"total", "line total", "amount", "line amount", "sum", "betrag", "summe", "gesamt", "gesamtpreis",
	"umsatz", "montant", "importe", "importo", "totale", "bedrag"}

// headerTables are the headers that are known, by target. A tax column is only
// taken for one when it is called so: a VAT column mostly tells what is in the
// price already.
var headerTables = sync.OnceValue(func() map[Target][]headerNames {
	return map[Target][]headerNames{
		Receipts: {
			{"receipt", []string{"receipt", "receipt no", "receipt number", "receipt id", "ticket", "ticket no", "invoice",
				"invoice no", "order", "order no", "order number", "bon", "bonnummer", "bon nr", "beleg", "belegnummer", "beleg nr",
				"rechnung", "rechnungsnummer", "facture", "factura", "scontrino"}},
			{"date", dateNames},
			{"shop", shopNames},
			{"line", []string{"line", "line no", "pos", "position"}},
			{"kind", nil},
			{"item", itemNames},
			{"count", []string{"count", "qty", "quantity", "pieces", "packages", "units", "number", "menge", "anzahl", "stuck",
				"quantite", "cantidad", "quantita", "aantal"}},
			{"size", sizeNames},
			{"price", priceNames},
			{"discount", []string{"discount", "reduction", "rebate", "rabatt", "nachlass", "remise", "descuento", "sconto", "korting"}},
			{"tax", []string{"tax", "sales tax"}},
			{"on", nil},
			{"note", noteNames},
		},
		Runs: {
			{"run", []string{"run", "run no", "run number", "cycle", "cycle no", "cycle number", "lauf", "zyklus", "no", "nr", "number"}},
			{"machine", []string{"machine", "dryer", "freeze dryer", "gerat", "maschine", "trockner"}},
			{"start", []string{"start", "started", "start date", "begin", "began", "from", "beginn", "anfang", "debut", "inicio", "inizio"}},
			{"end", []string{"end", "ended", "end date", "finish", "finished", "until", "ende", "fin", "fine"}},
			{"tariff", []string{"tariff", "tarif"}},
			{"kwh", []string{"kwh", "energy", "electricity", "energy used", "meter", "strom", "verbrauch", "energie", "consumo"}},
			{"hands", []string{"hands", "hands on", "hands on time", "work", "labour", "labor", "arbeit", "arbeitszeit"}},
			{"outcome", []string{"outcome", "result", "ergebnis"}},
			{"note", noteNames},
			{"load.item", append([]string{"load", "loaded with"}, itemNames...)},
			{"load.quantity", []string{"quantity", "amount", "loaded", "load size", "qty", "menge", "quantite", "cantidad", "quantita"}},
			{"load.receipt", nil},
			{"load.line", nil},
			{"load.trays", []string{"trays", "bleche", "tabletts", "plateaux", "bandejas"}},
			{"load.wet", []string{"wet", "wet weight", "weight before", "fresh weight", "weight in", "nassgewicht", "frischgewicht"}},
			{"load.dry", []string{"dry", "dry weight", "weight after", "weight out", "trockengewicht"}},
			{"load.lost", []string{"lost", "loss", "spilled", "verlust", "verschuttet"}},
			{"phase.freezing", []string{"freezing", "freeze", "freezing time", "freeze time", "einfrieren", "gefrieren"}},
			{"phase.evacuation", []string{"evacuation", "evacuating", "pump down", "evakuieren"}},
			{"phase.primary", []string{"primary", "primary drying", "main drying", "haupttrocknung"}},
			{"phase.secondary", []string{"secondary", "secondary drying", "nachtrocknung"}},
			{"phase.hold", []string{"hold", "holding"}},
			{"phase.defrost", []string{"defrost", "defrosting", "abtauen"}},
		},
		Prices: {
			{"date", append([]string{"seen", "seen on"}, dateNames...)},
			{"shop", shopNames},
			{"item", itemNames},
			{"size", sizeNames},
			{"price", priceNames},
			{"terms", nil},
			{"form", nil},
			{"makes", []string{"makes", "reconstitutes to", "ergibt"}},
			{"note", noteNames},
		},
	}
})

// timeNames are headers of a time of day whose date stands in another column,
// by the column of the ledger.
var timeNames = map[string][]string{
	"start": {"time", "start time", "started at", "uhrzeit", "startzeit", "beginn uhrzeit", "heure", "hora", "ora"},
	"end":   {"end time", "finish time", "ended at", "endzeit"},
}

// needs are the columns without which nothing can be imported; a value will do.
var needs = map[Target][]string{
	Receipts: {"date", "price"},
	Runs:     {"machine", "start"},
	Prices:   {"date", "shop", "item", "size", "price"},
}
