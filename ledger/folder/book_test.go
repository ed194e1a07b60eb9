package folder

import (
	"context"
	"errors"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"putby/ledger"
	"putby/pricing/exact"
)

// packsDrawn is a small check: a draw's pack must exist.
func packsDrawn(rec *ledger.Records) ledger.Faults {
	var faults ledger.Faults
	for _, d := range rec.Draws.All() {
		if d.Pack != "" && rec.Packs.Index(func(p *ledger.Pack) bool { return p.ID == d.Pack }) < 0 {
			faults = append(faults, ledger.Fault{File: "draws.csv", Line: d.Line, Field: "pack", What: "no such pack"})
		}
	}
	return faults
}

// household makes a small ledger with rows of its own habits.
func household(t testing.TB) string {
	return write(t,
		"foods.csv", "food,basis,name\nleek,mass,\"Leeks\"\n",
		"packs.csv", mark+"pack;item;date;count;each;cost;colour\r\nP1;leek;2025-01-02;4;\"0.25 kg\";1.20;red\r\n",
		"draws.csv", "date,pack,quantity,note\n2025-01-03,P1,1,\"first, soup\"\n\n2025-01-04,P1,1,second",
		"notes.txt", "not a record\n",
	)
}

// opened opens a ledger and waits for others as long as commands do.
func opened(ctx context.Context, dir string, check Check) (*Book, error) {
	return Opening{Check: check, Wait: DefaultWait}.Open(ctx, dir)
}

func openBook(t testing.TB, dir string) *Book {
	t.Helper()
	b, err := opened(context.Background(), dir, packsDrawn)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { b.Close() })
	return b
}

func kindOf(t testing.TB, name string) ledger.Kind {
	t.Helper()
	k, ok := ledger.KindOf(name)
	if !ok {
		t.Fatalf("no kind %s", name)
	}
	return k
}

// addDraw is an edit that appends a draw.
func addDraw(t testing.TB, pack, note string) func(*Tx) error {
	k := kindOf(t, "draw")
	return func(tx *Tx) error {
		return tx.Append(k, map[string]string{"date": "2025-02-01", "pack": pack, "quantity": "1", "note": note})
	}
}

// contents reads all files below dir but the ledger's own.
func contents(t testing.TB, dir string) map[string]string {
	t.Helper()
	files := map[string]string{}
	err := filepath.WalkDir(dir, func(path string, e os.DirEntry, err error) error {
		name, _ := filepath.Rel(dir, path)
		switch {
		case err != nil:
			return err
		case name == stateFolder:
			return filepath.SkipDir
		case e.IsDir():
			return nil
		}
		data, err := os.ReadFile(path)
		files[filepath.ToSlash(name)] = string(data)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return files
}

func wantFiles(t testing.TB, why string, have, want map[string]string) {
	t.Helper()
	names := maps.Clone(have)
	maps.Copy(names, want)
	for _, name := range slices.Sorted(maps.Keys(names)) {
		if h, w := have[name], want[name]; h != w {
			t.Errorf("%s: %s is\n%q, want\n%q", why, name, h, w)
		}
	}
}

func TestEdit(t *testing.T) {
	dir := household(t)
	b := openBook(t, dir)
	b.clock = func() time.Time { return time.Date(2025, 2, 1, 9, 0, 0, 0, time.UTC) }
	want := contents(t, dir)
	packs, draws := kindOf(t, "pack"), kindOf(t, "draw")
	c, err := b.Edit("pack add", func(tx *Tx) error {
		if err := tx.Append(packs, map[string]string{"pack": "P2", "item": "leek", "date": "2025-02-01", "count": "2", "each": "0.5 kg", "cost": "3"}); err != nil {
			return err
		}
		if err := tx.Replace(draws, 2, map[string]string{"quantity": "2"}); err != nil {
			return err
		}
		if row, err := tx.Row(draws, 2); err != nil || row["quantity"] != "2" || row["note"] != "first, soup" {
			t.Errorf("row %v %v", row, err)
		}
		if err := tx.Strike(draws, 4); err != nil {
			return err
		}
		for line, row := range tx.Rows(draws) {
			if line != 2 || row["pack"] != "P1" {
				t.Errorf("row %d %v", line, row)
			}
		}
		if err := tx.WriteFile("meter/R1.csv", []byte("time,watts\n2025-01-01 10:00,5\n")); err != nil {
			return err
		}
		return tx.WriteFile("maps/shop.csv", []byte("\xff"))
	})
	if err != nil {
		t.Fatal(err)
	}
	want["packs.csv"] += "P2;leek;2025-02-01;2;0.5 kg;3;\r\n"
	want["draws.csv"] = "date,pack,quantity,note\n2025-01-03,P1,2,\"first, soup\"\n\n"
	want["meter/R1.csv"] = "time,watts\n2025-01-01 10:00,5\n"
	want["maps/shop.csv"] = "\xff"
	wantFiles(t, "edit", contents(t, dir), want)
	if c.Number != 1 || c.Command != "pack add" || len(c.Files) != 4 {
		t.Errorf("change %+v", c)
	}
	removed, added := c.Files[0].Lines()
	if c.Files[0].Name != "draws.csv" || len(removed) != 2 || len(added) != 1 || added[0] != "2025-01-03,P1,2,\"first, soup\"" {
		t.Errorf("lines of %s: %q, %q", c.Files[0].Name, removed, added)
	}
	rec, _ := b.Records()
	if rec.Packs.Len() != 2 || rec.Draws.Len() != 1 || rec.Meters["R1"] == nil {
		t.Errorf("the book goes on with %d packs", rec.Packs.Len())
	}
	for _, name := range slices.Collect(maps.Keys(want)) {
		info, err := os.Stat(filepath.Join(dir, name))
		perm := os.FileMode(0o600) // as it was
		if strings.Contains(name, "/") {
			perm = 0o640 // new, by the umask
		}
		if err != nil || info.Mode().Perm() != perm {
			t.Errorf("%s: %v %v", name, info.Mode(), err)
		}
	}
	for _, name := range []string{"meter", "maps", stateFolder, pastFolder} {
		if info, err := os.Stat(filepath.Join(dir, name)); err != nil || info.Mode().Perm() != 0o750 {
			t.Errorf("%s: %v %v", name, info, err)
		}
	}
}

func TestEditRefused(t *testing.T) {
	dir := household(t)
	b := openBook(t, dir)
	want := contents(t, dir)
	stop := errors.New("stop")
	for _, c := range []struct {
		why  string
		edit func(*Tx) error
		want string
	}{
		{"a fault of the row", func(tx *Tx) error {
			return tx.Append(kindOf(t, "draw"), map[string]string{"date": "2025-02-30", "pack": "P1", "quantity": "1"})
		}, "draws.csv:5:1: date: "},
		{"a fault across records", addDraw(t, "P9", ""), "draws.csv:5:12: no such pack"},
		{"striking what others need", func(tx *Tx) error { return tx.Strike(kindOf(t, "pack"), 2) }, "draws.csv:2:12: no such pack\ndraws.csv:4:12: no such pack"},
		{"a setting", func(tx *Tx) error {
			return tx.Replace(kindOf(t, "setting"), 3, map[string]string{"value": "EURO"})
		}, "settings.csv:3:10: currency: "},
		{"a log", func(tx *Tx) error { return tx.WriteFile("meter/R1.csv", []byte("x")) }, "meter/R1.csv:1:1: the column"},
		{"not UTF-8", addDraw(t, "P1", "\xff"), "draws.csv:5:17: a byte that is not UTF-8"},
		{"the edit's own error", func(tx *Tx) error {
			if err := addDraw(t, "P1", "")(tx); err != nil {
				return err
			}
			return stop
		}, "stop"},
	} {
		for _, do := range []func(string, func(*Tx) error) (Change, error){b.Edit, b.Try} {
			_, err := do("test", c.edit)
			if err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("%s: %v, want %s", c.why, err, c.want)
			}
			refusal := new(Refusal)
			if errors.As(err, &refusal) != !errors.Is(err, stop) || refusal.Already {
				t.Errorf("%s: %#v", c.why, err)
			}
		}
	}
	wantFiles(t, "refused", contents(t, dir), want)
	if list, err := changes(b.root, 0); err != nil || len(list) > 0 {
		t.Errorf("changes %v %v", list, err)
	}
	rec, _ := b.Records()
	if rec.Draws.Len() != 2 {
		t.Errorf("%d draws", rec.Draws.Len())
	}
}

func TestTry(t *testing.T) {
	dir := household(t)
	b := openBook(t, dir)
	want := contents(t, dir)
	c, err := b.Try("draw add", addDraw(t, "P1", "third"))
	if err != nil || c.Number != 0 {
		t.Fatal(c, err)
	}
	if _, added := c.Files[0].Lines(); !slices.Equal(added, []string{"2025-02-01,P1,1,third"}) {
		t.Errorf("it would add %q", added)
	}
	c, err = b.Edit("nothing", func(tx *Tx) error {
		return tx.Replace(kindOf(t, "draw"), 2, map[string]string{"quantity": "1", "note": "first, soup"})
	})
	if err != nil || c.Number != 0 {
		t.Error(c, err)
	}
	wantFiles(t, "tried", contents(t, dir), want)
}

// TestMend: a ledger with faults may be changed only for the better.
func TestMend(t *testing.T) {
	dir := household(t)
	put(t, dir, "draws.csv", "date,pack,quantity,note\n2025-01-03,P8,1,\n2025-01-03,P9,1,\n")
	b := openBook(t, dir)
	draws := kindOf(t, "draw")
	_, err := b.Edit("draw add", addDraw(t, "P1", ""))
	if r := new(Refusal); !errors.As(err, &r) || !r.Already || len(r.Faults) != 2 {
		t.Errorf("adding: %v", err)
	}
	if _, err := b.Edit("amend", func(tx *Tx) error { return tx.Replace(draws, 2, map[string]string{"pack": "P1"}) }); err != nil {
		t.Errorf("mending one: %v", err)
	}
	if _, err := b.Edit("strike", func(tx *Tx) error { return tx.Strike(draws, 3) }); err != nil {
		t.Errorf("mending the other: %v", err)
	}
	if _, err := b.Edit("draw add", addDraw(t, "P1", "")); err != nil {
		t.Errorf("adding to the mended: %v", err)
	}
	if _, err := b.Undo(); err != nil {
		t.Errorf("undoing: %v", err)
	}
	put(t, dir, "foods.csv", "food,basis\nle\"ek,mass\n")
	b.Close()
	b = openBook(t, dir)
	_, err = b.Edit("food add", func(tx *Tx) error {
		return tx.Append(kindOf(t, "food"), map[string]string{"food": "fig", "basis": "mass"})
	})
	if r := new(Refusal); !errors.As(err, &r) || !r.Already || r.Faults[0].Error() != "foods.csv:2:3: a quote inside a cell that does not begin with one" {
		t.Errorf("a broken quote: %v", err)
	}
}

// TestMendLikeWithLike: a record that cannot be read hides what the check would
// find, and is no fewer faults for that.
func TestMendLikeWithLike(t *testing.T) {
	dir := household(t)
	put(t, dir, "draws.csv", "date,pack,quantity,note\n2025-01-03,P1,1,\n2025-01-03,P8,1,\n2025-01-03,P9,1,\n")
	b := openBook(t, dir)
	draws := kindOf(t, "draw")
	breaking := func(tx *Tx) error { return tx.Replace(draws, 2, map[string]string{"quantity": "0"}) }
	_, err := b.Edit("edit", breaking)
	if r := new(Refusal); !errors.As(err, &r) || r.Already || len(r.Faults) != 1 || r.Faults[0].File != "draws.csv" || r.Faults[0].Line != 2 {
		t.Errorf("a record that cannot be read any more: %v", err)
	}
	put(t, dir, "draws.csv", "date,pack,quantity,note\n2025-01-03,P1,0,\n2025-01-03,P8,1,\n2025-01-03,P9,1,\n")
	b.Close()
	b = openBook(t, dir)
	c, err := b.Edit("edit", func(tx *Tx) error { return tx.Replace(draws, 2, map[string]string{"quantity": "1"}) })
	if err != nil {
		t.Fatalf("mending the one that could not be read: %v", err)
	}
	if _, err = b.UndoOf(c.Number); !errors.As(err, new(*Refusal)) {
		t.Errorf("taking that back: %v", err)
	}
}

func TestNames(t *testing.T) {
	b := openBook(t, household(t))
	for _, name := range []string{"", ".", "..", "../x", "/x", "a/b/c", ".putby/journal", "a/.x", ".x", "a//b", "a/", `a\b`, "a/../b"} {
		_, err := b.Edit("test", func(tx *Tx) error { return tx.WriteFile(name, []byte("x")) })
		if !errors.Is(err, ErrInvalid) {
			t.Errorf("%q: %v", name, err)
		}
	}
}

func TestLinkStays(t *testing.T) {
	dir := household(t)
	if err := os.Rename(filepath.Join(dir, "draws.csv"), filepath.Join(dir, "real.txt")); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink("real.txt", filepath.Join(dir, "draws.csv")); err != nil {
		t.Fatal(err)
	}
	b := openBook(t, dir)
	if _, err := b.Edit("draw add", addDraw(t, "P1", "")); err == nil || !strings.Contains(err.Error(), "draws.csv is not a file but a link") {
		t.Error(err)
	}
}

func TestChangedMeanwhile(t *testing.T) {
	for _, c := range []struct {
		why, name string
		change    func(dir string) error
	}{
		{"the file that is edited", "draws.csv", func(dir string) error {
			return os.WriteFile(filepath.Join(dir, "draws.csv"), []byte("date,pack,quantity,note\n2025-01-03,P1,1,\n"), 0o600)
		}},
		{"a file that it rests on", "packs.csv", func(dir string) error {
			return os.WriteFile(filepath.Join(dir, "packs.csv"), []byte("pack,item,date,count,each\n"), 0o600)
		}},
		{"a file that went", "packs.csv", func(dir string) error { return os.Remove(filepath.Join(dir, "packs.csv")) }},
		{"a file that came", "counts.csv", func(dir string) error {
			return os.WriteFile(filepath.Join(dir, "counts.csv"), nil, 0o600)
		}},
	} {
		dir := household(t)
		b := openBook(t, dir)
		if err := c.change(dir); err != nil {
			t.Fatal(err)
		}
		want := contents(t, dir)
		_, err := b.Edit("draw add", addDraw(t, "P1", "x"))
		if !errors.Is(err, ErrChanged) || !strings.HasPrefix(err.Error(), "nothing was saved: "+c.name+" was changed by another program") {
			t.Errorf("%s: %v", c.why, err)
		}
		wantFiles(t, c.why, contents(t, dir), want)
	}
}

func TestBusy(t *testing.T) {
	dir := household(t)
	openBook(t, dir)
	ctx, cancel := context.WithTimeout(context.Background(), 30*time.Millisecond)
	defer cancel()
	_, err := opened(ctx, dir, nil)
	if !errors.Is(err, ErrBusy) || !strings.HasPrefix(err.Error(), "nothing was saved: "+exact.Quote(dir)+" is being changed by another putby (process ") {
		t.Error(err)
	}
	if _, faults := read(t, dir); len(faults) > 0 { // reading goes on
		t.Error(faults)
	}
}

func TestOpenNotLedger(t *testing.T) {
	dir := t.TempDir()
	if _, err := opened(context.Background(), dir, nil); !errors.Is(err, ErrNotLedger) {
		t.Error(err)
	}
	if entries, _ := os.ReadDir(dir); len(entries) > 0 {
		t.Errorf("it left %v", entries)
	}
	dir = household(t)
	if err := os.Symlink(t.TempDir(), filepath.Join(dir, stateFolder)); err != nil {
		t.Fatal(err)
	}
	if _, err := opened(context.Background(), dir, nil); err == nil {
		t.Error("a link in place of the ledger's own folder is followed")
	}
}
