package main

import (
	"cmp"
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
	cmd.Flags().SortFlags = false
	for i := range k.Columns {
		o.column(a, cmd, &k.Columns[i])
	}
}

// column makes the flag of one column.
func (o *columnFlags) column(a *app, cmd *cobra.Command, c *ledger.Column) {
	cell := &cellFlag{word: valueName(c), free: !entry.Figures(c)}
	if o.cells == nil {
		o.cells = map[string]*string{}
	}
	o.cells[c.Name] = &cell.text
	cmd.Flags().Var(cell, flagName(c.Name), cmp.Or(c.Help, "anything worth keeping")+defaultHelp(c))
	a.completeColumn(cmd, c)
}

// valueName is what a flag of a column says that it takes: the thing that it
// names, the column's own name where its type says nothing, else the type.
func valueName(c *ledger.Column) string {
	switch {
	case len(c.Names) == 1:
		return c.Names[0].String()
	case c.Cell == ledger.TextCell, c.Cell == ledger.WordCell, c.Cell == ledger.NameCell:
		return flagName(c.Name)
	}
	return c.Cell.String()
}

// defaultHelp says what a column is that nobody gives, where that is known
// without asking.
func defaultHelp(c *ledger.Column) string {
	switch c.Default {
	case ledger.Today:
		return " (today)"
	case ledger.Next:
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
type cellFlag struct {
	text, word string
	free       bool // it takes no figures
}

func (f *cellFlag) String() string        { return f.text }
func (f *cellFlag) Type() string          { return f.word }
func (f *cellFlag) Set(text string) error { f.text = text; return nil }

// completeColumn offers the shell what a column's cells may hold; of a cell that
// is a list, what its last part may name.
func (a *app) completeColumn(cmd *cobra.Command, c *ledger.Column) {
	if c.Cell == ledger.SuppliesCell || c.Cell == ledger.FoodsCell {
		a.completeLast(cmd, flagName(c.Name), c.Known)
		return
	}
	a.completeFlag(cmd, flagName(c.Name), func(rec *ledger.Records) []string {
		names, _ := entry.Names(rec, c)
		return names
	})
}
