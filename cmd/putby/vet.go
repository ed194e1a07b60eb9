package main

import (
	"github.com/spf13/cobra"

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

// baseOf is a ledger in which the command is to record something.
func (a *app) baseOf(rec *ledger.Records) *entry.Base {
	rec.Settings.Wording = commands{}
	return entry.NewBase(rec, a.at(rec))
}

// at is the moment of the command in a ledger.
func (a *app) at(rec *ledger.Records) entry.Moment {
	at := entry.At(rec, a.now())
	at.AnyDay = a.meant.Ahead
	return at
}
