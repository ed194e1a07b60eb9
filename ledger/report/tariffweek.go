package report

import (
	"fmt"
	"strings"

	"putby/energy"
	"putby/ledger"
	"putby/ledger/figures"
	"putby/pricing/exact"
)

// TariffWeek draws a week of a tariff by half hours, with the band that each
// falls in, and says what the tariff leaves open and which rows never apply; see
// [figures.WeekOf], whose errors it returns.
func TariffWeek(rec *ledger.Records, q figures.TariffQuery, names Names) (Doc, error) {
	found, err := figures.WeekOf(rec, q)
	if err != nil {
		return Doc{}, err
	}
	w := tariffWeek{found, phrasingOf(&rec.Settings), names}
	d := Doc{Currency: w.say.currency, Show: w.say.show}
	d.Title = fmt.Sprintf("Tariff %s in the week of %s, %s", w.Name, w.say.day(w.Week.Date), d.Currency.Code())
	d.Words = w.words()
	d.Fields = []Field{
		{Key: "tariff", Node: TextOf(w.Name)},
		{Key: "date", Node: DateOf(w.Week.Date)},
		field("", "By half hours, 0:00 to 24:00", w.picture()),
		field("hours", "", w.hours()),
		field("bands", "The bands of this week", w.bands()),
		field("gaps", titleOf(len(w.Gaps), "No band covers, over all dates"), w.gapsTable()),
		field("unused", titleOf(len(w.Unused), "Rows that never hold, since others come first"), w.unusedTable()),
	}
	if w.IsHourly() {
		d.Fields = append(d.Fields[:2:2], append(w.dayFields(rec.Settings.Zone), d.Fields[2:]...)...)
	}
	d.Notes = w.notes()
	return d, nil
}

// tariffWeek is the week being laid out.
type tariffWeek struct {
	*figures.TariffWeek
	say   phrasing
	names Names
}

// titleOf heads a part for people, if there is something in it.
func titleOf(n int, title string) string { return titleIf(n != 0, title) }

// titleIf is a title of what people are shown in some cases alone.
func titleIf(shown bool, title string) string {
	if !shown {
		return ""
	}
	return title
}

// noBand stands for a time at which the first kWh of a month has no band.
const noBand = "!"

// bandMarks are the letters of bands, in file order.
const bandMarks = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz"

// mark is the letter of a band of the week.
func mark(band int) string {
	switch {
	case band < 0:
		return noBand
	case band < len(bandMarks):
		return bandMarks[band : band+1]
	}
	return "?"
}

// ruler marks every third hour over the 48 half hours of a day.
const ruler = "0_____3_____6_____9_____12____15____18____21____"

func (w tariffWeek) picture() *Table {
	t := &Table{Columns: []Column{{Title: "day"}, {Title: ruler}}}
	for _, d := range w.Week.Days {
		var b strings.Builder
		for _, c := range d.HalfHours() {
			if w.Unpriced(c.Band) {
				c.Band = -1
			}
			b.WriteString(mark(c.Band))
		}
		t.add(TextOf(w.day(d)), TextOf(b.String()))
	}
	return t
}

// day names a line: of several kinds of holidays with their weekdays.
func (w tariffWeek) day(d energy.DayLine) string {
	switch {
	case d.Days&energy.Holidays == 0:
		return d.Days.String()
	case len(w.Week.Days) == 8: // the seven days and one line more
		return energy.Holidays.String()
	}
	return energy.Holidays.String() + " " + (d.Days &^ energy.Holidays).String()
}

// hours lists what holds when, to the minute.
func (w tariffWeek) hours() *Table {
	t := &Table{Columns: []Column{
		{Key: "day", Title: "day"}, {Key: "start", Title: "start"}, {Key: "end", Title: "end"},
		{Key: "band", Title: "band"}, {Key: "price", Title: "price"},
	}}
	for _, d := range w.Week.Days {
		for _, s := range d.Stretches {
			band, price := None, None
			if len(s.Bands) > 0 {
				band, price = TextOf(mark(s.Bands[0])), flatPrice(w.Week.Bands[s.Bands[0]])
			}
			t.add(TextOf(w.day(d)), TextOf(s.Start.String()), TextOf(s.End.String()), band, price)
		}
	}
	return t
}

func (w tariffWeek) bands() *Table {
	t := &Table{Columns: append([]Column{{Key: "band", Title: "band"}}, bandColumns(3)...), Empty: "No band holds in this week."}
	for i, b := range w.Week.Bands {
		t.Rows = append(t.Rows, Row{Cells: append([]Value{TextOf(mark(i))}, append(bandCells(b), QuotientOf(w.Hours[i], 1))...)})
	}
	t.Columns = append(t.Columns, Column{Key: "hours", Title: "hours a week", Rank: 2})
	return t
}

// bandColumns are those of a band's row; rank is that of its place in the file.
func bandColumns(rank int) []Column {
	return []Column{
		{Key: "where", Title: "row", Rank: rank}, {Key: "from", Title: "from", Rank: 4},
		{Key: "months", Title: "months", Rank: 2}, {Key: "days", Title: "days", Rank: 1},
		{Key: "start", Title: "start", Rank: 1}, {Key: "end", Title: "end", Rank: 1},
		{Key: "above_kwh", Title: "above kWh", Rank: 1}, {Key: "rate", Title: "rate", Rank: 1},
		{Key: "tax", Title: "tax %", Rank: 1}, {Key: "price", Title: "price per kWh"},
	}
}

// bandCells are a band as its row has it, and what a kWh costs with tax.
func bandCells(b energy.Band) []Value {
	hours := b.Start%energy.DayEnd != b.End%energy.DayEnd // some of the day; 0:00 to 24:00 is all of it
	return []Value{
		where(ledger.TariffsFile, b.Line), DateOf(b.From), wordsOf(b.Months), wordsOf(b.Days), onlyIf(hours, wordsOf(b.Start)), onlyIf(hours, wordsOf(b.End)),
		onlyIf(b.Above.Sign() > 0, PlainOf(b.Above)), PlainOf(b.Rate), PlainOf(b.Tax), flatPrice(b),
	}
}

// flatPrice is what a kWh costs under a band with tax; none under an hourly one.
func flatPrice(b energy.Band) Value { return onlyIf(!b.Hourly, PlainOf(b.Price())) }

// wordsOf is a set or a time of day in words, or none where it is all.
func wordsOf(set fmt.Stringer) Value { return textOrNone(set.String()) }

func (w tariffWeek) gapsTable() *Table {
	t := &Table{Columns: []Column{
		{Key: "from", Title: "from"}, {Key: "before", Title: "before"}, {Key: "months", Title: "months"}, {Key: "days", Title: "days"},
		{Key: "start", Title: "start"}, {Key: "end", Title: "end"}, {Key: "up_to_kwh", Title: "up to kWh"},
	}}
	for _, g := range w.Gaps {
		t.add(DateOf(g.From), onlyIf(g.Until != exact.LastDate, DateOf(g.Until)), wordsOf(g.Months), wordsOf(g.Days), TextOf(g.Start.String()), TextOf(g.End.String()), optional(g.Above, PlainOf))
	}
	return t
}

func (w tariffWeek) unusedTable() *Table {
	t := &Table{Columns: bandColumns(0)}
	for _, b := range w.Unused {
		t.Rows = append(t.Rows, Row{Cells: bandCells(b)})
	}
	return t
}
