package main

import (
	"os"
	"regexp"
	"strings"
	"testing"
)

// A week's records take few words: what the script week.txtar types is counted.
func TestWeek(t *testing.T) {
	text, err := os.ReadFile("testdata/script/week.txtar")
	if err != nil {
		t.Fatal(err)
	}
	_, week, begun := strings.Cut(string(text), "# the week\n")
	week, _, over := strings.Cut(week, "# the week is over\n")
	if !begun || !over {
		t.Fatal("the script does not say where the week begins and ends")
	}
	var commands, words int
	for line := range strings.Lines(week) {
		if typed, ok := strings.CutPrefix(line, "exec putby "); ok {
			commands++
			words += len(regexp.MustCompile(`--[a-z]|'[^']*'`).FindAllString(typed, -1))
		}
	}
	const mostCommands, mostWords = 10, 25
	if commands > mostCommands || words > mostWords {
		t.Errorf("a week takes %d commands and %d flags or quoted words; %d and %d are the most", commands, words, mostCommands, mostWords)
	}
	for what, n := range map[string]int{"receipt add": 2, "batch add": 1, "start": 2, "finish": 2, "pack add": 2, "take": 1} {
		if got := strings.Count(week, "exec putby "+what); got != n {
			t.Errorf("%s stands %d times in the week, not %d", what, got, n)
		}
	}
}
