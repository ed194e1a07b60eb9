package main

import (
	"strings"

	"github.com/spf13/cobra"

	"putby/cmd/putby/internal/ask"
	"putby/cmd/putby/internal/entry"
	"putby/ledger"
)

const tariffAddLong = `Add a tariff in words, or one band of it by flags. Where runs have no tariff yet,
they get this one.

` + entry.TariffGrammar + `

By flags: --rate, and when it holds. Of the bands that fit an hour the first in
the file counts. What began to hold last goes before what held earlier.`

// tariffOptions are a tariff in words, or a band by flags.
type tariffOptions struct {
	addOptions
	words string
}

// newTariffCommand is the command of tariffs: like all records, check and
// import.
func newTariffCommand(a *app) *cobra.Command {
	k := ledger.MustKind("tariff")
	o := &tariffOptions{}
	add := newAdding(a, k, &cobra.Command{
		Use: "add [WORDS]", Short: "add a tariff, in words or band by band", Long: tariffAddLong,
		Example: `  putby tariff add "0.31"
  putby tariff add "days 0.24 from 6 to 22, nights 0.18, tax 5%" --tariff home --from 2026-01-01
` + addExamples[k.Name],
		Args: between(0, 1, "WORDS"),
		RunE: func(cmd *cobra.Command, args []string) error {
			if o.words = strings.Join(args, ""); o.words != "" {
				for column := range o.given(cmd) {
					if !k.Column(column).Beside {
						return misused("--%s: the words say that; beside them stand --tariff, --from and --tax alone", flagName(column))
					}
				}
			}
			return a.runAdd(cmd, &o.addOptions, k, o.fill)
		},
	}, adding{on: &o.addOptions})
	cmd := newRecordCommand(a, k.Name, add)
	cmd.AddCommand(newTariffCheckCommand(a), newTariffImportCommand(a))
	return cmd
}

// fill is a tariff of the words, asking for them where no price was given.
func (o *tariffOptions) fill(f *form) (*draft, error) {
	_, priced := f.cells["rate"]
	if o.words == "" && (priced || f.talk == nil) {
		return fillPlain(f)
	}
	in := entry.TariffIn{Words: o.words}
	var err error
	if o.words == "" {
		if f.base.Records.Settings.Tariff == "" {
			f.offers = map[string]string{"tariff": "home"}
		}
		if err = f.ask(f.kind.Column("tariff")); err == nil {
			err = f.ask(f.kind.Column("from"))
		}
	}
	in.Tariff, in.From, in.Tax = f.cells["tariff"], f.cells["from"], f.cells["tax"]
	if o.words == "" && err == nil {
		in.Words, err = f.talk.Ask(tariffQuestion(f.base, in))
	}
	d := &draft{args: []string{"tariff", "add"}}
	if in.Words != "" {
		d.args = append(d.args, in.Words)
	}
	for _, c := range f.kind.Columns {
		if c.Beside && f.cells[c.Name] != "" {
			d.args = append(d.args, "--"+c.Name, f.cells[c.Name])
		}
	}
	if err != nil {
		return d, err
	}
	d.look = entry.TariffSays(in.Words)
	return d, d.take(entry.AddTariff(f.base, in))
}

// tariffQuestion asks for a tariff in words.
func tariffQuestion(b *entry.Base, in entry.TariffIn) ask.Question {
	return ask.Question{
		Key: "words", What: ledger.MustKind("tariff").InWords.Label + " (? shows how)", Help: entry.TariffGrammar,
		Check: func(answer string) (string, error) {
			in.Words = answer
			_, err := entry.AddTariff(b, in)
			return answer, err
		},
	}
}
