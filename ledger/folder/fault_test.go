package folder

import (
	"context"
	"errors"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"syscall"
	"testing"
)

// A failingDisk lets one step of a save fail, or that and all after it, as when
// the process ends there.
type failingDisk struct {
	disk
	mu     sync.Mutex // files are read side by side
	at     int        // step that fails, from 0
	dead   bool
	steps  []string
	before func(step int) // may be nil
	noSwap bool           // as on a disk that cannot
}

func (d *failingDisk) step(what string) error {
	d.mu.Lock()
	defer d.mu.Unlock()
	n := len(d.steps)
	d.steps = append(d.steps, what)
	if d.before != nil {
		d.before(n)
	}
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

func (d *failingDisk) swap(a, b string) (bool, error) {
	if err := d.step("swap " + b); err != nil {
		return false, err
	}
	if d.noSwap {
		return false, nil
	}
	return d.disk.swap(a, b)
}

func (d *failingDisk) link(from, to string) (bool, error) {
	if err := d.step("link " + to); err != nil {
		return false, err
	}
	if d.noSwap {
		return false, nil
	}
	return d.disk.link(from, to)
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

// Looking at a file is a step too.
func (d *failingDisk) read(name string) (string, bool, error) {
	if err := d.step("read " + name); err != nil {
		return "", false, err
	}
	return d.disk.read(name)
}

func (d *failingDisk) same(name string, text *string) (bool, error) {
	if err := d.step("compare " + name); err != nil {
		return false, err
	}
	return d.disk.same(name, text)
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
	return fmt.Sprint(rec.Draws.Len(), rec.Packs.At(0).Cost, len(rec.Meters))
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
			if list, err := changes(b.root, 0); err != nil || len(list) != number {
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
	b.disk = &stopAt{disk: b.disk, name: "swap draws.csv"}
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
		_, err = complete(root, d, false)
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

func (d *stopAt) swap(a, b string) (bool, error) {
	if d.dead = d.dead || d.name == "swap "+b; d.dead {
		return false, syscall.EIO
	}
	return d.disk.swap(a, b)
}

func (d *stopAt) link(from, to string) (bool, error) {
	if d.dead = d.dead || d.name == "link "+to; d.dead {
		return false, syscall.EIO
	}
	return d.disk.link(from, to)
}

func (d *stopAt) remove(name string) error {
	if d.dead {
		return syscall.EIO
	}
	return d.disk.remove(name)
}

// stoppedSave is a ledger in which a save of one draw was stopped before it
// reached the file.
func stoppedSave(t *testing.T) string {
	dir := household(t)
	b := openBook(t, dir)
	b.disk = &stopAt{disk: b.disk, name: "swap draws.csv"}
	if _, err := b.Edit("draw add", severalFiles(t)); !errors.Is(err, ErrSaved) {
		t.Fatal(err)
	}
	b.Close()
	return dir
}

// TestOutsideEditOfStoppedSave: what another program writes between a stopped
// save and its completion is kept, and so is what was being saved, for readers at
// once and for the file with the next opening.
func TestOutsideEditOfStoppedSave(t *testing.T) {
	const header, added = "date,pack,quantity,note\n", "2025-02-01,P1,1,third\n"
	for _, c := range []struct{ why, edited, want string }{
		{"a line before", header + "2025-01-01,P1,1,new\n2025-01-03,P1,1,\"first, soup\"\n\n2025-01-04,P1,1,second",
			header + "2025-01-01,P1,1,new\n2025-01-03,P1,1,\"first, soup\"\n\n2025-01-04,P1,1,second\n" + added},
		{"a line behind", header + "2025-01-04,P1,1,second\n2025-01-05,P1,1,new\n", header + "2025-01-04,P1,1,second\n" + added + "2025-01-05,P1,1,new\n"},
		{"nothing left round it", header, header + added},
		{"it has the line by hand", header + added + "2025-01-04,P1,1,second\n", header + added + "2025-01-04,P1,1,second\n"},
	} {
		dir := stoppedSave(t)
		put(t, dir, "draws.csv", c.edited)
		rec, faults := read(t, dir)
		if len(faults) > 0 || rec.Packs.At(0).Cost.String() != "1.3" {
			t.Errorf("%s: a reader sees %v, %v", c.why, rec.Packs, faults)
		}
		b := openBook(t, dir)
		if got := contents(t, dir)["draws.csv"]; got != c.want {
			t.Errorf("%s: it became %q, want %q", c.why, got, c.want)
		}
		if after, _ := b.Records(); after.Draws.Len() != rec.Draws.Len() || strings.Count(c.want, "third") != 1 {
			t.Errorf("%s: %d draws, a reader saw %d", c.why, after.Draws.Len(), rec.Draws.Len())
		}
		leftovers(t, dir)
		if u, err := b.Undo(); err != nil || u.Of != 1 || strings.Contains(contents(t, dir)["draws.csv"], "third") {
			t.Errorf("%s: undo: %v %v", c.why, u, err)
		}
	}
}

// TestNoPlaceForStoppedSave: where the edit leaves the lines of a stopped save
// no place, reports and saves are refused, and say what the file lacks, until it
// is written in or the change is given up.
func TestNoPlaceForStoppedSave(t *testing.T) {
	const edited = "date,pack,quantity\n2025-03-03,P1,1\n"
	const lacks = "draws.csv: the file was edited while change 1 (draw add) was being saved, and does not have it; it lacks 2025-02-01,P1,1,third"
	refused := func() string {
		dir := stoppedSave(t)
		put(t, dir, "draws.csv", edited)
		before := everything(t, dir)
		rec, faults := read(t, dir)
		if len(faults) != 1 || faults[0].File+": "+faults[0].What != lacks || rec.Draws.Len() != 0 {
			t.Errorf("a reader sees %v", faults)
		}
		for _, open := range []func() (*Book, error){
			func() (*Book, error) { return opened(context.Background(), dir, packsDrawn) },
			func() (*Book, error) { return Opening{Check: packsDrawn}.Look(dir) },
		} {
			b, err := open()
			if err != nil {
				t.Fatal(err)
			}
			if _, faults := b.Records(); len(faults) != 1 {
				t.Errorf("opened: %v", faults)
			}
			if c, err := b.TryUndoOf(0); err != nil || c.Of != 1 || len(c.Files) != 2 {
				t.Errorf("undo tried: %v %v", c, err)
			}
			if b.lock != nil {
				if _, err := b.Edit("draw add", addDraw(t, "P1", "y")); err == nil || !strings.Contains(err.Error(), strings.TrimPrefix(lacks, "draws.csv: ")) {
					t.Errorf("saved on: %v", err)
				}
			}
			b.Close()
		}
		wantFiles(t, "refused", everything(t, dir), before)
		return dir
	}
	dir := refused()
	put(t, dir, "draws.csv", "date,pack,quantity,note\n2025-03-03,P1,1,\n2025-02-01,P1,1,third\n")
	b := openBook(t, dir)
	if rec, faults := b.Records(); len(faults) > 0 || rec.Draws.Len() != 2 || len(rec.Meters) != 1 {
		t.Errorf("written in: %v %v", rec.Draws, faults)
	}
	b.Close()

	dir = refused()
	b = openBook(t, dir)
	if c, err := b.Undo(); err != nil || c.Of != 1 || c.Number != 2 {
		t.Errorf("given up: %v %v", c, err)
	}
	if rec, faults := read(t, dir); len(faults) > 0 || rec.Draws.Len() != 1 || len(rec.Meters) != 0 || rec.Packs.At(0).Cost.String() != "1.2" {
		t.Errorf("given up: %v %v", rec.Draws, faults)
	}
	if got := contents(t, dir)["draws.csv"]; got != edited {
		t.Errorf("given up: %q", got)
	}
	if list, err := changes(b.root, 0); err != nil || len(list) != 2 {
		t.Errorf("given up: %v %v", list, err)
	}
}

// TestEditAtEveryStep: an edit by hand at any step of a save is not lost, nor
// is what is saved: it is kept beside it, or nothing is saved and that is said.
func TestEditAtEveryStep(t *testing.T) {
	model := household(t)
	put(t, model, "maps/shop.csv", "a map")
	const hand = "2024-12-31,P1,1,by hand\n"
	kept, refused := 0, 0
	for at := 0; ; at++ {
		dir := copyOf(t, model)
		b := openBook(t, dir)
		d := &failingDisk{disk: b.disk, at: -1, before: func(n int) {
			if n == at {
				text := contents(t, dir)["draws.csv"]
				put(t, dir, "draws.csv", strings.Replace(text, "note\n", "note\n"+hand, 1))
			}
		}}
		b.disk = d
		_, err := b.Edit("second", severalFiles(t))
		if len(d.steps) <= at {
			break
		}
		text := contents(t, dir)["draws.csv"]
		if !strings.Contains(text, hand) {
			t.Fatalf("step %d (%s): the edit is lost: %v", at, d.steps[at], err)
		}
		saved := strings.Contains(text, "third")
		switch {
		case errors.Is(err, ErrChanged) && !saved:
			refused++
		case err == nil && saved:
			kept++
		default:
			t.Errorf("step %d (%s): %v, and saved %v", at, d.steps[at], err, saved)
		}
		b.Close()
		leftovers(t, dir)
	}
	t.Logf("kept with the change at %d steps, refused at %d", kept, refused)
	if kept < 3 || refused < 10 {
		t.Errorf("kept with the change at %d steps, refused at %d", kept, refused)
	}
}

// TestNewFileAtEveryStep: a file that another program makes at any step of a save
// that makes it too is not lost: nothing is saved, or it stays and it is told that it
// lacks the change.
func TestNewFileAtEveryStep(t *testing.T) {
	const hand = "date,pack,quantity\n2025-01-03,P1,3\n"
	refused, told := 0, 0
	for at := 0; ; at++ {
		dir := household(t)
		b := openBook(t, dir)
		came := false
		d := &failingDisk{disk: b.disk, at: -1, before: func(n int) {
			if _, there := contents(t, dir)["counts.csv"]; n == at && !there {
				put(t, dir, "counts.csv", hand)
				came = true
			}
		}}
		b.disk = d
		_, err := b.Edit("count add", func(tx *Tx) error {
			return tx.Append(kindOf(t, "count"), map[string]string{"date": "2025-01-05", "pack": "P1", "quantity": "2"})
		})
		b.Close()
		if len(d.steps) <= at {
			break
		}
		switch text := contents(t, dir)["counts.csv"]; {
		case !came && err == nil && strings.Contains(text, "2025-01-05"): // it was saved before
		case text != hand:
			t.Errorf("step %d (%s): the file is lost: %v", at, d.steps[at], err)
		case errors.Is(err, ErrChanged):
			refused++
		case errors.Is(err, ErrSaved) && strings.Contains(err.Error(), "counts.csv: the file was edited while"):
			told++
		default:
			t.Errorf("step %d (%s): %v", at, d.steps[at], err)
		}
	}
	if t.Logf("refused at %d steps, told at %d", refused, told); refused < 5 || told < 3 {
		t.Errorf("refused at %d steps, told at %d", refused, told)
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
