package folder

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"path"
)

// A disk is what a save does to the file system, in the smallest steps, so
// that tests can let each of them fail. Names are within the ledger's folder.
type disk interface {
	create(name string) (file, error) // a new file, 0600
	rename(from, to string) error
	remove(name string) error
	mkdir(name string) error // 0700; one that is there is fine
	syncDir(name string) error
}

// A file is a file being written.
type file interface {
	io.StringWriter
	Sync() error
	Close() error
}

// rootDisk is the disk below a folder.
type rootDisk struct{ root *os.Root }

func (d rootDisk) create(name string) (file, error) {
	if err := d.remove(name); err != nil { // left by a save that was stopped
		return nil, err
	}
	return d.root.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
}

func (d rootDisk) rename(from, to string) error { return d.root.Rename(from, to) }

func (d rootDisk) remove(name string) error {
	if err := d.root.Remove(name); !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	return nil
}

func (d rootDisk) mkdir(name string) error {
	if err := d.root.Mkdir(name, 0o700); !errors.Is(err, fs.ErrExist) {
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
	return f.Sync()
}

// newName is the name under which a file is written before it takes its place.
func newName(name string) string { return path.Join(path.Dir(name), "."+path.Base(name)+newSuffix) }

// writeNew writes a file under its new name, through to the disk.
func writeNew(d disk, name, text string) (err error) {
	f, err := d.create(newName(name))
	if err != nil {
		return err
	}
	_, err = f.WriteString(text)
	if err == nil {
		err = f.Sync()
	}
	return errors.Join(err, f.Close())
}
