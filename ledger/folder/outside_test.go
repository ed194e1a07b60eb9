package folder

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"testing"
)

// TestWriteOutside: a file follows the umask when it is new and keeps its mode
// when it is replaced; an error leaves nothing; what a killed process left goes
// with the next, and what is still being written does not.
func TestWriteOutside(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "page.html")
	text := func(s string) func(io.Writer) error {
		return func(w io.Writer) error { _, err := io.WriteString(w, s); return err }
	}
	mode := func() fs.FileMode {
		info, err := os.Stat(path)
		if err != nil {
			t.Fatal(err)
		}
		return info.Mode().Perm()
	}
	if err := WriteOutside(path, false, text("one")); err != nil || mode() != 0o640 {
		t.Errorf("new: %v %v", err, mode())
	}
	if err := WriteOutside(path, false, text("two")); !errors.Is(err, fs.ErrExist) {
		t.Errorf("there already: %v", err)
	}
	if err := os.Chmod(path, 0o664); err != nil {
		t.Fatal(err)
	}
	if err := WriteOutside(path, true, text("three")); err != nil || mode() != 0o664 {
		t.Errorf("replaced: %v %v", err, mode())
	}
	stop := errors.New("stop")
	if err := WriteOutside(path, true, func(io.Writer) error { return stop }); !errors.Is(err, stop) {
		t.Error(err)
	}
	put(t, dir, outsidePrefix+"0000abcd", "left")
	err := WriteOutside(path, true, func(w io.Writer) error {
		for i := range 3 { // others come and go meanwhile
			if err := WriteOutside(filepath.Join(dir, fmt.Sprint("other", i)), true, text("x")); err != nil {
				return err
			}
		}
		return text("four")(w)
	})
	if data, _ := os.ReadFile(path); err != nil || string(data) != "four" {
		t.Errorf("%q %v", data, err)
	}
	only(t, dir, "other0", "other1", "other2", "page.html")
}
