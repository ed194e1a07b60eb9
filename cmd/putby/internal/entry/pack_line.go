package entry

import (
	"slices"
	"strings"
)

// A packLine is like containers as a person says them; what was left out is "".
type packLine struct {
	text  string
	food  string // as it was typed
	count string
	each  string
	dry   string
	with  string
}

// nothing stands behind with where a container takes no supplies.
const nothing = "nothing"

// times is a number of containers that is written against what each makes: 6x1L.
var times = pattern(`\b(\d+)[x×](\d)`)

// parsePackLine reads "6", "6 x 1 L", "chives 2 x 90 g", "2 x 90 g chives dry
// 14 g", "apples 7" or "apples 7 with 1 jar-1l, 1 lid". The error is [ErrTyped].
func parsePackLine(text string) (packLine, error) {
	l := packLine{text: strings.Join(strings.Fields(text), " ")}
	// What has a word before it is taken out first, from the end: then the rest may stand in any order.
	words := strings.Fields(strings.ReplaceAll(times().ReplaceAllString(text, "$1 x $2"), "×", "x"))
	if at := slices.Index(words, "with"); at > 0 && at+1 < len(words) && (isFigure(words[at+1]) || words[at+1] == nothing) {
		l.with, words = strings.Join(words[at+1:], " "), words[:at]
	}
	if at := slices.Index(words, "dry"); at > 0 {
		rest, dry := takeAmount(words[at+1:])
		if l.dry = dry; dry == "" || isNumber(dry) {
			return l, typed(text, "a weight must stand after dry, such as dry 84 g")
		}
		words = append(slices.Clone(words[:at]), rest...)
	}
	var food []string
	for len(words) > 0 {
		rest, err := l.take(words)
		if err != nil {
			return l, err
		}
		if len(rest) == len(words) {
			food, rest = append(food, words[0]), words[1:]
		}
		words = rest
	}
	l.food = strings.Join(withoutContainer(food), " ")
	return l, nil
}

// take reads a count or an amount off the front of words, if there is one.
func (l *packLine) take(words []string) (rest []string, err error) {
	if count, behind, ok := cutTimes(words); ok {
		each := ""
		if rest, each = takeAmount(behind); each == "" || isNumber(each) {
			return rest, typed(l.text, "how much each makes must stand after x, such as 2 x 90 g")
		}
		return rest, l.set(count, each)
	}
	rest, amount := takeAmount(words)
	switch {
	case amount == "":
		return words, nil
	case isNumber(amount):
		return rest, l.set(amount, "")
	}
	return rest, l.set("", amount)
}

// cutTimes cuts a number of containers off that stands before an x.
func cutTimes(words []string) (count string, rest []string, ok bool) {
	if len(words) > 1 && words[1] == "x" {
		return Number(words[0]), words[2:], isNumber(Number(words[0]))
	}
	n, found := strings.CutSuffix(words[0], "x")
	return Number(n), words[1:], found && isNumber(Number(n))
}

// set notes how many there are and how much each makes, once.
func (l *packLine) set(count, each string) error {
	if count != "" && l.count != "" || each != "" && l.each != "" {
		return typed(l.text, "write how many and how much each makes once, such as chives 2 x 90 g")
	}
	if count != "" {
		l.count = count
	}
	if each != "" {
		l.each = each
	}
	return nil
}

// PackLines joins the words of a command line that were typed without quotes: in
// chives 2 x 90 g apples 7 there are two lines.
func PackLines(words []string) []string {
	foodFirst := len(words) > 0 && !isFigure(words[0])
	return joinWords(words, func(last, i int) bool {
		figure, before := isFigure(words[i]), isFigure(words[i-1])
		inside := words[i] == "dry" || words[i-1] == "dry" || words[i] == "x" || words[i-1] == "x" || isUnit(words[i]) && before
		if foodFirst {
			return !inside && !figure && slices.ContainsFunc(words[last:i], isFigure)
		}
		return !inside && figure && !before && !isUnit(words[i-1])
	})
}

// isFigure reports whether a word is a number or an amount, and no name.
func isFigure(word string) bool { return isNumber(Number(word)) || isAmount(word) }
