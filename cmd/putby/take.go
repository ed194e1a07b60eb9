package main

import (
	"github.com/spf13/cobra"

	"putby/cmd/putby/internal/entry"
	"putby/ledger"
)

const takeLong = `Record what was taken out, as many things at once as you like:

  yogurt           a container of a food, of the pack with the first best-by
  "2 rice"         so many; where one pack does not hold enough, of the next too
  "pack c46-a"     a container of that pack; "2 pack c46-a" two of them
  "0.5 kg onions"  fresh food in hand, by its amount
  "1 jar-1l"       a piece of a supply: a broken jar, a can of oil

Without words you are asked on a terminal. It is eaten, unless --given or --spoiled says otherwise. You are told of which
pack and place it is, how much water to add, and what to heed.`

type takeOptions struct {
	saving
	in             entry.TakeIn
	given, spoiled bool
}

func newTakeCommand(a *app) *cobra.Command {
	o := &takeOptions{}
	cmd := &cobra.Command{
		Use: "take THING...", Short: "take containers, fresh food or supplies out", Long: takeLong + aheadHelp(ledger.MustKind("draw")),
		Example: `  putby take chicken-broth "2 apples"
  putby take "pack c46-a" --given
  putby take "0.5 kg onions" --spoiled --date yesterday`,
		Args: cobra.ArbitraryArgs,
		RunE: func(cmd *cobra.Command, args []string) error {
			a.check.Brief = true // what a draw comes to does not ask for lots
			return o.run(cmd, a, entry.Things(args))
		},
	}
	cmd.ValidArgsFunction = a.completeThings(ledger.Foods, ledger.Packs, ledger.Supplies)
	f := cmd.Flags()
	f.BoolVar(&o.given, "given", false, "it was given away")
	f.BoolVar(&o.spoiled, "spoiled", false, "it was thrown away")
	f.StringVar(&o.in.Date, "date", "", "the `day` (today)")
	f.StringVar(&o.in.Note, "note", "", "a `note` to keep with it")
	a.addAhead(cmd)
	o.saving.add(cmd)
	return cmd
}

func (o *takeOptions) run(cmd *cobra.Command, a *app, things []string) error {
	in := o.in
	switch {
	case o.given && o.spoiled:
		return misused("--given and --spoiled exclude each other: take them in two commands")
	case o.given:
		in.Reason = ledger.Given.String()
	case o.spoiled:
		in.Reason = ledger.Spoiled.String()
	}
	return a.recordWords(cmd, o.saving, entry.AboutThings(things), takeWording(in), things)
}

// takeWording asks what was taken.
func takeWording(in entry.TakeIn) wording {
	return wording{
		what:  `what was taken, such as "2 rice"`,
		help:  "A food is a container of it, \"2 rice\" so many; \"pack c46-a\" one of that pack;\n\"0.5 kg onions\" fresh food; \"1 jar-1l\" a piece of a supply.",
		named: true,
		names: (*entry.Base).NamesToTake,
		act: func(words []string) entry.Act {
			said := in
			said.Things = words
			return func(b *entry.Base) (*entry.Draft, error) { return entry.Take(b, said) }
		},
	}
}
