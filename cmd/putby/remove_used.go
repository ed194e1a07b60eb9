package main

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"putby/cmd/putby/internal/entry"
	"putby/ledger"
	"putby/ledger/folder"
)

// An inUseError says which records name one that is to be taken out. It is the
// refusal of that change, told from the other end.
type inUseError struct {
	what, hint string
	refusal    error
}

func (e inUseError) Error() string { return e.what }
func (e inUseError) Unwrap() error { return e.refusal }

// mostUsers is how many records that name another are told one by one.
const mostUsers = 3

var errLooked = errors.New("it was only looked at")

// inUse is the refusal to take records out, told by what names them where
// anything does; else the error as it is.
func (m *removing) inUse(b *folder.Book, err error) error {
	refusal := (*folder.Refusal)(nil)
	if !errors.As(err, &refusal) || refusal.Already || len(m.kind.Key) == 0 {
		return err
	}
	var gone string
	var users []string
	_, _ = b.Try("", func(tx *folder.Tx) error {
		if err := m.change(tx); err != nil {
			return err
		}
		gone = m.found[0].Cells[m.kind.Key[0]]
		users = usersOf(tx, m.kind, gone)
		return errLooked
	})
	if len(users) == 0 {
		return err
	}
	told, hint := strings.Join(users, " and "), "take out first what names it: putby remove "+users[0]
	if n := len(users); n > 2 {
		told = strings.Join(users[:2], ", ") + " and " + users[2]
		if n > mostUsers {
			hint = "let it stay, or take out first what names it, one by one: putby remove " + users[0]
			told = fmt.Sprintf("%d records, the first of them %s", n, told)
		}
	}
	return inUseError{fmt.Sprintf("nothing was saved: %s %s is named by %s", m.kind.Name, gone, told), hint, err}
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
				users = append(users, kind.Name+" "+entry.NameOf(kind, entry.Record{Line: line, Cells: cells}, false))
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
