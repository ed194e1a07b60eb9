package folder

import (
	"errors"
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"

	"putby/ledger"
	"putby/ledger/advice"
)

func TestUndo(t *testing.T) {
	dir := household(t)
	b := openBook(t, dir)
	states := []map[string]string{contents(t, dir)}
	edits := []func(*Tx) error{
		addDraw(t, "P1", "three"),
		func(tx *Tx) error { return tx.Strike(kindOf(t, "draw"), 2) },
		func(tx *Tx) error {
			return tx.Append(kindOf(t, "shelf.csv"), map[string]string{"date": "2025-01-01", "shop": "Au", "item": "leek", "size": "1 kg", "price": "3"})
		},
		func(tx *Tx) error { return tx.WriteFile("maps/a.csv", []byte("\xff\x00")) },
		func(tx *Tx) error { return tx.RemoveFile("maps/a.csv") },
	}
	for i, edit := range edits {
		if c, err := b.Edit(fmt.Sprint("edit ", i+1), edit); err != nil || c.Number != i+1 {
			t.Fatal(c, err)
		}
		states = append(states, contents(t, dir))
	}
	undo := func(to, of int) {
		t.Helper()
		c, err := b.Undo()
		if err != nil || c.Of != of || c.Kind != Undone || len(c.Merged) > 0 {
			t.Fatal(c, err)
		}
		wantFiles(t, fmt.Sprint("undo of ", of), contents(t, dir), states[to])
	}
	redo := func(to, of int) {
		t.Helper()
		c, err := b.Redo()
		if err != nil || c.Of != of || c.Kind != Redone {
			t.Fatal(c, err)
		}
		wantFiles(t, fmt.Sprint("redo of ", of), contents(t, dir), states[to])
	}
	undo(4, 5)
	undo(3, 4)
	redo(4, 4)
	undo(3, 4)
	undo(2, 3)
	b.Close() // the chain goes on in another process
	b = openBook(t, dir)
	redo(3, 3)
	undo(2, 3)
	undo(1, 2)
	undo(0, 1)
	if _, err := b.Undo(); !errors.Is(err, ErrNothing) {
		t.Errorf("one undo too many: %v", err)
	}
	for i := range edits {
		redo(i+1, i+1)
	}
	if _, err := b.Redo(); !errors.Is(err, ErrNothing) {
		t.Errorf("one redo too many: %v", err)
	}
	undo(4, 5)
	if _, err := b.Edit("other", addDraw(t, "P1", "other")); err != nil {
		t.Fatal(err)
	}
	if _, err := b.Redo(); !errors.Is(err, ErrNothing) {
		t.Errorf("redo after an edit: %v", err)
	}
	if c, err := b.Undo(); err != nil || c.Of != b.last.Number-1 {
		t.Error(c, err)
	}
	wantFiles(t, "undo of the other", contents(t, dir), states[4])
	undo(3, 4)
	list, err := changes(b.root, 0)
	if err != nil || len(list) != b.last.Number || list[0].Command != "edit 1" || list[5].Command != "undo" {
		t.Errorf("%d changes: %v", len(list), err)
	}
	if other, err := LastChanges(dir, 0); err != nil || len(other) != len(list) {
		t.Errorf("%d changes without a lock: %v", len(other), err)
	}
}

// TestUndoAfterOutsideEdit: an undo never loses what another program wrote.
func TestUndoAfterOutsideEdit(t *testing.T) {
	dir := household(t)
	b := openBook(t, dir)
	if _, err := b.Edit("draw add", addDraw(t, "P1", "mine")); err != nil {
		t.Fatal(err)
	}
	b.Close()
	const outside = "date,pack,quantity,note\r\n2025-03-01,P1,1,theirs\r\n2025-02-01,P1,1,mine\r\n"
	put(t, dir, "draws.csv", outside)
	b = openBook(t, dir)
	c, err := b.Undo()
	if err != nil || !slices.Equal(c.Merged, []string{"draws.csv"}) {
		t.Fatal(c, err)
	}
	if got := contents(t, dir)["draws.csv"]; got != "date,pack,quantity,note\r\n2025-03-01,P1,1,theirs\r\n" {
		t.Errorf("merged into %q", got)
	}
	b.Close()

	// Where the lines have changed too, it refuses.
	b = openBook(t, dir)
	if _, err := b.Edit("draw add", addDraw(t, "P1", "mine")); err != nil {
		t.Fatal(err)
	}
	b.Close()
	put(t, dir, "draws.csv", strings.Replace(outside, "mine", "ours", 1))
	want := contents(t, dir)
	b = openBook(t, dir)
	if _, err = b.Undo(); !errors.Is(err, ErrChanged) || !strings.Contains(err.Error(), "draws.csv was edited since change 3 (draw add)") {
		t.Errorf("undo: %v", err)
	}
	wantFiles(t, "refused undo", contents(t, dir), want)

	// Nor does it take away a file that it made and others went on with.
	if _, err := b.Edit("count add", func(tx *Tx) error {
		return tx.Append(kindOf(t, "count"), map[string]string{"date": "2025-03-01", "pack": "P1", "quantity": "1"})
	}); err != nil {
		t.Fatal(err)
	}
	b.Close()
	put(t, dir, "counts.csv", "date,pack,quantity\n")
	b = openBook(t, dir)
	if _, err = b.Undo(); !errors.Is(err, ErrChanged) {
		t.Errorf("undo: %v", err)
	}
}

// TestUndoRefused: an undo must not break the ledger.
func TestUndoRefused(t *testing.T) {
	dir := household(t)
	b := openBook(t, dir)
	if _, err := b.Edit("pack add", func(tx *Tx) error {
		return tx.Append(kindOf(t, "pack"), map[string]string{"pack": "P2", "item": "leek", "date": "2025-02-01", "count": "2", "each": "0.5 kg", "cost": "3"})
	}); err != nil {
		t.Fatal(err)
	}
	b.Close()
	put(t, dir, "draws.csv", "date,pack,quantity\n2025-02-02,P2,1\n")
	b = openBook(t, dir)
	_, err := b.Undo()
	if r := new(Refusal); !errors.As(err, &r) || r.Already || r.Faults[0].Error() != "draws.csv:2:12: no such pack" {
		t.Errorf("undo: %v", err)
	}
}

func TestDamagedHistory(t *testing.T) {
	dir := household(t)
	b := openBook(t, dir)
	for range 2 {
		if _, err := b.Edit("draw add", addDraw(t, "P1", "x")); err != nil {
			t.Fatal(err)
		}
	}
	b.Close()
	put(t, dir, changeFile(2), "{")
	b = openBook(t, dir)
	if _, err := b.Undo(); !errors.Is(err, ErrNothing) {
		t.Errorf("undo without a record: %v", err)
	}
	if list, err := changes(b.root, 0); err != nil || len(list) == 0 || list[len(list)-1].Kind != Damaged {
		t.Errorf("changes: %v", err)
	}
	if c, err := b.Edit("draw add", addDraw(t, "P1", "y")); err != nil || c.Number != 3 {
		t.Errorf("saving goes on: %v %v", c, err)
	}
	if c, err := b.Undo(); err != nil || c.Of != 3 {
		t.Errorf("and its undo: %v %v", c, err)
	}
}

// TestUndoInTheMiddle: an edit elsewhere in a file does not stop a removed row
// from coming back to its place, nor an added one from being taken out; what is
// shown is what is changed.
func TestUndoInTheMiddle(t *testing.T) {
	const header = "date,pack,quantity,note\n"
	rows := func(names ...string) (text string) {
		for _, name := range names {
			text += "2025-02-01,P1,1," + name + "\n"
		}
		return header + text
	}
	dir := write(t, "foods.csv", "food,basis\nleek,mass\n",
		"packs.csv", "pack,item,date,count,each,cost\nP1,leek,2025-01-02,40,0.25 kg,1.20\n",
		"draws.csv", rows("a", "b", "c", "d", "e", "f"))
	b := openBook(t, dir)
	if _, err := b.Edit("remove", func(tx *Tx) error { return tx.Strike(kindOf(t, "draw"), 4) }); err != nil {
		t.Fatal(err)
	}
	b.Close()
	put(t, dir, "draws.csv", rows("A", "b", "d", "e", "F", "g"))
	b = openBook(t, dir)
	c, err := b.Undo()
	if err != nil || !slices.Equal(c.Merged, []string{"draws.csv"}) {
		t.Fatal(c, err)
	}
	removed, added := c.Files[0].Lines()
	if len(removed) != 0 || !slices.Equal(added, []string{"2025-02-01,P1,1,c"}) {
		t.Errorf("it shows %q, %q", removed, added)
	}
	if got := contents(t, dir)["draws.csv"]; got != rows("A", "b", "c", "d", "e", "F", "g") {
		t.Errorf("it became %q", got)
	}
	if _, err := b.Redo(); err != nil || contents(t, dir)["draws.csv"] != rows("A", "b", "d", "e", "F", "g") {
		t.Errorf("taken out again: %v", err)
	}
}

// TestUndoOf: a change that cannot be undone does not stand in the way of those
// before it, and undo, redo and their order go on round it.
func TestUndoOf(t *testing.T) {
	dir := household(t)
	b := openBook(t, dir)
	for i := range 4 {
		if _, err := b.Edit(fmt.Sprint("add ", i+1), addDraw(t, "P1", fmt.Sprint("draw ", i+1))); err != nil {
			t.Fatal(err)
		}
	}
	b.Close()
	put(t, dir, "draws.csv", strings.Replace(contents(t, dir)["draws.csv"], "draw 4", "by hand", 1))
	b = openBook(t, dir)
	_, err := b.Undo()
	instead := []advice.Doing{advice.Do(advice.Changes, "4"), advice.Do(advice.Undo, "3")}
	if e := new(ledger.Fault); !errors.As(err, &e) || e.Kind != ErrChanged || !strings.HasSuffix(e.Hint, "take back the change before") || !reflect.DeepEqual(e.Do, instead) {
		t.Fatalf("%v", err)
	}
	notes := func() string {
		rec, _ := b.Records()
		draws, _ := notes(rec)
		return fmt.Sprint(draws[2:])
	}
	for _, step := range []struct {
		do   func() (Change, error)
		of   int
		want string
	}{
		{func() (Change, error) { return b.UndoOf(2) }, 2, "[draw 1 draw 3 by hand]"},
		{func() (Change, error) { return b.UndoOf(3) }, 3, "[draw 1 by hand]"},
		{b.Redo, 3, "[draw 1 draw 3 by hand]"},
		{b.Undo, 3, "[draw 1 by hand]"},
		{b.Redo, 3, "[draw 1 draw 3 by hand]"},
		{b.Redo, 2, "[draw 1 draw 2 draw 3 by hand]"},
		{func() (Change, error) { return b.UndoOf(1) }, 1, "[draw 2 draw 3 by hand]"},
	} {
		if c, err := step.do(); err != nil || c.Of != step.of || notes() != step.want {
			t.Fatalf("%v %v: %s, want %s", c, err, notes(), step.want)
		}
	}
	for _, number := range []int{1, 9, 400} {
		if _, err := b.UndoOf(number); !errors.Is(err, ErrNothing) {
			t.Errorf("undo of %d: %v", number, err)
		}
	}
}

// TestLastChanges: as many of the changes as are asked for, and no other is
// read; none is missing that is on its way from the journal into the history.
func TestLastChanges(t *testing.T) {
	dir := household(t)
	b := openBook(t, dir)
	for range 5 {
		if _, err := b.Edit("draw add", addDraw(t, "P1", "x")); err != nil {
			t.Fatal(err)
		}
	}
	put(t, dir, changeFile(2), "{")
	list, err := LastChanges(dir, 2)
	if err != nil || len(list) != 2 || list[0].Number != 4 || list[1].Number != 5 {
		t.Errorf("%v %v", list, err)
	}
	if c, err := ChangeOf(dir, 3); err != nil || c.Number != 3 {
		t.Errorf("%v %v", c, err)
	}
	if c, err := ChangeOf(dir, 9); err != nil || c != nil {
		t.Errorf("%v %v", c, err)
	}
	if list, err := LastChanges(dir, 0); err != nil || !slices.ContainsFunc(list, func(c Change) bool { return c.Kind == Damaged }) {
		t.Errorf("a damaged one: %v", err)
	}
}
