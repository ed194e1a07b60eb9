package folder

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"github.com/gofrs/flock"

	"putby/pricing/exact"
)

const (
	lockWait  = 10 * time.Second // how long to wait for another putby at most
	lockRetry = 10 * time.Millisecond
)

// takeLock waits for the one lock of a ledger. Whoever holds it may save;
// reading needs none. It goes with the process that holds it, however that
// ends.
func takeLock(ctx context.Context, root *os.Root, dir string) (*flock.Flock, error) {
	for _, name := range []string{houseFolder, pastFolder} {
		if err := ownFolder(root, name); err != nil {
			return nil, cannot(exact.Quote(dir)+" cannot be locked for saving", err)
		}
	}
	if info, err := root.Lstat(lockFile); err == nil && !info.Mode().IsRegular() {
		return nil, &Error{Kind: ErrFailed, What: lockFile + " is not a file", Hint: "remove it"}
	}
	lock := flock.New(filepath.Join(dir, filepath.FromSlash(lockFile)), flock.SetPermissions(0o600))
	ctx, cancel := context.WithTimeout(ctx, lockWait)
	defer cancel()
	_, err := lock.TryLockContext(ctx, lockRetry)
	switch {
	case err == nil:
		return lock, nil
	case errors.Is(err, context.DeadlineExceeded), errors.Is(err, context.Canceled):
		return nil, &Error{
			Kind: ErrBusy, What: "another putby is working on " + exact.Quote(dir), Err: err,
			Hint: "wait until it is done, or close it, and try again",
		}
	}
	return nil, cannot(exact.Quote(dir)+" cannot be locked for saving", err)
}

// ownFolder makes a folder of the ledger's own, and follows no link to one.
func ownFolder(root *os.Root, name string) error {
	err := root.Mkdir(name, 0o700)
	if !errors.Is(err, fs.ErrExist) {
		return err
	}
	info, err := root.Lstat(name)
	if err == nil && !info.IsDir() {
		err = fmt.Errorf("%s is not a folder", name)
	}
	return err
}
