package main

import (
	"strings"

	"github.com/spf13/cobra"

	"putby/cmd/putby/internal/entry"
	"putby/ledger"
)

// columnFlags are the cells of a record as flags.
type columnFlags struct {
	cells map[string]*string
}

// add makes a flag of each column, in the order of the file.
func (o *columnFlags) add(a *app, cmd *cobra.Command, k ledger.Kind) {
	o.cells = map[string]*string{}
	flags := cmd.Flags()
	flags.SortFlags = false
	for _, c := range k.Columns {
		cell := &cellFlag{word: entry.Holds(c.Name)}
		o.cells[c.Name] = &cell.text
		help := c.Help
		if help == "" {
			help = "anything worth keeping"
		}
		flags.Var(cell, flagName(c.Name), help+defaultHelp(k, c))
		a.completeColumn(cmd, k, c.Name)
	}
}

// defaultHelp says what a column is that nobody gives, where that is known
// without asking.
func defaultHelp(k ledger.Kind, c ledger.Column) string {
	switch {
	case c.Name == "date" && k.Name != "holiday":
		return " (today)"
	case c.Name == k.Name && entry.Sure(k, &ledger.Records{}, nil, c.Name), k.Name == "phase" && c.Name == "step":
		return " (the next)"
	}
	return ""
}

// given returns the cells that flags gave.
func (o *columnFlags) given(cmd *cobra.Command) map[string]string {
	cells := map[string]string{}
	for column, text := range o.cells {
		if cmd.Flags().Changed(flagName(column)) {
			cells[column] = strings.TrimSpace(*text)
		}
	}
	return cells
}

// flagName is the flag of a column: fresh_days is --fresh-days.
func flagName(column string) string { return strings.ReplaceAll(column, "_", "-") }

// A cellFlag is a flag whose help names what it takes.
type cellFlag struct{ text, word string }

func (f *cellFlag) String() string        { return f.text }
func (f *cellFlag) Type() string          { return f.word }
func (f *cellFlag) Set(text string) error { f.text = text; return nil }

// completeColumn offers the shell what a column's cells may hold.
func (a *app) completeColumn(cmd *cobra.Command, k ledger.Kind, column string) {
	switch k.Name + "." + column {
	case "pack.with", "machine.with":
		a.completeLast(cmd, flagName(column), entry.Supplies)
		return
	case "batch.from":
		a.completeLast(cmd, flagName(column), entry.Foods)
		return
	}
	_ = cmd.RegisterFlagCompletionFunc(flagName(column), func(*cobra.Command, []string, string) ([]cobra.Completion, cobra.ShellCompDirective) {
		names, _ := entry.Names(a.peek(), k.Name, column)
		return names, cobra.ShellCompDirectiveNoFileComp
	})
}
