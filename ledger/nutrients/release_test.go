package nutrients

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
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

// listed is what left_out.txt lists, by number or by NUMBER:PLACE.
func listed() map[string]bool {
	out := map[string]bool{}
	for line := range strings.Lines(leftOut) {
		if !strings.HasPrefix(line, "#") {
			for _, what := range strings.Fields(line) {
				out[what] = true
			}
		}
	}
	return out
}

// TestFiguresOfRelease holds every figure against the release's own file: of
// each of its foods, but for those left out.
func TestFiguresOfRelease(t *testing.T) {
	rows, err := csv.NewReader(strings.NewReader(releaseFile(t, "usda-sr28-abbrev.csv"))).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	out, there := listed(), 0
	at := map[string]int{}
	for i, name := range rows[0] {
		at[name] = i
	}
	for _, row := range rows[1:] {
		f, ok := Get(row[at["NDB_No"]])
		if out[fmt.Sprintf("%05s", row[at["NDB_No"]])] {
			if ok {
				t.Errorf("%v is not left out", f.NDB)
			}
			continue
		}
		there++
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
	if there != len(table()) {
		t.Errorf("%d foods of the release are to be in the table, which has %d", there, len(table()))
	}
}

// TestMeasuresOfRelease holds every household measure against the release's
// own file: NDB number ^ sequence ^ amount ^ measure ^ grams, text between ~.
func TestMeasuresOfRelease(t *testing.T) {
	seen, place, out := map[string]int{}, map[string]int{}, listed()
	lines := strings.FieldsFunc(releaseFile(t, "usda-sr28-weight.txt"), func(r rune) bool { return r == '\r' || r == '\n' })
	for _, line := range lines {
		cells := strings.Split(strings.ReplaceAll(line, "~", ""), "^")
		place[cells[0]]++
		if out[cells[0]] || out[fmt.Sprintf("%s:%d", cells[0], place[cells[0]])] {
			continue
		}
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
	if len(foods) != 6875 { // SR28's abbreviated file has 8790; 1915 name a maker, a shop or a brand
		t.Errorf("%d foods, want 6875", len(foods))
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

// TestNoMakers: no food of the table and no measure bears a maker's name, which
// the release writes in front, as somebody's, or in the words of a label.
func TestNoMakers(t *testing.T) {
	// What is somebody's and yet a plain food's: yeast, fruit, fungi, dishes, menus.
	plain := []string{"BAKER'S", "BULLOCK'S", "JEW'S", "TSO'S", "KID'S", "KIDS'", "AMERICA'S", "CONFECTIONER'S", "MOTHER'S"}
	for _, f := range table() {
		for word := range strings.FieldsFuncSeq(f.Description, func(r rune) bool { return strings.ContainsRune(" ,-()/&", r) }) {
			if strings.HasSuffix(word, "'S") && !slices.Contains(plain, word) {
				t.Errorf("%s %s", f.NDB, f.Description)
			}
		}
		for _, m := range f.Measures {
			if strings.Contains(m.Words, "'s") || strings.Contains(m.Words, "brand)") || strings.Contains(m.Words, " label ") {
				t.Errorf("%s %s: %s", f.NDB, f.Description, m.Words)
			}
		}
	}
	for ndb := range listed() {
		if f, ok := Get(ndb); ok {
			t.Errorf("%s %s is to be left out", f.NDB, f.Description)
		}
	}
	for _, f := range Find("soup lentil") {
		if !strings.HasPrefix(f.Description, "SOUP,") {
			t.Errorf("a lentil soup is %s", f.Description)
		}
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
