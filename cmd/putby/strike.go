package main

import (
	"slices"

	"github.com/spf13/cobra"

	"putby/ledger"
	"putby/ledger/folder"
	reports "putby/ledger/report"
	"putby/pricing/exact"
)

const strikeLong = `Take a record out. KIND and NAME are as for amend; the identifier of a receipt
alone is all of its lines, and a run takes its phases, loads and meter log with
it. Packs and draws are never taken along: what they would then lack is said, and
nothing is changed.`

func newStrikeCommand(a *app) *cobra.Command {
	o := &saving{}
	cmd := &cobra.Command{
		Use:               "strike KIND NAME",
		Short:             "take a record out",
		Long:              strikeLong,
		Example:           "  putby strike draw @5\n  putby strike price @12 --dry-run",
		Args:              arguments("KIND", "NAME"),
		ValidArgsFunction: a.completeRecord,
		RunE:              func(cmd *cobra.Command, args []string) error { return runStrike(cmd, a, o, args[0], args[1]) },
	}
	o.add(cmd)
	return cmd
}

func runStrike(cmd *cobra.Command, a *app, o *saving, kindName, text string) error {
	k, err := kindOf(kindName)
	if err != nil {
		return err
	}
	n, err := parseName(text)
	if err != nil {
		return err
	}
	var struck []int // positions among the records of the kind
	strike := func(tx *folder.Tx) error {
		lines, err := n.find(k, tx.Rows(k))
		if err != nil {
			return err
		}
		at := 0
		var names []string // of the tariffs that rows go of
		for line, cells := range tx.Rows(k) {
			if slices.Contains(lines, line) {
				struck = append(struck, at)
				if k.Name == "tariff" {
					names = append(names, cells["tariff"])
				}
			}
			at++
		}
		for _, line := range lines {
			if k.Name == "run" {
				if err := strikeParts(tx, k, line); err != nil {
					return err
				}
			}
			if err := tx.Strike(k, line); err != nil {
				return err
			}
		}
		return strikeRates(tx, k, names)
	}
	return a.withBook(cmd.Context(), *o, func(b *folder.Book) error {
		before, _ := b.Records()
		return a.edit(b, *o, strike, func(*ledger.Ledger) []string { return tellStruck(before, k, struck) })
	})
}

// tellStruck tells what records came to before they were taken out.
func tellStruck(before *ledger.Records, k ledger.Kind, struck []int) []string {
	g, faults := ledger.Join(before, ledger.Options{Through: exact.NoDate, PricesThrough: exact.NoDate})
	if len(faults) > 0 {
		return nil
	}
	var list []reports.Written
	for _, at := range struck {
		list = append(list, reports.Written{Kind: k.Name, At: at})
	}
	said := reports.Saved(g, list)
	if len(said) > 0 {
		said = append([]string{"Taken out:"}, said...)
	}
	return said
}

// strikeRates takes out the hourly prices of tariffs of which no band is left.
func strikeRates(tx *folder.Tx, k ledger.Kind, names []string) error {
	left := map[string]bool{}
	for _, cells := range tx.Rows(k) {
		left[cells["tariff"]] = true
	}
	for _, name := range names {
		if left[name] {
			continue
		}
		if err := tx.RemoveFile(ledger.RatesFile(name)); err != nil {
			return err
		}
	}
	return nil
}

// strikeParts takes out a run's phases, loads and meter log.
func strikeParts(tx *folder.Tx, k ledger.Kind, line int) error {
	run, err := tx.Row(k, line)
	if err != nil {
		return err
	}
	for _, part := range []string{"phase", "load"} {
		kind, _ := ledger.KindOf(part)
		for line, cells := range tx.Rows(kind) {
			if cells["run"] == run["run"] {
				if err := tx.Strike(kind, line); err != nil {
					return err
				}
			}
		}
	}
	return tx.RemoveFile(ledger.MeterFolder + "/" + run["run"] + ".csv")
}
