package folder

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"testing"
)

// TestMakeOutside: a folder is where it is to be whole or not at all; it takes the
// place of an empty one, of a full one only where it is to; and what a killed
// process left goes with the next.
func TestMakeOutside(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "out")
	begin := func(text string) *FolderOutside {
		t.Helper()
		f, err := MakeOutside(path)
		if err != nil {
			t.Fatal(err)
		}
		put(t, f.Dir, "a/b.csv", text)
		return f
	}
	has := func(want string) {
		t.Helper()
		if data, _ := os.ReadFile(filepath.Join(path, "a/b.csv")); string(data) != want {
			t.Errorf("it has %q, want %q", data, want)
		}
	}
	begin("no").Discard()
	only(t, dir)
	if err := os.Mkdir(path, 0o755); err != nil {
		t.Fatal(err)
	}
	if err := begin("one").Place(false); err != nil {
		t.Error(err)
	}
	has("one")
	second := begin("two")
	if err := second.Place(false); !errors.Is(err, fs.ErrExist) {
		t.Errorf("there already: %v", err)
	}
	second.Discard()
	has("one")
	put(t, dir, outsidePrefix+"0000abcd/half.csv", "left")
	slow := begin("three") // takes away what was left, and not what is still being written
	if err := begin("four").Place(true); err != nil {
		t.Error(err)
	}
	has("four")
	if err := slow.Place(true); err != nil {
		t.Error(err)
	}
	has("three")
	only(t, dir, "out")
	aside := begin("five")
	if err := aside.moveAside(); err != nil { // as on a file system that cannot let two folders change names
		t.Error(err)
	}
	has("five")
	aside.Discard()
	only(t, dir, "out")
}
