package ask

import (
	"errors"
	"fmt"
	"slices"
	"strings"
)

// A Question is what is asked, what is offered and how an answer is read.
type Question struct {
	Key   string   // its name within the conversation, such as "line 2/price"
	What  string   // as a person sees it; "": the key
	Offer string   // what an empty answer takes, shown in brackets
	Help  string   // what "?" explains, in lines; may be empty
	Names []string // what Tab completes

	// Check reads an answer, or says why it cannot be. Blank is asked for by
	// "-", or where nothing is offered by an empty answer. A nil Check takes
	// every answer. With an error of [ErrUnlikely] it returns what it has read.
	Check func(answer string) (string, error)

	Dash  bool // "-" goes to Check as it is, and is no blank
	Free  bool // its answer is a name or prose, and not for [Talk.Heed]
	Aside bool // it is not among the answers that can be changed by number
}

// ErrUnlikely: an answer may be right, and is taken when it is typed again.
var ErrUnlikely = errors.New("type it again if it is meant")

// prompt is the question as it is shown.
func (q *Question) prompt(offer string) string {
	what := q.What
	if what == "" {
		what = q.Key
	}
	if offer != "" {
		what += " [" + offer + "]"
	}
	return what + ": "
}

// read reads an answer.
func (q *Question) read(raw string) (string, error) {
	switch {
	case raw == "":
		raw = q.Offer
	case raw == "-" && !q.Dash:
		raw = ""
	}
	if q.Check == nil {
		return raw, nil
	}
	return q.Check(raw)
}

// explain is what "?" tells of the question.
func (q *Question) explain(offer string) []string {
	var lines []string
	if q.Help != "" {
		lines = strings.Split(q.Help, "\n")
	}
	if offer != "" {
		lines = append(lines, fmt.Sprintf("Enter takes %s.", offer))
	}
	if n := len(q.Names); n > 0 && n <= mostNames {
		lines = append(lines, "One of: "+strings.Join(q.Names, ", ")+".")
	} else if n > 0 {
		lines = append(lines, fmt.Sprintf("There are %d names for it: begin one, and Tab completes it.", n))
	}
	if lines == nil {
		lines = []string{"Type an answer, and Enter."}
	}
	return append(lines, usual)
}

// usual is what works at every question.
const usual = "- leaves it blank, back goes one question back, Ctrl-C ends it and saves nothing."

// mostNames is how many names are listed at once.
const mostNames = 24

// OneOf reads a word of a list, or the beginning of just one.
func OneOf(words ...string) func(string) (string, error) {
	return func(answer string) (string, error) {
		if word, ok := Begun(answer, words); ok {
			return word, nil
		}
		return "", fmt.Errorf("one of: %s", strings.Join(words, ", "))
	}
}

// Begun finds the word of a list that an answer is, or begins alone.
func Begun(answer string, words []string) (string, bool) {
	if slices.Contains(words, answer) {
		return answer, true
	}
	var found []string
	for _, w := range words {
		if answer != "" && strings.HasPrefix(w, strings.ToLower(answer)) {
			found = append(found, w)
		}
	}
	if len(found) != 1 {
		return "", false
	}
	return found[0], true
}
