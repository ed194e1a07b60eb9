package main

import (
	"cmp"
	"fmt"
	"maps"
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
		f.cells[column] = f.at.Typed(rec, k.Column(column), text)
	}
	return f
}

// stranger is an error about a name that was given and that the ledger does not
// have: what hangs on it cannot be known, and is not worth asking for.
func (f *form) stranger() error {
	for i := range f.kind.Columns {
		c := &f.kind.Columns[i]
		if near, unknown := entry.Unknown(f.rec, c, f.cells[c.Name]); unknown && c.Words == nil {
			return notFoundError{fmt.Sprintf("--%s: no %s is called %s", flagName(c.Name), c.What(), exact.Quote(f.cells[c.Name])),
				cmp.Or(near, "putby "+c.Names[0].String()+" list shows what there is")}
		}
	}
	return nil
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
	for _, c := range f.kind.Asked() {
		if _, ok := f.cells[c.Name]; ok || !entry.Sure(c, f.rec, f.cells) {
			continue
		}
		text, why := f.offer(c.Name)
		if text == "" {
			continue
		}
		f.cells[c.Name] = text
		if why != "" && c.Default == ledger.AsUsual {
			words, from = append(words, c.Name+" "+text), why
		}
	}
	if words != nil {
		f.taken = "Taken " + from + ": " + strings.Join(words, "; ") + "."
	}
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
	for _, c := range f.kind.Asked() {
		if _, ok := f.cells[c.Name]; ok {
			continue
		}
		offer, _ := f.offer(c.Name)
		text, err := a.question(c.Prompt(), offer, readCell(f.kind, f.rec, f.at, c))
		if err != nil {
			return err
		}
		f.cells[c.Name] = text
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
