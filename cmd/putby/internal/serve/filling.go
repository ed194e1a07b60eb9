package serve

import (
	"cmp"
	"fmt"
	"maps"
	"net/url"
	"slices"
	"strings"

	"putby/cmd/putby/internal/entry"
	"putby/ledger"
	"putby/ledger/folder"
)

// A filling is a form as it is filled in, before the ledger as it is.
type filling struct {
	*entry.Base
	in    url.Values    // empty when it is new
	files *folder.Cache // of the ledger

	columns map[string]columnOf // the fields that are columns of records
	order   []string            // of these, as they stand in the form
	inWords []string            // the fields of words that figures stand in
	begins  map[string]int      // the first line that the draft adds to a file
	noting  bool                // only which fields there are is asked, not what they offer
	said    []string            // what to say of the filling itself

	// place, where a draft sets it, is the field of a column of the n-th record of a
	// kind that it adds, from 0; "" where it is none.
	place func(kind string, n int, column string) string
}

// A columnOf is the column of a kind of record that a field is.
type columnOf struct {
	kind   ledger.Kind
	column *ledger.Column
}

// newFilling fills in a form of a ledger.
func newFilling(files *folder.Cache, base *entry.Base, in url.Values) *filling {
	f := &filling{Base: base, in: maps.Clone(in), files: files, columns: map[string]columnOf{}, begins: map[string]int{}}
	f.At.AnyDay = f.text("ahead", "") != ""
	return f
}

// text returns what a field holds, and what is suggested for a form that was
// not sent yet.
func (f *filling) text(name, suggested string) string {
	if f.in.Has(name) {
		return strings.TrimSpace(f.in.Get(name))
	}
	return suggested
}

// cells gathers the fields of a kind's columns, without the blank ones.
func (f *filling) cells(k ledger.Kind, prefix string) map[string]string {
	cells := map[string]string{}
	for i := range k.Columns {
		c := &k.Columns[i]
		// A list to choose from is sent with the word that a blank cell means.
		if text := f.cell(c, prefix+c.Name); text != "" && (text != c.Blank || !slices.Contains(c.Words, text)) {
			cells[c.Name] = text
		}
	}
	return cells
}

// cell is what the field of a column holds, as records have it. A browser writes
// a T between a date and a time.
func (f *filling) cell(c *ledger.Column, name string) string {
	text := f.text(name, "")
	if c.Cell == ledger.MomentCell {
		text = strings.Replace(text, "T", " ", 1)
	}
	return f.At.Typed(f.Records, c, text)
}

// join joins the records, for what fields offer; nil when they have faults, or nobody is
// shown the fields.
func (f *filling) join() *ledger.Ledger {
	if f.noting {
		return nil
	}
	g, _ := f.Ledger()
	return g
}

// drafted makes the draft of a form, once what each field holds is checked by
// itself, so that all that is wrong is told at once.
func (f *filling) drafted(r recording) (*entry.Draft, error) {
	f.noting = true
	r.groups(f) // notes which fields there are
	f.noting = false
	f.renumber(r.makes)
	var bad entry.Wrongs
	seen := map[string]bool{}
	for _, name := range f.order {
		if err := f.check(name); err != nil {
			bad, seen[name] = append(bad, entry.Wrong{Part: name, Err: err}), true
		}
	}
	for _, name := range f.inWords {
		if err := entry.TwoWays(f.Records.Settings.Locale, strings.ReplaceAll(f.text(name, ""), "\n", " \n ")); err != nil {
			bad, seen[name] = append(bad, entry.Wrong{Part: name, Err: err}), true
		}
	}
	d, err := r.draft(f)
	for _, w := range entry.WrongsOf(err) {
		if name := r.field(w.Part); !seen[name] {
			bad = append(bad, w)
		}
	}
	return d, bad.Err()
}

// field is the field that gives a part of the form's act.
func (r recording) field(part string) string { return cmp.Or(r.parts[part], part) }

// check checks what a column's field holds; one that is blank the act judges, and
// identifiers that are taken it renumbers.
func (f *filling) check(name string) error {
	c := f.columns[name]
	text := f.cell(c.column, name)
	if text == "" || c.column.Own && f.Taken(c.kind, text) {
		return nil
	}
	if err := entry.AskedOf(f.Records, c.column, f.text(name, "")); err != nil {
		return err
	}
	return f.CheckCell(c.kind, c.column, text)
}

// renumber blanks identifiers of a kind that are taken meanwhile, so that the next
// is found.
func (f *filling) renumber(kind string) {
	for _, name := range f.order {
		c := f.columns[name]
		if text := f.cell(c.column, name); c.kind.Name == kind && c.column.Own && f.Taken(c.kind, text) {
			f.in.Set(name, "")
			f.said = append(f.said, fmt.Sprintf("The ledger has a %s %s already, so this one has the next name.", c.kind.Name, text))
		}
	}
}

// note notes at which lines of their files the records of a draft will stand, by
// which faults are told.
func (f *filling) note(tx *folder.Tx, d *entry.Draft) {
	for _, row := range d.Rows {
		if f.begins[row.Kind.File] == 0 {
			f.begins[row.Kind.File], _ = tx.NextLine(row.Kind)
		}
	}
}
