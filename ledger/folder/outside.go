package folder

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"

	"github.com/gofrs/flock"
)

// outsidePrefix begins the passing names of files and folders that are being
// written outside a ledger.
const outsidePrefix = ".putby-out-"

// WriteOutside writes a file that is no part of a ledger, such as a page: it is
// there whole or, on any error, as it was. It is written under a passing name
// beside its own, which it gets at the end. A file that is replaced keeps its
// mode and group; a new one follows the umask. Without replace one that is there,
// or comes meanwhile, is [fs.ErrExist]. What an earlier one left that was killed
// is cleared away.
func WriteOutside(path string, replace bool, write func(io.Writer) error) (err error) {
	dir := filepath.Dir(path)
	sweepOutside(dir)
	was, err := os.Lstat(path)
	switch {
	case err == nil && !replace:
		return fs.ErrExist
	case err != nil && !isMissing(err):
		return Cause(err)
	}
	f, held, err := createOutside(dir, was)
	if err != nil {
		return Cause(err)
	}
	defer held.Close()
	defer func() {
		if err != nil {
			f.Close()
			os.Remove(f.Name())
		}
	}()
	if err := write(f); err != nil {
		return err
	}
	if err := new(lacking).bear(f.Sync()); err != nil {
		return Cause(err)
	}
	if err := f.Close(); err != nil {
		return Cause(err)
	}
	return placeOutside(f.Name(), path, replace)
}

// createOutside makes a file with a passing name, and locks it, so that nobody
// takes it for one left behind.
func createOutside(dir string, was fs.FileInfo) (*os.File, *flock.Flock, error) {
	mode := fs.FileMode(0o666)
	if was != nil {
		mode = 0o600 // until it has the access that it should have
	}
	for {
		path := filepath.Join(dir, fmt.Sprintf("%s%08x", outsidePrefix, rand.Uint32()))
		f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, mode)
		if errors.Is(err, fs.ErrExist) {
			continue
		}
		if err != nil {
			return nil, nil, err
		}
		held := flock.New(path, flock.SetFlag(os.O_RDONLY))
		if !here.locksBind { // else that it is open keeps it
			_, _ = held.TryLock() // where there are no locks, nothing is swept either
		}
		if was != nil {
			if err := keepAccess(f, was); err != nil {
				return nil, nil, errors.Join(err, held.Close(), f.Close(), os.Remove(path))
			}
		}
		return f, held, nil
	}
}

// sweepOutside takes away what was being written when a process was killed.
func sweepOutside(dir string) {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return
	}
	for _, e := range entries {
		if !strings.HasPrefix(e.Name(), outsidePrefix) || !e.Type().IsRegular() && !e.IsDir() {
			continue
		}
		path := filepath.Join(dir, e.Name())
		left := flock.New(path, flock.SetFlag(os.O_RDONLY))
		got, err := left.TryLock()
		if !here.removesOpen {
			_ = left.Close()
		}
		if err == nil && got {
			_ = os.RemoveAll(path)
		}
		_ = left.Close()
	}
}

// placeOutside gives a finished file its name. Unless it replaces, it does not
// take that of one that has come meanwhile, where the file system can tell.
func placeOutside(temp, path string, replace bool) error {
	if !replace {
		err := os.Link(temp, path)
		switch {
		case err == nil:
			_ = os.Remove(temp) // or the next one does
			return nil
		case errors.Is(err, fs.ErrExist):
			return fs.ErrExist
		}
	}
	return Cause(os.Rename(temp, path)) // without links too
}
