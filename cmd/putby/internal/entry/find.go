package entry

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"putby/ledger"
	"putby/ledger/advice"
	"putby/ledger/folder"
	"putby/ledger/report"
)

// A Record is a record as its file has it.
type Record struct {
	Line  int // at which it begins
	At    int // its position among those of its kind
	Cells map[string]string
}

// RecordsOf are the records of a kind, of which rows are all.
func RecordsOf(rows []folder.Row) []Record {
	list := make([]Record, len(rows))
	for i, r := range rows {
		list[i] = Record{r.Line, i, r.Cells}
	}
	return list
}

// RecordsNamed finds the records that one word tells: by their identifier, by IDENTIFIER:PART
// where two columns identify them (a receipt's line, a run's phase), or by @LINE of
// their file, which works for every kind. An identifier alone tells all of its parts: a
// whole receipt.
func RecordsNamed(k ledger.Kind, list []Record, text string) (found []Record, err error) {
	if line, ok := strings.CutPrefix(text, "@"); ok {
		n, err := strconv.Atoi(line)
		if err != nil || n < 2 { // line 1 is the header
			return nil, &ledger.Fault{Kind: ErrTyped, What: fmt.Sprintf("%q is not @LINE, a line of the file from 2 on", text), Hint: seeHelp}
		}
		if at := slices.IndexFunc(list, func(r Record) bool { return r.Line == n }); at >= 0 {
			return list[at : at+1], nil
		}
		return nil, noSuch(k, text, "")
	}
	parts := strings.SplitN(text, ":", 2)
	if len(parts) > len(k.Key) {
		return nil, &ledger.Fault{Kind: ErrTyped, What: fmt.Sprintf("a %s has no name: it is told by @LINE of %s", k.Name, k.File), Hint: "see the lines", Do: []advice.Doing{advice.Do(advice.List(k.Name))}}
	}
	var names []string
	for _, r := range list {
		names = append(names, r.Cells[k.Key[0]])
		own := make([]string, len(parts))
		for i := range parts {
			own[i] = strings.TrimSpace(r.Cells[k.Key[i]])
		}
		if slices.Equal(own, parts) {
			found = append(found, r)
		}
	}
	if found != nil {
		return found, nil
	}
	near := ledger.Nearest(parts[0], names)
	if near == parts[0] {
		near = "" // it is the part that there is not
	}
	return nil, noSuch(k, text, near)
}

// noSuch says that there is no record of a name, and which may be meant.
func noSuch(k ledger.Kind, name, near string) error {
	return notListed(fmt.Sprintf("%s has no %s %s", k.File, k.Name, name), near, advice.List(k.Name))
}

// find finds the records: those that one word tells by what names them, or else those
// that all words tell.
func (r *RecordRef) find(book *folder.Book, b *Base) (found []Record, named bool, err error) {
	rows, err := book.Rows(r.Kind)
	if err != nil {
		return nil, false, err
	}
	list := RecordsOf(rows)
	if len(r.Words) == 1 {
		found, err = RecordsNamed(r.Kind, list, r.Words[0])
		if err == nil || strings.HasPrefix(r.Words[0], "@") {
			return found, true, err
		}
	}
	found, saved := FindRecords(b.Records, b.At, r.Kind, list, r.Words, func(lines []int) []int { return book.SavedLast(r.Kind, lines) })
	switch {
	case saved != nil:
		return nil, false, r.twoLast(b, *saved, found[0])
	case found == nil && err == nil:
		err = noSuch(r.Kind, "of "+quote(strings.Join(r.Words, " ")), "")
	case found != nil:
		err = nil
	}
	return found, false, err
}

// oneReceipt reports whether records are lines of one receipt.
func oneReceipt(k ledger.Kind, found []Record) bool {
	return k.Name == "receipt" && len(headsOf(found)) == 1
}

// An AmbiguousError says that several records are meant, and by what each is told.
type AmbiguousError struct {
	*RecordRef
	What    string
	Choices []Choice
	More    int // besides them
}

// A Choice is one of them, in words, with the shortest name that tells it.
type Choice struct{ What, Name string }

// Error says what is not clear.
func (e *AmbiguousError) Error() string { return e.What }

// mostChoices is how many are told.
const mostChoices = 6

// ambiguous lists the records that are left, the last first. Of several receipts
// it lists each once. Say tells a record in words.
func (r *RecordRef) ambiguous(left []Record, say func(Record) string) *AmbiguousError {
	many, whole := r.Kind.Name+"s", false
	if r.Kind.Name == "receipt" {
		heads := headsOf(left)
		if len(heads) > 1 {
			left = heads
		}
		if whole = len(heads) == len(left); !whole {
			many = "lines of it"
		}
	}
	e := &AmbiguousError{RecordRef: r, What: fmt.Sprintf("%d %s may be meant; say which:", len(left), many)}
	e.More = max(0, len(left)-mostChoices)
	for _, o := range slices.Backward(left[e.More:]) {
		e.Choices = append(e.Choices, Choice{say(o), NameOf(r.Kind, o, whole)})
	}
	return e
}

// twoLast lists the record that was saved last and that of the latest day.
func (r *RecordRef) twoLast(b *Base, saved, latest Record) error {
	whole, say := r.Kind.Name == "receipt", r.say(b)
	if whole {
		say = func(o Record) string { return labelOf(b.At, r.Kind, o) }
	}
	return &AmbiguousError{RecordRef: r, What: "2 " + r.Kind.Name + "s may be meant by last; say which:", Choices: []Choice{
		{"saved last: " + say(saved), NameOf(r.Kind, saved, whole)},
		{"of the latest day: " + say(latest), NameOf(r.Kind, latest, whole)},
	}}
}

// say tells records in words, or by their cells where the ledger has faults.
func (r *RecordRef) say(b *Base) func(Record) string {
	g, _ := b.Ledger()
	return func(o Record) string {
		if g != nil {
			if said := report.OneLine(g, report.Written{Kind: r.Kind.Name, At: o.At}); said != "" {
				return said
			}
		}
		var cells []string
		for _, c := range r.Kind.Header() {
			if o.Cells[c] != "" {
				cells = append(cells, c+" "+o.Cells[c])
			}
		}
		return strings.Join(cells, "; ")
	}
}

// labelOf names a record, of a receipt the whole, with its day where it has one.
func labelOf(at Moment, k ledger.Kind, o Record) string {
	words := k.Name + " " + NameOf(k, o, k.Name == "receipt")
	if date := o.Cells["date"]; date != "" {
		words += " of " + cellText(at.Locale, k.Column("date"), date)
	}
	return words
}

// headsOf are the first lines of receipts.
func headsOf(list []Record) (heads []Record) {
	seen := map[string]bool{}
	for _, r := range list {
		if id := r.Cells["receipt"]; !seen[id] {
			seen[id] = true
			heads = append(heads, r)
		}
	}
	return heads
}

// NameOf is the shortest name that tells a record: its identifier, with its part
// where it has one, or the line of its file.
func NameOf(k ledger.Kind, r Record, whole bool) string {
	var parts []string
	for i, column := range k.Key {
		part := strings.TrimSpace(r.Cells[column])
		if part == "" || whole && i > 0 {
			break
		}
		parts = append(parts, part)
	}
	if len(parts) == 0 || len(parts) < len(k.Key) && !whole {
		return fmt.Sprintf("@%d", r.Line)
	}
	return strings.Join(parts, ":")
}
