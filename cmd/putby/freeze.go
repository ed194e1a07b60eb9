package main

import (
	"github.com/spf13/cobra"

	"putby/cmd/putby/internal/entry"
	"putby/ledger"
)

const freezeLong = `Record that fresh food in hand went into the freezer, to wait for the machine.
A name alone is all of it that is not frozen yet. You are told until when it
keeps, by the food's frozen_days. What went into the machine or was eaten that
day needs no record here.`

func newFreezeCommand(a *app) *cobra.Command {
	o, in := &saving{}, &entry.FreezeIn{}
	cmd := &cobra.Command{
		Use: "freeze THING...", Short: "put fresh food into the freezer", Long: freezeLong + aheadHelp(ledger.MustKind("frozen")),
		Example: `  putby freeze "0.5 kg onions"
  putby freeze squash --date yesterday --note "bottom drawer"`,
		Args: cobra.ArbitraryArgs,
		RunE: func(cmd *cobra.Command, args []string) error {
			a.check.Brief = true // what is frozen does not ask what was drawn from which lot
			things := entry.Things(args)
			return a.recordWords(cmd, *o, entry.AboutThings(things), freezeWording(in), things)
		},
	}
	cmd.ValidArgsFunction = a.completeThings(ledger.Foods)
	cmd.Flags().StringVar(&in.Date, "date", "", "the `day` (today)")
	cmd.Flags().StringVar(&in.Note, "note", "", "a `note` to keep with it")
	a.addAhead(cmd)
	o.add(cmd)
	return cmd
}

// freezeWording asks what went into the freezer.
func freezeWording(in *entry.FreezeIn) wording {
	return wording{
		what:  `what went into the freezer, such as "3 kg strawberries"`,
		help:  "AMOUNT FOOD. A name alone is all of it that is not frozen yet.",
		named: true,
		names: (*entry.Base).FreshNames,
		act: func(words []string) entry.Act {
			said := *in
			said.Things = words
			return func(b *entry.Base) (*entry.Draft, error) { return entry.Freeze(b, said) }
		},
	}
}
