package intake

import (
	"slices"
	"strings"
)

// monthNames begin the names of the months in English, German, French,
// Spanish, Italian, Portuguese and Dutch. Slavic names are left out: listopad
// is October to some and November to others.
var monthNames = [12][]string{
	{"jan", "jän", "gen", "ene"},
	{"feb", "fév", "fev"},
	{"mar", "mär", "mrz", "maa", "mrt"},
	{"apr", "avr", "abr"},
	{"may", "mai", "mei", "mag", "maj"},
	{"jun", "juin", "giu"},
	{"jul", "juil", "lug"},
	{"aug", "aoû", "aou", "ago"},
	{"sep", "set"},
	{"oct", "okt", "ott", "out"},
	{"nov"},
	{"dec", "dez", "déc", "dic"},
}

// monthOf returns the month that a word in lower case names, 1 to 12, or 0.
func monthOf(word string) int {
	return 1 + slices.IndexFunc(monthNames[:], func(names []string) bool {
		return slices.ContainsFunc(names, func(name string) bool { return strings.HasPrefix(word, name) })
	})
}

// dateWords may stand in a date without telling anything: days of the week by
// their first letters, ordinals and prepositions.
var dateWords = []string{
	"mon", "tue", "wed", "thu", "fri", "sat", "sun", // English
	"mo", "di", "mi", "do", "fr", "sa", "so", // German
	"lun", "mer", "jeu", "ven", "sam", "dim", // French, Italian
	"gio", "sab", "dom", "mié", "jue", "vie", "lu", "ma", "me", "je", "ve", "zo", "za", "wo", "vr",
	"st", "nd", "rd", "th", "of", "de", "er", "le", "el", "den", "uhr", "at", "um", "à",
}

// idle reports whether a word in lower case may stand in a date.
func idle(word string) bool {
	return slices.ContainsFunc(dateWords, func(w string) bool {
		return word == w || len(w) > 1 && len(word) > 4 && strings.HasPrefix(word, w)
	})
}
