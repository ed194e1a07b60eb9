package folder

import (
	"os"
	"path/filepath"
	"reflect"
	"testing"

	"putby/ledger"
)

// What a change did is told by cells, whatever the file is separated by and however
// its cells are quoted: a record that is added, changed, taken out, or has a line
// end in it; a file that is new, and one that gets a column.
func TestRowsOfAChange(t *testing.T) {
	type cells = map[string]string
	food, settings := ledger.MustKind("food"), ledger.SettingsKind()
	for name, c := range map[string]struct {
		foods          string // "": none yet
		edit           func(*Tx) error
		removed, added []cells
	}{
		"added": {"food;basis;name\nleek;mass;\"a;b, c, d\"\n", func(tx *Tx) error {
			return tx.Append(food, cells{"food": "corn", "basis": "count", "name": "x; y, z, 12\" and\nmore"})
		}, nil, []cells{{"food": "corn", "basis": "count", "name": "x; y, z, 12\" and\nmore"}}},
		"changed": {"\"food\";\"basis\";\"name\"\r\n\"leek\";\"mass\";\"1, 2, 3\"\r\n\"corn\";\"count\";\"Corn\"\r\n", func(tx *Tx) error {
			return tx.Replace(food, 2, cells{"name": "4, 5"})
		}, []cells{{"food": "leek", "basis": "mass", "name": "1, 2, 3"}}, []cells{{"food": "leek", "basis": "mass", "name": "4, 5"}}},
		"taken out": {mark + "food,basis\nleek,mass\ncorn,count", func(tx *Tx) error {
			return tx.Strike(food, 3)
		}, []cells{{"food": "corn", "basis": "count"}}, []cells{}},
		"new": {"", func(tx *Tx) error {
			return tx.Append(food, cells{"food": "corn", "basis": "count"})
		}, nil, []cells{{"food": "corn", "basis": "count"}}},
		"a column more": {mark + "food;basis\nleek;mass\n", func(tx *Tx) error {
			return tx.Replace(food, 2, cells{"name": "Leeks"})
		}, []cells{{"food": "leek", "basis": "mass"}}, []cells{{"food": "leek", "basis": "mass", "name": "Leeks"}}},
	} {
		t.Run(name, func(t *testing.T) {
			dir := t.TempDir()
			files := map[string]string{settings.File: "setting;value\nformat;1\ncurrency;EUR\nzone;UTC\n", food.File: c.foods}
			for file, text := range files {
				if text == "" {
					continue
				}
				if err := os.WriteFile(filepath.Join(dir, file), []byte(text), 0o600); err != nil {
					t.Fatal(err)
				}
			}
			b, err := Opening{}.Open(t.Context(), dir)
			if err != nil {
				t.Fatal(err)
			}
			defer b.Close()
			change, err := b.Edit("test", c.edit)
			if err != nil {
				t.Fatal(err)
			}
			removed, added, ok := change.Files[0].Rows()
			if !ok || !same(removed, c.removed) || !same(added, c.added) {
				t.Errorf("%v: out %q, in %q; want %q, %q", ok, removed, added, c.removed, c.added)
			}
			back, err := b.UndoOf(change.Number)
			if err != nil {
				t.Fatal(err)
			}
			added, removed, ok = back.Files[0].Rows()
			if !ok || !same(removed, c.removed) || !same(added, c.added) {
				t.Errorf("undone: %v: back %q, gone %q; want %q, %q", ok, removed, added, c.removed, c.added)
			}
		})
	}
}

// same reports whether records hold the same; blank cells count for nothing.
func same(got, want []map[string]string) bool {
	for _, list := range [][]map[string]string{got, want} {
		for _, cells := range list {
			for column, text := range cells {
				if text == "" {
					delete(cells, column)
				}
			}
		}
	}
	return len(got) == 0 && len(want) == 0 || reflect.DeepEqual(got, want)
}
