package folder

import (
	"path"

	"golang.org/x/sys/unix"
)

// swap lets two files of one folder change names, at one moment. It reports
// false where the file system has no way to.
func (d rootDisk) swap(a, b string) (bool, error) {
	dir, err := d.root.Open(path.Dir(a))
	if err != nil {
		return false, err
	}
	defer dir.Close()
	fd := int(dir.Fd())
	err = unix.Renameat2(fd, path.Base(a), fd, path.Base(b), unix.RENAME_EXCHANGE)
	if isUnsupported(err) {
		return false, nil
	}
	return err == nil, err
}
