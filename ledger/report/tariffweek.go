package report

import (
	"fmt"
	"slices"
	"strings"

	"putby/energy"
	"putby/ledger"
	"putby/ledger/figures"
	"putby/pricing/exact"
)

// A TariffQuery asks for the week of a tariff.
type TariffQuery struct {
	Name string     // empty: the settings' tariff, else the only one
	Date exact.Date // whose prices and season are drawn
}

// TariffWeek draws a week of a tariff by half hours, with the band that each
// falls in, and says what the tariff leaves open or says in vain. It needs only
// the settings, bands and holidays to be without fault, since a gap that a run
// meets is a fault of its own. The error is a [*QueryError], or an
// [*figures.UnknownError].
func TariffWeek(rec *ledger.Records, q TariffQuery) (Doc, error) {
	name, err := q.tariff(rec)
	if err != nil {
		return Doc{}, err
	}
	t, err := rec.BuildTariff(name)
	if err != nil {
		return Doc{}, &figures.UnknownError{What: "tariff", Name: name}
	}
	w := newTariffWeek(t, q.Date)
	s := &rec.Settings
	d := Doc{Currency: s.Currency, Show: s.Show()}
	d.Title = fmt.Sprintf("Tariff %s in the week of %v, %s", name, q.Date, s.Currency.Code())
	d.Words = w.words()
	d.Fields = []Field{
		{Key: "tariff", Node: TextOf(name)},
		{Key: "date", Node: DateOf(q.Date)},
		field("", "By half hours, 0:00 to 24:00", w.picture()),
		field("hours", "", w.hours()),
		field("bands", "The bands of this week", w.bands()),
		field("gaps", titleOf(len(w.gaps), "No band covers, over all dates"), w.gapsTable()),
		field("unused", titleOf(len(w.unused), "Rows that never hold, since others come first"), w.unusedTable()),
	}
	d.Notes = w.notes(rec)
	return d, nil
}

// tariff is the one asked for.
func (q TariffQuery) tariff(rec *ledger.Records) (string, error) {
	names := rec.TariffNames()
	switch {
	case q.Name != "":
		return q.Name, nil
	case rec.Settings.Tariff != "":
		return rec.Settings.Tariff, nil
	case len(names) == 1:
		return names[0], nil
	case len(names) == 0:
		return "", &figures.UnknownError{What: "tariff", Name: ""}
	}
	return "", &QueryError{"tariff", "there are several, and " + ledger.SettingsFile + " names none", "name one: " + strings.Join(names, ", ")}
}

// tariffWeek is the report in the making.
type tariffWeek struct {
	tariff *energy.Tariff
	week   energy.Week
	first  exact.Date   // of the tariff; NoDate: it has always held
	gaps   []energy.Gap // but for the time before the first date
	unused []energy.Band
}

func newTariffWeek(t *energy.Tariff, date exact.Date) *tariffWeek {
	check := t.Check()
	w := &tariffWeek{tariff: t, week: t.Week(date), first: exact.LastDate, gaps: check.Gaps, unused: check.Unused}
	for _, b := range t.Bands() {
		w.first = min(w.first, b.From)
	}
	w.gaps = slices.DeleteFunc(w.gaps, func(g energy.Gap) bool { return g.From == exact.NoDate && g.Until == w.first })
	return w
}

// titleOf heads a part for people, if there is something in it.
func titleOf(n int, title string) string {
	if n == 0 {
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

func (w *tariffWeek) picture() *Table {
	t := &Table{Columns: []Column{{Title: "day"}, {Title: ruler}}}
	for _, d := range w.week.Days {
		var b strings.Builder
		for _, c := range d.HalfHours() {
			if w.unpriced(c.Band) {
				c.Band = -1
			}
			b.WriteString(mark(c.Band))
		}
		t.Rows = append(t.Rows, Row{Cells: []Value{TextOf(w.day(d)), TextOf(b.String())}})
	}
	return t
}

// day names a line: of several kinds of holidays with their weekdays.
func (w *tariffWeek) day(d energy.DayLine) string {
	switch {
	case d.Days&energy.Holidays == 0:
		return d.Days.String()
	case len(w.week.Days) == 8: // the seven days and one line more
		return energy.Holidays.String()
	}
	return energy.Holidays.String() + " " + (d.Days &^ energy.Holidays).String()
}

// hours lists what holds when, to the minute.
func (w *tariffWeek) hours() *Table {
	t := &Table{Columns: []Column{
		{Key: "day", Title: "day"}, {Key: "start", Title: "start"}, {Key: "end", Title: "end"},
		{Key: "band", Title: "band"}, {Key: "price", Title: "price"},
	}}
	for _, d := range w.week.Days {
		for _, s := range d.Stretches {
			band, price := None, None
			if len(s.Bands) > 0 {
				band, price = TextOf(mark(s.Bands[0])), PlainOf(w.week.Bands[s.Bands[0]].Price())
			}
			t.Rows = append(t.Rows, Row{Cells: []Value{
				TextOf(w.day(d)), TextOf(s.Start.String()), TextOf(s.End.String()), band, price,
			}})
		}
	}
	return t
}

func (w *tariffWeek) bands() *Table {
	t := &Table{Columns: append([]Column{{Key: "band", Title: "band"}}, bandColumns(3)...), Empty: "No band holds in this week."}
	minutes := w.minutes()
	for i, b := range w.week.Bands {
		hours := exact.Int(int64(minutes[i])).Over(exact.Int(60))
		t.Rows = append(t.Rows, Row{Cells: append([]Value{TextOf(mark(i))}, append(bandCells(b), QuotientOf(hours, 1))...)})
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
	start, end, above := None, None, None
	if b.Above.Sign() > 0 {
		above = PlainOf(b.Above)
	}
	if b.Start%energy.DayEnd != b.End%energy.DayEnd {
		start, end = TextOf(b.Start.String()), TextOf(b.End.String())
	}
	return []Value{
		where(ledger.TariffsFile, b.Line), DateOf(b.From), wordsOf(b.Months), wordsOf(b.Days), start, end,
		above, PlainOf(b.Rate), PlainOf(b.Tax), PlainOf(b.Price()),
	}
}

// wordsOf is a set in words, or none where it is all.
func wordsOf(set fmt.Stringer) Value {
	if s := set.String(); s != "" {
		return TextOf(s)
	}
	return None
}

// minutes is how long each band holds in a week without holidays.
func (w *tariffWeek) minutes() []int {
	sums := make([]int, len(w.week.Bands))
	for _, d := range w.week.Days {
		if d.Days&energy.Holidays != 0 {
			continue
		}
		for _, s := range d.Stretches {
			for _, b := range s.Bands {
				sums[b] += int(s.End - s.Start)
			}
		}
	}
	return sums
}

func (w *tariffWeek) gapsTable() *Table {
	t := &Table{Columns: []Column{
		{Key: "from", Title: "from"}, {Key: "before", Title: "before"}, {Key: "months", Title: "months"}, {Key: "days", Title: "days"},
		{Key: "start", Title: "start"}, {Key: "end", Title: "end"}, {Key: "up_to_kwh", Title: "up to kWh"},
	}}
	for _, g := range w.gaps {
		before, upTo := None, None
		if g.Until != exact.LastDate {
			before = DateOf(g.Until)
		}
		if above, ok := g.Above.Get(); ok {
			upTo = PlainOf(above)
		}
		t.Rows = append(t.Rows, Row{Cells: []Value{
			DateOf(g.From), before, wordsOf(g.Months), wordsOf(g.Days), TextOf(g.Start.String()), TextOf(g.End.String()), upTo,
		}})
	}
	return t
}

func (w *tariffWeek) unusedTable() *Table {
	t := &Table{Columns: bandColumns(0)}
	for _, b := range w.unused {
		t.Rows = append(t.Rows, Row{Cells: bandCells(b)})
	}
	return t
}

// unpriced reports whether the first kWh of a month has no price, where a band
// of the week is the lowest that holds; -1 is none.
func (w *tariffWeek) unpriced(band int) bool { return band < 0 || w.week.Bands[band].Above.Sign() > 0 }

// open reports whether an hour of the week drawn has no price.
func (w *tariffWeek) open() bool {
	return w.some(func(s energy.Stretch) bool { return len(s.Bands) == 0 || w.unpriced(s.Bands[0]) })
}

// some reports whether a stretch of the week is so.
func (w *tariffWeek) some(is func(energy.Stretch) bool) bool {
	return slices.ContainsFunc(w.week.Days, func(d energy.DayLine) bool { return slices.ContainsFunc(d.Stretches, is) })
}
