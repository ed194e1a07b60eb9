package main

import (
	"strings"

	"github.com/spf13/cobra"

	"putby/cmd/putby/internal/entry"
	"putby/ledger"
)

func finishLong() string {
	return `End the run that is running, now or --at, with what is known of it. What is not
known yet can be added later, by the same words and the run's name.

Of its electricity one of these is needed: the meter's --kwh; its phases
(` + strings.Join(ledger.MustKind("phase").Column("phase").Words, ", ") + `); the log that
"putby run meter" took over; or --as-usual: the phases of that food's last good
run, of which the longest is stretched or shortened so that all end at the end.
The run's note says so. Phases say by themselves when the run ended, and count
behind those recorded so far.

--wet, --dry and --lost take a food and an amount; where the run has one food
the amount will do. Wet and dry tell how much water is left: moist food must
not be sealed without oxygen.

--more adds time to a run that goes on, and does not end it.

On a terminal, where nothing is said of the run, you are asked for its kWh, or
whether all was as usual, the hands-on time and the dry weights.`
}

func newFinishCommand(a *app) *cobra.Command {
	o, in := &saving{}, &entry.FinishIn{}
	cmd := &cobra.Command{
		Use: "finish [RUN]", Short: "end a run, or add what is known of one", Long: finishLong(),
		Example: `  putby finish c47 --hands 25m
  putby finish c47 --dry "0.53 kg" --lost "0.1 L" --dry-run
  putby finish c47 --spoiled --note "the pump stopped" --dry-run`,
		Args: between(0, 1, "RUN"),
		RunE: func(cmd *cobra.Command, args []string) error {
			in.Run = strings.Join(args, "")
			if a.ask && in.Known() == 0 {
				return a.askFinish(cmd, *o, in)
			}
			return a.act(cmd.Context(), *o, entry.AboutFinish(in.Run), func(b *entry.Base) (*entry.Draft, error) { return entry.Finish(b, *in) })
		},
		ValidArgsFunction: a.completeOwn(ledger.MustKind("run")),
	}
	f := cmd.Flags()
	f.SortFlags = false
	f.StringVar(&in.At, "at", "", "when it ended, a `time`: 9:15, or yesterday 9:15 (now)")
	f.StringVar(&in.KWh, "kwh", "", "what the meter says, `kWh` in all")
	f.StringArrayVar(&in.Phases, "phase", nil, "a `phase` and how long it took, such as \"primary 22h\"; once for each, in order")
	f.BoolVar(&in.AsUsual, "as-usual", false, "the phases of that food's last good run")
	f.StringArrayVar(&in.Dry, "dry", nil, "`weight` after, such as \"chicken-broth 0.61 kg\"; once for each food")
	f.StringArrayVar(&in.Wet, "wet", nil, "`weight` before")
	f.StringArrayVar(&in.Lost, "lost", nil, "`amount` of what was loaded that was spilled or thrown away")
	f.BoolVar(&in.Spoiled, "spoiled", false, "all of it is lost")
	f.StringVar(&in.Hands, "hands", "", "hands-on `time`, such as 25m")
	f.StringVar(&in.Tariff, "tariff", "", "the `tariff`, where it is not the settings'")
	f.StringVar(&in.Note, "note", "", "a `note` to keep with it")
	f.StringArrayVar(&in.More, "more", nil, "`time` added to a run that goes on, such as \"secondary 2h\"")
	phases := around("", ledger.MustKind("phase").Column("phase").Words, " ")
	fixed(cmd, "phase", phases...)
	fixed(cmd, "more", phases...)
	a.addAhead(cmd)
	o.add(cmd)
	return cmd
}
