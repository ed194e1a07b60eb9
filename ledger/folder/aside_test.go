package folder

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"strconv"
	"sync"
	"testing"
)

// Many who change one file beside the records lose nothing of each other's, and
// leave nothing behind.
func TestAside(t *testing.T) {
	dir := household(t)
	if data, err := ReadAside(dir, "list.json"); err != nil || len(data) != 0 {
		t.Errorf("a file that is not there: %q, %v", data, err)
	}
	var all sync.WaitGroup
	for i := range 8 {
		all.Go(func() {
			err := EditAside(t.Context(), dir, "list.json", func(was []byte) ([]byte, error) {
				return append(was, strconv.Itoa(i)...), nil
			})
			if err != nil {
				t.Error(err)
			}
		})
	}
	all.Wait()
	data, err := ReadAside(dir, "list.json")
	for i := range 8 {
		if err != nil || len(data) != 8 || !bytes.Contains(data, []byte(strconv.Itoa(i))) {
			t.Fatalf("after eight changes: %q, %v", data, err)
		}
	}
	refused := errors.New("no")
	if err := EditAside(t.Context(), dir, "list.json", func([]byte) ([]byte, error) { return nil, refused }); !errors.Is(err, refused) {
		t.Errorf("an edit that is refused: %v", err)
	}
	if again, _ := ReadAside(dir, "list.json"); !bytes.Equal(again, data) {
		t.Errorf("an edit that was refused has changed %q to %q", data, again)
	}
	left, err := filepath.Glob(filepath.Join(dir, stateFolder, ".*"+newSuffix))
	if err != nil || left != nil {
		t.Errorf("left behind: %v, %v", left, err)
	}
	path := filepath.Join(dir, stateFolder, "list.json")
	if err := errors.Join(os.Remove(path), os.Mkdir(path, 0o755)); err != nil {
		t.Fatal(err)
	}
	if _, err := ReadAside(dir, "list.json"); err == nil {
		t.Error("a folder is read as a file")
	}
}
