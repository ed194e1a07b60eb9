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
)

func TestCreate(t *testing.T) {
	ctx := context.Background()
	files := map[string][]byte{"settings.csv": []byte(okSettings), "foods.csv": []byte("food,basis\n"), "meter/R1.csv": []byte("time,watts\n")}
	dir := filepath.Join(t.TempDir(), "new")
	if err := Create(ctx, dir, "init", files); err != nil {
		t.Fatal(err)
	}
	want := map[string]string{}
	for name, data := range files {
		want[name] = string(data)
	}
	wantFiles(t, "create", contents(t, dir), want)
	b := openBook(t, dir)
	if list, err := changes(b.root, 0); err != nil || len(list) != 1 || list[0].Kind != Created || list[0].Command != "init" {
		t.Errorf("%v %v", list, err)
	}
	if _, err := b.Undo(); !errors.Is(err, ErrNothing) {
		t.Errorf("a ledger's making is undone: %v", err)
	}
	if _, err := b.Edit("food add", func(tx *Tx) error {
		return tx.Append(kindOf(t, "food"), map[string]string{"food": "leek", "basis": "mass"})
	}); err != nil {
		t.Error(err)
	}
	b.Close()
	want = contents(t, dir)
	if err := Create(ctx, dir, "init", files); !errors.Is(err, ErrExists) {
		t.Errorf("a ledger is made twice: %v", err)
	}
	wantFiles(t, "not made again", contents(t, dir), want)

	dir = t.TempDir() // a folder with something else
	put(t, dir, "foods.csv", "mine")
	if err := Create(ctx, dir, "init", files); !errors.Is(err, ErrExists) || !strings.HasPrefix(err.Error(), "foods.csv is already in ") {
		t.Errorf("a file is overwritten: %v", err)
	}
	only(t, dir, "foods.csv")
	os.Rename(filepath.Join(dir, "foods.csv"), filepath.Join(dir, "other.txt"))
	if err := Create(ctx, dir, "init", files); err != nil {
		t.Errorf("beside another file: %v", err)
	}

	parent := t.TempDir()
	for why, c := range map[string]struct {
		dir   string
		files map[string][]byte
		kind  error
	}{
		"no settings":  {filepath.Join(parent, "a"), map[string][]byte{"foods.csv": nil}, ErrInvalid},
		"bad name":     {filepath.Join(parent, "a"), map[string][]byte{"settings.csv": []byte(okSettings), "../x": nil}, ErrInvalid},
		"bad settings": {filepath.Join(parent, "a"), map[string][]byte{"settings.csv": []byte("setting,value\n")}, nil},
		"no parent":    {filepath.Join(parent, "a", "b"), files, ErrFailed},
	} {
		err := Create(ctx, c.dir, "init", c.files)
		if err == nil || c.kind != nil && !errors.Is(err, c.kind) {
			t.Errorf("%s: %v", why, err)
		}
		only(t, parent)
	}
	put(t, parent, "file", "")
	if err := Create(ctx, filepath.Join(parent, "file"), "init", files); err == nil {
		t.Error("a file in place of the folder")
	}
	only(t, parent, "file")
}

// only holds what is in a folder, dot-files too.
func only(t testing.TB, dir string, names ...string) {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	var have []string
	for _, e := range entries {
		have = append(have, e.Name())
	}
	if !slices.Equal(have, names) {
		t.Errorf("%s holds %q, want %q", dir, have, names)
	}
}

// TestEveryStepOfCreateFails: an interrupted making leaves nothing or the
// beginning of a ledger that the next opening completes.
func TestEveryStepOfCreateFails(t *testing.T) {
	texts := map[string]string{"settings.csv": okSettings, "foods.csv": "food,basis\n", "maps/x.csv": "x"}
	staging := func() *staged {
		s := &staged{change: Change{Command: "init", Kind: Created, Number: 1}, texts: map[string]*string{}}
		for _, name := range slices.Sorted(maps.Keys(texts)) {
			text := texts[name]
			s.add(name, "", false, &text, diff("", text))
		}
		return s
	}
	for _, dead := range []bool{false, true} {
		for at := 0; ; at++ {
			dir := t.TempDir()
			root, err := openTree(dir)
			if err != nil {
				t.Fatal(err)
			}
			d := &failingDisk{disk: rootDisk{root: root}, at: at, dead: dead}
			err = createIn(context.Background(), root, d, dir, staging())
			root.Close()
			if err == nil {
				if at < 20 {
					t.Errorf("%d steps only", at)
				}
				break
			}
			if !errors.Is(err, ErrSaved) && !dead {
				only(t, dir)
			}
			again := Create(context.Background(), dir, "init", map[string][]byte{"settings.csv": []byte(okSettings)})
			if errors.Is(again, ErrExists) {
				wantFiles(t, d.steps[at], contents(t, dir), texts)
			} else if again != nil {
				t.Errorf("step %s: %v, then %v", d.steps[at], err, again)
			}
			leftovers(t, dir)
		}
	}
}
