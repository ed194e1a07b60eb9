package folder

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"putby/ledger"
)

// roles are what a child process of the tests does instead of testing: this
// binary runs itself again with the role and the ledger's folder in its
// environment.
var roles = map[string]func(dir string) error{
	"pair": savePairs,
	"add":  addFifty,
	"save": saveOnce,
}

const (
	roleVariable = "PUTBY_TEST_ROLE"
	dirVariable  = "PUTBY_TEST_DIR"
	whoVariable  = "PUTBY_TEST_WHO"
)

// child returns the command that runs this binary in a role.
func child(t testing.TB, role, dir, who string) *exec.Cmd {
	t.Helper()
	exe, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(exe, "-test.run=^$")
	cmd.Env = append(os.Environ(), roleVariable+"="+role, dirVariable+"="+dir, whoVariable+"="+who)
	return cmd
}

// pairOf is an edit that adds one serial number to two files.
func pairOf(serial string) func(*Tx) error {
	return func(tx *Tx) error {
		draw, _ := ledger.KindOf("draw")
		count, _ := ledger.KindOf("count")
		return errors.Join(
			tx.Append(draw, map[string]string{"date": "2025-02-01", "pack": "P1", "quantity": "1", "note": serial}),
			tx.Append(count, map[string]string{"date": "2025-02-01", "pack": "P1", "quantity": "1", "note": serial}),
		)
	}
}

// savePairs saves change after change until it is killed, and tells each.
func savePairs(dir string) error {
	for {
		b, err := opened(context.Background(), dir, packsDrawn)
		if err != nil {
			return err
		}
		for range 3 {
			c, err := b.Edit("pair", pairOf(fmt.Sprint(b.last.Number+1)))
			if err != nil {
				return err
			}
			fmt.Println(c.Number)
		}
		if err := b.Close(); err != nil {
			return err
		}
	}
}

// notes returns the notes of a ledger's draws and counts.
func notes(rec *ledger.Records) (draws, counts []string) {
	for _, d := range rec.Draws.All() {
		draws = append(draws, d.Note)
	}
	for _, c := range rec.Counts {
		counts = append(counts, c.Note)
	}
	return draws, counts
}

// numbered makes a ledger whose draws and counts are only those of the test.
func numbered(t testing.TB) string {
	dir := household(t)
	put(t, dir, "draws.csv", "date,pack,quantity,note\n")
	return dir
}

// inMemory moves a ledger to a disk in memory where there is one: a process
// that is killed leaves the same there, and syncing costs nothing.
func inMemory(t testing.TB, model string) string {
	dir, err := os.MkdirTemp("/dev/shm", "putby-test")
	if err != nil {
		return model
	}
	t.Cleanup(func() { os.RemoveAll(dir) })
	if err := os.CopyFS(dir, os.DirFS(model)); err != nil {
		t.Fatal(err)
	}
	return dir
}

// wantPairs holds the two files to serial numbers 1, 2, 3 ... in both.
func wantPairs(t testing.TB, why string, rec *ledger.Records) int {
	t.Helper()
	draws, counts := notes(rec)
	if len(draws) != len(counts) {
		t.Fatalf("%s: %d draws and %d counts", why, len(draws), len(counts))
	}
	for i := range draws {
		if want := fmt.Sprint(i + 1); draws[i] != want || counts[i] != want {
			t.Fatalf("%s: row %d is %s and %s", why, i+1, draws[i], counts[i])
		}
	}
	return len(draws)
}

// TestKill kills a process that saves at random moments, until 500 changes are
// saved. What it told of is saved, and no half of a change ever is; a reader
// that holds no lock sees the same meanwhile.
func TestKill(t *testing.T) {
	saves := 500
	if testing.Short() {
		saves = 50
	}
	dir := inMemory(t, numbered(t))
	stop := make(chan struct{})
	var readers sync.WaitGroup
	readers.Go(func() {
		for n := 0; ; n++ {
			select {
			case <-stop:
				return
			case <-time.After(time.Millisecond):
			}
			rec, faults, err := Read(dir)
			if err != nil || len(faults) > 0 {
				t.Errorf("reading meanwhile: %v %v", err, faults)
				return
			}
			draws, counts := notes(rec)
			if len(draws) != len(counts) {
				t.Errorf("a reader sees %d draws and %d counts", len(draws), len(counts))
				return
			}
		}
	})
	defer func() { close(stop); readers.Wait() }()
	kills := 0
	for saved := 0; saved < saves; kills++ {
		cmd := child(t, "pair", dir, "")
		out, err := cmd.StdoutPipe()
		if err != nil {
			t.Fatal(err)
		}
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		begun, told := make(chan struct{}), make(chan int)
		go func() {
			last, lines := 0, bufio.NewScanner(out)
			for more := lines.Scan(); more; more = lines.Scan() {
				if last == 0 {
					close(begun)
				}
				fmt.Sscan(lines.Text(), &last)
			}
			if last == 0 {
				close(begun)
			}
			told <- last
		}()
		if kills%4 > 0 { // else it may not come as far as its first save
			<-begun
		}
		time.Sleep(time.Duration(rand.IntN(40_000)) * time.Microsecond)
		if err := cmd.Process.Signal(syscall.SIGKILL); err != nil {
			t.Fatal(err)
		}
		last := <-told
		_ = cmd.Wait()
		rec, faults := read(t, dir)
		if len(faults) > 0 {
			t.Fatal(faults)
		}
		saw := wantPairs(t, "before it is opened again", rec)
		b := openBook(t, dir)
		rec, _ = b.Records()
		if saved = wantPairs(t, "opened again", rec); saved != saw || saved < last {
			t.Fatalf("%d are saved, a reader saw %d, %d were told of", saved, saw, last)
		}
		list, err := changes(b.root, 0)
		if err != nil || len(list) != saved {
			t.Fatalf("%d changes of %d saves: %v", len(list), saved, err)
		}
		leftovers(t, dir)
		b.Close()
	}
	t.Logf("killed %d times", kills)
}

// addFifty adds 50 records, opening the ledger for each as a command does.
func addFifty(dir string) error {
	for i := range 50 {
		ctx, cancel := context.WithTimeout(context.Background(), 2*time.Minute)
		err := addOne(ctx, dir, fmt.Sprintf("%s-%d", os.Getenv(whoVariable), i))
		cancel()
		if errors.Is(err, ErrBusy) { // the wait has its own end: patience
			err = addOne(context.Background(), dir, fmt.Sprintf("%s-%d", os.Getenv(whoVariable), i))
		}
		if err != nil {
			return err
		}
	}
	return nil
}

func addOne(ctx context.Context, dir, serial string) error {
	b, err := opened(ctx, dir, packsDrawn)
	if err != nil {
		return err
	}
	_, err = b.Edit("pair", pairOf(serial))
	return errors.Join(err, b.Close())
}

// TestSixteen: 16 processes add 50 records each, and none is lost or doubled.
func TestSixteen(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes a while")
	}
	dir := inMemory(t, numbered(t))
	var children sync.WaitGroup
	for who := range 16 {
		children.Go(func() {
			if out, err := child(t, "add", dir, fmt.Sprint(who)).CombinedOutput(); err != nil {
				t.Errorf("process %d: %v\n%s", who, err, out)
			}
		})
	}
	children.Wait()
	rec, faults := read(t, dir)
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	draws, counts := notes(rec)
	once := map[string]int{}
	for i := range draws {
		once[draws[i]]++
		if draws[i] != counts[i] {
			t.Fatalf("row %d is of %s and %s", i, draws[i], counts[i])
		}
	}
	if len(draws) != 16*50 || len(once) != len(draws) {
		t.Errorf("%d records, %d of them different", len(draws), len(once))
	}
	if list, err := LastChanges(dir, 0); err != nil || len(list) != len(draws) {
		t.Errorf("%d changes: %v", len(list), err)
	}
}

// saveOnce saves one change and tells what came of it.
func saveOnce(dir string) error {
	b, err := opened(context.Background(), dir, nil)
	if err == nil {
		defer b.Close()
		_, err = b.Edit("pair", pairOf("x"))
	}
	if err != nil {
		e := new(ledger.Fault)
		fmt.Println(errors.Is(err, ErrReadOnly), errors.As(err, &e) && e.Hint != "")
		fmt.Println(err)
	}
	rec, faults, err := Read(dir)
	if err != nil || len(faults) > 0 {
		return fmt.Errorf("reading: %v %v", faults, err)
	}
	fmt.Println(rec.Draws.Len(), "draws")
	return nil
}

// TestReadOnlyFolder: what cannot be written can be read, and saving says so.
// Root may write anywhere, so the child becomes nobody.
func TestReadOnlyFolder(t *testing.T) {
	for _, house := range []bool{false, true} {
		model := numbered(t)
		if house {
			b := openBook(t, model)
			if _, err := b.Edit("pair", pairOf("1")); err != nil {
				t.Fatal(err)
			}
			b.Close()
		}
		dir := filepath.Join("/tmp", fmt.Sprintf("putby-read-only-%d-%v", os.Getpid(), house))
		if err := os.CopyFS(dir, os.DirFS(model)); err != nil {
			t.Fatal(err)
		}
		t.Cleanup(func() { os.RemoveAll(dir) })
		err := filepath.WalkDir(dir, func(path string, e os.DirEntry, err error) error {
			if e.IsDir() {
				return errors.Join(err, os.Chmod(path, 0o555))
			}
			return errors.Join(err, os.Chmod(path, 0o444))
		})
		if err != nil {
			t.Fatal(err)
		}
		t.Cleanup(func() {
			_ = filepath.WalkDir(dir, func(path string, _ os.DirEntry, _ error) error { return os.Chmod(path, 0o700) })
		})
		cmd := child(t, "save", dir, "")
		if os.Getuid() == 0 {
			exe := filepath.Join("/tmp", fmt.Sprintf("putby-test-%d", os.Getpid()))
			copyFile(t, cmd.Path, exe)
			t.Cleanup(func() { os.Remove(exe) })
			cmd.Path, cmd.Args[0], cmd.Dir = exe, exe, "/"
			asNobody(cmd)
		}
		before := contents(t, dir)
		out, err := cmd.CombinedOutput()
		if err != nil {
			t.Fatalf("%v: %s", err, out)
		}
		lines := strings.Split(string(out), "\n")
		draws := "0 draws"
		if house {
			draws = "1 draws"
		}
		if len(lines) < 3 || lines[0] != "true true" || lines[2] != draws {
			t.Errorf("told %q", out)
		}
		t.Log(lines[1])
		wantFiles(t, "read only", contents(t, dir), before)
	}
}

func copyFile(t testing.TB, from, to string) {
	t.Helper()
	in, err := os.Open(from)
	if err != nil {
		t.Fatal(err)
	}
	defer in.Close()
	out, err := os.OpenFile(to, os.O_CREATE|os.O_WRONLY|os.O_TRUNC, 0o755)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := io.Copy(out, in); err != nil {
		t.Fatal(err)
	}
	if err := errors.Join(out.Chmod(0o755), out.Close()); err != nil {
		t.Fatal(err)
	}
}
