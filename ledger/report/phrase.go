package report

import (
	"fmt"
	"strings"

	"putby/ledger"
	"putby/pricing/exact"
)

// A phrasing writes figures into sentences, as tables show them.
type phrasing struct {
	currency exact.Currency
	show     Show
}

// A reporting is a ledger, and how figures of it are written into sentences.
type reporting struct {
	g *ledger.Ledger
	phrasing
}

func reportingOn(g *ledger.Ledger) reporting { return reporting{g, phrasingOf(&g.Settings)} }

// phrasingOf is that of a household.
func phrasingOf(s *ledger.Settings) phrasing { return phrasing{s.Currency, s.Show()} }

// money is an amount with its currency.
func (p phrasing) money(r exact.Ratio) string { return p.sum(MoneyQuotient(r)) }

// sum is an amount of money with its currency, marked where it is an estimate.
func (p phrasing) sum(v Value) string { return v.Shown(p.currency, p.show) + " " + p.currency.Code() }

// figure is an amount of money where its currency has been said.
func (p phrasing) figure(r exact.Ratio) string { return MoneyQuotient(r).Shown(p.currency, p.show) }

// price is money per unit with its currency: "13.2817 CAD per kg".
func (p phrasing) price(r exact.Ratio, u exact.Unit) string {
	v := PriceOf(r, u)
	return v.Shown(p.currency, p.show) + " " + p.currency.Code() + " " + v.ShownUnit(p.show)
}

// amount is an amount in the unit that tables show.
func (p phrasing) amount(n exact.Number, u exact.Unit) string {
	return p.show.Amount(n, u)
}

// percent is a part of a whole, in whole percents.
func (p phrasing) percent(r exact.Ratio) string {
	return r.Times(exact.Int(100)).Round(0, exact.HalfAway).String() + " %"
}

// counted is a number of things: "1 cycle", "2 cycles".
func counted(n int, thing string) string { return fmt.Sprintf("%d %s", n, plural(n, thing)) }

// plural is the word for so many things.
func plural(n int, thing string) string {
	if n == 1 {
		return thing
	}
	return thing + "s"
}

func wholeRatio(n int) exact.Ratio { return exact.RatioOf(exact.Int(int64(n))) }

// listed joins words as a sentence has them: "a, b and c".
func listed(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	last := len(words) - 1
	return strings.Join(words[:last], ", ") + " and " + words[last]
}

// sentenceCase begins with a capital letter.
func sentenceCase(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

// dated puts a day between two words, or says otherwise where there is none: in
// a ledger whose records have no date yet.
func dated(before string, day exact.Date, after, otherwise string) string {
	if day == exact.NoDate {
		return otherwise
	}
	return before + day.String() + after
}
