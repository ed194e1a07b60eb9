package folder

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"putby/ledger"
	"putby/ledger/advice"
	"putby/pricing/exact"
)

// A Household is one of many: its ledger is a folder within theirs.
type Household struct {
	Name string // of its folder
	Dir  string
	// Err says of it why it is left out, a [*ledger.Fault]; nil: it is to be read.
	Err error
}

// Households finds the ledgers in dir, each subfolder one, in order of name. What
// may be taken for one and does not count is among them, with why: a folder that is
// no ledger, a link, a ledger inside another, names that are one to many file
// systems. Files, and folders whose names begin with a full stop, are passed over.
// The error, a [*ledger.Fault], is for a dir that is no folder of ledgers.
func Households(dir string) ([]Household, error) {
	if root, err := openRoot(dir); err == nil {
		root.Close()
		return nil, &ledger.Fault{Kind: ErrNotLedger, What: exact.Quote(dir) + " is a ledger itself", Choice: ledger.ThisLedger}
	}
	entries, err := os.ReadDir(dir)
	if err != nil {
		return nil, notHouseholds(dir, "cannot be read", Cause(err))
	}
	var list []Household
	for _, e := range entries {
		if strings.HasPrefix(e.Name(), ".") {
			continue
		}
		path := filepath.Join(dir, e.Name())
		info, err := os.Stat(path)
		link := e.Type()&fs.ModeSymlink != 0
		switch {
		case link && (err != nil || info.IsDir()):
			list = append(list, leftOut(e.Name(), path, "it is a link", "move the ledger's folder itself here"))
		case err == nil && info.IsDir():
			list = append(list, householdIn(e.Name(), path)...)
		case err != nil && e.IsDir():
			list = append(list, Household{e.Name(), path, notOpened(path, err)})
		}
	}
	if len(list) == 0 {
		return nil, notHouseholds(dir, "has no folders in it", nil)
	}
	oneOfEachName(list)
	onceEach(list)
	return list, nil
}

func notHouseholds(dir, what string, err error) error {
	return &ledger.Fault{
		Kind: ErrNotLedger, What: exact.Quote(dir) + " " + what, Err: err,
		Hint: "name the folder in which the ledgers lie, each in a folder of its own",
	}
}

func leftOut(name, path, why, hint string, do ...advice.Doing) Household {
	return Household{name, path, &ledger.Fault{Kind: ErrNotLedger, What: why, Hint: hint, Do: do}}
}

// householdIn is the household whose ledger is in a folder, with the ledgers that
// lie inside it.
func householdIn(name, path string) []Household {
	root, err := openRoot(path)
	switch {
	case errors.Is(err, ErrNotLedger):
		return []Household{leftOut(name, path, "it is not a ledger: it has no "+ledger.SettingsFile, "move it elsewhere, or begin a ledger in it", advice.Do(advice.Begin, path))}
	case err != nil:
		return []Household{{name, path, err}}
	}
	root.Close()
	list := []Household{{Name: name, Dir: path}}
	_ = filepath.WalkDir(path, func(inner string, e fs.DirEntry, err error) error {
		switch {
		case err != nil || !e.IsDir() || inner == path:
			return nil
		case strings.HasPrefix(e.Name(), "."):
			return fs.SkipDir
		}
		if _, err := os.Lstat(filepath.Join(inner, ledger.SettingsFile)); err != nil {
			return nil
		}
		within, _ := filepath.Rel(filepath.Dir(path), inner)
		list = append(list, leftOut(filepath.ToSlash(within), inner, "it is a ledger inside that of "+exact.Quote(name), "move it out of that ledger's folder"))
		return fs.SkipDir
	})
	return list
}

// oneOfEachName leaves out households whose names differ in case alone: nobody could
// tell which one is meant, nor could many file systems.
func oneOfEachName(list []Household) {
	fold := func(h *Household) string { return strings.ToLower(strings.ToUpper(h.Name)) } // so that ſ is s too
	named := map[string][]*Household{}
	for i := range list {
		if h := &list[i]; h.Err == nil {
			named[fold(h)] = append(named[fold(h)], h)
		}
	}
	for _, same := range named {
		for i, h := range same {
			if len(same) > 1 {
				other := same[(i+1)%len(same)]
				*h = leftOut(h.Name, h.Dir, exact.Quote(other.Name)+" is the same name but for capitals", "give one of them another name")
			}
		}
	}
}

// onceEach leaves out what is a folder that comes before it by another name, so that
// nothing counts twice.
func onceEach(list []Household) {
	var infos []fs.FileInfo
	for i := range list {
		h := &list[i]
		info, err := os.Stat(h.Dir)
		for j := range infos {
			if err == nil && h.Err == nil && list[j].Err == nil && os.SameFile(infos[j], info) {
				*h = leftOut(h.Name, h.Dir, "it is the same folder as "+exact.Quote(list[j].Name), "take one of the two names away")
			}
		}
		infos = append(infos, info)
	}
}
