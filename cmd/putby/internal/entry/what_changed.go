package entry

import (
	"cmp"
	"fmt"
	"maps"
	"slices"

	"putby/ledger"
	"putby/ledger/folder"
	"putby/ledger/report"
)

// WhatChanged tells what a change took out of a ledger and put into it, file by file; nil
// where one of the two ledgers has faults, after which after is nil, or there are no
// words for a record. It is not clear where the same words tell of both.
func WhatChanged(before *ledger.Records, after *ledger.Ledger, c folder.Change) (said []string, clear bool) {
	g, faults := ledger.Join(before, ledger.Options{})
	if after == nil || len(faults) > 0 {
		return nil, false
	}
	var gone, come []report.Written
	var cells, moist []string
	for _, f := range c.Files {
		k, found := ledger.KindOf(f.Name)
		switch {
		case !found:
			removed, added := f.Lines()
			said = append(said, fmt.Sprintf("%s: %d lines taken out, %d put in.", f.Name, len(removed), len(added)))
			continue
		case k.Name == ledger.SettingsKind().Name:
			said = append(said, settingsChanged(f, func(name, was, now string) string { return settingSentence(before.Settings.Locale, name, was, now) })...)
			continue
		}
		out, in, ok := report.Differing(k.Name, before, after.Records)
		if !ok {
			return nil, false
		}
		gone, come = append(gone, out...), append(come, in...)
		c, m := cellsChanged(after, k, f)
		cells, moist = append(cells, c...), append(moist, m...)
	}
	was, now := report.Saved(g, gone), report.Saved(after, come)
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

// cellsChanged says which cells of the one record that was changed are new, and of
// each changed record what packs are not dry by its new cells.
func cellsChanged(after *ledger.Ledger, k ledger.Kind, f folder.FileChange) (said, moist []string) {
	removed, added, ok := f.Rows()
	if !ok || len(removed) != len(added) {
		return nil, nil
	}
	var sets []Set
	for i, was := range removed {
		changed := map[string]string{}
		for _, c := range k.Header() {
			if added[i][c] != was[c] {
				changed[c] = added[i][c]
			}
		}
		sets = append(sets, Set{Kind: k, Cells: changed, Was: was})
	}
	if len(sets) == 1 {
		said = cellSentences(after.Settings.Locale, k, sets[0].Was, sets[0].Cells)
	}
	return said, report.Lines(MoistAfter(after, sets))
}

// SettingsSaid says which settings a change made, by what a form calls them.
func SettingsSaid(s *ledger.Settings, c *folder.Change) (said []string) {
	for _, f := range c.Files {
		if f.Name == ledger.SettingsFile {
			said = settingsChanged(f, func(name, before, now string) string {
				column, _ := SettingColumn(name)
				return fmt.Sprintf("%s (before: %s).", settingIs(s, name, now), settingText(s, cmp.Or(column, &ledger.Column{}), before))
			})
		}
	}
	return said
}

// settingsChanged says which settings a change made, each by say.
func settingsChanged(f folder.FileChange, say func(name, before, now string) string) (said []string) {
	removed, added, _ := f.Rows()
	before := map[string]string{}
	for _, was := range removed {
		before[was["setting"]] = was["value"]
	}
	for _, now := range added {
		said = append(said, say(now["setting"], before[now["setting"]], now["value"]))
		delete(before, now["setting"])
	}
	for _, name := range slices.Sorted(maps.Keys(before)) {
		said = append(said, say(name, before[name], ""))
	}
	return said
}
