package intake

import (
	"slices"
	"strings"
	"unicode"

	"putby/ledger"
	"putby/pricing/exact"
)

// logColumns are the columns of a log that are read.
type logColumns struct {
	date, time, value   int // date: -1 where the time column has it
	timeName, valueName string
	unit                exact.Unit
	solar               solarColumn // of what came from the roof
	unread              []string    // running totals beside the power
}

// cumulative reports whether the values are a running total.
func (c logColumns) cumulative() bool { return c.unit.Dimension() == exact.Energy }

// width is how many cells a row needs.
func (c logColumns) width() int { return max(c.date, c.time, c.value) + 1 }

// moment returns the text of a row's time.
func (c logColumns) moment(row []string) string {
	if c.date < 0 {
		return row[c.time]
	}
	return row[c.date] + " " + row[c.time]
}

// Words that headers use, in lower case.
var (
	logDateWords = []string{"date", "datum", "fecha", "data", "dato"}
	logTimeWords = []string{"time", "timestamp", "datetime", "epoch", "unix", "unixtime", "ts", "zeit", "zeitstempel", "uhrzeit", "heure", "horodatage", "hora", "ora", "tijd", "tid"}
	logUnitWords = map[string]exact.Unit{
		"w": exact.W, "watt": exact.W, "watts": exact.W, "kw": exact.KW, "kilowatt": exact.KW, "kilowatts": exact.KW,
		"wh": exact.Wh, "kwh": exact.KWh,
	}
)

// words splits a header cell into lower-case words.
func words(header string) []string {
	return strings.FieldsFunc(strings.ToLower(header), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
}

func hasWord(header string, among []string) bool {
	return slices.ContainsFunc(words(header), func(w string) bool { return slices.Contains(among, w) })
}

// logUnitOf returns the unit that a header names, or none.
func logUnitOf(header string) exact.Unit {
	for _, w := range words(header) {
		if u, ok := logUnitWords[w]; ok {
			return u
		}
	}
	return exact.NoUnit
}

// findColumns finds the columns by the header and the options.
func findColumns(header []string, o LogOptions) (logColumns, *ledger.Fault) {
	names := make([]string, len(header))
	for i, h := range header {
		names[i] = clean(strings.ToValidUTF8(h, "?"))
	}
	c := logColumns{date: -1}
	if problem := c.findTime(names, o); problem != "" {
		return c, &ledger.Fault{Line: 1, Column: 1, What: problem, Hint: "head the column of times with time, or name it"}
	}
	if problem := c.findSolar(names, o); problem != "" {
		return c, &ledger.Fault{Line: 1, Column: 1, What: problem, Hint: "name the column, in W, kW or percent; none reads the log without it"}
	}
	// The value last: of two columns of power one may be that of the roof.
	if problem := c.findValue(names, o); problem != "" {
		return c, &ledger.Fault{Line: 1, Column: 1, What: problem, Hint: "head the column with its unit, such as power (W) or energy (kWh), or name it"}
	}
	c.timeName, c.valueName = names[c.time], names[c.value]
	if c.date >= 0 {
		c.timeName = names[c.date] + " " + c.timeName
	}
	return c, c.solarFault()
}

func (c *logColumns) findTime(names []string, o LogOptions) string {
	if o.TimeColumn != "" {
		c.time = slices.Index(names, o.TimeColumn)
		return missing(c.time, o.TimeColumn)
	}
	var dates, times []int
	for i, name := range names {
		switch {
		case hasWord(name, logTimeWords):
			times = append(times, i)
		case hasWord(name, logDateWords):
			dates = append(dates, i)
		}
	}
	switch {
	case len(times) == 1 && len(dates) == 1 && !hasWord(names[times[0]], logDateWords): // else it has both
		c.date, c.time = dates[0], times[0]
	case len(times) == 1:
		c.time = times[0]
	case len(times) == 0 && len(dates) == 1:
		c.time = dates[0]
	case len(times) == 0:
		return "no column is headed as one of times"
	default:
		return "several columns could hold the time: " + list(names, times)
	}
	return ""
}

func (c *logColumns) findValue(names []string, o LogOptions) string {
	if o.ValueColumn != "" {
		c.value = slices.Index(names, o.ValueColumn)
		if problem := missing(c.value, o.ValueColumn); problem != "" {
			return problem
		}
		return c.setUnit(names[c.value], o)
	}
	var powers, totals, others []int
	for i, name := range names {
		if i == c.solar.column {
			continue
		}
		switch logUnitOf(name).Dimension() {
		case exact.Power:
			powers = append(powers, i)
		case exact.Energy:
			totals = append(totals, i)
		default:
			if i != c.time && i != c.date {
				others = append(others, i)
			}
		}
	}
	switch {
	case len(powers) == 1:
		c.value = powers[0]
		for _, i := range totals {
			c.unread = append(c.unread, names[i])
		}
	case len(powers) > 1:
		return "several columns could hold the power: " + list(names, powers)
	case len(totals) == 1:
		c.value = totals[0]
	case len(totals) > 1:
		return "several columns could hold the running total: " + list(names, totals)
	case len(others) == 1:
		c.value = others[0]
	default:
		return "no column is headed with W, kW, Wh or kWh"
	}
	return c.setUnit(names[c.value], o)
}

// setUnit takes the unit from the options, else from the header.
func (c *logColumns) setUnit(name string, o LogOptions) string {
	if c.unit = o.Unit; c.unit == exact.NoUnit {
		c.unit = logUnitOf(name)
	}
	if _, ok := valueScales[c.unit]; !ok {
		return "the unit of the column " + exact.Quote(name) + " is not known to be W, kW, Wh or kWh"
	}
	return ""
}

func missing(index int, name string) string {
	if index < 0 {
		return "there is no column " + exact.Quote(name)
	}
	return ""
}

func list(names []string, which []int) string {
	quoted := make([]string, len(which))
	for i, w := range which {
		quoted[i] = exact.Quote(names[w])
	}
	return strings.Join(quoted, ", ")
}
