package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"putby/ledger"
	"putby/ledger/folder"
	"putby/pricing/exact"
)

// joins is the check that every change must pass.
func joins(rec *ledger.Records) ledger.Faults {
	_, faults := ledger.Join(rec, ledger.Options{Through: exact.NoDate, PricesThrough: exact.NoDate, Brief: true})
	return faults
}

// withBook opens the ledger for changes, and closes it again.
func (a *app) withBook(ctx context.Context, do func(*folder.Book) error) error {
	b, err := folder.Open(ctx, a.ledgerDir(), joins)
	if err != nil {
		return err
	}
	err = do(b)
	a.sayWarnings(b.Warnings())
	return errors.Join(err, b.Close())
}

// saving are the flags of every command that changes the ledger.
type saving struct{ dryRun bool }

func (o *saving) add(cmd *cobra.Command) {
	cmd.Flags().BoolVar(&o.dryRun, "dry-run", false, "show what would be written, and write nothing")
}

// edit makes one change, or with --dry-run shows what it would be.
func (a *app) edit(ctx context.Context, o saving, do func(*folder.Tx) error) error {
	return a.withBook(ctx, func(b *folder.Book) error { return a.editBook(b, o, do) })
}

func (a *app) editBook(b *folder.Book, o saving, do func(*folder.Tx) error) error {
	command := commandLine(a.args)
	if o.dryRun {
		c, err := b.Try(command, do)
		if err == nil {
			a.sayChange("Would change:", c)
		}
		return err
	}
	c, err := a.saveChange(func() (folder.Change, error) { return b.Edit(command, do) })
	switch {
	case c.Number > 0:
		a.sayChange(fmt.Sprintf("Saved as change %d (putby undo takes it back):", c.Number), c)
	case err == nil:
		fmt.Fprintln(a.stdout, "Nothing changes.")
	}
	return err
}

// saveChange saves a change, which no interruption cuts short.
func (a *app) saveChange(save func() (folder.Change, error)) (c folder.Change, err error) {
	err = a.saves.do(func() (done counted, err error) {
		c, err = save()
		return countedChange(c), err
	})
	return c, err
}

// sayChange shows a change line by line.
func (a *app) sayChange(head string, c folder.Change) {
	fmt.Fprintln(a.stdout, head)
	for _, f := range c.Files {
		removed, added := f.Lines()
		fmt.Fprintln(a.stdout, "  "+f.Name)
		sayLines(a.stdout, "  - ", removed)
		sayLines(a.stdout, "  + ", added)
	}
}

// mostLines is how many lines of a change a person is shown of each file.
const mostLines = 40

func sayLines(w io.Writer, mark string, lines []string) {
	for i, line := range lines {
		if i == mostLines {
			fmt.Fprintf(w, "%s... and %d more\n", mark, len(lines)-i)
			return
		}
		fmt.Fprintln(w, mark+printable(line))
	}
}

// commandLine writes arguments as they could be typed again.
func commandLine(args []string) string {
	words := make([]string, len(args))
	for i, arg := range args {
		if words[i] = arg; arg == "" || strings.ContainsAny(arg, " \t\n\"'\\$&|;<>()*?#`~!{}[]") {
			words[i] = "'" + strings.ReplaceAll(arg, "'", `'\''`) + "'"
		}
	}
	return strings.Join(words, " ")
}
