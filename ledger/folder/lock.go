package folder

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"github.com/gofrs/flock"

	"putby/ledger"
	"putby/pricing/exact"
)

// DefaultWait is how long a command waits for others at most.
const DefaultWait = 30 * time.Second

// askAfter is how long one waits before being told for whom.
const askAfter = time.Second

// A Holder is who has a ledger open for changes.
type Holder struct {
	For     string    `json:"for,omitempty"` // what it was opened for, as [Opening.For] says
	Process int       `json:"process"`       // number that the system gives it; 0: not known
	Host    string    `json:"host,omitempty"`
	Since   time.Time `json:"since"` // zero: not known
}

// String says who it is and since when, by the local clock.
func (h Holder) String() string {
	text := "another putby"
	if h.For != "" {
		text = "putby " + h.For
	}
	if h.Process > 0 {
		text += fmt.Sprintf(" (process %d", h.Process)
		if here, err := os.Hostname(); err != nil || h.Host != here {
			text += " on " + exact.Quote(h.Host)
		}
		text += ")"
	}
	if !h.Since.IsZero() {
		text += ", since " + h.Since.Local().Format("15:04:05")
	}
	return text
}

// A lock is the one lock of a ledger. Whoever holds it may save; reading needs
// none. It goes with the process that holds it, however that ends.
type lock struct {
	root   *tree
	held   *flock.Flock
	ticket *ticket
	none   error // why the file system keeps no locks; then it is held by name only
}

// take waits for the lock of the ledger in dir: in a queue, so that whoever
// comes first goes first.
func (o Opening) take(ctx context.Context, root *tree, dir string) (*lock, error) {
	for _, name := range []string{stateFolder, pastFolder, queueFolder} {
		if err := ownFolder(root, name); err != nil {
			return nil, cannot(exact.Quote(dir)+" cannot be locked for saving", err)
		}
	}
	if info, err := root.Lstat(lockFile); err == nil && !info.Mode().IsRegular() {
		return nil, &ledger.Fault{Kind: ErrFailed, What: lockFile + " is not a file", Hint: "move it away; putby makes it anew"}
	}
	// Made here and not by flock, so that the group may lock it too.
	if f, err := root.OpenFile(lockFile, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666); err == nil {
		if err := errors.Join(shareFile(root, f), f.Close()); err != nil {
			return nil, cannot(exact.Quote(dir)+" cannot be locked for saving", err)
		}
	}
	l := &lock{root: root, held: newLock(dir, lockFile)}
	err := o.wait(ctx, root, dir, l)
	if err != nil {
		_ = l.close()
		return nil, cannot(exact.Quote(dir)+" cannot be locked for saving", err)
	}
	o.sign(root)
	return l, nil
}

// newLock is a lock by a file within the ledger's folder.
func newLock(dir, name string) *flock.Flock {
	return flock.New(filepath.Join(dir, filepath.FromSlash(name)), flock.SetPermissions(0o666))
}

// wait takes the lock once it is this one's turn.
func (o Opening) wait(ctx context.Context, root *tree, dir string, l *lock) (err error) {
	if l.ticket, err = draw(root, dir); err != nil {
		return l.without(err)
	}
	begun := time.Now()
	for told := false; ; {
		before, err := l.ticket.before(root, dir)
		if err == nil && before == 0 {
			var got bool
			if got, err = l.held.TryLock(); got {
				return nil
			}
		}
		if err != nil {
			return l.without(err)
		}
		waited := time.Since(begun)
		if waited >= o.Wait {
			return busy(root, dir, waited)
		}
		if !told && o.Waiting != nil && waited >= askAfter {
			told = true
			o.Waiting(holder(root))
		}
		// Who is next looks often, so that no time is lost between two saves.
		select {
		case <-ctx.Done():
			return busy(root, dir, waited)
		case <-time.After(time.Duration(min(before+1, 10)) * time.Millisecond):
		}
	}
}

// without goes on without a lock where the file system has none.
func (l *lock) without(err error) error {
	if !isUnsupported(err) {
		return err
	}
	l.none = err
	return nil
}

// busy says who held the lock all that time.
func busy(root *tree, dir string, waited time.Duration) error {
	what := fmt.Sprintf("nothing was saved: %s is being changed by %v", exact.Quote(dir), holder(root))
	if waited >= time.Second {
		what += fmt.Sprintf(", which was not done after %d s", int(waited.Seconds()))
	}
	return &ledger.Fault{Kind: ErrBusy, What: what, Hint: "wait until it is done, or close it, and try again"}
}

// sign writes into the lock's file who holds it, for those who wait. Where it
// cannot be written they are only told less.
func (o Opening) sign(root *tree) {
	host, _ := os.Hostname()
	data, _ := json.Marshal(Holder{For: o.For, Process: os.Getpid(), Host: host, Since: time.Now().Truncate(time.Second)})
	root.note(lockFile, append(data, '\n'))
}

// note writes a small file over where it is, as far as that can be done.
func (t *tree) note(name string, data []byte) {
	if f, err := t.OpenFile(name, os.O_WRONLY|os.O_TRUNC, 0); err == nil {
		_, _ = f.Write(data)
		_ = f.Close()
	}
}

// holder reads who holds the lock, as far as that is known.
func holder(root *tree) (h Holder) {
	const most = 16 << 10
	text, _, err := root.read(lockFile, most)
	if err != nil || json.Unmarshal([]byte(text), &h) != nil {
		return Holder{}
	}
	return h
}

func (l *lock) close() error {
	if l == nil {
		return nil
	}
	if l.held.Locked() {
		l.root.note(lockFile, nil)
	}
	err := l.held.Close()
	if l.none != nil {
		err = nil
	}
	return errors.Join(err, l.ticket.close())
}

// ownFolder makes a folder of the ledger's own, and follows no link to one.
func ownFolder(root *tree, name string) error {
	err := root.Mkdir(name, 0o777)
	if err == nil {
		return shareLike(root, name)
	}
	if !errors.Is(err, fs.ErrExist) {
		return err
	}
	info, err := root.Lstat(name)
	if err == nil && !info.IsDir() {
		return &ledger.Fault{Kind: ErrFailed, What: name + " is not a folder", Hint: "move it away; putby makes it anew"}
	}
	return err
}
