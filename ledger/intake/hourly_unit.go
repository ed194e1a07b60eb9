package intake

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"unicode"

	"putby/ledger"
	"putby/pricing/exact"
)

// A priceUnit is what prices of a file are in.
type priceUnit struct {
	per   Per
	minor bool // hundredths of the currency
	named bool // the file says the currency
}

// scale makes money per kWh of a price.
func (u priceUnit) scale() exact.Number {
	places := 0
	if u.minor {
		places += 2
	}
	// A file that says neither is taken to mean a kWh: [hourly.plausible] looks whether it can.
	if u.per == PerMWh {
		places += 3
	}
	return exact.New(1, places)
}

// minorWords are hundredths of a currency, as they stand before /kWh.
var minorWords = []string{"ct", "cts", "cent", "cents", "c", "p", "pence", "ore", "øre", "öre", "¢"}

// signCurrencies are currencies by a sign or word that is no ISO code.
var signCurrencies = map[string][]string{
	"€": {"EUR"}, "£": {"GBP"}, "euro": {"EUR"}, "euros": {"EUR"}, "pence": {"GBP"}, "kr": {"SEK", "NOK", "DKK", "ISK"},
	"ore": {"SEK", "NOK", "DKK"}, "øre": {"NOK", "DKK"}, "öre": {"SEK"}, "zł": {"PLN"}, "kč": {"CZK"}, "ft": {"HUF"},
	"$": {"USD", "CAD", "AUD", "NZD", "SGD", "MXN", "CLP", "COP", "ARS"},
}

// findUnit finds what the prices are in: by their header, a column of units,
// what stands above the header, or what JSON says beside its list.
func (h *hourly) findUnit() (priceUnit, error) {
	u := priceUnit{}
	for _, text := range h.aboutPrices() {
		if err := h.takeUnit(&u, text); err != nil {
			return u, err
		}
	}
	u.per = cmp.Or(h.o.Per, u.per)
	return u, nil
}

// aboutPrices are the texts that may say what prices are in, the likeliest
// first.
func (h *hourly) aboutPrices() []string {
	texts, first := []string{h.columns.priceName}, h.rows[0]
	for at, name := range h.columns.names {
		if at != h.columns.price && hasWord(name, []string{"unit", "currency", "einheit", "währung", "waehrung", "unité", "devise", "moneda", "valuta"}) {
			texts = append(texts, cellAt(first.cells, at))
		}
	}
	texts = append(texts, first.price)
	for _, row := range h.all[:h.columns.header] {
		texts = append(texts, row.Cells...)
	}
	return append(texts, h.about...)
}

// takeUnit takes what a text says of the unit.
func (h *hourly) takeUnit(u *priceUnit, text string) error {
	list := words(text)
	if u.per == AnyPer {
		switch {
		case slices.Contains(list, "mwh"):
			u.per = PerMWh
		case slices.Contains(list, "kwh"):
			u.per = PerKWh
		}
		// Only the text that names the unit says whether cents are meant: elsewhere a c or a p may be
		// anything.
		if u.per != AnyPer {
			u.minor = slices.ContainsFunc(list, func(w string) bool { return slices.Contains(minorWords, w) }) || strings.Contains(text, "¢")
		}
	}
	found, named := currenciesIn(text)
	if len(found) == 0 || u.named {
		return nil
	}
	if !slices.Contains(found, h.o.Currency.Code()) {
		return &ledger.Fault{
			Kind: ErrCurrency, What: fmt.Sprintf("its prices are in %s, as %s says, and this ledger counts in %s", named, exact.Quote(text), h.o.Currency.Code()),
			Hint: "ask for the file in " + h.o.Currency.Code(),
		}
	}
	u.named = true
	return nil
}

// currenciesIn returns the currencies that a text may name, and the word that
// does. An ISO code counts in capitals, or in any letters before a slash.
func currenciesIn(text string) (codes []string, word string) {
	for _, r := range text {
		if list := signCurrencies[string(r)]; list != nil {
			return list, string(r)
		}
	}
	fields := strings.FieldsFunc(text, func(r rune) bool { return !unicode.IsLetter(r) && r != '/' })
	for _, f := range fields {
		for i, w := range strings.Split(f, "/") {
			before := i == 0 && strings.Contains(f, "/")
			// A short word such as ft counts only before a slash, or in a text of one or two words.
			if list := signCurrencies[strings.ToLower(w)]; list != nil && (before || len(w) > 3 || len(fields) < 3) {
				return list, w
			}
			if _, err := exact.ParseCurrency(strings.ToUpper(w)); err == nil && (before || w == strings.ToUpper(w)) {
				return []string{strings.ToUpper(w)}, strings.ToUpper(w)
			}
		}
	}
	return nil, ""
}

// Prices of a kWh above the high line, in every currency whose unit is worth
// about a euro or a dollar, are those of a MWh by mistake; where all are below
// the low one, it is the other way round. (Both lines are this project's own.)
var (
	highPrice = exact.Int(5)
	lowPrice  = exact.New(1, 3)
)

// plausible asks about prices that are a thousand times too high or too low,
// unless it was said what they are for.
func (h *hourly) plausible(u priceUnit) error {
	if h.o.Per != AnyPer {
		return nil
	}
	top := slices.MaxFunc(h.rows, func(a, b hourRow) int { return a.rate.Abs().Cmp(b.rate.Abs()) })
	code := h.o.Currency.Code()
	high, low := highPrice, lowPrice
	if h.o.Currency.Minor() == 0 { // a yen or a won is worth a hundredth
		high, low = high.Mul(exact.Int(100)), low.Mul(exact.Int(100))
	}
	said := "as the file says"
	if u.per == AnyPer {
		said = "as the file does not say what they are for"
	}
	switch {
	case high.Less(top.rate.Abs()):
		return &ledger.Fault{
			Kind: ErrUnlikely, Line: top.line,
			What:   fmt.Sprintf("%v %s is hardly what a kWh costs, %s: a price per MWh is a thousand times as high", top.rate, code, said),
			Choice: ledger.PerMWh,
		}
	case u.per == PerMWh && top.rate.Abs().Less(low) && !top.rate.IsZero():
		return &ledger.Fault{
			Kind: ErrUnlikely, Line: top.line,
			What:   fmt.Sprintf("none is above %v %s per MWh, which is hardly a price", top.rate.Abs().Mul(exact.Int(1000)), code),
			Choice: ledger.PerKWh,
		}
	}
	return nil
}
