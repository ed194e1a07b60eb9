package folder

import (
	"cmp"
	"errors"
	"io/fs"
	"maps"
	"path"
	"slices"
	"sync"

	"putby/ledger"
)

// A snapshot is the text of all files of a ledger at one moment.
type snapshot struct {
	texts  map[string]string // by name within the folder; what does not exist is not there
	faults ledger.Faults     // files that cannot be read
}

func (s *snapshot) text(name string) string { return s.texts[name] }

// with returns the snapshot with other texts for some files, nil where one is
// not there. Files that hold no records are left out.
func (s *snapshot) with(texts map[string]*string) *snapshot {
	next := &snapshot{make(map[string]string, len(s.texts)+len(texts)), s.faults}
	maps.Copy(next.texts, s.texts)
	for name, text := range texts {
		if text == nil {
			delete(next.texts, name)
		} else if isRecords(name) {
			next.texts[name] = *text
		}
	}
	return next
}

// isRecords tells the files of a ledger by their names.
func isRecords(name string) bool {
	if k, ok := ledger.KindOf(name); ok {
		return k.File == name
	}
	return isSeries(name)
}

// unread reports whether a file could not be read.
func (s *snapshot) unread(name string) bool {
	return slices.ContainsFunc(s.faults, func(f ledger.Fault) bool { return f.File == name })
}

// ownNames lists the files that every ledger may have.
func ownNames() []string {
	names := []string{ledger.SettingsFile}
	for _, k := range ledger.Kinds() {
		names = append(names, k.File)
	}
	return names
}

// recordNames lists the files that a ledger may have, and the meter logs and
// hourly prices that it has.
func recordNames(root *tree) ([]string, *ledger.Fault) {
	names := ownNames()
	logs, fault := listSeries(root, ledger.MeterFolder)
	rates, fault2 := listSeries(root, ledger.RatesFolder)
	return slices.Concat(names, logs, rates), cmp.Or(fault, fault2)
}

// snap reads all files below root, or those that are named, with a change that is being
// saved made.
func snap(root *tree, pending *Change, only ...string) *snapshot {
	s := &snapshot{texts: map[string]string{}}
	names := only
	if only == nil {
		var fault *ledger.Fault
		if names, fault = recordNames(root); fault != nil {
			s.faults = append(s.faults, *fault)
		}
	}
	ahead := map[string]FileChange{}
	if pending != nil {
		for _, f := range pending.Files {
			ahead[f.Name] = f
			// A new file may not be in its place yet.
			if only == nil && isRecords(f.Name) && !slices.Contains(names, f.Name) {
				names = append(names, f.Name)
			}
		}
	}
	var mu sync.Mutex
	ledger.ParallelEach(names, func(name string) {
		text, found, err := root.read(name, MaxFile)
		if f, ok := ahead[name]; ok && err == nil {
			text, found, err = f.after(pending, text, found)
		}
		mu.Lock()
		defer mu.Unlock()
		if err != nil {
			s.faults = append(s.faults, *faultOf(name, err))
		} else if found {
			s.texts[name] = text
		}
	})
	return s
}

// listSeries returns the names of the files in the folder of meter logs or of
// hourly prices.
func listSeries(root *tree, folder string) ([]string, *ledger.Fault) {
	info, err := root.Stat(folder)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, nil
	case err != nil:
		return nil, faultOf(folder, err)
	case !info.IsDir():
		return nil, &ledger.Fault{File: folder, What: "it is not a folder", Hint: "move it out of the ledger's folder"}
	}
	entries, err := fs.ReadDir(root.FS(), folder)
	if err != nil {
		return nil, faultOf(folder, err)
	}
	var names []string
	for _, e := range entries {
		if isLog(e.Name()) {
			names = append(names, e.Name())
		}
	}
	copies := copiesIn(names)
	names = slices.DeleteFunc(names, func(name string) bool { return copies[name] != "" })
	for i, name := range names {
		names[i] = path.Join(folder, name)
	}
	return names, nil
}
