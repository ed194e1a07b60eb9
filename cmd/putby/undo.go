package main

import (
	"context"
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"putby/cmd/putby/internal/entry"
	"putby/ledger"
	"putby/ledger/folder"
	reports "putby/ledger/report"
	"putby/pricing/exact"
	"putby/pricing/locale"
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
		return 0, usageError{fmt.Errorf("%s is not the number of a change, such as 12: putby changes lists them", exact.Quote(args[0]))}
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
		a.check.Joined = nil
		c, err := a.saveChange(func() (folder.Change, error) { return do(b) })
		if c.Of == 0 {
			return err
		}
		head := fmt.Sprintf("%s: change %d.", done, c.Of)
		if len(c.Merged) > 0 {
			head += " Other edits were kept in " + strings.Join(c.Merged, ", ") + "."
		}
		told, clear := a.toldOf(before, c)
		a.sayChange(head, c, told, o.verbose || !clear)
		return err
	})
}

// toldOf tells what a change took out of a ledger and put into it, file by file;
// nil where one of the two ledgers has faults, or there are no words for a record.
// It is not clear where the same words tell of both.
func (a *app) toldOf(before *ledger.Records, c folder.Change) (said []string, clear bool) {
	g, faults := ledger.Join(before, ledger.Options{})
	if a.check.Joined == nil || len(faults) > 0 {
		return nil, false
	}
	var gone, come []reports.Written
	var cells, moist []string
	for _, f := range c.Files {
		k, found := kindIn(f.Name)
		out, in, ok := reports.Differing(k.Name, before, a.check.Joined.Records)
		switch {
		case f.Name == ledger.SettingsKind().File:
			said = append(said, settingsChanged(before.Settings.Locale, f)...)
		case !found:
			removed, added := f.Lines()
			said = append(said, fmt.Sprintf("%s: %d lines taken out, %d put in.", f.Name, len(removed), len(added)))
		case !ok:
			return nil, false
		}
		gone, come = append(gone, out...), append(come, in...)
		if found {
			c, m := a.changedCells(k, f)
			cells, moist = append(cells, c...), append(moist, m...)
		}
	}
	was, now := reports.Saved(g, gone), reports.Saved(a.check.Joined, come)
	if len(was) > 0 && slices.Equal(was, now) {
		return slices.Concat(said, now, cells, moist), len(cells) > 0
	}
	if len(was) > 0 {
		said = slices.Concat(said, []string{"No longer there:"}, was)
	}
	if len(now) > 0 {
		said = slices.Concat(said, []string{"There now:"}, now)
	}
	return slices.Concat(said, cells, moist), true
}

// changedCells says which cells of the one record that was changed are new, and of
// each changed record what packs are not dry by its new cells.
func (a *app) changedCells(k ledger.Kind, f folder.FileChange) (said, moist []string) {
	removed, added, ok := f.Rows()
	if !ok || len(removed) != len(added) || k.Name == ledger.SettingsKind().Name {
		return nil, nil
	}
	l := a.check.Joined.Records.Settings.Locale
	var sets []entry.Set
	for i, was := range removed {
		changed := map[string]string{}
		for _, c := range k.Header() {
			if now := added[i][c]; now != was[c] {
				changed[c] = now
				if len(removed) == 1 {
					said = append(said, cellSentence(l, k.Column(c), now, was[c]))
				}
			}
		}
		sets = append(sets, entry.Set{Kind: k, Cells: changed, Was: was})
	}
	return said, entry.MoistAfter(a.check.Joined, sets)
}

// kindIn is the kind of records that a file holds.
func kindIn(file string) (ledger.Kind, bool) {
	for _, k := range ledger.Kinds() {
		if k.File == file {
			return k, true
		}
	}
	return ledger.Kind{}, false
}

// settingsChanged says which settings a change made.
func settingsChanged(l locale.Locale, f folder.FileChange) (said []string) {
	removed, added, _ := f.Rows()
	before := map[string]string{}
	for _, was := range removed {
		before[was["setting"]] = was["value"]
	}
	for _, now := range added {
		said = append(said, settingSentence(l, now["setting"], before[now["setting"]], now["value"]))
		delete(before, now["setting"])
	}
	for _, name := range slices.Sorted(maps.Keys(before)) {
		said = append(said, settingSentence(l, name, before[name], ""))
	}
	return said
}
