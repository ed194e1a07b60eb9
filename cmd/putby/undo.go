package main

import (
	"context"
	"fmt"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"putby/cmd/putby/internal/entry"
	"putby/ledger/folder"
	"putby/pricing/exact"
)

const undoLong = `Take back the last saved change that is not taken back yet; again, the one
before; and so on back to the first. With NUMBER take back that one alone, as
far as nothing later touches its lines; putby changes lists the numbers. An edit
made by another program since is kept: only the lines of the change are taken
back, and where those are no longer as it left them nothing is done. redo takes
the last undo back.`

func newUndoCommand(a *app) *cobra.Command {
	o := &saving{}
	cmd := &cobra.Command{
		Use: "undo [NUMBER]", Short: "take back the last change; again, the one before", Long: undoLong,
		Example: "  putby draw add --food chicken-broth\n  putby undo --dry-run\n  putby undo\n  putby draw add --food chicken-broth\n  putby undo 4",
		Args:    between(0, 1, "NUMBER"),
		RunE: func(cmd *cobra.Command, args []string) error {
			number, err := changeNumber(args)
			if err != nil {
				return err
			}
			return a.turnBack(cmd.Context(), *o, "Undone", "Would undo",
				func(b *folder.Book) (folder.Change, error) { return b.UndoOf(number) }, func(b *folder.Book) (folder.Change, error) { return b.TryUndoOf(number) })
		},
	}
	o.add(cmd)
	return cmd
}

// changeNumber reads the number of a change; 0 when none is given.
func changeNumber(args []string) (int, error) {
	if len(args) == 0 {
		return 0, nil
	}
	n, err := strconv.Atoi(args[0])
	if err != nil || n < 1 {
		return 0, misused("%s is not the number of a change, such as 12: putby changes lists them", exact.Quote(args[0]))
	}
	return n, nil
}

func newRedoCommand(a *app) *cobra.Command {
	o := &saving{}
	cmd := &cobra.Command{
		Use: "redo", Short: "take back the last undo", Long: "Take back the last undo, if nothing else was changed since; again, the one before.",
		Example: "  putby draw add --food chicken-broth\n  putby undo\n  putby redo",
		Args:    arguments(),
		RunE: func(cmd *cobra.Command, _ []string) error {
			return a.turnBack(cmd.Context(), *o, "Done again", "Would do again", (*folder.Book).Redo, (*folder.Book).TryRedo)
		},
	}
	o.add(cmd)
	return cmd
}

// turnBack makes a change that takes another back, or tries it, and says what of
// the ledger it turned.
func (a *app) turnBack(ctx context.Context, o saving, done, tried string, do, try func(*folder.Book) (folder.Change, error)) error {
	if o.dryRun {
		done, do = tried, try
	}
	return a.withBook(ctx, o, func(b *folder.Book) error {
		before, _ := b.Records()
		before.Settings.Wording = commands{}
		a.check.Joined = nil
		c, err := a.saveChange(func() (folder.Change, error) { return do(b) })
		if c.Of == 0 {
			return err
		}
		head := fmt.Sprintf("%s: change %d.", done, c.Of)
		if len(c.Merged) > 0 {
			head += " Other edits were kept in " + strings.Join(c.Merged, ", ") + "."
		}
		told, clear := entry.WhatChanged(before, a.check.Joined, c)
		a.sayChange(head, c, told, o.verbose || !clear)
		return err
	})
}
