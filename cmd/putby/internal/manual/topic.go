package manual

import (
	"embed"
	"strings"
)

// Each file of topics is a topic: what it is about in a line, a blank line, and
// its text.
//
//go:embed topics
var topics embed.FS

// Topics are the names of all topics, in the order in which they are read.
func Topics() []string {
	return []string{"recording", "decisions", "arithmetic", "electricity", "files", "imports", "saving", "cautions"}
}

// Topic is the page of a topic, and whether there is one of that name.
func Topic(name string) (Page, bool) {
	text, err := topics.ReadFile("topics/" + name + ".txt")
	if err != nil {
		return Page{}, false
	}
	short, body, _ := strings.Cut(string(text), "\n")
	return Page{Topic: true, Name: "putby " + name, Short: short, Text: body, See: []string{"putby"}}, true
}
