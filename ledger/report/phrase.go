package report

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"putby/ledger"
	"putby/ledger/advice"
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

// title is what people call a food.
func (r reporting) title(food int) string { return r.g.Foods[food].Title() }

// where is a machine's name after a word such as "in", for where there are several;
// empty where there are not, or no machine is recorded.
func (r reporting) where(word string, machine int) string {
	if len(r.g.Machines) < 2 || machine < 0 {
		return ""
	}
	return " " + word + " " + r.g.Machines[machine].Title()
}

// phrasingOf is that of a household.
func phrasingOf(s *ledger.Settings) phrasing { return phrasing{s.Currency, s.Show()} }

// say says how something is done.
func (p phrasing) say(act advice.Act, of ...string) string { return p.show.Say(advice.Do(act, of...)) }

// money is an amount with its currency.
func (p phrasing) money(r exact.Ratio) string { return p.sum(MoneyQuotient(r)) }

// sum is an amount of money with its currency, marked where it is an estimate.
func (p phrasing) sum(v Value) string {
	return p.show.Locale.Money(v.Shown(p.currency, p.show.Plain()), p.currency)
}

// figure is an amount of money where its currency has been said.
func (p phrasing) figure(r exact.Ratio) string { return MoneyQuotient(r).Shown(p.currency, p.show) }

// price is money per unit with its currency: "13.2817 CAD per kg".
func (p phrasing) price(r exact.Ratio, u exact.Unit) string {
	v := PriceOf(r, u)
	return p.sum(v) + " " + v.ShownUnit(p.show)
}

// amount is an amount in the unit that tables show.
func (p phrasing) amount(n exact.Number, u exact.Unit) string {
	return p.show.Amount(n, u)
}

// atLeast is an amount in the unit that tables show, rounded up.
func (p phrasing) atLeast(n exact.Ratio, u exact.Unit) string {
	in := p.show.In(u)
	return p.show.Quantity(in.Of(n.Quo(exact.RatioOf(in.Factor())).Round(ledger.ShownPlaces, exact.Up)))
}

// percent is a part of a whole, in whole percents.
func (p phrasing) percent(r exact.Ratio) string {
	return p.percents(r.Times(exact.Int(100)).Round(0, exact.HalfAway))
}

// percents is a number of percents, with their sign.
func (p phrasing) percents(n exact.Number) string { return p.show.Locale.Percent(n.String()) }

// waterIn is how much of something is still water, by its weights: of food rich in fat
// how much of the rest.
func (p phrasing) waterIn(w ledger.Weighing, what string) string {
	if w.Fat.Sign() > 0 {
		what = "what is not fat in " + what
	}
	return p.percents(w.Percent()) + " of " + what
}

// waterLeft is how much water food that is dry still holds; of food rich in fat beside
// it what decides.
func (p phrasing) waterLeft(w ledger.Weighing) string {
	all := p.percents(w.WaterLeft().Times(exact.Int(100)).Round(0, exact.HalfAway))
	if w.Fat.Sign() == 0 {
		return all
	}
	return all + ", of what is not fat about " + p.percents(w.Percent())
}

// WaterLeft says in a few words how much water is left in dried food.
func WaterLeft(s ledger.Show, w ledger.Weighing) string { return wetness(s, w, " water left") }

// wetness is a percentage and what it is of: "12 % water". Of food rich in fat the
// rest decides, since fat holds no water.
func wetness(s ledger.Show, w ledger.Weighing, what string) string {
	words := s.Locale.Percent(w.Percent().String()) + what
	if w.Fat.Sign() > 0 {
		words += " in what is not fat"
	}
	return words
}

// day is a date.
func (p phrasing) day(d exact.Date) string { return p.show.Date(d) }

// period is a month, a year or a week by its key, or months from one to another.
func (p phrasing) period(key string) string {
	if from, to, several := strings.Cut(key, " to "); several {
		return shownDate(from, p.show) + " to " + shownDate(to, p.show)
	}
	return shownDate(key, p.show)
}

// number is a number with all its digits.
func (p phrasing) number(n exact.Number) string { return p.show.Number(n) }

// quantity is a quantity in the unit that it has.
func (p phrasing) quantity(q exact.Quantity) string { return p.show.Quantity(q) }

// weekday is a date after its day of the week: "Mon 2025-03-03".
func (p phrasing) weekday(t time.Time) string { return t.Format("Mon ") + p.day(exact.DateIn(t)) }

// moment is a day and a time of it: "Mon 2025-03-03 at 18:00".
func (p phrasing) moment(t time.Time) string { return p.show.Moment(t) }

// count is a whole number: "1,200".
func (p phrasing) count(n int) string { return p.show.Locale.Number(strconv.Itoa(n)) }

// counted is a number of things, with thousands as people are shown them.
func (p phrasing) counted(n int, thing string) string { return p.count(n) + " " + plural(n, thing) }

// counted is a number of things: "1 cycle", "2 cycles".
func counted(n int, thing string) string { return fmt.Sprintf("%d %s", n, plural(n, thing)) }

// plural is the word for so many things.
func plural(n int, thing string) string {
	if n == 1 {
		return thing
	}
	return thing + "s"
}

// worded says something of each thing of a list; nil of none.
func worded[T any](list []T, say func(T) string) (words []string) {
	for _, thing := range list {
		words = append(words, say(thing))
	}
	return words
}

// filled are those words of a list that are not empty.
func filled(list ...string) []string {
	return slices.DeleteFunc(list, func(s string) bool { return s == "" })
}

// commas joins what is not empty.
func commas(list ...string) string { return strings.Join(filled(list...), ", ") }

// Listed joins words as a sentence has them: "a, b and c".
func Listed(words []string) string {
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
func (p phrasing) dated(before string, day exact.Date, after, otherwise string) string {
	if day == exact.NoDate {
		return otherwise
	}
	return before + p.day(day) + after
}
