package main

import (
	"github.com/spf13/cobra"

	"putby/cmd/putby/internal/entry"
	"putby/ledger"
	reports "putby/ledger/report"
)

const startLong = `Begin a run of the machine now, with what goes in:

  "AMOUNT FOOD [from RECEIPT[:LINE]] [trays N] [wet W] [dry W] [lost A]"

once for each food. The food leaves what is in hand, and a run's wear and the
machine's supplies are drawn. Nothing else need be known: kWh, phases, weights
and losses are said by "putby finish", or later. Until then nothing else can
begin on the machine, and nothing be packed from it. Without words you are asked
on a terminal, with what is in hand by Tab.

You are told when such runs usually end, and of loads that are more than the
machine takes, by volume or by weight.`

func newStartCommand(a *app) *cobra.Command {
	o, in := &saving{}, &entry.StartIn{}
	cmd := &cobra.Command{
		Use: "start AMOUNT FOOD...", Short: "begin a run of the machine", Long: startLong + aheadHelp(ledger.MustKind("run")) + "\n\n" + reports.MachineCare,
		Example: `  putby start "1.2 kg apples" --dry-run
  putby start "0.8 kg apples trays 3" "0.5 kg onions" --at "yesterday 19:40"`,
		Args: cobra.ArbitraryArgs,
		RunE: func(cmd *cobra.Command, args []string) error {
			loads := entry.Loads(args)
			return a.recordWords(cmd, *o, entry.AboutRun(in.Machine, loads), startWording(in), loads)
		},
	}
	f := cmd.Flags()
	f.SortFlags = false
	f.StringVar(&in.At, "at", "", "the `time`: 19:40, or yesterday 19:40 (now)")
	f.StringVar(&in.Machine, "machine", "", "the `machine`, where there are several")
	f.StringVar(&in.Tariff, "tariff", "", "the `tariff` (the settings')")
	f.StringVar(&in.Run, "run", "", "an `identifier` (the next)")
	f.StringVar(&in.Note, "note", "", "a `note` to keep with it")
	cmd.ValidArgsFunction = a.completeThings(ledger.Foods)
	a.addAhead(cmd)
	o.add(cmd)
	return cmd
}

// startWording asks what goes into the machine.
func startWording(in *entry.StartIn) wording {
	return wording{
		what:  `what goes in, such as "5.5 kg apples"`,
		help:  "AMOUNT FOOD, then if you like: trays 3, wet 5.5 kg, from RECEIPT. The food leaves\nwhat is in hand.",
		names: (*entry.Base).FreshNames,
		offer: func(b *entry.Base) string { return b.UsualLoad(in.Machine) },
		act: func(words []string) entry.Act {
			said := *in
			said.Loads = words
			return func(b *entry.Base) (*entry.Draft, error) { return entry.Start(b, said) }
		},
	}
}
