package folder

import (
	"maps"
	"slices"
	"strings"

	"putby/ledger"
)

// mostLooked is how many changes are looked through for what was saved last.
const mostLooked = 100

// SavedLast are those of some records, told by their lines, that the newest of the last
// changes added which added any of them.
func (b *Book) SavedLast(k ledger.Kind, at []int) []int {
	changes, _ := LastChanges(b.dir, mostLooked) // without them nothing tells
	text := strings.Split(b.files.texts[k.File], "\n")
	for _, added := range addedTo(k.File, changes) {
		saved := slices.DeleteFunc(slices.Clone(at), func(line int) bool {
			return line > len(text) || !added[strings.TrimRight(text[line-1], "\r")]
		})
		if len(saved) > 0 {
			return saved
		}
	}
	return nil
}

// addedTo goes through changes of a ledger, oldest first as [LastChanges] has them, and
// returns what each that still holds added to a file, the newest first: its lines, as
// later changes have them.
func addedTo(name string, list []Change) (added []map[string]bool) {
	now := map[string][]string{} // what later changes made of a line
	undone := TakenBack(list)
	for _, c := range slices.Backward(list) {
		if c.Kind != Edited || undone[c.Number] {
			continue
		}
		for i := range c.Files {
			if f := &c.Files[i]; f.Name == name {
				added = append(added, f.addedLines(now))
				f.follow(now) // only now: it tells what became of lines of the changes before
			}
		}
	}
	return slices.DeleteFunc(added, func(lines map[string]bool) bool { return len(lines) == 0 })
}

// TakenBack tells which of some changes, oldest first, are undone.
func TakenBack(list []Change) map[int]bool {
	undone := map[int]bool{}
	for _, c := range list {
		if c.Kind == Undone || c.Kind == Redone {
			undone[c.Of] = c.Kind == Undone
		}
	}
	return undone
}

// addedLines are the lines that a change added, as they are now; none where it only
// changed lines that were there.
func (f *FileChange) addedLines(now map[string][]string) map[string]bool {
	removed, added := f.Lines()
	if len(added) <= len(removed) {
		return nil
	}
	was, fresh := map[string]bool{}, map[string]bool{}
	for _, line := range removed {
		was[line] = true
	}
	for _, line := range added {
		if was[line] {
			continue
		}
		for _, line := range nowOf(now, line) {
			fresh[line] = true
		}
	}
	return fresh
}

// follow notes what a change made of the lines that it replaced.
func (f *FileChange) follow(now map[string][]string) {
	became := map[string][]string{}
	for _, h := range f.Hunks {
		var all []string
		for _, line := range lines(string(h.Added)) {
			all = append(all, nowOf(now, line)...)
		}
		for _, line := range lines(string(h.Removed)) {
			became[line] = all
		}
	}
	maps.Copy(now, became)
}

func nowOf(now map[string][]string, line string) []string {
	if all, edited := now[line]; edited {
		return all
	}
	return []string{line}
}
