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
	"testing"
	"time"
)

// TestMark: a change is found by its mark while the lock is held, by whoever holds
// none, after others, and by a mark that must be escaped.
func TestMark(t *testing.T) {
	dir := household(t)
	b := openBook(t, dir)
	marks := []string{"form-1", `a "form" <2>`, strings.Repeat("x", 5000)}
	for i, mark := range marks {
		if c, err := b.Marked(mark); err != nil || c != nil {
			t.Fatalf("found before it is saved: %v %v", c, err)
		}
		edit := addDraw(t, "P1", fmt.Sprint("marked ", i))
		if c, err := b.Edit("form", func(tx *Tx) error { tx.Mark(mark); return edit(tx) }); err != nil || c.Mark != mark {
			t.Fatal(c, err)
		}
		if _, err := b.Edit("other", addDraw(t, "P1", fmt.Sprint("other ", i))); err != nil {
			t.Fatal(err)
		}
	}
	b.Close()
	b = openBook(t, dir)
	for i, mark := range marks {
		for _, find := range []func() (*Change, error){
			func() (*Change, error) { return b.Marked(mark) },
			func() (*Change, error) { return Marked(dir, mark) },
		} {
			if c, err := find(); err != nil || c == nil || c.Number != 2*i+1 {
				t.Errorf("%.20q: %v %v", mark, c, err)
			}
		}
	}
	for _, mark := range []string{"", "form", "form-11"} {
		if c, err := b.Marked(mark); err != nil || c != nil {
			t.Errorf("%q: %v %v", mark, c, err)
		}
	}
	put(t, dir, changeFile(6), "{") // passed over
	if c, err := Marked(dir, marks[0]); err != nil || c == nil || c.Number != 1 {
		t.Errorf("behind a damaged one: %v %v", c, err)
	}
}

// TestLook: what a change would do is told without a lock, while somebody else
// holds it, and nothing is written.
func TestLook(t *testing.T) {
	dir := household(t)
	holder := openBook(t, dir)
	if _, err := holder.Edit("draw add", addDraw(t, "P1", "x")); err != nil {
		t.Fatal(err)
	}
	before := everything(t, dir)
	b, err := Opening{Check: packsDrawn}.Look(dir)
	if err != nil {
		t.Fatal(err)
	}
	defer b.Close()
	if c, err := b.Try("draw add", addDraw(t, "P1", "y")); err != nil || len(c.Files) != 1 {
		t.Errorf("an edit: %v %v", c, err)
	}
	if _, err := b.Try("draw add", addDraw(t, "P9", "y")); err == nil {
		t.Error("a fault is let pass")
	}
	if c, err := b.TryUndoOf(0); err != nil || c.Of != 1 {
		t.Errorf("an undo: %v %v", c, err)
	}
	if _, err := b.TryRedo(); !errors.Is(err, ErrNothing) {
		t.Errorf("a redo: %v", err)
	}
	if _, err := b.Edit("draw add", addDraw(t, "P1", "y")); !errors.Is(err, ErrInvalid) {
		t.Errorf("saved without a lock: %v", err)
	}
	if after := everything(t, dir); !maps.Equal(before, after) {
		t.Errorf("written: %v", after)
	}
}

// everything is all files below a folder, the ledger's own too.
func everything(t testing.TB, dir string) map[string]string {
	t.Helper()
	files := map[string]string{}
	err := filepath.WalkDir(dir, func(path string, e os.DirEntry, err error) error {
		if err == nil && e.Type().IsRegular() {
			var data []byte
			data, err = os.ReadFile(path)
			files[path] = string(data)
		} else {
			files[path] = ""
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return files
}

// TestWaiting: who waits is told for whom, and gives up at the set time.
func TestWaiting(t *testing.T) {
	dir := household(t)
	first, err := Opening{Wait: DefaultWait, For: "draw add --pack P1"}.Open(context.Background(), dir)
	if err != nil {
		t.Fatal(err)
	}
	defer first.Close()
	_, err = Opening{}.Open(context.Background(), dir)
	if !errors.Is(err, ErrBusy) {
		t.Errorf("no wait at all: %v", err)
	}
	var told []Holder
	begun := time.Now()
	_, err = Opening{Wait: 1200 * time.Millisecond, Waiting: func(h Holder) { told = append(told, h) }}.Open(context.Background(), dir)
	if took := time.Since(begun); !errors.Is(err, ErrBusy) || took < time.Second || took > 5*time.Second {
		t.Errorf("%v after %v", err, took)
	}
	want := fmt.Sprintf("putby draw add --pack P1 (process %d), since ", os.Getpid())
	if len(told) != 1 || !strings.HasPrefix(told[0].String(), want) || time.Since(told[0].Since) > time.Minute {
		t.Errorf("told %v", told)
	}
	if err == nil || !strings.Contains(err.Error(), want) || !strings.HasSuffix(err.Error(), "which was not done after 1 s") {
		t.Errorf("it says %v", err)
	}
}

// TestQueue: those who wait get the lock in the order in which they came, and
// one that is gone without giving its place up holds nobody up.
func TestQueue(t *testing.T) {
	dir := household(t)
	first := openBook(t, dir)
	var order []int
	var mu sync.Mutex
	var waiting sync.WaitGroup
	for i := range 8 {
		waiting.Go(func() {
			b, err := Opening{Wait: time.Minute}.Open(context.Background(), dir)
			if err != nil {
				t.Error(err)
				return
			}
			mu.Lock()
			order = append(order, i)
			mu.Unlock()
			if err := b.Close(); err != nil {
				t.Error(err)
			}
		})
		waitFor(t, func() bool { names, _ := first.root.names(queueFolder); return len(names) == i+2 })
	}
	put(t, dir, ticketFile(1)[:len(ticketFile(1))-1]+"0", "") // no number of ours
	put(t, dir, ticketFile(500), "")                          // one that is dead
	first.Close()
	waiting.Wait()
	if fmt.Sprint(order) != "[0 1 2 3 4 5 6 7]" {
		t.Errorf("in the order %v", order)
	}
	b := openBook(t, dir)
	if numbers, err := tickets(b.root); err != nil || len(numbers) != 1 {
		t.Errorf("left in the queue: %v %v", numbers, err)
	}
}

func waitFor(t testing.TB, what func() bool) {
	t.Helper()
	for end := time.Now().Add(20 * time.Second); !what(); time.Sleep(time.Millisecond) {
		if time.Now().After(end) {
			t.Fatal("it does not come to it")
		}
	}
}
