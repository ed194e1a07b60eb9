package page

import (
	"bufio"
	"io"
	"strings"
	"sync"

	"putby/ledger/report"
	"putby/pricing/exact"
)

// cardSheet are the looks of a card, without a typeface: it is to stay small.
var cardSheet = sync.OnceValue(func() sheet {
	return newSheet("", string(look("base.css")), string(look("foods.css")), string(look("card.css")))
})

// CardPolicy is the content policy that a server sends with a card.
func CardPolicy() string { return cardSheet().policy("'none'") + noFrame }

// WriteCard writes what to know in the shop as a card for a phone or the wallet: it
// asks no network for anything. One that a server shows leads to that file and back.
func WriteCard(w io.Writer, d report.Doc, served bool) error {
	s := cardSheet()
	v := cardView{Sheet: s, Policy: s.policy("'none'"), Served: served, Currency: d.Currency.Code(), Date: value(d, "as_of").Shown(d.Currency, d.Show),
		Words: d.Words, Notes: d.Notes, Foods: cardFoods(d)}
	b := bufio.NewWriter(w)
	if err := templates().ExecuteTemplate(b, "card.html", v); err != nil {
		return err
	}
	return b.Flush()
}

func cardFoods(d report.Doc) (foods []cardFood) {
	for _, key := range []string{"rows", "made_into"} {
		rows := read(d, key)
		for _, row := range rows.Rows {
			foods = append(foods, newCardFood(d, rows, row))
		}
	}
	return foods
}

// What the template reads.
type (
	cardView struct {
		Sheet    sheet
		Policy   string
		Served   bool
		Currency string
		Date     string
		Words    []string
		Foods    []cardFood
		Notes    []string
	}
	cardFood struct {
		Name, Size     string
		Below, PerUnit string // empty: not even as a gift
		Why            string // there is no price
		Buy, Most      string
		Shelf          string
		Offer          string // the last one, per unit
		OfferDate      string
		Paid           string // the lowest of the year, per unit

		BelowAll, PerUnitAll string // with all their digits
	}
)

// newCardFood reads a row of the report.
func newCardFood(d report.Doc, rows reader, row report.Row) cardFood {
	shown := func(key string) string {
		v := rows.cell(row, key)
		if v.IsNull() {
			return ""
		}
		return v.ShownWithUnit(d.Currency, d.Show)
	}
	all := func(key string) string { return tellerOf(d).whole(rows.cell(row, key)) }
	return cardFood{
		BelowAll: all("below"), PerUnitAll: all("below_per_unit"),
		Name: rows.cell(row, "item").Shown(exact.Currency{}, d.Show), Size: rows.word(row, "size"), Below: shown("below"), PerUnit: shown("below_per_unit"),
		Why: strings.Join(row.Notes, "; "), Buy: shown("packages"), Most: shown("most"), Shelf: shown("shelf_per_unit"),
		Offer: shown("last_offer_per_unit"), OfferDate: shown("last_offer_date"), Paid: shown("lowest_paid_per_unit"),
	}
}
