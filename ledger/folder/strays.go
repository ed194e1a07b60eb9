package folder

import (
	"fmt"
	"maps"
	"os"
	"path"
	"slices"
	"strings"

	"putby/ledger"
	"putby/ledger/advice"
)

// strays warns of files in a ledger's folder that look like its records and are
// none: copies that a shared folder made of two edits, names in other letters,
// names with a slip.
func strays(root *tree) []Warning {
	names, err := root.names(".")
	if err != nil {
		return nil
	}
	slices.Sort(names)
	var list []Warning
	for _, name := range names {
		kind, slip := strayOf(name)
		if kind == "" || sameFile(root, name, kind) {
			continue
		}
		w := bringIn(name, kind)
		if slip {
			w.What = fmt.Sprintf(`"%s" may be meant for %s, and nothing in it counts`, name, kind)
		}
		if !root.exists(kind) {
			w.Hint, w.Do = "if it is that file, rename it to "+kind, nil
		}
		list = append(list, w)
	}
	for _, folder := range []string{ledger.MeterFolder, ledger.RatesFolder} {
		list = append(list, strayCopies(root, folder)...)
	}
	return list
}

// strayCopies warns of copies in a folder of meter logs or of hourly prices.
func strayCopies(root *tree, folder string) []Warning {
	names, err := root.names(folder)
	if err != nil {
		return nil
	}
	var list []Warning
	copies := copiesIn(slices.DeleteFunc(names, func(name string) bool { return !isLog(name) }))
	for _, name := range slices.Sorted(maps.Keys(copies)) {
		list = append(list, Warning{
			What: fmt.Sprintf(`"%s/%s" looks like a copy of %s/%s, and nothing in it counts`, folder, name, folder, copies[name]),
			Hint: "look what it has that " + folder + "/" + copies[name] + " lacks, then move it out of the folder",
		})
	}
	return list
}

// copiesIn finds, of the names of logs, those that a shared folder made of two
// edits of another, by the other's name. One that could be the name of a run is
// no copy unless it says so itself.
func copiesIn(names []string) map[string]string {
	stem := func(name string) string { return strings.ToLower(strings.TrimSuffix(name, ".csv")) }
	copies := map[string]string{}
	for _, name := range names {
		if ledger.CheckID(runOf(name)) == nil && !strings.Contains(stem(name), "conflict") {
			continue
		}
		for _, other := range names {
			// Of several it is a copy of the one with the longest name, which is the nearest.
			if other != name && ledger.CheckID(runOf(other)) == nil && len(other) > len(copies[name]) && len(other) < len(name) && copied(stem(name), stem(other)) {
				copies[name] = other
			}
		}
	}
	return copies
}

// bringIn warns of a stray file, and says how what it holds can be brought in.
func bringIn(name, kind string) Warning {
	w := Warning{What: fmt.Sprintf(`"%s" looks like a copy of %s, and nothing in it counts`, name, kind)}
	targets := map[string]string{ledger.ReceiptsFile: "receipts", ledger.RunsFile: "runs", ledger.ShelfFile: "prices"}
	if target := targets[kind]; target != "" {
		w.Hint = fmt.Sprintf("see what %s lacks of it, add that, then move it out of the folder", kind)
		w.Do = []advice.Doing{advice.Do(advice.Import, target, name)}
		return w
	}
	w.Hint = fmt.Sprintf("copy the rows that %s lacks into it, then move this one out of the folder", kind)
	return w
}

// ownTables are tables in a ledger's folder that hold no records.
var ownTables = []string{"maps.csv", "names.csv"}

// strayOf finds the file of records that a name resembles, and whether by a
// slip or by other letters, not as a copy.
func strayOf(name string) (kind string, slip bool) {
	lower := strings.ToLower(name)
	stem, ok := strings.CutSuffix(lower, ".csv")
	if !ok || isRecords(name) || strings.HasPrefix(name, ".") || slices.Contains(ownTables, name) {
		return "", false
	}
	stems := ownNames()
	for i, file := range stems {
		stems[i] = strings.TrimSuffix(file, ".csv")
		if slip = stem == stems[i]; slip || copied(stem, stems[i]) {
			return file, slip
		}
	}
	if near := ledger.Nearest(stem, stems); near != "" {
		return near + ".csv", true
	}
	return "", false
}

// copied reports whether a name is a file's with something before or behind it,
// as "receipts (2)", "receipts-kitchen" and "copy of receipts" are.
func copied(stem, own string) bool {
	for at := 0; ; at++ {
		i := strings.Index(stem[at:], own)
		if i < 0 {
			return false
		}
		at += i
		before, after := stem[:at], stem[at+len(own):]
		if (before == "" || !isLetter(before[len(before)-1])) && (after == "" || !isLetter(after[0])) {
			return true
		}
	}
}

func isLetter(c byte) bool { return 'a' <= c && c <= 'z' }

// sameFile reports whether two names are of one file, as where a file system
// makes nothing of capitals.
func sameFile(root *tree, a, b string) bool {
	one, err := root.Lstat(a)
	if err != nil || !one.Mode().IsRegular() {
		return true // nothing that could hold records
	}
	other, err := root.Lstat(b)
	return err == nil && os.SameFile(one, other)
}

// isLog tells a meter log by its name. What begins with a dot, a number sign or
// "~$" are an editor's or a file system's own notes beside a file.
func isLog(name string) bool {
	return path.Ext(name) == ".csv" && !strings.HasPrefix(name, ".") && !strings.HasPrefix(name, "#") && !strings.HasPrefix(name, "~$")
}
