package report

import (
	"fmt"
	"strings"
	"time"

	"putby/pricing/exact"
)

// A ChangeRow is one saved change.
type ChangeRow struct {
	Number  int       // from 1, in order of time
	Time    time.Time // when it was saved, in the zone that people are shown
	Kind    string
	Of      int // the change that was undone or redone; 0: none
	Command string
	Files   []ChangedFile
	Damaged string // the file with its record, where that cannot be read
}

// A ChangedFile is what a change did to a file, in lines.
type ChangedFile struct {
	Name           string
	Removed, Added []string
}

// kind is what a change was: of one that a command made, what it did to records.
func (c *ChangeRow) kind() Value {
	var removed, added int
	for _, f := range c.Files {
		removed, added = removed+len(f.Removed), added+len(f.Added)
	}
	switch {
	case c.Of > 0 || c.Kind != "edit" || removed+added == 0:
		return TextOf(c.Kind)
	case added == 0:
		return nameValue(c.Kind, "remove")
	case removed == 0:
		return nameValue(c.Kind, "add")
	}
	return TextOf(c.Kind)
}

// Changes lists saved changes, oldest first.
func Changes(list []ChangeRow, show Show) Doc {
	t := &Table{Columns: []Column{
		{Key: "change", Title: "change"}, {Key: "time", Title: "time", Rank: 1}, {Key: "kind", Title: "kind", Rank: 3}, {Key: "of", Title: "of", Rank: 4},
		{Key: "command", Title: "command"}, {Key: "files", Title: "files: lines out, in", Rank: 5},
	}}
	var words []string
	for _, c := range list {
		files := worded(c.Files, func(f ChangedFile) string { return fmt.Sprintf("%s -%d +%d", f.Name, len(f.Removed), len(f.Added)) })
		if c.Damaged != "" {
			t.add(CountOf(c.Number), None, TextOf(c.Kind), None, TextOf("(its record is damaged)"), None)
			words = append(words, fmt.Sprintf("The record of change %d is damaged, so it cannot be undone unless %s comes back from a backup. What it saved is not touched by that.", c.Number, c.Damaged))
			continue
		}
		t.add(CountOf(c.Number), MomentOf(c.Time), c.kind(), onlyIf(c.Of > 0, CountOf(c.Of)), TextOf(c.Command), TextOf(strings.Join(files, ", ")))
	}
	answer := "Putby has changed nothing yet."
	if n := len(list); n > 0 {
		say := phrasing{show: show}
		answer = say.counted(n, "change")
		if all := list[n-1].Number; all > n { // numbers count from 1, so the last is how many there are
			answer = fmt.Sprintf("The last %s of %s", say.count(n), say.counted(all, "change"))
		}
		if list[n-1].Damaged == "" {
			answer += fmt.Sprintf("; the last, of %s: %s", MomentOf(list[n-1].Time).Shown(exact.Currency{}, show), list[n-1].Command)
		}
		answer += "."
	}
	return Doc{Title: "Changes", Show: show, Words: append([]string{answer}, words...), Fields: []Field{{Key: "changes", Title: "Changes", Node: t}}}
}

// Change shows one saved change, line by line.
func Change(c ChangeRow) Doc {
	t := &Table{Columns: []Column{{Key: "file", Title: "file"}, {Key: "way", Title: "way"}, {Key: "line", Title: "line"}}, Empty: "It changed no line."}
	for _, f := range c.Files {
		for _, side := range []struct {
			way   string
			lines []string
		}{{"out", f.Removed}, {"in", f.Added}} {
			for _, line := range side.lines {
				t.add(TextOf(f.Name), TextOf(side.way), TextOf(line))
			}
		}
	}
	o := Object{{Key: "change", Title: "change", Node: CountOf(c.Number)}, {Key: "time", Title: "time", Node: MomentOf(c.Time)},
		{Key: "kind", Title: "kind", Node: TextOf(c.Kind)}}
	if c.Of > 0 {
		o = append(o, Field{Key: "of", Title: "of", Node: CountOf(c.Of)})
	}
	o = append(o, Field{Key: "command", Title: "command", Node: TextOf(c.Command)})
	return Doc{Title: fmt.Sprintf("Change %d", c.Number), Fields: []Field{{Key: "lines", Title: "Lines", Node: t}, {Key: "change", Title: "The change", Node: o}}}
}
