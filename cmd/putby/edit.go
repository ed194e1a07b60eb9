package main

import (
	"cmp"
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"putby/cmd/putby/internal/ask"
	"putby/cmd/putby/internal/entry"
	"putby/ledger"
	"putby/ledger/folder"
	reports "putby/ledger/report"
	"putby/pricing/locale"
)

func editLong() string {
	return "Change cells of a record. KIND is one of: " + strings.Join(kindNames(), ", ") + ".\n\n" + howToName + editHow
}

const editHow = `

COLUMN=VALUE is typed as you would say it: place=cellar, date=yesterday, "size=2 lbs".
COLUMN= makes a cell blank. Date, shop and identifier of a receipt are changed on all
of its lines, and a shelf price that a line told of goes with it. A setting may be
given as edit setting hour_value 12.

What would put a fault into the ledger is refused, with the faults: a run that
packs name keeps its identifier, a receipt that was used up keeps its amounts.
Editing a setting that is not there yet sets it.`

func newEditCommand(a *app) *cobra.Command {
	o := &saving{}
	cmd := &cobra.Command{
		Use:     "edit KIND WHICH COLUMN=VALUE...",
		Aliases: []string{"amend"}, // as it was called once
		Short:   "change a record",
		Long:    editLong(),
		Example: `  putby edit pack c01-a "place=cellar, left shelf"
  putby edit draw last reason=given
  putby edit the last receipt "shop=Quillet & Daughters"
  putby edit food "chicken broth" keep_months=18
  putby edit receipt mb-251112:3 "item=salt for the steps" --dry-run
  putby edit setting hour_value 12`,
		Args:              cobra.ArbitraryArgs,
		ValidArgsFunction: a.completeRecord,
		RunE: func(cmd *cobra.Command, args []string) error {
			return runEdit(cmd, a, o, args)
		},
	}
	a.addAhead(cmd)
	o.add(cmd)
	return cmd
}

func runEdit(cmd *cobra.Command, a *app, o *saving, args []string) error {
	r, err := refer(cmd, args)
	if err != nil {
		return err
	}
	if settings := ledger.SettingsKind(); r.kind.Name == settings.Name && len(r.Sets) == 0 && len(r.Words) == 2 {
		r.Words, r.Sets = r.Words[:1], []string{"value=" + r.Words[1]}
	}
	if len(r.Sets) == 0 {
		return usageError{fmt.Errorf("edit needs what is to be changed, as COLUMN=VALUE; %s", columnHint(r.kind, ""))}
	}
	typed, err := parseCells(r.kind, r.Sets)
	if err != nil {
		return err
	}
	asked := a.ask && !o.dryRun
	if asked {
		if err := a.foreseeEdit(*o, *r, typed); err != nil {
			return err
		}
	}
	return a.withBook(cmd.Context(), *o, func(b *folder.Book) error {
		r.in(a, b)
		cells, err := r.read(typed)
		if err != nil {
			return err
		}
		m := &editing{recordRef: r, cells: cells}
		err = a.edit(b, *o, func(tx *folder.Tx) error {
			v, err := m.change(tx)
			if err == nil && !asked {
				a.sayLines(v.Notes)
				a.sayLines(v.Odd)
			}
			return err
		}, m.tell)
		return m.stays(m.found, err)
	})
}

var errLooked = errors.New("it was only looked at")

// foreseeEdit asks about what is unlikely of an edit, without the ledger's lock. What
// else is wrong with it is told when it is made.
func (a *app) foreseeEdit(o saving, r recordRef, typed map[string]string) error {
	b, err := a.opening().Look(a.ledgerDir())
	if err != nil {
		return err
	}
	var v entry.Verdict
	r.look(a, b)
	cells, err := r.read(typed)
	if err != nil {
		return errors.Join(err, b.Close())
	}
	m := &editing{recordRef: &r, cells: cells}
	_, err = b.Try("edit", func(tx *folder.Tx) error {
		var err error
		if v, err = m.change(tx); err != nil {
			return err
		}
		return errLooked
	})
	if closed := b.Close(); !errors.Is(err, errLooked) || closed != nil {
		return closed
	}
	a.sayLines(v.Notes)
	return a.hold("", func(t *ask.Talk) error { return a.leave(t, v, o, nil) })
}

// read reads cells as a person types them.
func (r *recordRef) read(cells map[string]string) (map[string]string, error) {
	value, given := cells["value"]
	if !given || r.kind.Name != ledger.SettingsKind().Name {
		return r.at.ReadCells(r.rec, r.kind, cells)
	}
	cells = maps.Clone(cells)
	var err error
	if cells["value"], err = r.at.ReadSetting(r.rec, r.Words[0], value); err != nil {
		err = usageError{err}
	}
	return cells, err
}

// editing is cells of one record that are changed, or those that all lines of a
// receipt share.
type editing struct {
	*recordRef
	cells map[string]string
	found []entry.Record // nil: it is a setting that was not there
	was   []string       // what they came to
	shelf []string       // what becomes of the shelf prices that receipts told of

	advise func(*ledger.Ledger) []string // what to know of them now
}

// change changes the cells of the record that is meant, and what goes with them; it
// returns what there is to say of that before.
func (m *editing) change(tx *folder.Tx) (v entry.Verdict, err error) {
	found, err := m.find(tx)
	switch {
	case err != nil && newSetting(m.kind, m.Words[0]):
		m.cells["setting"] = m.Words[0]
		return v, tx.Append(m.kind, m.cells)
	case err != nil:
		return v, err
	case len(found) > 1 && !oneReceipt(m.kind, found, m.cells):
		return v, m.ambiguous(found)
	}
	m.found, m.was = found, m.said(found)
	sets := make([]entry.Set, len(found))
	for i, r := range found {
		sets[i] = entry.Set{Kind: m.kind, Line: r.Line, Cells: m.cells, Was: r.Cells}
	}
	d := entry.Edit(m.rec, sets)
	m.advise, m.shelf, d.Notes = d.Advise, d.Notes, nil
	if v, err = d.Vet(entry.NewBase(m.rec, m.at)); err != nil {
		return v, err
	}
	return v, d.Change(tx)
}

// oneReceipt reports whether records are the lines of one receipt, and cells
// those that they share.
func oneReceipt(k ledger.Kind, found []entry.Record, cells map[string]string) bool {
	return k.Name == "receipt" && entry.Shared(k, cells) && !slices.ContainsFunc(found, func(r entry.Record) bool { return r.Cells["receipt"] != found[0].Cells["receipt"] })
}

// tell tells what the record came to and comes to now, and which cells are new.
func (m *editing) tell(g *ledger.Ledger) []string {
	l, before := m.rec.Settings.Locale, map[string]string{}
	if m.found != nil {
		before = m.found[0].Cells
	}
	if m.kind.Name == ledger.SettingsKind().Name {
		return []string{settingSentence(l, m.Words[0], before["value"], m.cells["value"])}
	}
	now := reports.Saved(g, written(m.kind, m.found))
	if now == nil {
		return nil
	}
	said := now
	if m.was != nil && !slices.Equal(m.was, now) {
		said = slices.Concat([]string{"Was:"}, m.was, []string{"Is now:"}, now)
	}
	for _, c := range m.kind.Header() {
		if cell, given := m.cells[c]; given && cell != before[c] {
			said = append(said, cellSentence(l, m.kind.Column(c), cell, before[c]))
		}
	}
	return slices.Concat(said, m.advise(g), m.shelf)
}

// settingSentence says what a setting is now and was.
func settingSentence(l locale.Locale, name, before, now string) string {
	c, known := entry.SettingColumn(name)
	if !known {
		c = &ledger.Column{}
	}
	return fmt.Sprintf("Setting %s is now %s (before: %s).", name, cellText(l, c, now), cellText(l, c, before))
}

// cellSentence says what a cell of a record is now and was.
func cellSentence(l locale.Locale, c *ledger.Column, now, before string) string {
	return fmt.Sprintf("Its %s: now %s (before: %s).", c.Name, cellText(l, c, now), cellText(l, c, before))
}

// cellText is a cell in a sentence.
func cellText(l locale.Locale, c *ledger.Column, text string) string {
	return cmp.Or(entry.InSentence(l, c, text), "blank")
}

// newSetting reports whether a name is that of a setting, which the ledger may
// do without.
func newSetting(k ledger.Kind, name string) bool {
	return k.Name == ledger.SettingsKind().Name &&
		slices.Contains(k.Column("setting").Words, name)
}

func kindOf(name string) (ledger.Kind, error) {
	for _, word := range []string{name, strings.ToLower(name), strings.TrimSuffix(strings.ToLower(name), "s")} {
		if k, ok := ledger.KindOf(word); ok {
			return k, nil
		}
	}
	hint := "one of: " + strings.Join(kindNames(), ", ")
	if near := ledger.Nearest(name, kindNames()); near != "" {
		hint = near
	}
	return ledger.Kind{}, mistyped(fmt.Sprintf("%q is not a kind of record", name), hint)
}
