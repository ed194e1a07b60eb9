package main

import (
	"cmp"
	"fmt"
	"maps"
	"strings"

	"putby/cmd/putby/internal/ask"
	"putby/cmd/putby/internal/entry"
	"putby/ledger"
	"putby/pricing/exact"
)

// A form is a record being filled in.
type form struct {
	talk   *ask.Talk // nil: nobody can be asked
	base   *entry.Base
	kind   ledger.Kind
	cells  map[string]string
	offers map[string]string             // besides what the ledger suggests
	check  map[string]func(string) error // of cells, besides their own
	taken  string                        // what was taken from the ledger without asking
}

func newForm(t *ask.Talk, b *entry.Base, k ledger.Kind, given map[string]string) *form {
	f := &form{talk: t, base: b, kind: k, cells: map[string]string{}}
	for column, text := range given {
		f.cells[column] = b.At.Typed(b.Records, k.Column(column), text)
	}
	return f
}

// asked reports whether a person was asked anything.
func (f *form) asked() bool { return f.talk != nil && f.talk.Asked() }

// given is what is wrong with the cells that were given, before anybody is asked
// for the rest.
func (f *form) given() error {
	if err := f.stranger(); err != nil {
		return err
	}
	if err := f.base.Unreadable(f.kind, f.cells); err != nil {
		return err
	}
	return f.base.At.Ahead([]entry.Row{{Kind: f.kind, Cells: f.cells}})
}

// stranger is an error about a name that was given and that the ledger does not
// have: what hangs on it cannot be known, and is not worth asking for.
func (f *form) stranger() error {
	for i := range f.kind.Columns {
		c := &f.kind.Columns[i]
		if near, unknown := entry.Unknown(f.base.Records, c, f.cells[c.Name]); unknown && c.Words == nil {
			return notFound(fmt.Sprintf("--%s: no %s is called %s", flagName(c.Name), c.What(), exact.Quote(f.cells[c.Name])),
				cmp.Or(near, "putby "+c.Names[0].String()+" list shows what there is"))
		}
	}
	return nil
}

// offer is what is likely to be in a column, and where that is from.
func (f *form) offer(column string) (text, why string) {
	o, why := f.base.Suggest(f.kind, f.cells)
	if text, ok := f.offers[column]; ok {
		return text, ""
	}
	return o[column], why
}

// lacking are the flags of columns that may not be blank, that nobody gave and that
// cannot be known.
func (f *form) lacking() (list []ledger.Column) {
	known := maps.Clone(f.cells)
	sure := &form{base: f.base, kind: f.kind, cells: known, offers: f.offers}
	sure.takeSure()
	for _, c := range f.kind.Columns {
		if c.Need && known[c.Name] == "" {
			list = append(list, c)
		}
	}
	return list
}

// needs names what is lacking by its flags, and what those of closed words may be.
func (f *form) needs(lacking []ledger.Column) error {
	var flags, hints []string
	for _, c := range lacking {
		flag := "--" + flagName(c.Name)
		if flags = append(flags, flag); c.Words != nil {
			hints = append(hints, flag+" "+strings.Join(c.Words, " or "))
		}
	}
	return mistyped("a "+f.kind.Name+" needs "+strings.Join(flags, ", "), strings.Join(hints, ", "))
}

// takeSure fills in what needs nobody's leave.
func (f *form) takeSure() {
	var words []string
	from := ""
	for _, c := range f.kind.Asked() {
		if _, ok := f.cells[c.Name]; ok || !entry.NeedsNoAnswer(c, f.base.Records, f.cells) {
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
func (f *form) complete() error {
	lacking := f.lacking()
	if lacking == nil && !f.asked() {
		f.takeSure()
		return nil
	}
	if f.talk == nil {
		return f.needs(lacking)
	}
	for _, c := range f.kind.Asked() {
		if err := f.ask(c); err != nil {
			return err
		}
	}
	return nil
}

// ask asks for a cell that nobody gave.
func (f *form) ask(c *ledger.Column) error {
	if _, given := f.cells[c.Name]; given {
		return nil
	}
	q := cellQuestion(f.base, f.kind, f.cells, c)
	q.Offer, _ = f.offer(c.Name)
	if more, read := f.check[c.Name], q.Check; more != nil {
		q.Check = func(answer string) (string, error) {
			text, err := read(answer)
			if err == nil {
				err = more(text)
			}
			return text, err
		}
	}
	text, err := f.talk.Ask(q)
	if err == nil {
		f.cells[c.Name] = text
	}
	return err
}
