package entry

import (
	"cmp"
	"errors"
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"
	"time"

	"putby/energy"
	"putby/ledger"
	"putby/pricing/exact"
)

// TariffGrammar says how a tariff is written in words.
const TariffGrammar = `A tariff in words is prices of a kWh with commas between, each with when it holds:

  0.31
  days 0.24 from 6 to 22, nights 0.18
  weekdays 0.30 from 7:00 to 11:00, weekends 0.15, else 0.19
  nov-apr 0.28 from 5pm to 9pm, 0.21 above 300 kWh, rest 0.17, tax 5%

A price is in money or in cents (24 ct). It may hold from one hour to another, on
days (mon-fri, weekends, holidays), in months (nov-apr), above so much use of a
month, in any order of words; days, nights, peak, rest and the like are names for
people. The first that fits an hour counts, and the one without an hour, day or
month is the rest. Every hour of the year must have its price.`

// ParseTariff reads a tariff in words into bands: cells of tariffs.csv but for
// its name and date, in the order in which they are tried.
func ParseTariff(text string) ([]map[string]string, error) {
	var bands []map[string]string
	tax := ""
	for _, part := range tariffParts(text) {
		p, err := readTariffPart(part)
		switch {
		case err != nil:
			return nil, typed(text, err.Error())
		case p["rate"] == "" && len(p) == 1 && p["tax"] != "":
			tax = p["tax"]
		case p["rate"] == "":
			return nil, typed(text, quote(part)+" has no price: write one, such as 0.24")
		default:
			bands = append(bands, p)
		}
	}
	if len(bands) == 0 {
		return nil, typed(text, "write the price of a kWh, such as 0.31, or days 0.24 from 6 to 22, nights 0.18")
	}
	// A tax that stands alone is that of every band without one.
	for _, b := range bands {
		if b["tax"] == "" && tax != "" {
			b["tax"] = tax
		}
	}
	// Of the bands that match an instant the first counts, so the rest comes last.
	slices.SortStableFunc(bands, func(a, b map[string]string) int { return cmp.Compare(restRank(a), restRank(b)) })
	if err := tariffHolds(bands); err != nil {
		return nil, typed(text, err.Error())
	}
	return bands, nil
}

// restRank is 1 for what holds always, which comes last.
func restRank(b map[string]string) int {
	if b["start"] == "" && b["days"] == "" && b["months"] == "" && b["above_kwh"] == "" {
		return 1
	}
	return 0
}

// aComma is one that is no decimal comma.
var aComma = pattern(`,(\s|$)|;|\n`)

func tariffParts(text string) (parts []string) {
	for _, part := range aComma().Split(strings.ToLower(text), -1) {
		if part = strings.Join(strings.Fields(part), " "); part != "" {
			parts = append(parts, part)
		}
	}
	return parts
}

// A tariffPart is a price with when it holds, being read.
type tariffPart struct {
	words []string
	cells map[string]string
}

func readTariffPart(text string) (map[string]string, error) {
	p := &tariffPart{strings.Fields(text), map[string]string{}}
	for len(p.words) > 0 {
		if err := p.next(); err != nil {
			return nil, err
		}
	}
	return p.cells, nil
}

// take takes the next word.
func (p *tariffPart) take() string {
	if len(p.words) == 0 {
		return ""
	}
	word := p.words[0]
	p.words = p.words[1:]
	return word
}

// set fills in a cell, which nothing may have done before.
func (p *tariffPart) set(column, text string) error {
	if was, twice := p.cells[column]; twice && was != text {
		return fmt.Errorf("%s and %s stand in one part: put a comma between prices", quote(was), quote(text))
	}
	p.cells[column] = text
	return nil
}

// next reads what the next word begins.
func (p *tariffPart) next() error {
	word := p.take()
	days, isDays := dayWords(word)
	months, isMonths := monthWords(word)
	switch {
	case slices.Contains(tariffNames, strings.TrimSuffix(word, ":")):
		return nil
	case word == "from" || word == "between":
		return p.hours(p.take(), p.take(), p.take())
	case word == "above" || word == "over":
		return p.above(p.take())
	case word == "tax" || word == "vat":
		return p.tax(p.take())
	case strings.HasSuffix(word, "%"):
		return p.tax(word)
	case isDays:
		return p.set("days", days)
	case isMonths:
		return p.set("months", months)
	case word == "summer" || word == "winter":
		return fmt.Errorf("%s begins on other days everywhere: write its months, such as apr-sep", word)
	}
	if from, to, ok := strings.Cut(word, "-"); ok && from != "" { // 6-22
		if _, err := clockWord(from); err == nil {
			return p.hours(from, "to", to)
		}
	}
	return p.rate(word)
}

// tariffNames are words that people name prices by, and those between.
var tariffNames = []string{
	"day", "days", "night", "nights", "daytime", "evening", "evenings", "morning", "mornings", "peak", "off-peak", "offpeak", "mid-peak",
	"rest", "else", "otherwise", "other", "always", "flat", "standard", "cheap", "base", "high", "low", "all",
	"a", "per", "kwh", "/kwh", "at", "and", "on", "in", "the", "is", "are", "costs", "cost", "each", "plus", "+", "times", "hours", "with", "for",
}

// hours reads from when to when a price holds.
func (p *tariffPart) hours(from, to, until string) error {
	if to != "to" && to != "until" && to != "till" && to != "and" {
		return errors.New("write from when to when, such as from 6 to 22")
	}
	start, err := clockWord(from)
	if err != nil {
		return err
	}
	end, err := clockWord(until)
	if err != nil {
		return err
	}
	if len(p.words) > 0 && (p.words[0] == "h" || p.words[0] == "o'clock") {
		p.take()
	}
	if start == end {
		return fmt.Errorf("from %s to %s is no time: leave it out for the whole day", from, until)
	}
	if err := p.set("start", start); err != nil {
		return err
	}
	return p.set("end", end)
}

var clockForm = pattern(`^(\d{1,2})(?:[:.h](\d\d))?\s*(am|pm|h)?$`)

// clockWord reads 6, 6:30, 6.30, 6am, 9pm, noon or midnight.
func clockWord(word string) (string, error) {
	switch word {
	case "noon":
		word = "12"
	case "midnight":
		word = "0"
	}
	bad := fmt.Errorf("%s is no time of day: write 6, 6:30 or 9pm", quote(word))
	m := clockForm().FindStringSubmatch(word)
	if m == nil {
		return "", bad
	}
	hour, _ := strconv.Atoi(m[1])
	if half, ok := strings.CutSuffix(m[3], "m"); ok {
		if hour, ok = ofHalf(hour, half); !ok {
			return "", bad
		}
	}
	c, err := energy.ParseClock(fmt.Sprintf("%d:%s", hour, cmp.Or(m[2], "00")))
	if err != nil {
		return "", bad
	}
	return c.String(), nil
}

func (p *tariffPart) above(word string) error {
	n, err := exact.ParseNumber(Number(strings.TrimSuffix(word, "kwh")))
	if err != nil || n.Sign() <= 0 {
		return errors.New("write above how many kWh of the month, such as above 300 kWh")
	}
	return p.set("above_kwh", n.String())
}

func (p *tariffPart) tax(word string) error {
	if word == "%" || word == "" {
		return errors.New("write the tax behind its name, such as tax 5%")
	}
	n, err := exact.ParseNumber(Number(strings.TrimSuffix(word, "%")))
	if err != nil {
		return fmt.Errorf("%s is no tax: write tax 5%%", quote(word))
	}
	for len(p.words) > 0 && (p.words[0] == "%" || p.words[0] == "tax" || p.words[0] == "vat") {
		p.take()
	}
	return p.set("tax", n.String())
}

// cents are the names of hundredths.
var cents = []string{"ct", "cts", "cent", "cents", "c", "p", "pence", "¢"}

// rate reads a price of a kWh.
func (p *tariffPart) rate(word string) error {
	text := strings.TrimSuffix(strings.TrimSuffix(word, "/kwh"), "/")
	hundredths := false
	for _, name := range cents {
		if number, ok := strings.CutSuffix(text, name); ok && number != "" {
			text, hundredths = number, true
		}
	}
	if len(p.words) > 0 && slices.Contains(cents, strings.TrimSuffix(p.words[0], "/kwh")) {
		p.take()
		hundredths = true
	} else if len(p.words) > 0 && isCode(p.words[0]) {
		p.take()
	}
	n, err := exact.ParseNumber(sum(text))
	if err != nil {
		return fmt.Errorf("%s is neither a price, a day, a month nor a time", quote(word))
	}
	if hundredths {
		n = n.Mul(exact.New(1, 2))
	}
	return p.set("rate", n.String())
}

// isCode reports whether a word is the code of a currency.
func isCode(word string) bool {
	_, err := exact.ParseCurrency(strings.ToUpper(strings.TrimSuffix(word, "/kwh")))
	return err == nil
}

// dayWords reads days: weekdays, weekends, holidays, mon-fri, saturdays.
func dayWords(word string) (string, bool) {
	switch word {
	case "weekday", "weekdays":
		return "mon-fri", true
	case "weekend", "weekends":
		return "sat-sun", true
	case "holiday", "holidays", "hol":
		return "hol", true
	}
	return rangeOf(word, func(name string) (string, bool) {
		for d := time.Sunday; d <= time.Saturday; d++ {
			if full := strings.ToLower(d.String()); len(name) >= 3 && strings.HasPrefix(full+"s", name) {
				return full[:3], true
			}
		}
		return "", false
	})
}

// monthWords reads months: nov-apr, july.
func monthWords(word string) (string, bool) {
	return rangeOf(word, func(name string) (string, bool) {
		for m := time.January; m <= time.December; m++ {
			if full := strings.ToLower(m.String()); len(name) >= 3 && strings.HasPrefix(full, name) {
				return fmt.Sprint(int(m)), true
			}
		}
		return "", false
	})
}

// rangeOf reads one name, or two with a hyphen between.
func rangeOf(word string, read func(string) (string, bool)) (string, bool) {
	from, to, two := strings.Cut(word, "-")
	first, ok := read(from)
	if !ok || !two {
		return first, ok
	}
	last, ok := read(to)
	return first + "-" + last, ok
}

// tariffHolds says what is wrong with bands together: hours without a price, and
// prices without an hour.
func tariffHolds(bands []map[string]string) error {
	rows := make([]Row, len(bands))
	for i, b := range bands {
		rows[i] = Row{ledger.MustKind("tariff"), maps.Clone(b)}
		rows[i].Cells["tariff"] = "t"
	}
	// The check that a tariff gets once it is saved, by itself: any name and zone will do.
	rec, faults := withRows(&ledger.Records{Settings: ledger.Settings{Zone: time.UTC}}, rows)
	if len(faults) > 0 {
		return FaultText(&faults[0])
	}
	list := make([]energy.Band, len(bands))
	for i := range list {
		list[i] = rec.Tariffs[i].Band
		list[i].Line = i + 1
	}
	t, err := energy.NewTariff("t", time.UTC, list, nil)
	if err != nil {
		return err
	}
	check := t.Check()
	if len(check.Unused) > 0 {
		return fmt.Errorf("the price %v holds at no time, since others come first: say from when to when each of them holds", check.Unused[0].Rate)
	}
	if len(check.Gaps) > 0 {
		return fmt.Errorf("nothing is said of %s: add what a kWh costs then, or what the rest costs, such as rest 0.18", cmp.Or(check.Gaps[0].String(), "the rest"))
	}
	return nil
}
