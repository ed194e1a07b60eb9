package main

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"

	"putby/cmd/putby/internal/entry"
	"putby/ledger"
	"putby/pricing/exact"
)

// A blankError names all that an add lacks.
type blankError struct {
	kind    ledger.Kind
	columns []string
}

// Error lists the flags that would give it.
func (e *blankError) Error() string {
	flags := make([]string, len(e.columns))
	for i, c := range e.columns {
		flags[i] = "--" + flagName(c)
	}
	return "a " + e.kind.Name + " needs " + strings.Join(flags, ", ")
}

// A form is a record being filled in.
type form struct {
	kind   ledger.Kind
	rec    *ledger.Records
	at     entry.Moment
	cells  map[string]string
	offers map[string]string // besides what the ledger suggests
	asked  bool              // whether a person was asked
	taken  string            // what was taken from the ledger without asking
}

func (a *app) newForm(k ledger.Kind, rec *ledger.Records, given map[string]string) *form {
	f := &form{kind: k, rec: rec, at: a.at(rec), cells: maps.Clone(given)}
	for column, text := range f.cells {
		f.cells[column] = entry.Typed(rec, k.Name, column, dated(k, f.at, column, text))
	}
	return f
}

// stranger is an error about a name that was given and that the ledger does not
// have: what hangs on it cannot be known, and is not worth asking for.
func (f *form) stranger() error {
	for _, c := range f.kind.Columns {
		near, unknown := entry.Unknown(f.rec, f.kind.Name, c.Name, f.cells[c.Name])
		if unknown && entry.Refers(f.kind.Name, c.Name) {
			return notFoundError{fmt.Sprintf("--%s: no %s is called %s", flagName(c.Name), whatOf(f.kind, c.Name), exact.Quote(f.cells[c.Name])),
				cmp.Or(near, "putby "+listOf(c.Name)+" list shows what there is")}
		}
	}
	return nil
}

// whatOf says in words what a column names.
func whatOf(k ledger.Kind, column string) string {
	switch {
	case column == "item" && (k.Name == "draw" || k.Name == "count"):
		return "food or supply"
	case column == "item":
		return "food"
	case column == "receipt":
		return "receipt or batch"
	}
	return column
}

// listOf is the kind of record whose list shows what a column may name.
func listOf(column string) string {
	if _, ok := ledger.KindOf(column); ok {
		return column
	}
	return "food"
}

// dated writes the words of a cell that holds a date, or a date and time, as
// the ledger has them. The start of a tariff's band is a time of day alone.
func dated(k ledger.Kind, at entry.Moment, column, text string) string {
	if k.Name != "tariff" && slices.Contains(entry.DateColumns, column) {
		return at.Dated(text)
	}
	return text
}

// offer is what is likely to be in a column, and where that is from.
func (f *form) offer(column string) (text, why string) {
	o, why := entry.Suggest(f.kind, f.rec, f.cells, f.at)
	if text, ok := f.offers[column]; ok {
		return text, ""
	}
	return o[column], why
}

// lacking are the columns that may not be blank, that nobody gave and that
// cannot be known.
func (f *form) lacking() []string {
	known := maps.Clone(f.cells)
	sure := &form{kind: f.kind, rec: f.rec, at: f.at, cells: known, offers: f.offers}
	sure.takeSure()
	var list []string
	for _, c := range f.kind.Columns {
		if c.Need && known[c.Name] == "" {
			list = append(list, c.Name)
		}
	}
	return list
}

// takeSure fills in what needs nobody's leave.
func (f *form) takeSure() {
	var words []string
	from := ""
	for _, column := range columnsAsked(f.kind) {
		if _, ok := f.cells[column]; ok || !entry.Sure(f.kind, f.rec, f.cells, column) {
			continue
		}
		text, why := f.offer(column)
		if text == "" {
			continue
		}
		f.cells[column] = text
		if why != "" && (column == "each" || column == "with") {
			words, from = append(words, column+" "+text), why
		}
	}
	if words != nil {
		f.taken = "Taken " + from + ": " + strings.Join(words, "; ") + "."
	}
}

// columnsAsked are the columns that are asked for, and all others that may not
// be blank.
func columnsAsked(k ledger.Kind) []string {
	columns := slices.Clone(entry.Asked(k))
	for _, c := range k.Columns {
		if c.Need && !slices.Contains(columns, c.Name) {
			columns = append(columns, c.Name)
		}
	}
	return columns
}

// complete fills in what a form lacks. Where it lacks what cannot be known, a
// person is asked for that and for what else makes the record worth having;
// where nobody can be asked, all that is lacking is named at once.
func (a *app) complete(f *form) error {
	if err := f.stranger(); err != nil {
		return err
	}
	if err := f.at.Ahead([]entry.Row{{Kind: f.kind, Cells: f.cells}}); err != nil {
		return err // before anybody is asked
	}
	lacking := f.lacking()
	if lacking == nil && !f.asked {
		f.takeSure()
		return nil
	}
	if !a.ask {
		return usageError{&blankError{f.kind, lacking}}
	}
	f.begin(a)
	for _, column := range columnsAsked(f.kind) {
		if _, ok := f.cells[column]; ok {
			continue
		}
		offer, _ := f.offer(column)
		text, err := a.question(promptOf(f.kind, column), offer, readCell(f.kind, f.rec, f.at, column))
		if err != nil {
			return err
		}
		f.cells[column] = text
	}
	return nil
}

// begin opens the dialogue, once.
func (f *form) begin(a *app) {
	if !f.asked {
		a.tell(howToAnswer)
	}
	f.asked = true
}

// promptOf asks for a column in the words of its help.
func promptOf(k ledger.Kind, column string) string {
	for _, c := range k.Columns {
		if c.Name == column && c.Help != "" && c.Help != "a "+c.Name {
			return c.Name + " (" + c.Help + ")"
		}
	}
	return column
}
