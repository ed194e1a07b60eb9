package folder

import (
	"errors"
	"io/fs"
	"os"
)

// keepAccess gives a file that will replace another the other's owner, group and
// mode, as far as the file system lets it: in a folder that people share, what
// one saves the others can still read and write. Where the group cannot be
// kept, no other group gets what was its.
func keepAccess(f *os.File, was fs.FileInfo) error {
	mode := was.Mode().Perm()
	now, err := f.Stat()
	if err != nil {
		return err
	}
	user, group, known := owner(was)
	me, mine, _ := owner(now)
	if known && (user != me || group != mine) && f.Chown(user, group) != nil && group != mine && f.Chown(-1, group) != nil {
		mode = mode&^0o070 | mode&0o007<<3 // the group may what all others may
	}
	if mode == now.Mode().Perm() {
		return nil
	}
	return bearable(f.Chmod(mode))
}

// shareLike opens a new folder of the ledger's own to those who may write in
// the ledger's folder itself.
func shareLike(root *tree, name string) error {
	top, err := root.Stat(".")
	if err != nil || top.Mode().Perm()&0o020 == 0 {
		return err
	}
	info, err := root.Lstat(name)
	if err != nil {
		return err
	}
	return bearable(root.Chmod(name, info.Mode().Perm()|0o070|top.Mode()&fs.ModeSetgid))
}

// shareFile does the same for a new file in a folder of the ledger's own.
func shareFile(root *tree, f *os.File) error {
	top, err := root.Stat(stateFolder)
	if err != nil || top.Mode().Perm()&0o020 == 0 {
		return err
	}
	info, err := f.Stat()
	if err != nil {
		return err
	}
	return bearable(f.Chmod(info.Mode().Perm() | 0o060))
}

// bearable passes over what a file system without owners and modes cannot do.
func bearable(err error) error {
	if errors.Is(err, fs.ErrPermission) || isUnsupported(err) {
		return nil
	}
	return err
}
