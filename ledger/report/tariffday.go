package report

import (
	"fmt"
	"time"

	"putby/ledger"
	"putby/ledger/advice"
	"putby/pricing/exact"
)

// mostMissing is how many times without a price are named.
const mostMissing = 10

// dayFields are what a tariff with hourly bands has beside its week: a day's
// prices.
func (w tariffWeek) dayFields(zone *time.Location) []Field {
	known := func(t time.Time) Value { return onlyIf(!t.IsZero(), MomentOf(t.In(zone))) }
	return []Field{
		{Key: "known_from", Node: known(w.Since)},
		{Key: "known_until", Node: known(w.Until)},
		field("day", "The prices of "+w.say.weekday(w.Week.Date.Midnight(zone)), w.day24()),
		field("missing", titleOf(len(w.Missing), "Times without a price between the first and the last"), w.missing(zone)),
	}
}

// day24 lists the prices of the day, part by part.
func (w tariffWeek) day24() *Table {
	t := &Table{Columns: []Column{
		{Key: "from", Title: "from"}, {Key: "until", Title: "until"}, {Key: "band", Title: "row", Rank: 2},
		{Key: "hour", Title: "hour's price", Rank: 1}, {Key: "price", Title: "price per kWh", Bar: true},
	}}
	for _, p := range w.Day {
		t.add(MomentOf(p.From), MomentOf(p.Until), onlyIf(p.Band.Line > 0, where(ledger.TariffsFile, p.Band.Line)), optional(p.Hour, PlainOf), optional(p.Price, PlainOf))
	}
	return t
}

func (w tariffWeek) missing(zone *time.Location) *Table {
	t := &Table{Columns: []Column{{Key: "from", Title: "from"}, {Key: "until", Title: "until"}}}
	for _, m := range w.Missing[:min(len(w.Missing), mostMissing)] {
		t.add(MomentOf(m.From.In(zone)), MomentOf(m.Until.In(zone)))
	}
	return t
}

// hourlyWords say since and until when prices are known, and what the day
// lacks.
func (w tariffWeek) hourlyWords() []string {
	if w.Since.IsZero() {
		return []string{"No price of an hour is known yet: " + w.say.show.Say(advice.Do(advice.ImportTariff, "FILE").With("tariff", w.Name)) + "."}
	}
	zone := w.Day[0].From.Location()
	span := fmt.Sprintf("from %s until %s", w.say.moment(w.Since.In(zone)), w.say.moment(w.Until.In(zone)))
	var words []string
	switch n := len(w.Missing); {
	case n == 0:
		words = []string{"Every hour has a price " + span + "."}
	case n > mostMissing:
		words = []string{fmt.Sprintf("Some hours have no price %s, at %d times, of which the first %d are named.", span, n, mostMissing)}
	default:
		words = []string{fmt.Sprintf("Some hours have no price %s, at %s.", span, counted(n, "time"))}
	}
	if w.Unknown.Sign() > 0 {
		words = append(words, fmt.Sprintf("Of %s, %s h have none.", w.say.weekday(w.Week.Date.Midnight(zone)), w.say.number(w.Unknown.Round(2, exact.HalfAway))))
	}
	return words
}
