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
	return &cobra.Command{
		Use: "undo", Short: "take back the last change; again, the one before", Long: undoLong,
		Example: "  putby draw add --food chicken-broth\n  putby undo", Args: arguments(),
		RunE: func(cmd *cobra.Command, _ []string) error {
			return a.withBook(cmd.Context(), func(b *folder.Book) error {
				return a.sayUndone("Undone", b.Undo)
			})
		},
	}
}

func newRedoCommand(a *app) *cobra.Command {
	return &cobra.Command{
		Use: "redo", Short: "take back the last undo", Long: "Take back the last undo, if nothing else was changed since.",
		Example: "  putby draw add --food chicken-broth\n  putby undo\n  putby redo", Args: arguments(),
		RunE: func(cmd *cobra.Command, _ []string) error {
			return a.withBook(cmd.Context(), func(b *folder.Book) error {
				return a.sayUndone("Done again", b.Redo)
			})
		},
	}
}

func (a *app) sayUndone(word string, do func() (folder.Change, error)) error {
	a.saving.Lock()
	defer a.saving.Unlock()
	c, err := do()
	if err != nil {
		return err
	}
	a.saved = true
	head := fmt.Sprintf("%s: change %d.", word, c.Of)
	if len(c.Merged) > 0 {
		head += " Other edits were kept in " + strings.Join(c.Merged, ", ") + "."
	}
	a.sayChange(head, c)
	return nil
}
