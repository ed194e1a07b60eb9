//go:build unix

package folder

import (
	"fmt"
	"os"
	"path/filepath"
	"syscall"
	"testing"
)

// TestShared: in a folder that people share, a save keeps each file's mode and
// group, new ones follow the umask, and what the ledger keeps for itself is open
// to those who may write in the folder.
func TestShared(t *testing.T) {
	dir := household(t)
	const group = 4711
	files := map[string]os.FileMode{"draws.csv": 0o660, "packs.csv": 0o644}
	for name, mode := range files {
		if err := os.Chmod(filepath.Join(dir, name), mode); err != nil {
			t.Fatal(err)
		}
	}
	root := os.Getuid() == 0
	if root {
		if err := os.Chown(dir, -1, group); err != nil {
			t.Fatal(err)
		}
		if err := os.Chown(filepath.Join(dir, "draws.csv"), 65534, group); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.Chmod(dir, 0o770|os.ModeSetgid); err != nil {
		t.Fatal(err)
	}
	b := openBook(t, dir)
	if _, err := b.Edit("several", severalFiles(t)); err != nil {
		t.Fatal(err)
	}
	files["meter/R1.csv"] = 0o640
	files[journalFile[:len(stateFolder)]] = 0o770
	files[pastFolder], files[queueFolder] = 0o770, 0o770
	files[lockFile], files[lastFile], files[changeFile(1)] = 0o660, 0o660, 0o660
	for name, want := range files {
		info, err := os.Stat(filepath.Join(dir, name))
		if err != nil || info.Mode().Perm() != want {
			t.Errorf("%s: %v %v, want %v", name, info.Mode(), err, want)
		}
		if s := info.Sys().(*syscall.Stat_t); root && name != "packs.csv" && s.Gid != group {
			t.Errorf("%s is of group %d", name, s.Gid)
		}
	}
	if info, err := os.Stat(filepath.Join(dir, "draws.csv")); root && (err != nil || fmt.Sprint(info.Sys().(*syscall.Stat_t).Uid) != "65534") {
		t.Errorf("the owner is another: %v", err)
	}
}
