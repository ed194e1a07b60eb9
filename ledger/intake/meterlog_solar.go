package intake

import (
	"slices"
	"strings"

	"putby/energy"
	"putby/ledger"
	"putby/pricing/exact"
)

// NoSolar is the [LogOptions.SolarColumn] of a log whose column of what came
// from the roof is not to be read.
const NoSolar = "none"

// A solarColumn is the column of what of a draw the household's own roof gave.
type solarColumn struct {
	column int // -1: there is none
	name   string
	places int // 0: power; else the whole draw is 10 to the power of so many, as values are read
	values valueParser
}

// What a share of the draw is read in: the nine places that values keep, and of percent
// two more.
const (
	sharePlaces   = 9
	percentPlaces = 11
)

// Words that headers use, in lower case.
var (
	logSolarWords   = []string{"roof", "pv", "sun", "dach", "sonne", "toit", "tejado", "tetto", "zon"}
	logSolarStems   = []string{"solar", "solaire", "photovolt", "fotovolt", "zonne"}
	logPercentWords = []string{"percent", "percentage", "pct", "prozent", "pourcent", "procent"}
	logShareWords   = []string{"share", "part", "fraction", "anteil", "quota", "aandeel", "andel"}
)

// isSolar reports whether a header speaks of the roof.
func isSolar(header string) bool {
	return slices.ContainsFunc(words(header), func(w string) bool {
		return slices.Contains(logSolarWords, w) || slices.ContainsFunc(logSolarStems, func(stem string) bool { return strings.HasPrefix(w, stem) })
	})
}

// findSolar finds the column of what came from the roof. A running total of it is
// none: where it counted on within the draw it does not say.
func (c *logColumns) findSolar(names []string, o LogOptions) string {
	c.solar.column = -1
	switch o.SolarColumn {
	case NoSolar:
		return ""
	case "":
		var found []int
		for i, name := range names {
			if i != c.time && i != c.date && name != o.ValueColumn && isSolar(name) && logUnitOf(name).Dimension() != exact.Energy {
				found = append(found, i)
			}
		}
		if len(found) == 0 {
			return ""
		}
		if len(found) > 1 {
			return "several columns could hold what came from the roof: " + list(names, found)
		}
		c.solar.column = found[0]
	default:
		c.solar.column = slices.Index(names, o.SolarColumn)
		if problem := missing(c.solar.column, o.SolarColumn); problem != "" {
			return problem
		}
	}
	c.solar.name = names[c.solar.column]
	if logUnitOf(c.solar.name).Dimension() == exact.Energy {
		return "the column " + exact.Quote(c.solar.name) + " is energy, and what came from the roof is read as power or as a share"
	}
	return ""
}

// setUnit takes the unit of what came from the roof from its header, else that
// of the draw.
func (s *solarColumn) setUnit(draw exact.Unit, comma bool) {
	s.values = valueParser{unit: draw, comma: comma}
	switch unit := logUnitOf(s.name); {
	case unit != exact.NoUnit:
		s.values.unit = unit
	case strings.Contains(s.name, "%") || hasWord(s.name, logPercentWords):
		s.places = percentPlaces
	case hasWord(s.name, logShareWords):
		s.places = sharePlaces
	}
}

// says names the column and what it is counted in.
func (s *solarColumn) says() string {
	switch s.places {
	case sharePlaces:
		return exact.Quote(s.name) + ", as a share from 0 to 1"
	case percentPlaces:
		return exact.Quote(s.name) + ", as percent"
	}
	return exact.Quote(s.name) + " in " + s.values.unit.String()
}

// hintSolar is the way out where what came from the roof cannot be read.
const hintSolar = "write what of this machine's own draw came from the roof, such as 350 or 40%; to read the log without it give its column as " + NoSolar

// read reads what of a draw, in nanowatts, came from the roof; a blank cell is
// none of it.
func (s *solarColumn) read(row []string, draw int64) (solar int64, problem string) {
	if s.column < 0 || s.column >= len(row) {
		return 0, ""
	}
	text, percent := strings.CutSuffix(strings.TrimSpace(row[s.column]), "%")
	if text == "" && !percent {
		return 0, ""
	}
	places, values := s.places, s.values // a copy, since % in a cell changes how that cell alone is read
	if percent {
		places = percentPlaces
	}
	if places > 0 {
		values.unit = exact.W // which keeps nine places
	}
	n, problem := values.parse(text)
	if problem != "" {
		return 0, strings.TrimSuffix(problem, " in W")
	}
	s.values.rounded = values.rounded
	if places > 0 {
		share := exact.New(n, places)
		if exact.Int(1).Less(share) {
			return 0, exact.Quote(strings.TrimSpace(row[s.column])) + " is more than the whole draw"
		}
		n, _ = share.Mul(exact.Int(draw)).Round(0, exact.HalfEven).Int64()
	}
	if n > draw {
		return 0, energy.ErrSolar.Error()
	}
	return n, ""
}

// solarFault refuses what came from the roof beside a running total.
func (c logColumns) solarFault() *ledger.Fault {
	if c.solar.column < 0 || !c.cumulative() {
		return nil
	}
	return &ledger.Fault{
		Line: 1, Column: 1, What: "what came from the roof, in " + exact.Quote(c.solar.name) + ", is read beside power, and " + exact.Quote(c.valueName) + " is a running total",
		Hint: "head a column with the power the machine drew, such as power (W), or read the log without what came from the roof: give its column as " + NoSolar,
	}
}
