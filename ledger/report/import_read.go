package report

import (
	"cmp"
	"fmt"
	"slices"

	"putby/ledger"
	"putby/ledger/intake"
)

// mostPreviewed is how many rows a preview shows of each file of the ledger.
const mostPreviewed = 5

// ImportRead shows how a foreign file is read, and the first rows that it adds.
func ImportRead(p *intake.Plan) Doc {
	d := Doc{Words: []string{fmt.Sprintf("The file is %s; its header is in line %d.", p.Form, p.Header)}}
	t := &Table{Columns: []Column{
		{Key: "column", Title: "column"}, {Key: "from", Title: "from"}, {Key: "such_as", Title: "such as"}, {Key: "read_as", Title: "read as"},
	}}
	for _, f := range p.Fills {
		switch {
		case f.From == "":
			t.add(TextOf(f.Column), noneYet("always"), None, TextOf(cmp.Or(f.Reads, "nothing")))
		case f.Foreign == "":
			t.add(TextOf(f.Column), TextOf(f.From), noneYet("blank"), None)
		default:
			t.add(TextOf(f.Column), TextOf(f.From), TextOf(f.Foreign), TextOf(cmp.Or(f.Reads, "nothing")))
		}
	}
	for _, u := range p.Unread[:min(len(p.Unread), mostOfFile)] {
		t.add(noneYet("not read"), TextOf(cmp.Or(u.Header, "(no header)")), TextOf(u.Foreign), None)
	}
	if n := len(p.Unread) - mostOfFile; n > 0 {
		d.Notes = []string{counted(n, "more column") + " of the file not read."}
	}
	d.Fields = []Field{{Key: "columns", Title: "How it is read", Node: t}}
	for i := range p.Add {
		d.Fields = append(d.Fields, previewed(&p.Add[i]))
	}
	return d
}

// previewed are the first rows that a file of the ledger gets.
func previewed(f *intake.FileRows) Field {
	var rows []RecordRow
	held := map[string]bool{}
	for r := range f.Rows() {
		if len(rows) == mostPreviewed {
			break
		}
		cells := map[string]string{}
		for i, column := range f.Columns {
			cells[column] = r.Cells[i]
			held[column] = held[column] || r.Cells[i] != ""
		}
		rows = append(rows, RecordRow{r.Line, cells})
	}
	title := f.File + ", " + counted(f.Len(), "row")
	if f.Len() > mostPreviewed {
		title += fmt.Sprintf(", of them the first %d", mostPreviewed)
	}
	t := recordTable(ledger.MustKind(f.File), rows, func(c *ledger.Column) bool { return held[c.Name] })
	t.Columns[0].Title = "row" // of the foreign file
	return Field{Key: f.File, Title: title, Node: t}
}

// ImportNotes say what of a file is spending only, and what is left as the ledger has
// it.
func ImportNotes(p *intake.Plan, names Names) []string {
	const more = "  ... and %d more like these"
	return slices.Concat(firstOf(p.Unknown, len(p.Unknown), more, func(u intake.UnknownName) string {
		return fmt.Sprintf("  line %d: %q is nothing that the ledger knows, so it is spending only (%s); %s says what it is", u.Line, u.Name, counted(u.Rows, "row"), names.of("name"))
	}), firstOf(p.Differ, len(p.Differ), more, func(d intake.Differ) string {
		return fmt.Sprintf("  line %d: the ledger has it at %s:%d with another %s (%q, here %q): left as it is", d.Line, d.File, d.At, d.Column, d.Has, d.Gives)
	}))
}

// ImportSum says what an import comes to.
func ImportSum(p *intake.Plan, show Show) string {
	say := phrasing{show: show}
	return fmt.Sprintf("%s to add, %s there already, %s different, %s bad, %s left out by the map.",
		say.counted(p.Rows(), "row"), say.count(len(p.There)), say.count(len(p.Differ)), say.count(len(p.Bad)), say.count(p.Left))
}

// ImportWords say how a file is read, column by column, and what comes of it.
func ImportWords(p *intake.Plan, names Names, show Show) []string {
	words := []string{ImportSum(p, show)}
	for _, f := range p.Fills {
		switch {
		case f.From == "":
			words = append(words, fmt.Sprintf("%s: always %s", f.Column, cmp.Or(f.Reads, "nothing")))
		case f.Foreign == f.Reads:
			words = append(words, fmt.Sprintf("%s: from %s, such as %s", f.Column, f.From, f.Reads))
		case f.Reads != "":
			words = append(words, fmt.Sprintf("%s: from %s, where %s is read as %s", f.Column, f.From, f.Foreign, f.Reads))
		}
	}
	for _, u := range p.Unread {
		words = append(words, "Not read: "+cmp.Or(u.Header, "a column without a header"))
	}
	return append(words, ImportNotes(p, names)...)
}
