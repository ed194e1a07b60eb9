package folder

import (
	"context"
	"errors"
	"io/fs"
	"maps"
	"os"
	"slices"
	"time"

	"putby/ledger"
	"putby/pricing/exact"
)

// Create makes a new ledger of files, given by name, in dir, which it makes if
// need be. It overwrites nothing: a file that is there already is [ErrExists].
// Files that could not be read again without a fault are a [*Refusal]. On any
// error nothing is left behind. Command is what the changes list it as.
func Create(ctx context.Context, dir, command string, files map[string][]byte) error {
	s := &staged{change: Change{Time: time.Now().UTC(), Command: command, Kind: Created, Number: 1}, texts: map[string]*string{}}
	for _, name := range slices.Sorted(maps.Keys(files)) {
		if err := checkName(name); err != nil {
			return err
		}
		text := string(files[name])
		s.add(name, "", false, &text, diff("", text))
	}
	if _, ok := files[ledger.SettingsFile]; !ok {
		return &ledger.Fault{Kind: ErrInvalid, What: "a ledger cannot be made without " + ledger.SettingsFile}
	}
	if _, faults := parse((&snapshot{}).with(s.texts), letGo); len(faults) > 0 {
		return &Refusal{Faults: faults}
	}
	made := false
	switch err := os.Mkdir(dir, 0o700); {
	case err == nil:
		made = true
	case !errors.Is(err, fs.ErrExist):
		return cannot("the folder "+exact.Quote(dir)+" cannot be made", err)
	}
	err := create(ctx, dir, s)
	if err != nil && made && !errors.Is(err, ErrInterrupted) && !errors.Is(err, ErrSaved) {
		_ = os.Remove(dir)
	}
	return err
}

// create makes a ledger in a folder that is there.
func create(ctx context.Context, dir string, s *staged) error {
	root, err := openTree(dir)
	if err != nil {
		return cannot(exact.Quote(dir)+" cannot be opened", err)
	}
	defer root.Close()
	if !root.exists(journalFile) { // what an earlier try left is completed first
		if err := vacant(root, dir, s.texts); err != nil {
			return err
		}
	}
	return createIn(ctx, root, rootDisk{root: root}, dir, s)
}

// createIn saves a new ledger as its first change, and clears up if it cannot.
func createIn(ctx context.Context, root *tree, d disk, dir string, s *staged) error {
	hadState := root.exists(stateFolder)
	lock, err := Opening{Wait: DefaultWait, For: s.change.Command}.take(ctx, root, dir)
	if err != nil {
		return err
	}
	defer lock.close()
	if _, err := complete(root, d, false); err != nil {
		return err
	}
	var folders []string
	for _, name := range foldersOf(s.texts) {
		if name != "." && !root.exists(name) {
			folders = append(folders, name)
		}
	}
	// Once more, now that nobody else can make one.
	w := newWriting(d, &s.change)
	w.texts = s.texts
	err = w.save(func() error { return vacant(root, dir, s.texts) })
	if err == nil || errors.Is(err, ErrInterrupted) || errors.Is(err, ErrSaved) {
		return err
	}
	for _, name := range folders {
		_ = root.Remove(name)
	}
	_ = lock.ticket.close()                           // its file lies in the folder of the queue
	if !hadState && root.Remove(queueFolder) == nil { // else somebody else waits
		for _, name := range []string{lockFile, pastFolder, stateFolder} {
			_ = root.Remove(name)
		}
	}
	return err
}

// vacant sees to it that none of the files is there yet.
func vacant(root *tree, dir string, texts map[string]*string) error {
	if root.exists(ledger.SettingsFile) {
		return &ledger.Fault{Kind: ErrExists, What: exact.Quote(dir) + " is a ledger already", Hint: "choose another folder; nothing was written"}
	}
	for _, name := range slices.Sorted(maps.Keys(texts)) {
		if root.exists(name) {
			return &ledger.Fault{Kind: ErrExists, What: name + " is already in " + exact.Quote(dir), Hint: "choose an empty folder; nothing was written"}
		}
	}
	return nil
}
