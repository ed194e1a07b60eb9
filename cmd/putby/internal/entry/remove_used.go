package entry

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"putby/ledger"
	"putby/ledger/advice"
	"putby/ledger/folder"
	"putby/ledger/report"
)

// mostUsers is how many records that name another are told one by one.
const mostUsers = 3

var errLooked = errors.New("it was only looked at")

// inUse says what names the records that a draft takes out, or has not enough without
// them by faults; nil where nothing is known to.
func (d *Draft) inUse(b *folder.Book, faults ledger.Faults) error {
	if len(d.Sets) == 0 || !d.Sets[0].Gone || len(d.Sets[0].Kind.Key) == 0 {
		return nil
	}
	first := d.Sets[0]
	k, gone := first.Kind, first.Was[first.Kind.Key[0]]
	var users, short []string
	// Tried only to look at what would be left; errLooked ends it before it is judged again.
	_, _ = b.Try("", func(tx *folder.Tx) error {
		if err := d.Change(tx); err != nil {
			return err
		}
		if users = usersOf(tx, k, gone); k.Name == "receipt" || k.Name == "batch" {
			short = shortOf(tx, faults)
		}
		return errLooked
	})
	switch n := len(short); {
	case len(users) > 0:
	case n > 0:
		hint, do := "take out first what used it", removals(short)
		if n > mostUsers {
			hint, do = hint+", one by one", do[:1]
		}
		if k.Name == "receipt" {
			name := NameOf(k, Record{Line: first.Line, Cells: first.Was}, false)
			hint = "correct a line of it\n" + hint
			do = slices.Insert(do, 0, advice.Do(advice.Edit, "receipt", name).With("price", first.Was["price"]))
		}
		return &ledger.Fault{Kind: ErrInUse, What: fmt.Sprintf("without %s %s there is not enough for %s", k.Name, gone, listedShort(short)), Hint: hint, Do: do}
	default:
		return nil
	}
	told, hint := report.Listed(users), "take out first what names it"
	if n := len(users); n > mostUsers {
		hint = "let it stay, or take out first what names it, one by one"
		told = fmt.Sprintf("%d records, the first of them %s", n, report.Listed(users[:mostUsers]))
		users = users[:1]
	}
	return &ledger.Fault{Kind: ErrInUse, What: fmt.Sprintf("%s %s is named by %s", k.Name, gone, told), Hint: hint, Do: removals(users)}
}

// removals take records out, the last first: so one that is told by its line keeps its
// number, and what came of a run goes before it.
func removals(names []string) (list []advice.Doing) {
	for _, name := range slices.Backward(names) {
		list = append(list, advice.Do(advice.Remove, strings.Fields(name)...))
	}
	return list
}

// listedShort names the first of some records.
func listedShort(names []string) string {
	if n := len(names) - mostUsers; n > 0 {
		names = append(slices.Clone(names[:mostUsers]), fmt.Sprintf("%d more", n))
	}
	return report.Listed(names)
}

// shortOf names the records of which faults say that there is not enough for them: of
// what goes into a run, the run.
func shortOf(tx *folder.Tx, faults ledger.Faults) (names []string) {
	for _, kind := range ledger.Kinds() {
		for line, cells := range tx.Rows(kind) {
			if !slices.ContainsFunc(faults, func(f ledger.Fault) bool { return f.File == kind.File && f.Line == line }) {
				continue
			}
			name := kind.Name + " " + NameOf(kind, Record{Line: line, Cells: cells}, false)
			if kind.Name == "load" {
				name = "run " + cells["run"]
			}
			names = report.Once(names, name)
		}
	}
	return names
}

// usersOf names the records, of any kind, that name one that is no longer there.
func usersOf(tx *folder.Tx, k ledger.Kind, id string) (users []string) {
	for _, cells := range tx.Rows(k) {
		if cells[k.Key[0]] == id {
			return nil // another part of it stays
		}
	}
	for _, kind := range ledger.Kinds() {
		for line, cells := range tx.Rows(kind) {
			if slices.ContainsFunc(kind.Columns, func(c ledger.Column) bool { return naming(c, cells[c.Name], k, id) }) {
				users = append(users, kind.Name+" "+NameOf(kind, Record{Line: line, Cells: cells}, false))
			}
		}
	}
	return users
}

// naming reports whether a cell names a record of a kind, alone or in a list such
// as 2 kg leeks, 6 eggs.
func naming(c ledger.Column, text string, k ledger.Kind, id string) bool {
	if c.Own || !slices.ContainsFunc(c.Names, func(t ledger.Thing) bool { return t.String() == k.Name }) {
		return false
	}
	for part := range strings.FieldsFuncSeq(text, func(r rune) bool { return r == ',' || r == ';' }) {
		if words := strings.Fields(part); len(words) > 0 && words[len(words)-1] == id {
			return true
		}
	}
	return false
}
