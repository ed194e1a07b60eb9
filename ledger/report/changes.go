package report

import (
	"fmt"
	"strings"
	"time"
)

// A ChangeRow is one saved change.
type ChangeRow struct {
	Number  int
	Time    time.Time
	Kind    string
	Of      int // the change that was undone or redone; 0: none
	Command string
	Files   []ChangedFile
}

// A ChangedFile is what a change did to a file, in lines.
type ChangedFile struct {
	Name           string
	Removed, Added int
}

// Changes lists saved changes, oldest first.
func Changes(list []ChangeRow) Doc {
	t := &Table{Columns: []Column{
		{Key: "change", Title: "change"}, {Key: "time", Title: "time", Rank: 1}, {Key: "kind", Title: "kind", Rank: 3}, {Key: "of", Title: "of", Rank: 4},
		{Key: "command", Title: "command"}, {Key: "files", Title: "files: lines out, in", Rank: 5},
	}, Empty: "Nothing was changed by putby yet."}
	for _, c := range list {
		of := None
		if c.Of > 0 {
			of = CountOf(c.Of)
		}
		var files []string
		for _, f := range c.Files {
			files = append(files, fmt.Sprintf("%s -%d +%d", f.Name, f.Removed, f.Added))
		}
		t.Rows = append(t.Rows, Row{Cells: []Value{
			CountOf(c.Number), MomentOf(c.Time), TextOf(c.Kind), of, TextOf(c.Command), TextOf(strings.Join(files, ", ")),
		}})
	}
	return Doc{Title: "Changes", Fields: []Field{{Key: "changes", Title: "Changes", Node: t}}}
}
