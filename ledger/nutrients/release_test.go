package nutrients

import (
	"encoding/csv"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"putby/pricing/exact"
)

// releaseFile reads a file of the release as published, which lies beside the
// repository; without it there is nothing to compare with.
func releaseFile(t *testing.T, name string) string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("..", "..", "..", "shared", "data", name))
	if errors.Is(err, fs.ErrNotExist) {
		t.Skip("the release's files are not here: ", err)
	}
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// TestFiguresOfRelease holds every figure against the release's own file.
func TestFiguresOfRelease(t *testing.T) {
	rows, err := csv.NewReader(strings.NewReader(releaseFile(t, "usda-sr28-abbrev.csv"))).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if len(rows)-1 != len(table()) {
		t.Errorf("the release has %d foods, the table %d", len(rows)-1, len(table()))
	}
	at := map[string]int{}
	for i, name := range rows[0] {
		at[name] = i
	}
	for _, row := range rows[1:] {
		f, ok := Get(row[at["NDB_No"]])
		if !ok || f.Description != row[at["Shrt_Desc"]] {
			t.Errorf("%s is %q, want %q", row[at["NDB_No"]], f.Description, row[at["Shrt_Desc"]])
		}
		for name, got := range map[string]exact.Opt[exact.Number]{
			"Water_(g)": f.Water, "Energ_Kcal": f.Kcal, "Protein_(g)": f.Protein, "Lipid_Tot_(g)": f.Fat, "Refuse_Pct": f.Refuse,
		} {
			want := row[at[name]]
			n, given := got.Get()
			if given != (want != "") || given && !n.Equal(exact.MustNumber(want)) {
				t.Errorf("%v: %s is %v (%v), want %q", f.Description, name, n, given, want)
			}
		}
	}
}

// TestMeasuresOfRelease holds every household measure against the release's
// own file: NDB number ^ sequence ^ amount ^ measure ^ grams, text between ~.
func TestMeasuresOfRelease(t *testing.T) {
	seen := map[string]int{}
	lines := strings.FieldsFunc(releaseFile(t, "usda-sr28-weight.txt"), func(r rune) bool { return r == '\r' || r == '\n' })
	for _, line := range lines {
		cells := strings.Split(strings.ReplaceAll(line, "~", ""), "^")
		f, _ := Get(cells[0])
		i := seen[f.NDB]
		seen[f.NDB]++
		if i >= len(f.Measures) {
			t.Fatalf("%v: measure %d is missing", f.Description, i+1)
		}
		amount := cells[2]
		if strings.HasPrefix(amount, ".") {
			amount = "0" + amount
		}
		m := f.Measures[i]
		if m.Words != cells[3] || !m.Amount.Equal(exact.MustNumber(amount)) || !m.Grams.Equal(exact.MustNumber(cells[4])) {
			t.Errorf("%v: measure %d is %v, want %s", f.Description, i+1, m, line)
		}
	}
	for _, f := range table() {
		if seen[f.NDB] != len(f.Measures) {
			t.Errorf("%v has %d measures, want %d", f.Description, len(f.Measures), seen[f.NDB])
		}
	}
}

// TestTableIsWhole holds what can be known without the release's files.
func TestTableIsWhole(t *testing.T) {
	foods := table()
	if len(foods) != 8790 { // SR28, abbreviated file
		t.Errorf("%d foods, want 8790", len(foods))
	}
	hundred := exact.Int(100)
	last := ""
	for _, f := range foods {
		if len(f.NDB) != 5 || f.NDB <= last {
			t.Errorf("%v comes after %s", f.Description, last)
		}
		last = f.NDB
		for _, share := range []exact.Opt[exact.Number]{f.Water, f.Protein, f.Refuse} {
			if hundred.Less(share.Or(exact.Number{})) {
				t.Errorf("%v: a share above 100 %%", f.Description)
			}
		}
		for _, m := range f.Measures {
			if m.Amount.Sign() <= 0 || m.Grams.Sign() <= 0 || m.Words == "" {
				t.Errorf("%v: measure %v", f.Description, m)
			}
		}
	}
	if size := len(packed); size > 200_000 {
		t.Errorf("the packed table is %d bytes", size)
	}
}

func TestUnpackRefusesRubbish(t *testing.T) {
	for _, packed := range [][]byte{nil, []byte("not deflated"), packed[:len(packed)/2]} {
		func() {
			defer func() {
				if recover() == nil {
					t.Errorf("%d bytes of rubbish were unpacked", len(packed))
				}
			}()
			mustUnpack(packed)
		}()
	}
}
