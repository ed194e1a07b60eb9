package folder

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"path"
	"strings"
)

// A disk is what a save does to the file system, in the smallest steps, so
// that tests can let each of them fail. Names are within the ledger's folder.
type disk interface {
	create(name, as string) (file, error) // a new file, with the access of the one that it will replace
	rename(from, to string) error
	swap(a, b string) (done bool, err error)     // not done where there is no way to
	link(from, to string) (done bool, err error) // the same; where there is a file it is [fs.ErrExist]
	remove(name string) error
	mkdir(name string) error // one that is there is fine
	syncDir(name string) error
	exists(name string) (bool, error)
	read(name string) (text string, found bool, err error)
	same(name string, text *string) (bool, error) // nil: there is none
}

// A file is a file being written.
type file interface {
	io.StringWriter
	Sync() error
	Close() error
}

// rootDisk is the disk below a folder.
type rootDisk struct {
	root  *tree
	lacks *lacking // may be nil
}

// lacking is what a file system was found to lack.
type lacking struct{ sync bool }

func (d rootDisk) create(name, as string) (file, error) {
	if err := d.remove(name); err != nil { // left by a save that was stopped
		return nil, err
	}
	was, err := d.root.Lstat(as)
	if err != nil && !isMissing(err) {
		return nil, err
	}
	mode := fs.FileMode(0o666)
	if was != nil {
		mode = 0o600 // until it has the access that it should have
	}
	f, err := d.root.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, mode)
	if err != nil {
		return nil, err
	}
	switch {
	case was != nil:
		err = keepAccess(f, was)
	case strings.HasPrefix(as, stateFolder+"/"):
		err = shareFile(d.root, f)
	}
	if err != nil {
		return nil, errors.Join(err, f.Close())
	}
	return rootFile{f, d.lacks}, nil
}

// rootFile is a file on a disk that may not know how to sync.
type rootFile struct {
	*os.File
	lacks *lacking
}

func (f rootFile) Sync() error { return f.lacks.bear(f.File.Sync()) }

// bear notes that a file system cannot sync, and goes on without.
func (l *lacking) bear(err error) error {
	if !isUnsupported(err) {
		return err
	}
	if l != nil {
		l.sync = true
	}
	return nil
}

func (d rootDisk) rename(from, to string) error { return d.root.Rename(from, to) }

// link gives a file a second name, which no other may have. It reports false where
// the file system has no way to.
func (d rootDisk) link(from, to string) (bool, error) {
	err := d.root.Link(from, to)
	if errors.Is(err, fs.ErrExist) {
		return false, fs.ErrExist
	}
	return err == nil, nil // what else is wrong a rename says
}

func (d rootDisk) remove(name string) error {
	if err := d.root.Remove(name); !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	return nil
}

func (d rootDisk) mkdir(name string) error {
	if err := d.root.Mkdir(name, 0o777); !errors.Is(err, fs.ErrExist) {
		return err
	}
	return nil
}

func (d rootDisk) syncDir(name string) error {
	f, err := d.root.Open(name)
	if err != nil {
		return err
	}
	defer f.Close()
	return d.lacks.bear(syncFolder(f))
}

func (d rootDisk) exists(name string) (bool, error) {
	_, err := d.root.Lstat(name)
	if errors.Is(err, fs.ErrNotExist) {
		return false, nil
	}
	return err == nil, err
}

func (d rootDisk) read(name string) (text string, found bool, err error) {
	return d.root.read(name, MaxFile)
}

func (d rootDisk) same(name string, text *string) (bool, error) {
	if text != nil {
		return d.root.same(name, *text)
	}
	f, _, err := d.root.openRegular(name, MaxFile)
	if f == nil {
		return err == nil, err
	}
	return false, f.Close()
}

// newName is the name under which a file is written before it takes its place.
func newName(name string) string { return path.Join(path.Dir(name), "."+path.Base(name)+newSuffix) }

// writeNew writes a file under its new name, through to the disk.
func writeNew(d disk, name, text string) error {
	return writeNewBy(d, name, func(w io.StringWriter) error { _, err := w.WriteString(text); return err })
}

// writeNewBy is writeNew for a text that write writes.
func writeNewBy(d disk, name string, write func(io.StringWriter) error) error {
	f, err := d.create(newName(name), name)
	if err != nil {
		return err
	}
	if err = write(f); err == nil {
		err = f.Sync()
	}
	return errors.Join(err, f.Close())
}
