package folder

import (
	"fmt"
	"os"
	"path"
	"slices"
	"strings"

	"putby/ledger"
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
		w := Warning{What: fmt.Sprintf(`"%s" looks like a copy of %s, and nothing in it counts`, name, kind), Hint: bringIn(name, kind)}
		if slip {
			w.What = fmt.Sprintf(`"%s" may be meant for %s, and nothing in it counts`, name, kind)
		}
		if !root.exists(kind) {
			w.Hint = "if it is that file, rename it to " + kind
		}
		list = append(list, w)
	}
	return list
}

// bringIn says how what a stray file holds can be brought in.
func bringIn(name, kind string) string {
	targets := map[string]string{ledger.ReceiptsFile: "receipts", ledger.RunsFile: "runs", ledger.ShelfFile: "prices"}
	if target := targets[kind]; target != "" {
		return fmt.Sprintf("putby import %s '%s' shows what %s lacks of it, and adds it with --save; then move it out of the folder", target, name, kind)
	}
	return fmt.Sprintf("copy the rows that %s lacks into it, then move this one out of the folder", kind)
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
	files := []string{ledger.SettingsFile}
	for _, k := range ledger.Kinds() {
		files = append(files, k.File)
	}
	for _, file := range files {
		own := strings.TrimSuffix(file, ".csv")
		if stem == own {
			return file, true
		}
		if copied(stem, own) {
			return file, false
		}
	}
	var stems []string
	for _, file := range files {
		stems = append(stems, strings.TrimSuffix(file, ".csv"))
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
		if isApart(stem[:at]) && isApart(reversed(stem[at+len(own):])) {
			return true
		}
	}
}

// isApart reports whether a stretch is empty or does not end in a letter.
func isApart(text string) bool {
	return text == "" || text[len(text)-1] < 'a' || text[len(text)-1] > 'z'
}

func reversed(text string) string {
	b := []byte(text)
	slices.Reverse(b)
	return string(b)
}

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
