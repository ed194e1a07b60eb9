package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"putby/ledger/folder"
)

const undoLong = `Take back the last saved change that is not taken back yet; again, the one
before; and so on back to the first. An edit made by another program since is
kept: only the lines of the change are taken back, and where those are no longer
as it left them nothing is done. redo takes the last undo back.`

func newUndoCommand(a *app) *cobra.Command {
	o := &saving{}
	cmd := &cobra.Command{
		Use: "undo", Short: "take back the last change; again, the one before", Long: undoLong,
		Example: "  putby draw add --food chicken-broth\n  putby undo --dry-run\n  putby undo",
		Args:    arguments(),
		RunE: func(cmd *cobra.Command, _ []string) error {
			return a.withBook(cmd.Context(), *o, func(b *folder.Book) error {
				if o.dryRun {
					return a.sayUndone("Would undo", b.TryUndo)
				}
				return a.sayUndone("Undone", b.Undo)
			})
		},
	}
	o.add(cmd)
	return cmd
}

func newRedoCommand(a *app) *cobra.Command {
	o := &saving{}
	cmd := &cobra.Command{
		Use: "redo", Short: "take back the last undo", Long: "Take back the last undo, if nothing else was changed since; again, the one before.",
		Example: "  putby draw add --food chicken-broth\n  putby undo\n  putby redo",
		Args:    arguments(),
		RunE: func(cmd *cobra.Command, _ []string) error {
			return a.withBook(cmd.Context(), *o, func(b *folder.Book) error {
				if o.dryRun {
					return a.sayUndone("Would do again", b.TryRedo)
				}
				return a.sayUndone("Done again", b.Redo)
			})
		},
	}
	o.add(cmd)
	return cmd
}

func (a *app) sayUndone(word string, do func() (folder.Change, error)) error {
	c, err := a.saveChange(do)
	if c.Of == 0 {
		return err
	}
	head := fmt.Sprintf("%s: change %d.", word, c.Of)
	if len(c.Merged) > 0 {
		head += " Other edits were kept in " + strings.Join(c.Merged, ", ") + "."
	}
	a.sayChange(head, c)
	return err
}
