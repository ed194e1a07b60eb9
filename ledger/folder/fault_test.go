package folder

import (
	"context"
	"errors"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

// A failingDisk lets one step of a save fail, or that and all after it, as when
// the process ends there.
type failingDisk struct {
	disk
	at    int // step that fails, from 0
	dead  bool
	steps []string
}

func (d *failingDisk) step(what string) error {
	n := len(d.steps)
	d.steps = append(d.steps, what)
	if n == d.at || d.dead && n > d.at {
		return fmt.Errorf("%s: %w", what, syscall.EIO)
	}
	return nil
}

func (d *failingDisk) create(name, as string) (file, error) {
	if err := d.step("create " + name); err != nil {
		return nil, err
	}
	f, err := d.disk.create(name, as)
	return failingFile{f, d, name}, err
}

func (d *failingDisk) rename(from, to string) error {
	if err := d.step("rename " + to); err != nil {
		return err
	}
	return d.disk.rename(from, to)
}

func (d *failingDisk) remove(name string) error {
	if err := d.step("remove " + name); err != nil {
		return err
	}
	return d.disk.remove(name)
}

func (d *failingDisk) mkdir(name string) error {
	if err := d.step("mkdir " + name); err != nil {
		return err
	}
	return d.disk.mkdir(name)
}

func (d *failingDisk) syncDir(name string) error {
	if err := d.step("sync folder " + name); err != nil {
		return err
	}
	return nil // the tests have no power to fail
}

type failingFile struct {
	file
	disk *failingDisk
	name string
}

// WriteString leaves half of the text behind when it fails.
func (f failingFile) WriteString(s string) (int, error) {
	if err := f.disk.step("write " + f.name); err != nil {
		n, _ := f.file.WriteString(s[:len(s)/2])
		return n, err
	}
	return f.file.WriteString(s)
}

func (f failingFile) Sync() error {
	return f.disk.step("sync " + f.name)
}

func (f failingFile) Close() error {
	return errors.Join(f.disk.step("close "+f.name), f.file.Close())
}

// severalFiles is an edit of four files: one appended to, one amended, one made
// and one taken away.
func severalFiles(t testing.TB) func(*Tx) error {
	return func(tx *Tx) error {
		return errors.Join(
			addDraw(t, "P1", "third")(tx),
			tx.Replace(kindOf(t, "pack"), 2, map[string]string{"cost": "1.30"}),
			tx.WriteFile("meter/R1.csv", []byte("time,watts\n2025-01-01 10:00,5\n")),
			tx.RemoveFile("maps/shop.csv"),
		)
	}
}

// seen is what a reader sees of a ledger, whatever its files are.
func seen(t testing.TB, dir string) string {
	t.Helper()
	rec, faults := read(t, dir)
	if len(faults) > 0 {
		t.Error(faults)
	}
	return fmt.Sprint(len(rec.Draws), rec.Packs[0].Cost, len(rec.Meters))
}

// TestEveryStepFails lets a save fail at each of its steps in turn, by an error
// and by the end of the process. Reading sees the ledger wholly before or
// wholly after, at once; its next opening makes the files so; and whoever was
// told that nothing was saved finds the files as they were.
func TestEveryStepFails(t *testing.T) {
	model := household(t)
	put(t, model, "maps/shop.csv", "a map")
	b := openBook(t, model)
	if _, err := b.Edit("first", addDraw(t, "P1", "x")); err != nil {
		t.Fatal(err)
	}
	b.Close()
	prepareDir := func() string { return copyOf(t, model) }
	dir := prepareDir()
	before, sawBefore := contents(t, dir), seen(t, dir)
	b = openBook(t, dir)
	d := &failingDisk{disk: b.disk, at: -1}
	b.disk = d
	if _, err := b.Edit("second", severalFiles(t)); err != nil {
		t.Fatal(err)
	}
	b.Close()
	after, sawAfter := contents(t, dir), seen(t, dir)
	if maps.Equal(before, after) || sawBefore == sawAfter || len(d.steps) < 30 {
		t.Fatalf("%d steps, %s and %s", len(d.steps), sawBefore, sawAfter)
	}
	var turned bool
	for at, step := range d.steps {
		for _, dead := range []bool{false, true} {
			why := fmt.Sprintf("step %d (%s) fails, dead %v", at, step, dead)
			dir := prepareDir()
			b := openBook(t, dir)
			b.disk = &failingDisk{disk: b.disk, at: at, dead: dead}
			c, err := b.Edit("second", severalFiles(t))
			if err == nil {
				t.Errorf("%s: no error", why)
				continue
			}
			told := errors.Is(err, ErrSaved)
			if told != (c.Number == 2) || errors.Is(err, ErrInterrupted) {
				t.Errorf("%s: told %v, with change %d", why, err, c.Number)
			}
			if told {
				if _, again := b.Edit("third", addDraw(t, "P1", "y")); !errors.Is(again, ErrInterrupted) {
					t.Errorf("%s: the book goes on: %v", why, again)
				}
			}
			saw := seen(t, dir)
			if saw != sawBefore && saw != sawAfter {
				t.Errorf("%s: a reader sees %s", why, saw)
			}
			if !told && !dead {
				wantFiles(t, why+", before it is opened again", contents(t, dir), before)
			}
			b.Close()
			b = openBook(t, dir)
			want, number := before, 1
			if saw == sawAfter {
				want, number, turned = after, 2, true
			}
			if told != (saw == sawAfter) {
				t.Errorf("%s: told %v, but a reader sees %s", why, err, saw)
			}
			wantFiles(t, why, contents(t, dir), want)
			if list, err := changes(b.root); err != nil || len(list) != number {
				t.Errorf("%s: %d changes, %v", why, len(list), err)
			}
			leftovers(t, dir)
			b.disk = &failingDisk{disk: b.disk, at: -1} // spares the disk
			if c, err := b.Edit("third", addDraw(t, "P1", "y")); err != nil || c.Number != number+1 {
				t.Errorf("%s: saving on: %v %v", why, c, err)
			}
			for range number + 1 {
				if _, err := b.Undo(); err != nil {
					t.Errorf("%s: undo: %v", why, err)
				}
			}
			b.Close()
		}
	}
	if !turned {
		t.Error("no step was late enough to count")
	}
}

// copyOf copies a ledger with its history.
func copyOf(t testing.TB, model string) string {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "copy")
	if err := os.CopyFS(dir, os.DirFS(model)); err != nil {
		t.Fatal(err)
	}
	return dir
}

// leftovers finds files that a save should have cleared away.
func leftovers(t testing.TB, dir string) {
	t.Helper()
	err := filepath.WalkDir(dir, func(path string, e os.DirEntry, err error) error {
		if strings.HasSuffix(path, newSuffix) || strings.HasSuffix(path, "/journal") {
			t.Errorf("%s is left over", path)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
}

// TestEveryStepOfRecoveryFails stops the completion of a stopped save at each of
// its steps too.
func TestEveryStepOfRecoveryFails(t *testing.T) {
	model := household(t)
	put(t, model, "maps/shop.csv", "a map")
	b := openBook(t, model)
	b.disk = &stopAt{disk: b.disk, name: "rename draws.csv"}
	if _, err := b.Edit("second", severalFiles(t)); !errors.Is(err, ErrSaved) {
		t.Fatal(err)
	}
	b.Close()
	stopped := func() string { return copyOf(t, model) }
	dir := stopped()
	saw := seen(t, dir)
	b = openBook(t, dir)
	want := contents(t, dir)
	b.Close()
	for at := 0; ; at++ {
		dir := stopped()
		root, err := openTree(dir)
		if err != nil {
			t.Fatal(err)
		}
		d := &failingDisk{disk: rootDisk{root: root}, at: at, dead: true}
		err = complete(root, d)
		root.Close()
		if err == nil {
			if at < 15 {
				t.Errorf("%d steps only: %q", at, d.steps)
			}
			break
		}
		if s := seen(t, dir); s != saw {
			t.Errorf("step %s: a reader sees %s, want %s", d.steps[at], s, saw)
		}
		b := openBook(t, dir)
		wantFiles(t, d.steps[at], contents(t, dir), want)
		leftovers(t, dir)
		b.Close()
	}
}

// stopAt is a disk that stops for good at a step of that name.
type stopAt struct {
	disk
	name string
	dead bool
}

func (d *stopAt) rename(from, to string) error {
	if d.dead = d.dead || d.name == "rename "+to; d.dead {
		return syscall.EIO
	}
	return d.disk.rename(from, to)
}

func (d *stopAt) remove(name string) error {
	if d.dead {
		return syscall.EIO
	}
	return d.disk.remove(name)
}

// TestOutsideEditOfStoppedSave: what another program writes between a stopped
// save and its completion is not overwritten.
func TestOutsideEditOfStoppedSave(t *testing.T) {
	dir := household(t)
	b := openBook(t, dir)
	b.disk = &stopAt{disk: b.disk, name: "rename draws.csv"}
	if _, err := b.Edit("draw add", addDraw(t, "P1", "x")); !errors.Is(err, ErrSaved) {
		t.Fatal(err)
	}
	b.Close()
	put(t, dir, "draws.csv", "date,pack,quantity\n2025-03-03,P1,1\n")
	want := contents(t, dir)
	_, err := Open(context.Background(), dir, nil)
	if !errors.Is(err, ErrInterrupted) || err.Error() != "a save of draws.csv was interrupted, and the file was edited since" {
		t.Error(err)
	}
	if rec, faults := read(t, dir); len(faults) > 0 || len(rec.Draws) != 1 {
		t.Errorf("a reader sees %v, %v", rec.Draws, faults)
	}
	wantFiles(t, "not completed", contents(t, dir), want)
	if err := os.Remove(filepath.Join(dir, journalFile)); err != nil { // as the hint says
		t.Fatal(err)
	}
	if _, err := openBook(t, dir).Edit("draw add", addDraw(t, "P1", "x")); err != nil {
		t.Error(err)
	}
}

// On a disk that lets nothing be written, nothing is said to be in a journal
// that was never there.
func TestReadOnlyDiskSavesNothing(t *testing.T) {
	dir := household(t)
	b := openBook(t, dir)
	before := contents(t, dir)
	b.disk = &failingDisk{disk: b.disk, dead: true}
	_, err := b.Edit("draw add", addDraw(t, "P1", "x"))
	if errors.Is(err, ErrInterrupted) || !strings.Contains(fmt.Sprint(err), "nothing was saved") {
		t.Errorf("it says %v", err)
	}
	if after := contents(t, dir); !maps.Equal(before, after) {
		t.Errorf("the folder has changed: %v", after)
	}
}
