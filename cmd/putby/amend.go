package main

import (
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"putby/cmd/putby/internal/entry"
	"putby/ledger"
	"putby/ledger/folder"
	reports "putby/ledger/report"
	"putby/pricing/exact"
)

func amendLong() string {
	return "Change cells of a record. KIND is one of: " + strings.Join(kindNames(), ", ") + ". " + amendHow
}

const amendHow = `NAME is the
record's identifier; IDENTIFIER:PART where two columns identify it (r12:3 is line
3 of receipt r12); or @LINE of its file, as list shows it. COLUMN= makes a cell
blank.

What would put a fault into the ledger is refused, with the faults: a run that
packs name keeps its identifier, a receipt that was used up keeps its amounts.
Amending a setting that is not there yet sets it.`

func newAmendCommand(a *app) *cobra.Command {
	o := &saving{}
	cmd := &cobra.Command{
		Use:   "amend KIND NAME COLUMN=VALUE...",
		Short: "change a record",
		Long:  amendLong(),
		Example: `  putby amend pack c01-a "place=cellar, left shelf"
  putby amend draw @5 reason=given
  putby amend receipt mb-251112:3 "item=salt for the steps" --dry-run
  putby amend setting hour_value value=12`,
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) < 3 {
				return arguments("KIND", "NAME", "COLUMN=VALUE...")(cmd, args[:min(len(args), 2)])
			}
			return nil
		},
		ValidArgsFunction: a.completeRecord,
		RunE: func(cmd *cobra.Command, args []string) error {
			return runAmend(cmd, a, o, args[0], args[1], args[2:])
		},
	}
	a.addAhead(cmd)
	o.add(cmd)
	return cmd
}

func runAmend(cmd *cobra.Command, a *app, o *saving, kindName, text string, args []string) error {
	k, err := kindOf(kindName)
	if err != nil {
		return err
	}
	cells, err := parseCells(k, args)
	if err != nil {
		return err
	}
	n, err := parseName(text)
	if err != nil {
		return err
	}
	return a.withBook(cmd.Context(), *o, func(b *folder.Book) error {
		rec, _ := b.Records() // amending mends what is wrong with the rest
		if err := a.at(rec).Ahead([]entry.Row{{Kind: k, Cells: cells}}); err != nil {
			return err
		}
		m := &amending{kind: k, name: n, cells: cells}
		return a.edit(b, *o, m.change, m.tell)
	})
}

// amending is cells of one record that are changed.
type amending struct {
	kind   ledger.Kind
	name   name
	cells  map[string]string
	before map[string]string // nil: it is a setting that was not there
	at     int               // position of the record among those of its kind
}

// change changes the cells of the one record that the name tells.
func (m *amending) change(tx *folder.Tx) error {
	k, n := m.kind, m.name
	lines, err := n.find(k, tx.Rows(k))
	switch {
	case err != nil && newSetting(k, n.text):
		m.cells["setting"] = n.text
		return tx.Append(k, m.cells)
	case err != nil:
		return err
	case len(lines) > 1:
		return usageError{fmt.Errorf("%s tells %d records of %s: name one, as %s:PART or @LINE", n.text, len(lines), k.File, n.text)}
	}
	if m.before, err = tx.Row(k, lines[0]); err != nil {
		return err
	}
	m.at = 0
	for line := range tx.Rows(k) {
		if line == lines[0] {
			break
		}
		m.at++
	}
	return tx.Replace(k, lines[0], m.cells)
}

// tell tells which cells are new, and what the record comes to now.
func (m *amending) tell(g *ledger.Ledger) []string {
	said := reports.Saved(g, []reports.Written{{Kind: m.kind.Name, At: m.at}})
	if said == nil {
		return nil
	}
	for _, c := range m.kind.Header() {
		if now, given := m.cells[c]; given && now != m.before[c] {
			said = append(said, fmt.Sprintf("Its %s is %s, and was %s.", c, quoteCell(now), quoteCell(m.before[c])))
		}
	}
	return said
}

func quoteCell(text string) string {
	if text == "" {
		return "blank"
	}
	return exact.Quote(text)
}

// newSetting reports whether a name is that of a setting, which the ledger may
// do without.
func newSetting(k ledger.Kind, name string) bool {
	return k.Name == ledger.SettingsKind().Name &&
		slices.Contains(k.Column("setting").Words, name)
}

func kindOf(name string) (ledger.Kind, error) {
	k, ok := ledger.KindOf(name)
	if !ok {
		hint := "one of: " + strings.Join(kindNames(), ", ")
		if near := ledger.Nearest(name, kindNames()); near != "" {
			hint = near
		}
		return k, nearError{fmt.Sprintf("%q is not a kind of record", name), hint}
	}
	return k, nil
}
