package folder

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"sync/atomic"
	"syscall"
	"testing"
	"time"
)

// TestOwnFilesThatAreNone: a pipe, a folder, a link or a huge file in place of
// what a ledger keeps for itself hangs nothing, stops no report, and a save goes
// on where it can.
func TestOwnFilesThatAreNone(t *testing.T) {
	makes := map[string]func(path string) error{
		"a pipe":        mkfifo,
		"a folder":      func(path string) error { return os.Mkdir(path, 0o700) },
		"a link":        func(path string) error { return os.Symlink("/dev/zero", path) },
		"a sparse file": func(path string) error { return errors.Join(os.WriteFile(path, nil, 0o600), os.Truncate(path, 6<<30)) },
		"an empty file": func(path string) error { return os.WriteFile(path, nil, 0o600) },
		"half a file":   func(path string) error { return os.WriteFile(path, []byte(`{"change": 3, "ti`), 0o600) },
	}
	for what, make := range makes {
		for _, name := range []string{journalFile, lastFile, changeFile(2)} {
			dir := household(t)
			b := openBook(t, dir)
			for range 2 {
				if _, err := b.Edit("draw add", addDraw(t, "P1", "x")); err != nil {
					t.Fatal(err)
				}
			}
			b.Close()
			path := filepath.Join(dir, name)
			if err := os.RemoveAll(path); err != nil {
				t.Fatal(err)
			}
			if err := make(path); errors.Is(err, errors.ErrUnsupported) {
				continue
			} else if err != nil {
				t.Fatal(err)
			}
			within(t, what+" as "+name, func() { useAll(t, what+" as "+name, dir, name) })
		}
	}
}

// useAll does with a ledger what can be done.
func useAll(t *testing.T, why, dir, name string) {
	if rec, faults := read(t, dir); len(faults) > 0 || rec.Draws.Len() != 4 {
		t.Errorf("%s: a reader sees %v", why, faults)
	}
	if list, err := Warnings(dir); err != nil || (len(list) > 0) != (name == journalFile) {
		t.Errorf("%s: warned of %v, %v", why, list, err)
	}
	if _, err := Marked(dir, "none"); err != nil {
		t.Errorf("%s: %v", why, err)
	}
	if _, err := LastChanges(dir, 0); err != nil && !errors.Is(err, ErrDamaged) {
		t.Errorf("%s: %v", why, err)
	}
	b := openBook(t, dir)
	defer b.Close()
	c, err := b.Edit("draw add", addDraw(t, "P1", "y"))
	if name == lastFile && err != nil {
		if !errors.Is(err, ErrSaved) { // a folder cannot be replaced
			t.Errorf("%s: %v", why, err)
		}
		return
	}
	if err != nil || c.Number != 3 {
		t.Errorf("%s: %v %v", why, c, err)
	}
	if c, err := b.Undo(); err != nil || c.Of != 3 {
		t.Errorf("%s: %v %v", why, c, err)
	}
	if list := b.Warnings(); (len(list) > 0) != (name == journalFile) || len(list) > 0 && !strings.Contains(list[0].What, damagedFile) {
		t.Errorf("%s: warned of %v", why, list)
	}
}

func within(t *testing.T, what string, do func()) {
	t.Helper()
	done := make(chan struct{})
	go func() { defer close(done); do() }()
	select {
	case <-done:
	case <-time.After(time.Minute):
		t.Fatal(what + " hangs")
	}
}

// TestWhatReallyFailed: when a file cannot be read again before a save, that is
// said, and no other program is blamed; nor is a ledger said to be none because
// it cannot be reached.
func TestWhatReallyFailed(t *testing.T) {
	for _, cause := range []error{syscall.EIO, syscall.EACCES, syscall.EMFILE} {
		steps, told := 0, 0
		for at := 0; ; at++ {
			dir := household(t)
			b := openBook(t, dir)
			var n atomic.Int64 // files are read side by side
			b.root.fail = func(string) error {
				if n.Add(1) == int64(at+1) {
					return &os.PathError{Op: "fstatat", Path: "x", Err: cause}
				}
				return nil
			}
			c, err := b.Edit("draw add", addDraw(t, "P1", "x"))
			b.root.fail = nil
			if n.Load() <= int64(at) {
				steps = at
				break
			}
			b.Close()
			if err == nil {
				continue
			}
			told++
			for _, bad := range []string{"another program", "fstatat", ".putby/", "renameat", "context"} {
				if strings.Contains(err.Error(), bad) {
					t.Errorf("step %d, %v: it says %q", at, cause, err)
				}
			}
			if !strings.Contains(err.Error(), Cause(cause).Error()) {
				t.Errorf("step %d: %q does not say %v", at, err, cause)
			}
			if rec, faults := read(t, dir); len(faults) > 0 || (rec.Draws.Len() == 3) != (c.Number > 0) {
				t.Errorf("step %d: told %v, and there are %d draws", at, err, rec.Draws.Len())
			}
		}
		if steps < 40 || told < 30 {
			t.Errorf("%v: %d steps, told of %d", cause, steps, told)
		}
	}
}
