package main

import (
	"github.com/spf13/cobra"

	"putby/cmd/putby/internal/entry"
	"putby/ledger"
	"putby/ledger/folder"
)

const removeLong = `Take a record out. ` + howToName + `

A receipt is taken out with all of its lines and the shelf prices that they told of,
and a run takes its phases, loads and meter log with it. Packs and draws are never taken along: what they would then lack
is said, and nothing is changed.`

func newRemoveCommand(a *app) *cobra.Command {
	o := &saving{}
	cmd := &cobra.Command{
		Use:               "remove KIND WHICH",
		Aliases:           []string{"strike"}, // as it was called once
		Short:             "take a record out",
		Long:              removeLong,
		Example:           "  putby remove draw last\n  putby remove price strawberries last\n  putby remove the last price --dry-run\n  putby remove draw @5",
		Args:              cobra.ArbitraryArgs,
		ValidArgsFunction: a.completeRecord,
		RunE:              func(cmd *cobra.Command, args []string) error { return runRemove(cmd, a, o, args) },
	}
	o.add(cmd)
	return cmd
}

func runRemove(cmd *cobra.Command, a *app, o *saving, args []string) error {
	r, err := refer(cmd, args)
	if err != nil {
		return err
	}
	return a.withBook(cmd.Context(), *o, func(b *folder.Book) error {
		r.in(a, b)
		m := &removing{recordRef: r}
		err := a.edit(b, *o, m.change, m.tell)
		if m.Draft != nil {
			err = m.InUse(b, err)
		}
		return m.stays(m.found, err)
	})
}

// removing is records that are taken out.
type removing struct {
	*recordRef
	*entry.Draft
	found []entry.Record
}

func (m *removing) change(tx *folder.Tx) error {
	found, err := m.find(tx)
	if err != nil {
		return err
	}
	if len(found) > 1 && !m.exact && !oneReceipt(m.kind, found, nil) { // run:PART may be all phases of a run
		return m.ambiguous(found)
	}
	m.found, m.Draft = found, entry.Remove(m.rec, m.joint, m.kind, found)
	return m.Change(tx)
}

// tell tells what the records came to.
func (m *removing) tell(after *ledger.Ledger) []string {
	if m.kind.Name == ledger.SettingsKind().Name {
		return []string{settingSentence(m.rec.Settings.Locale, m.found[0].Cells["setting"], m.found[0].Cells["value"], "")}
	}
	return append(m.Said(after), m.Notes...)
}
