package report

import (
	"fmt"
	"strings"

	"putby/pricing/exact"
)

// words say what the check found, and when the prices are from.
func (w tariffWeek) words() []string {
	var found []string
	switch {
	case w.Open:
		found = append(found, "Some hours of this week have no price: "+noBand+" marks them.")
	case w.IsHourly():
		found = w.hourlyWords()
	case len(w.Gaps) > 0:
		found = append(found, "Every hour of this week has a price; some hours of others have none.")
	default:
		found = append(found, "Every hour has a price.")
	}
	if n := len(w.Unused); n > 0 {
		found = append(found, sentenceCase(counted(n, "row"))+verb(n, " never holds.", " never hold."))
	}
	return []string{strings.Join(append(found, w.since()...), " ")}
}

// since says which prices are drawn, and when others follow.
func (w tariffWeek) since() (words []string) {
	if w.From != exact.NoDate {
		words = append(words, fmt.Sprintf("These prices hold from %s on.", w.say.day(w.From)))
	}
	if w.Next != exact.LastDate {
		words = append(words, fmt.Sprintf("Others follow on %s.", w.say.day(w.Next)))
	}
	return words
}

func (w tariffWeek) notes() (notes []string) {
	if w.First != exact.NoDate {
		notes = append(notes, fmt.Sprintf("Nothing has a price before %s.", w.say.day(w.First)))
	}
	if len(w.Gaps) > 0 {
		notes = append(notes, "A gap is a fault only for a run that meets it; a band without months, days, start and end holds always.")
	}
	if w.Mixed {
		notes = append(notes, "A band that begins within a half hour is drawn from the next one on.")
	}
	if w.Shared {
		notes = append(notes, "Where blocks share an hour, the letter is that of the lowest: the month's use decides, the household's own first.")
	}
	if w.Months != 0 {
		notes = append(notes, fmt.Sprintf("Other weeks look different in the months %v (%s).", w.Months, w.names.of("date")))
	}
	if len(w.Others) > 0 {
		notes = append(notes, "Other tariffs: "+strings.Join(w.Others, ", ")+".")
	}
	return notes
}
