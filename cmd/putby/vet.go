package main

import (
	"github.com/spf13/cobra"

	"putby/cmd/putby/internal/ask"
	"putby/cmd/putby/internal/entry"
	"putby/ledger"
)

// addMeant adds the flags that say of a kind of record that it is meant as it is.
func (a *app) addMeant(cmd *cobra.Command, k ledger.Kind) {
	if k.Happens() {
		a.addAhead(cmd)
	}
	if k.Name == "receipt" {
		cmd.Flags().BoolVar(&a.meant.Again, "again", false, "record it though one with the same shop, date and lines is there")
	}
}

func (a *app) addAhead(cmd *cobra.Command) {
	cmd.Flags().BoolVar(&a.meant.Ahead, "ahead", false, "take dates after today: such records count from their day on")
}

// at is the moment of the command in a ledger.
func (a *app) at(rec *ledger.Records) entry.Moment {
	at := entry.At(rec, a.now())
	at.AnyDay = a.meant.Ahead
	return at
}

// vet holds a draft against the calendar and the household's own records. What
// is unlikely is asked about where a person can be, and said otherwise.
func (a *app) vet(rec *ledger.Records, d *draft, o saving) error {
	v, err := entry.Vet(rec, d.rows, a.at(rec))
	ask := a.ask && !o.dryRun
	if a.meant.Again {
		v.Twice = nil
	}
	if err == nil && v.Twice != nil && !ask {
		err = v.Twice
	}
	if err != nil {
		if d.asked {
			err = askedError{err, commandLine(append(d.args, a.ledgerArgs()...))}
		}
		return err
	}
	a.sayLines(v.Notes)
	if a.meant.Ahead {
		d.args = append(d.args, "--ahead")
	}
	if !ask {
		a.sayLines(v.Odd)
		return nil
	}
	if v.Twice != nil {
		d.args = append(d.args, "--again")
	}
	return a.agreeTo(v)
}

// agree asks whether something unlikely is meant; only a plain yes will do.
func (a *app) agree(what, question string) error {
	a.tell("%s", what)
	answer, err := a.question(question+" (yes or no)", "", ask.OneOf("yes", "no"))
	if err == nil && answer != "yes" {
		err = errNotAnswered
	}
	return err
}
