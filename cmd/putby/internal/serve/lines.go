package serve

import (
	"strings"
	"unicode"

	"putby/cmd/putby/internal/entry"
	"putby/cmd/putby/internal/page"
	"putby/ledger"
)

// lines are those of a field that hold anything.
func (f *filling) lines(name string) []string { return linesOf(f.text(name, "")) }

// linesOf are the lines of a text that hold anything.
func linesOf(text string) (list []string) {
	for line := range strings.Lines(text) {
		if line = strings.TrimSpace(line); line != "" {
			list = append(list, line)
		}
	}
	return list
}

// linesField asks for lines of words in which figures stand.
func (f *filling) linesField(name, label, help string, suggested ...string) page.Field {
	f.inWords = append(f.inWords, name)
	return f.thingsField(name, label, help, suggested...)
}

// thingsField asks for lines of things, whose names may be written as figures are:
// what they are read by knows.
func (f *filling) thingsField(name, label, help string, suggested ...string) page.Field {
	return page.Field{Kind: "lines", Name: name, Label: label, Help: help, Value: f.text(name, strings.Join(suggested, "\n"))}
}

// byNames writes suggested lines with the foods by their names, as far as these
// are plain words that can be read back.
func (f *filling) byNames(lines []string) []string {
	foods := f.Records.NamedFoods()
	list := make([]string, len(lines))
	for i, line := range lines {
		words := strings.Fields(line)
		for j, word := range words {
			if name := entry.NameFor(word, foods); !strings.ContainsFunc(name, func(r rune) bool { return !unicode.IsLetter(r) && r != ' ' && r != '-' }) {
				words[j] = name
			}
		}
		list[i] = strings.Join(words, " ")
	}
	return list
}

// textField asks for some words in which figures stand.
func (f *filling) textField(name, label, help, suggested string) page.Field {
	f.inWords = append(f.inWords, name)
	return page.Field{Kind: "text", Name: name, Label: label, Help: help, Value: f.text(name, suggested)}
}

// numberField asks for a number.
func (f *filling) numberField(name, label, help, suggested string) page.Field {
	field := f.textField(name, label, help, suggested)
	field.Kind = "number"
	return field
}

// switchField is a box to tick.
func (f *filling) switchField(name, label string) page.Field {
	return page.Field{Kind: "switch", Name: name, Label: label, Value: f.text(name, "")}
}

// column asks for a column of a kind under its own name.
func (f *filling) column(kind, column, suggested string) page.Field {
	k := ledger.MustKind(kind)
	field := f.field(k, k.Column(column), column, suggested)
	field.Need = false
	return field
}

// folded is a group that is shown when it is opened, and from the beginning where
// something was filled in there.
func folded(title string, fields ...page.Field) page.Group {
	g := page.Group{Title: title, Folded: true, Fields: fields}
	for _, field := range fields {
		g.Folded = g.Folded && field.Value == ""
	}
	return g
}
