package intake

import (
	"slices"
	"strconv"
	"strings"

	"putby/ledger"
	"putby/pricing/exact"
)

// This file finds the header of a file of prices and what its columns are: by what all
// cells beneath may be read as, and only where several are alike by the words above them,
// so that no names need be known.

// hourColumns are the columns of a file of prices, -1 where there is none.
type hourColumns struct {
	header int // place of the header row
	names  []string

	time  int   // the time at which a price begins, or from when until when
	end   int   // when it ends
	date  int   // of a clock time, of the number of an hour, or of hours that are columns
	clock int   // time of day, beside date
	label int   // number of an hour or quarter-hour, beside date
	price int   // -1 too where the columns are hours
	hours []int // columns that are hours

	timeName, priceName string
}

// Words in headers, in lower case.
var (
	hourWords  = []string{"hour", "hours", "h", "he", "std", "stunde", "stunden", "heure", "heures", "hora", "horas", "ora", "ore", "uur", "time", "zeit", "period", "periode", "interval", "intervall", "quarter", "viertelstunde", "mtu", "no", "nr", "number", "pos", "position", "product", "produkt"}
	endWords   = []string{"end", "ends", "ende", "to", "until", "till", "bis", "fin", "fine", "hasta", "finish", "stop"}
	startWords = []string{"start", "starts", "begin", "from", "von", "ab", "inicio", "inizio", "début", "debut", "desde", "beginn"}
	priceWords = []string{"price", "prices", "preis", "preise", "prix", "precio", "prezzo", "prijs", "pris", "cena", "rate", "marketprice", "spotprice", "spot", "strompreis"}
)

// mostTitles is how many rows may stand above the header.
const mostTitles = 25

// findColumns finds the header, and by it and by what stands beneath it the
// columns.
func (h *hourly) findColumns() error {
	var first error
	for i := range min(len(h.all), mostTitles) {
		err := h.tryHeader(i)
		if err == nil {
			h.takeRows()
			if len(h.rows) == 0 {
				return &ledger.Fault{Kind: ErrFormat, What: "no row has a price"}
			}
			return nil
		}
		// The fault told is that of the row likeliest to be the header: one with times beneath it.
		if first == nil || h.columns.found() {
			first = err
		}
	}
	return first
}

// found reports whether a row that is no header has at least times beneath it.
func (c *hourColumns) found() bool { return c.time >= 0 || c.date >= 0 }

// tryHeader takes a row for the header.
func (h *hourly) tryHeader(at int) error {
	c := &h.columns
	*c = hourColumns{header: at, time: -1, end: -1, date: -1, clock: -1, label: -1, price: -1}
	for _, cell := range h.all[at].Cells {
		c.names = append(c.names, clean(strings.TrimSpace(cell)))
	}
	if !slices.ContainsFunc(c.names, func(s string) bool { return hourKindOf(s, false)&(isTime|isDay|isNumber) == 0 && s != "" }) {
		return &ledger.Fault{Kind: ErrHeader, Line: h.all[at].Line, What: "the columns have no names", Hint: "begin the file with a row such as time,price (EUR/MWh)"}
	}
	kinds := h.kindsBeneath(at)
	c.takeHours(kinds)
	c.takeTimes(kinds)
	switch {
	case c.time < 0 && (c.date < 0 || c.clock < 0 && c.label < 0 && len(c.hours) == 0):
		return &ledger.Fault{
			Kind: ErrHeader, Line: h.all[at].Line, What: "no column says when a price begins",
			Hint: "it takes a column of times, or one of dates beside one of clock times or of hours numbered from 1",
		}
	case len(c.hours) > 0:
		c.timeName = c.name(c.date)
		c.priceName = c.names[c.hours[0]]
		return nil
	}
	c.timeName = c.name(max(c.time, c.date))
	return h.findPrice(kinds)
}

func (c *hourColumns) name(at int) string {
	if at < 0 || at >= len(c.names) {
		return ""
	}
	return c.names[at]
}

// takeHours finds columns that are the hours of a day: 23 at least, since a file of the
// day on which the clocks go forward may have no more.
func (c *hourColumns) takeHours(kinds []hourKind) {
	for i, name := range c.names {
		if _, ok := readLabel(name); ok && i < len(kinds) && kinds[i]&(isNumber|isNothing) != 0 {
			c.hours = append(c.hours, i)
		}
	}
	if len(c.hours) < 23 {
		c.hours = nil
	}
}

// takeTimes finds the columns that say when.
func (c *hourColumns) takeTimes(kinds []hourKind) {
	best := -1 // how plainly a column of times is the one
	for i, kind := range kinds {
		name := c.name(i)
		switch {
		case slices.Contains(c.hours, i):
		case kind&isTime != 0 && hasWord(name, endWords) && !hasWord(name, startWords):
			c.end = i
		case kind&isTime != 0:
			plain := 0
			if hasWord(name, startWords) {
				plain = 1
			}
			if hasWord(name, []string{"utc", "gmt"}) || kind&isEpoch != 0 {
				plain = 2 // a change of the clocks says no hour of it twice
			}
			if plain > best {
				c.time, best = i, plain
			}
		case kind&isDay != 0 && c.date < 0:
			c.date = i
		case kind&isClock != 0 && c.clock < 0 && (!hasWord(name, endWords) || hasWord(name, startWords)):
			c.clock = i
		case kind&isLabel != 0 && hasWord(name, hourWords) && c.label < 0:
			c.label = i
		}
	}
	// What tells most counts alone: a date with its time, a clock time, the number of an hour.
	if c.time >= 0 || c.clock >= 0 {
		c.label, c.hours = -1, nil
	}
	if c.time >= 0 {
		c.date, c.clock = -1, -1
	}
}

// findPrice finds the column of prices.
func (h *hourly) findPrice(kinds []hourKind) error {
	c := &h.columns
	var plain, others []int
	for i, kind := range kinds {
		name := c.name(i)
		switch {
		case kind&isNumber == 0 || i == c.time || i == c.end || i == c.date || i == c.clock || i == c.label:
		case h.o.Column != "" && strings.EqualFold(name, strings.TrimSpace(h.o.Column)):
			c.price, c.priceName = i, name
			return nil
		case hasWord(name, priceWords) || hasWord(name, []string{"mwh", "kwh"}):
			plain = append(plain, i)
		case kind&(isTime|isDay) == 0:
			others = append(others, i)
		}
	}
	// Columns that speak of no price count only where none does.
	if len(plain) == 0 {
		plain = others
	}
	all := "its columns of numbers are: " + list(c.names, append(slices.Clone(plain), others...))
	switch {
	case h.o.Column != "":
		return &ledger.Fault{Kind: ErrHeader, Line: h.all[c.header].Line, What: "no column of numbers is headed " + exact.Quote(h.o.Column), Hint: all}
	case len(plain) == 0:
		return &ledger.Fault{Kind: ErrHeader, Line: h.all[c.header].Line, What: "no column has the prices", Hint: "head it with its unit, such as price (EUR/MWh)"}
	case len(plain) > 1:
		return &ledger.Fault{Kind: ErrHeader, Line: h.all[c.header].Line, What: "several columns could have the prices: " + list(c.names, plain), Choice: ledger.PriceColumn, Hint: exact.Quote(c.names[plain[0]])}
	}
	c.price, c.priceName = plain[0], c.name(plain[0])
	return nil
}

// takeRows takes the rows beneath the header that have a price.
func (h *hourly) takeRows() {
	c := &h.columns
	for _, r := range h.all[c.header+1:] {
		if len(c.hours) == 0 {
			h.takeRow(hourRow{line: r.Line, cells: r.Cells, label: cellAt(r.Cells, c.label), price: cellAt(r.Cells, c.price)})
			continue
		}
		for _, at := range c.hours {
			h.takeRow(hourRow{line: r.Line, cells: r.Cells, label: c.names[at], price: cellAt(r.Cells, at)})
		}
	}
	for _, bad := range h.bad {
		h.fail(bad.Line, bad.Field, bad.Hint, "%s", bad.What)
	}
}

func (h *hourly) takeRow(r hourRow) {
	if isNoPrice(r.price) {
		h.p.Blank++
		return
	}
	h.rows = append(h.rows, r)
}

// hourKind says what the cells of a column may be, as bits.
type hourKind uint8

const (
	isTime    hourKind = 1 << iota // a date and a time of day, from when until when, or since 1970
	isEpoch                        // of these, since 1970
	isDay                          // a date alone
	isClock                        // a time of day, or from one to another
	isLabel                        // the number of an hour
	isNumber                       // a price
	isNothing                      // no cell has anything
)

// mostLooked is how many rows tell what a column is.
const mostLooked = 400

// kindsBeneath says what all cells of each column beneath a row may be.
func (h *hourly) kindsBeneath(at int) []hourKind {
	kinds := make([]hourKind, len(h.columns.names))
	for i := range kinds {
		all, any := ^hourKind(0)&^isNothing, false
		for _, row := range h.all[at+1 : min(len(h.all), at+1+mostLooked)] {
			text := cellAt(row.Cells, i)
			if isNoPrice(text) {
				continue
			}
			all, any = all&hourKindOf(text, h.form.Workbook), true
		}
		if kinds[i] = all; !any {
			kinds[i] = isNothing
		}
	}
	return kinds
}

// hourKindOf says what a cell may be.
func hourKindOf(text string, workbook bool) (kind hourKind) {
	if _, ok := epochTime(text); ok {
		kind |= isTime | isEpoch
	}
	if _, ok := readLabel(text); ok {
		kind |= isLabel
	}
	_, noPoint := readNumber(text, Point)
	_, noComma := readNumber(text, Comma)
	n, asStored := stored(text)
	if noPoint == nil || noComma == nil || asStored {
		kind |= isNumber
	}
	if asStored && workbook && exact.Int(20_000).Less(n) && n.Less(exact.Int(100_000)) { // days since 1900, from 1954 to 2173
		kind |= isTime | isDay
	}
	from, _, _ := cutInterval(text)
	from, _ = cutZone(from)
	if w, err := takeApart(from); err == nil {
		if w.clock.given {
			kind |= isTime
		} else {
			kind |= isDay
		}
	} else if _, ok := readClock(from); ok {
		kind |= isClock
	}
	return kind
}

// label is the number of an hour of a day, from 0 or 1 on, and of two that have
// one number which.
type label struct {
	n      int // 0 to 100 as it is written; from 1 on once [hourly.readNumbered] knows how the file counts
	second bool
	marked bool // by a letter
}

// readLabel reads the number of an hour, in a cell or at the head of a column: 7, 07, 3a, 3B,
// H07 or Hour 7.
func readLabel(text string) (l label, ok bool) {
	s := strings.ToLower(strings.TrimSpace(text))
	for _, word := range []string{"hour", "stunde", "std.", "std", "he", "h"} {
		if rest, cut := strings.CutPrefix(s, word); cut {
			s = strings.TrimSpace(rest)
			break
		}
	}
	if rest, cut := strings.CutSuffix(s, "a"); cut {
		s, l.marked = strings.TrimSpace(rest), true
	} else if rest, cut := strings.CutSuffix(s, "b"); cut {
		s, l.marked, l.second = strings.TrimSpace(rest), true, true
	}
	if s == "" || len(s) > 3 || strings.Trim(s, "0123456789") != "" {
		return l, false
	}
	l.n = int(mustInt(s))
	return l, l.n <= 100 // the quarter-hours of a day of 25 hours
}

// String is the number as [readLabel] reads it.
func (l label) String() string {
	s := strconv.Itoa(l.n)
	switch {
	case l.marked && l.second:
		return s + "b"
	case l.marked:
		return s + "a"
	}
	return s
}
