package folder

import (
	"errors"
	"fmt"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"

	"github.com/gofrs/flock"
)

// A FolderOutside is a folder in the making that is no part of a ledger, such as
// an export. It has a passing name beside its own, which [FolderOutside.Place]
// gives it; then it is there whole. Until then nothing is where it is to be.
type FolderOutside struct {
	Dir  string // to write into; everything in it is to be closed before it is placed
	path string
	held *flock.Flock
}

// MakeOutside begins a folder that is to be at path. What an earlier one left that
// was killed is cleared away.
func MakeOutside(path string) (*FolderOutside, error) {
	path, err := filepath.Abs(path)
	if err != nil {
		return nil, Cause(err)
	}
	parent := filepath.Dir(path)
	sweepOutside(parent)
	for {
		dir := filepath.Join(parent, fmt.Sprintf("%s%08x", outsidePrefix, rand.Uint32()))
		err := os.Mkdir(dir, 0o777)
		if errors.Is(err, fs.ErrExist) {
			continue
		}
		if err != nil {
			return nil, Cause(err)
		}
		f := &FolderOutside{dir, path, flock.New(dir, flock.SetFlag(os.O_RDONLY))}
		_, _ = f.held.TryLock() // where there are no locks, nothing is swept either
		return f, nil
	}
}

// Place brings all that was written to the disk and gives the folder its name. One
// that is there already gives way to it at one moment where the file system can do
// that, if it is to be replaced or is empty; else it is [fs.ErrExist].
func (f *FolderOutside) Place(replace bool) error {
	if err := syncAll(f.Dir); err != nil {
		return Cause(err)
	}
	parent, err := openTree(filepath.Dir(f.path))
	if err != nil {
		return Cause(err)
	}
	defer parent.Close()
	disk := rootDisk{root: parent}
	if err := f.rename(disk, replace); err != nil {
		return err
	}
	_ = f.held.Close()
	return Cause(disk.syncDir("."))
}

func (f *FolderOutside) rename(disk rootDisk, replace bool) error {
	if info, err := os.Lstat(f.path); err == nil && info.IsDir() {
		_ = os.Remove(f.path) // which only an empty one lets happen
	}
	err := os.Rename(f.Dir, f.path)
	if err == nil {
		return nil
	}
	// That it is there is not said as such everywhere.
	if info, none := os.Lstat(f.path); none != nil || !info.IsDir() {
		return Cause(err)
	}
	if !replace {
		return fs.ErrExist
	}
	swapped, err := disk.swap(filepath.Base(f.Dir), filepath.Base(f.path))
	if err == nil && !swapped {
		err = f.moveAside()
	}
	if err == nil && swapped {
		_ = os.RemoveAll(f.Dir) // what was there; or the next one takes it away
	}
	return Cause(err)
}

// moveAside replaces a folder where two cannot change names.
func (f *FolderOutside) moveAside() error {
	old := f.Dir + ".old"
	if err := os.Rename(f.path, old); err != nil {
		return err
	}
	if err := os.Rename(f.Dir, f.path); err != nil {
		return errors.Join(err, os.Rename(old, f.path))
	}
	_ = os.RemoveAll(old)
	return nil
}

// Discard takes away what was written, if it has not been placed.
func (f *FolderOutside) Discard() {
	_ = os.RemoveAll(f.Dir)
	_ = f.held.Close()
}

// syncAll brings a folder, and all that is in it, to the disk.
func syncAll(dir string) error {
	var lacks lacking
	return filepath.WalkDir(dir, func(name string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		how, sync := os.O_RDONLY, syncFolder
		if !d.IsDir() { // some systems sync only what can be written
			how, sync = os.O_RDWR, (*os.File).Sync
		}
		f, err := os.OpenFile(name, how, 0)
		if err != nil {
			return err
		}
		return errors.Join(lacks.bear(sync(f)), f.Close())
	})
}
