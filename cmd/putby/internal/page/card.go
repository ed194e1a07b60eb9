package page

import (
	"io"
	"strings"
	"sync"

	"putby/cmd/putby/internal/render"
	"putby/ledger/report"
)

// cardSheet are the looks of a card, without a typeface: it is to stay small.
var cardSheet = sync.OnceValue(func() sheet { return newSheet("", looksOf("base.css", "foods.css", "card.css")) })

// CardPolicy is the content policy that a server sends with a card.
func CardPolicy() string { return cardSheet().policy("'none'") + noFrame }

// WriteCard writes what to know in the shop as a card for a phone or the wallet: it
// asks no network for anything. One that a server shows leads to that file and back.
func WriteCard(w io.Writer, d report.Told[report.ShopCard], served bool) error {
	s := cardSheet()
	v := cardView{Sheet: s, Policy: s.policy("'none'"), Served: served, Currency: d.Currency.Code(), Date: d.Show.Date(d.Figures.Day),
		Words: d.Words, Notes: d.Foot(), Foods: cardFoods(d)}
	return write(w, "card.html", v)
}

func cardFoods(d report.Told[report.ShopCard]) (foods []cardFood) {
	t := tellerOf(d.Doc)
	shown := func(v report.Value) string {
		if v.IsNull() {
			return ""
		}
		return t.with(v)
	}
	for _, f := range d.Figures.Foods {
		foods = append(foods, cardFood{
			Name: t.short(f.Name), Size: render.Clean(t.short(f.Size)), Below: shown(f.Below), PerUnit: shown(f.PerUnit), BelowAll: t.whole(f.Below), PerUnitAll: t.whole(f.PerUnit),
			Why: strings.Join(f.Why, "; "), Buy: shown(f.Buy), Most: shown(f.Most), Shelf: shown(f.Shelf),
			Offer: shown(f.Offer), OfferDate: shown(f.OfferDate), Paid: shown(f.Paid),
		})
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
