package main

import (
	"github.com/spf13/cobra"

	"putby/cmd/putby/internal/entry"
	"putby/ledger"
	"putby/ledger/folder"
	reports "putby/ledger/report"
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
		err := m.inUse(b, a.edit(b, *o, m.change, m.tell))
		return m.stays(m.found, err)
	})
}

// removing is records that are taken out.
type removing struct {
	*recordRef
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
	m.found = found
	var gone []entry.Set
	for _, r := range found {
		gone = append(gone, entry.Set{Kind: m.kind, Line: r.Line, Was: r.Cells, Gone: true})
		if m.kind.Name == "run" {
			if err := removeParts(tx, r.Cells["run"]); err != nil {
				return err
			}
		}
		if err := tx.Strike(m.kind, r.Line); err != nil {
			return err
		}
	}
	if m.kind.Name == "tariff" {
		return removeRates(tx, m.kind, found)
	}
	return m.followShelf(tx, gone)
}

// removeRates takes out the hourly prices of tariffs of which no band is left.
func removeRates(tx *folder.Tx, k ledger.Kind, struck []entry.Record) error {
	left := map[string]bool{}
	for _, cells := range tx.Rows(k) {
		left[cells["tariff"]] = true
	}
	for _, r := range struck {
		name := r.Cells["tariff"]
		if left[name] || ledger.CheckID(name) != nil {
			continue
		}
		if err := tx.RemoveFile(ledger.RatesFile(name)); err != nil {
			return err
		}
	}
	return nil
}

// tell tells what the records came to.
func (m *removing) tell(after *ledger.Ledger) []string {
	if m.kind.Name == ledger.SettingsKind().Name {
		return []string{settingSentence(m.rec.Settings.Locale, m.found[0].Cells["setting"], m.found[0].Cells["value"], "")}
	}
	var said []string
	if m.joint != nil {
		said = reports.TakenBack(m.joint, after, written(m.kind, m.found))
	}
	if len(said) > 0 {
		said = append([]string{"Taken out:"}, said...)
	}
	return append(said, m.shelf...)
}

// removeParts takes out a run's phases, loads and meter log.
func removeParts(tx *folder.Tx, run string) error {
	for _, part := range []string{"phase", "load"} {
		kind, _ := ledger.KindOf(part)
		for line, cells := range tx.Rows(kind) {
			if cells["run"] == run {
				if err := tx.Strike(kind, line); err != nil {
					return err
				}
			}
		}
	}
	return tx.RemoveFile(ledger.MeterFolder + "/" + run + ".csv")
}
