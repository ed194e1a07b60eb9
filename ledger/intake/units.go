package intake

import (
	"fmt"
	"strings"
	"sync"
	"time"
	"unicode"
	"unicode/utf8"

	"putby/pricing/exact"
)

// unitWords are the ways in which shops write units, in lower case without
// dots; the units' own names are known besides.
var unitWords = map[string]exact.Unit{
	"ml": exact.ML, "milliliter": exact.ML, "millilitre": exact.ML, "milliliters": exact.ML, "millilitres": exact.ML,
	"cl": exact.CL, "dl": exact.DL, "l": exact.L, "lt": exact.L, "ltr": exact.L, "liter": exact.L, "litre": exact.L,
	"liters": exact.L, "litres": exact.L, "litro": exact.L, "litros": exact.L, "litri": exact.L,
	"cc": exact.CC, "fl oz": exact.FlOz, "floz": exact.FlOz, "cup": exact.Cup, "cups": exact.Cup,
	"pt": exact.Pt, "pint": exact.Pt, "pints": exact.Pt, "qt": exact.Qt, "quart": exact.Qt, "quarts": exact.Qt,
	"gal": exact.Gal, "gallon": exact.Gal, "gallons": exact.Gal,
	"g": exact.G, "gr": exact.G, "gm": exact.G, "gram": exact.G, "grams": exact.G, "gramm": exact.G, "grammes": exact.G,
	"kg": exact.Kg, "kgs": exact.Kg, "kilo": exact.Kg, "kilos": exact.Kg, "kilogram": exact.Kg, "kilograms": exact.Kg,
	"kilogramm": exact.Kg, "oz": exact.Oz, "ounce": exact.Oz, "ounces": exact.Oz,
	"lb": exact.Lb, "lbs": exact.Lb, "pound": exact.Lb, "pounds": exact.Lb,
	"ea": exact.Ea, "each": exact.Ea, "pc": exact.Ea, "pcs": exact.Ea, "piece": exact.Ea, "pieces": exact.Ea,
	"ct": exact.Ea, "count": exact.Ea, "unit": exact.Ea, "units": exact.Ea, "stk": exact.Ea, "stück": exact.Ea,
	"st": exact.Ea, "pz": exact.Ea, "ud": exact.Ea, "uds": exact.Ea, "stuks": exact.Ea,
	"doz": exact.Doz, "dz": exact.Doz, "dozen": exact.Doz,
	"wh": exact.Wh, "kwh": exact.KWh, "w": exact.W, "watt": exact.W, "watts": exact.W, "kw": exact.KW,
}

// UnitWord finds a unit by the name that records use, or by a word that people or
// shops write for it, such as lbs or litres, whose capitals do not count.
func UnitWord(word string) (exact.Unit, bool) {
	word = strings.Trim(strings.ReplaceAll(word, ".", " "), " ")
	if u, ok := unitNames()[word]; ok {
		return u, true
	}
	u, ok := unitWords[strings.Join(strings.Fields(strings.ToLower(word)), " ")]
	return u, ok
}

// SpanWord finds a unit of time by a word for it, such as min or hours.
func SpanWord(word string) (time.Duration, bool) {
	d, ok := spanWords[strings.ToLower(strings.Trim(word, ". "))]
	return d, ok
}

// unitNames are the units by the names that records use, case and all.
var unitNames = sync.OnceValue(func() map[string]exact.Unit {
	names := map[string]exact.Unit{}
	for d := exact.Volume; d <= exact.Power; d++ {
		for _, u := range exact.Units(d) {
			names[u.String()] = u
		}
	}
	return names
})

// spanWords are the ways of writing units of time, in lower case without dots.
var spanWords = map[string]time.Duration{
	"d": 24 * time.Hour, "day": 24 * time.Hour, "days": 24 * time.Hour, "tag": 24 * time.Hour, "tage": 24 * time.Hour,
	"h": time.Hour, "hr": time.Hour, "hrs": time.Hour, "hour": time.Hour, "hours": time.Hour,
	"std": time.Hour, "stunden": time.Hour, "stunde": time.Hour, "heures": time.Hour, "horas": time.Hour, "ore": time.Hour,
	"m": time.Minute, "min": time.Minute, "mins": time.Minute, "minute": time.Minute, "minutes": time.Minute,
	"minuten": time.Minute, "minutos": time.Minute, "minuti": time.Minute,
	"s": time.Second, "sec": time.Second, "secs": time.Second, "second": time.Second, "seconds": time.Second,
	"sek": time.Second,
}

// A measured number is a number with the unit written behind it, or before it
// as bookkeepers do not.
type measured struct{ number, unit string }

// cutUnit parts the number in front from the word behind it.
func cutUnit(s string) measured {
	s = strings.TrimSpace(strings.Map(plainRune, s))
	at := strings.LastIndexAny(s, "0123456789")
	if at < 0 {
		return measured{"", s}
	}
	return measured{strings.TrimSpace(s[:at+1]), strings.TrimSpace(s[at+1:])}
}

// readAmount reads an amount such as "500 g", "0,5 l" or "6 x 330 ml" into a
// quantity as records write it. A number alone is of the unit bare; NoUnit
// leaves it without one.
func readAmount(s string, number func(string) (string, error), bare exact.Unit) (string, error) {
	times, each, found := cutTimes(s)
	if !found {
		each = s
	}
	m := cutUnit(each)
	unit := bare
	if m.unit != "" {
		u, ok := UnitWord(m.unit)
		if !ok {
			return "", fmt.Errorf("%s has the unit %s, which is not known", exact.Quote(s), exact.Quote(m.unit))
		}
		unit = u
	}
	text, err := number(m.number)
	if err != nil {
		return "", err
	}
	if found {
		if text, err = multiply(times, text, number); err != nil {
			return "", err
		}
	}
	if unit == exact.NoUnit {
		return text, nil
	}
	return text + " " + unit.String(), nil
}

// cutTimes parts "6 x 330 ml" at the sign between its numbers.
func cutTimes(s string) (times, each string, found bool) {
	for i, r := range s {
		if r != 'x' && r != 'X' && r != '×' && r != '*' {
			continue
		}
		// Only between digits: in "Mix 500 g" it is a letter.
		before, after := strings.TrimSpace(s[:i]), strings.TrimSpace(s[i+utf8.RuneLen(r):])
		if before != "" && after != "" && isDigit(before[len(before)-1]) && isDigit(after[0]) {
			return before, after, true
		}
	}
	return "", "", false
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }

// multiply multiplies a number that is still to be read by one that was.
func multiply(times, text string, number func(string) (string, error)) (string, error) {
	n, err := number(times)
	if err != nil {
		return "", err
	}
	a, _ := exact.ParseNumber(n) // number gives none that records could not have
	b, _ := exact.ParseNumber(text)
	product := a.Mul(b).String()
	_, err = exact.ParseNumber(product) // which may be too long for them
	return product, err
}

// mentions finds the amounts that a text such as "Oat drink, 6x1 l" mentions:
// numbers with a unit of volume, mass or count behind them.
func mentions(s string) []string {
	var found []string
	s = strings.Map(plainRune, s)
	for i := 0; i < len(s); i++ {
		if !isDigit(s[i]) || i > 0 && !strings.ContainsRune(" (,;/-", rune(s[i-1])) {
			continue
		}
		if end := endOfAmount(s, i); end > 0 {
			found = append(found, s[i:end])
			i = end - 1
		}
	}
	return found
}

// withoutAmount takes the one amount that a text mentions out of it; without
// one, or with several, nothing is left.
func withoutAmount(s string) string {
	found := mentions(s)
	if len(found) != 1 {
		return ""
	}
	return strings.TrimSpace(strings.Replace(strings.Map(plainRune, s), found[0], "", 1))
}

// endOfAmount returns where an amount that begins at i ends, 0 if none does.
func endOfAmount(s string, i int) int {
	end := i
	for end < len(s) && (isDigit(s[end]) || strings.ContainsRune(".,", rune(s[end]))) {
		end++
	}
	// "6 x 330 ml" ends where the amount behind its sign does.
	if times, _, found := cutTimes(s[i:min(len(s), end+16)]); found && len(strings.TrimSpace(s[i:end])) == len(times) {
		next := end + strings.IndexFunc(s[end:], func(r rune) bool { return r >= '0' && r <= '9' })
		return endOfAmount(s, next)
	}
	from := end
	for from < len(s) && s[from] == ' ' {
		from++
	}
	for _, words := range []int{2, 1} { // "fl oz" has two
		to := from
		for range words {
			to += len(s[to:]) - len(strings.TrimLeft(s[to:], " "))
			to += len(s[to:]) - len(strings.TrimLeftFunc(s[to:], func(r rune) bool { return unicode.IsLetter(r) || r == '.' }))
		}
		word := strings.TrimRight(s[from:to], " ")
		if u, ok := UnitWord(word); ok && u.Dimension() <= exact.Count { // volume, mass or count
			return from + len(word)
		}
	}
	return 0
}

// readEnergy reads kWh; a number alone is of the unit bare.
func readEnergy(s string, number func(string) (string, error), bare exact.Unit) (string, error) {
	text, err := readAmount(s, number, bare)
	if err != nil {
		return "", err
	}
	q, err := exact.ParseQuantity(text)
	if err != nil {
		return "", err
	}
	q, err = q.In(exact.KWh)
	if err != nil {
		return "", fmt.Errorf("%s is no energy", exact.Quote(s))
	}
	if plain, ok := strings.CutSuffix(text, " kWh"); ok { // every digit as it is written
		return plain, nil
	}
	return recordNumber(q.Number())
}

// readSpan reads a length of time: as records write it, "38 h", "1 d 4 h 30
// min", or a number alone in the unit bare (0: none is taken).
func readSpan(s string, number func(string) (string, error), bare time.Duration) (string, error) {
	s = strings.TrimSpace(s)
	if d, err := exact.ParseDuration(strings.ReplaceAll(strings.ToLower(s), " ", "")); err == nil {
		return exact.FormatDuration(d), nil
	}
	total, rest := exact.Int(0), s
	for rest != "" {
		at := strings.IndexFunc(rest, unicode.IsLetter)
		if at < 0 {
			at = len(rest)
		}
		end := at + len(rest[at:]) - len(strings.TrimLeftFunc(rest[at:], unicode.IsLetter))
		text, err := number(rest[:at])
		if err != nil {
			return "", err
		}
		unit, word := bare, strings.ToLower(rest[at:end])
		if word != "" {
			unit = spanWords[word]
		}
		if unit == 0 {
			return "", fmt.Errorf("%s does not say in what unit of time it is", exact.Quote(s))
		}
		n, _ := exact.ParseNumber(text)
		total = total.Add(n.Mul(exact.Int(int64(unit / time.Second))))
		rest = strings.TrimLeft(rest[end:], "., ")
	}
	return formatSpan(s, total)
}

// formatSpan writes seconds, rounded to whole ones, as records do.
func formatSpan(s string, seconds exact.Number) (string, error) {
	n, _ := seconds.Round(0, exact.HalfAway).Int64()
	if n < 0 || exact.Int(int64(exact.MaxDuration/time.Second)).Less(seconds) {
		return "", fmt.Errorf("%s is no length of time from 0 to 31 days", exact.Quote(s))
	}
	return exact.FormatDuration(time.Duration(n) * time.Second), nil
}
