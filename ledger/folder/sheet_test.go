package folder

import (
	"encoding/json"
	"maps"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"putby/ledger"
)

var foodHeader = []string{"food", "name", "basis"}

// forms are texts of foods.csv as hands and spreadsheets leave them.
var forms = map[string]string{
	"plain":             "food,basis,name\nleek,mass,Leeks\ncorn,count,Corn\n",
	"mark, CR LF":       mark + "food,basis,name\r\nleek,mass,Leeks\r\ncorn,count,Corn\r\n",
	"semicolons":        "food;basis;name\nleek;mass;\"a;b\"\n",
	"all quoted":        "\"food\",\"basis\"\r\n\"leek\",\"mass\"\r\n",
	"needless quotes":   "food,\"basis\",name\n\"leek\",mass,\"Leeks\"\n",
	"many lines":        "food,basis,name\nleek,mass,\"two\nlines \"\"quoted\"\"\"\ncorn,count,\"x\r\ny\"\n",
	"unknown columns":   "shelf,food,,basis\nleft,leek,x,mass\n",
	"spaces":            " food , basis\n leek,  mass \n\tcorn ,count\n",
	"no final line end": "food,basis\nleek,mass",
	"final CR":          "food,basis\r\nleek,mass\r",
	"blanks":            "\n\r\n,,\nfood,basis\n\n , \nleek,mass\n\n\n",
	"wrong counts":      "food,basis\nleek\ncorn,count,1,2\n",
	"nothing":           "",
	"mark alone":        mark,
	"blank lines":       "\r\n\n",
}

// TestSheetUntouched: what is not edited is the same to the byte.
func TestSheetUntouched(t *testing.T) {
	for name, text := range forms {
		s, err := openSheet("foods.csv", text, foodHeader)
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		if len(s.rows) == 0 {
			s.added.Reset()
		}
		if s.String() != text || len(s.hunks()) > 0 {
			t.Errorf("%s: %q, want %q", name, s.String(), text)
		}
	}
}

// Many rows at once are written as one by one, and their lines are those that
// they begin at; a column that only later rows need is added behind the others.
func TestSheetAppendRows(t *testing.T) {
	columns := []string{"basis", "food", "name", "caution"}
	rows := [][]string{{"mass", "fig", `12" tray; a,b`, ""}, {"count", "egg", "two\nlines", ""}, {"mass", "plum", "", "=wet"}, {"mass", "", "", ""}}
	for name, text := range forms {
		one, err := openSheet("foods.csv", text, append(foodHeader, "caution"))
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		all, _ := openSheet("foods.csv", text, append(foodHeader, "caution"))
		var want []int
		for _, row := range rows {
			cells := map[string]string{}
			for i, c := range columns {
				cells[c] = row[i]
			}
			want = append(want, one.next)
			if err := one.append(cells); err != nil {
				t.Fatalf("%s: %v", name, err)
			}
		}
		var began []int
		if err := all.appendRows(columns, slices.Values(rows), func(line int) { began = append(began, line) }); err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		if one.String() != all.String() || one.count != all.count || !slices.Equal(began, want) {
			t.Errorf("%s: %q at %v, want %q at %v", name, all.String(), began, one.String(), want)
		}
	}
	s, _ := openSheet("foods.csv", forms["plain"], foodHeader)
	if err := s.appendRows([]string{"food", "colour"}, slices.Values([][]string{{"fig", ""}, {"plum", "blue"}}), nil); err == nil {
		t.Error("a column that no records have was filled")
	}
}

func TestSheetAppend(t *testing.T) {
	cells := map[string]string{"food": "fig", "basis": "mass", "name": `12" tray; a,b`}
	for name, want := range map[string]string{
		"plain":             "fig,mass,\"12\"\" tray; a,b\"\n",
		"mark, CR LF":       "fig,mass,\"12\"\" tray; a,b\"\r\n",
		"semicolons":        "fig;mass;\"12\"\" tray; a,b\"\n",
		"no final line end": "", // below: it lacks the column
		"blanks":            "",
		"nothing":           "food,name,basis\nfig,\"12\"\" tray; a,b\",mass\n",
		"mark alone":        "food,name,basis\nfig,\"12\"\" tray; a,b\",mass\n",
		"blank lines":       "food,name,basis\nfig,\"12\"\" tray; a,b\",mass\n",
	} {
		if want == "" {
			continue
		}
		s, _ := openSheet("foods.csv", forms[name], foodHeader)
		if err := s.append(cells); err != nil {
			t.Fatal(name, err)
		}
		if got := s.String(); got != forms[name]+want {
			t.Errorf("%s: %q", name, got)
		}
	}
}

func TestSheetEdits(t *testing.T) {
	type edit func(*sheet) error
	set := func(line int, pairs ...string) edit {
		return func(s *sheet) error {
			i, err := s.find(line)
			if err != nil {
				return err
			}
			return s.set(i, cellsOf(pairs))
		}
	}
	strike := func(line int) edit {
		return func(s *sheet) error {
			i, err := s.find(line)
			if err == nil {
				s.strike(i)
			}
			return err
		}
	}
	add := func(pairs ...string) edit {
		return func(s *sheet) error { return s.append(cellsOf(pairs)) }
	}
	for _, c := range []struct {
		why, text string
		edits     []edit
		want      string
	}{
		{"one cell", forms["plain"], []edit{set(2, "name", "x,y")}, "food,basis,name\nleek,mass,\"x,y\"\ncorn,count,Corn\n"},
		{"the same cell", forms["needless quotes"], []edit{set(2, "name", "Leeks", "food", "leek")}, forms["needless quotes"]},
		{"quotes stay", forms["needless quotes"], []edit{set(2, "name", "Lauch")}, "food,\"basis\",name\n\"leek\",mass,\"Lauch\"\n"},
		{"the rest of a row stays", forms["spaces"], []edit{set(2, "basis", "count")}, " food , basis\n leek,count\n\tcorn ,count\n"},
		{"unknown columns stay", forms["unknown columns"], []edit{set(2, "food", "fig")}, "shelf,food,,basis\nleft,fig,x,mass\n"},
		{"unknown columns are set", forms["unknown columns"], []edit{set(2, "shelf", "right"), add("food", "fig", "shelf", "top", "basis", "mass")},
			"shelf,food,,basis\nright,leek,x,mass\ntop,fig,,mass\n"},
		{"many lines", forms["many lines"], []edit{set(4, "name", "a\nb"), set(2, "basis", "count")},
			"food,basis,name\nleek,count,\"two\nlines \"\"quoted\"\"\"\ncorn,count,\"a\nb\"\n"},
		{"CR LF in a cell", forms["mark, CR LF"], []edit{set(3, "name", "a\nb")}, mark + "food,basis,name\r\nleek,mass,Leeks\r\ncorn,count,\"a\r\nb\"\r\n"},
		{"all quoted", forms["all quoted"], []edit{add("food", "fig", "basis", "mass"), set(2, "basis", "count")},
			"\"food\",\"basis\"\r\n\"leek\",\"count\"\r\n\"fig\",\"mass\"\r\n"},
		{"strike", forms["plain"], []edit{strike(2)}, "food,basis,name\ncorn,count,Corn\n"},
		{"strike both, add", forms["plain"], []edit{strike(2), strike(3), add("food", "fig", "basis", "mass")}, "food,basis,name\nfig,mass,\n"},
		{"strike the last without a line end, add", forms["no final line end"], []edit{strike(2), add("food", "fig", "basis", "mass")}, "food,basis\nfig,mass\n"},
		{"add behind no line end", forms["no final line end"], []edit{add("food", "fig", "basis", "mass")}, "food,basis\nleek,mass\nfig,mass\n"},
		{"amend and add", forms["no final line end"], []edit{set(2, "basis", "count"), add("food", "fig", "basis", "mass")}, "food,basis\nleek,count\nfig,mass\n"},
		{"add behind blanks", forms["blanks"], []edit{add("food", "fig", "basis", "mass")}, forms["blanks"] + "fig,mass\n"},
		{"a new column", forms["no final line end"], []edit{set(2, "water", "83"), add("food", "fig", "basis", "mass", "name", "Figs")},
			"food,basis,water,name\nleek,mass,83,\nfig,mass,,Figs\n"},
		{"a new column after a new row", forms["semicolons"], []edit{add("food", "fig", "basis", "mass"), add("food", "plum", "basis", "mass", "kcal", "46")},
			"food;basis;name;kcal\nleek;mass;\"a;b\";\nfig;mass;;\nplum;mass;;46\n"},
		{"blank cells need no column", forms["all quoted"], []edit{add("food", "fig", "basis", "mass", "water", "")},
			"\"food\",\"basis\"\r\n\"leek\",\"mass\"\r\n\"fig\",\"mass\"\r\n"},
		{"a row too short", forms["wrong counts"], []edit{set(2, "basis", "mass")}, "food,basis\nleek,mass\ncorn,count,1,2\n"},
		{"spaces are kept by quotes", forms["plain"], []edit{set(2, "name", " x ")}, "food,basis,name\nleek,mass,\" x \"\ncorn,count,Corn\n"},
	} {
		s, err := openSheet("foods.csv", c.text, foodHeader)
		if err != nil {
			t.Fatal(c.why, err)
		}
		for _, e := range c.edits {
			if err := e(s); err != nil {
				t.Errorf("%s: %v", c.why, err)
			}
		}
		if got := s.String(); got != c.want {
			t.Errorf("%s:\n%q, want\n%q", c.why, got, c.want)
		}
	}
}

func cellsOf(pairs []string) map[string]string {
	cells := map[string]string{}
	for i := 0; i < len(pairs); i += 2 {
		cells[pairs[i]] = pairs[i+1]
	}
	return cells
}

func TestSheetRefuses(t *testing.T) {
	s, err := openSheet("foods.csv", forms["plain"], foodHeader)
	if err != nil {
		t.Fatal(err)
	}
	for _, line := range []int{0, 1, 4, -1} {
		if _, err := s.find(line); err == nil {
			t.Errorf("line %d is a record", line)
		}
	}
	if err := s.append(map[string]string{"food": "x", "colour": "red"}); err == nil || err.Error() != `foods.csv has no column "colour"` {
		t.Errorf("an unknown column: %v", err)
	}
	s.strike(1)
	if err := s.set(1, map[string]string{"name": "x"}); err == nil {
		t.Errorf("a struck record is amended")
	}
	for _, text := range []string{"food,basis\nleek,\"mass\n", "food,ba\"sis\n", "food\nle\"ek\n", "\xff\xfe"} {
		if _, err := openSheet("foods.csv", text, foodHeader); err == nil {
			t.Errorf("%q is opened for edits", text)
		}
	}
}

// TestSheetModel edits random sheets at random, and holds the outcome to the
// same edits of a list of records; hunks taken back give the old text.
func TestSheetModel(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cell := rapid.StringOfN(rapid.SampledFrom([]rune("ab ,;\"\n'é\t")), 0, 6, -1)
		sep := rapid.SampledFrom([]string{",", ";"}).Draw(t, "separator")
		eol := rapid.SampledFrom([]string{"\n", "\r\n"}).Draw(t, "line end")
		text := rapid.SampledFrom([]string{"", mark}).Draw(t, "mark") + "food" + sep + "x" + sep + "basis" + eol
		width := 3
		var want [][]string
		for range rapid.IntRange(0, 5).Draw(t, "rows") {
			text += rapid.SampledFrom([]string{"", eol, sep + eol}).Draw(t, "blank")
			row := []string{"f", "", ""}
			raw := []string{"f", "", ""}
			for i := 1; i < width; i++ {
				row[i] = cell.Draw(t, "cell")
				raw[i] = `"` + strings.ReplaceAll(row[i], `"`, `""`) + `"`
				if !strings.ContainsAny(row[i], "\",;\n") && rapid.Bool().Draw(t, "plain") {
					raw[i] = row[i]
				}
			}
			for i := range row {
				row[i] = ledger.UnescapeFormula(row[i])
			}
			want = append(want, row)
			text += strings.Join(raw, sep) + eol
		}
		if rapid.Bool().Draw(t, "open end") {
			text = strings.TrimSuffix(text, eol)
		}
		s, err := openSheet("foods.csv", text, foodHeader)
		if err != nil {
			t.Fatal(err)
		}
		if len(s.rows) != len(want)+1 {
			t.Fatalf("%q has %d rows", text, len(s.rows)-1)
		}
		struck := map[int]bool{}
		for range rapid.IntRange(0, 6).Draw(t, "edits") {
			switch what := rapid.IntRange(0, 2).Draw(t, "what"); {
			case what == 0:
				row := []string{"n", cell.Draw(t, "new"), cell.Draw(t, "new")}
				if err := s.append(map[string]string{"food": row[0], "x": row[1], "basis": row[2]}); err != nil {
					t.Fatal(err)
				}
				want = append(want, row)
			case len(s.rows) > 1:
				i := rapid.IntRange(1, len(s.rows)-1).Draw(t, "row")
				if what == 1 {
					s.strike(i)
					struck[i-1] = true
				} else if !struck[i-1] {
					want[i-1][1] = cell.Draw(t, "amended")
					if err := s.set(i, map[string]string{"x": want[i-1][1]}); err != nil {
						t.Fatal(err)
					}
				}
			}
		}
		var left [][]string
		for i, row := range want {
			if !struck[i] {
				left = append(left, row)
			}
		}
		got := s.String()
		records, _, flaws := scanAll(strings.TrimPrefix(got, mark), sep[0])
		records = slices.DeleteFunc(records, func(r []string) bool { return strings.TrimSpace(strings.Join(r, "")) == "" })
		for _, r := range records {
			for i := range r {
				r[i] = ledger.UnescapeFormula(r[i])
			}
		}
		if flaws > 0 || !slices.EqualFunc(records[1:], left, slices.Equal) {
			t.Fatalf("%q became %q: %q, want %q", text, got, records[1:], left)
		}
		if back, ok := apply(got, reverse(s.hunks())); !ok || back != text {
			t.Fatalf("%q taken back is %q, was %q", got, back, text)
		}
	})
}

// FuzzSheet: a sheet of any text that is not edited gives the text, a row that
// is struck leaves all others, and hunks can be taken back.
func FuzzSheet(f *testing.F) {
	for _, name := range slices.Sorted(maps.Keys(forms)) {
		f.Add(forms[name], 1)
	}
	f.Fuzz(func(t *testing.T, text string, which int) {
		s, err := openSheet("foods.csv", text, foodHeader)
		if err != nil {
			return
		}
		fresh := len(s.rows) == 0
		if !fresh && s.String() != text {
			t.Fatalf("%q became %q", text, s.String())
		}
		if n := len(s.rows); n > 1 {
			i := 1 + int(uint(which)%uint(n-1))
			s.strike(i)
			if r := s.rows[i]; s.String() != text[:r.start]+text[r.end:] {
				t.Fatalf("%q without row %d is %q", text, i, s.String())
			}
		}
		if err := s.append(map[string]string{"food": "new", "basis": "mass"}); err != nil && !fresh {
			return // a header with another use of the names
		}
		next := s.String()
		if back, ok := apply(next, reverse(s.hunks())); !ok || back != text {
			t.Fatalf("%q taken back is %q, was %q", next, back, text)
		}
		again, err := openSheet("foods.csv", next, foodHeader)
		if err != nil {
			t.Fatalf("%q became %q, which cannot be read: %v", text, next, err)
		}
		last := again.cells(len(again.rows) - 1)
		if last["food"] != "new" || last["basis"] != "mass" {
			t.Fatalf("%q became %q, whose last row is %q", text, next, last)
		}
	})
}

// FuzzHunks: what turns one text into another turns it back, and survives JSON.
func FuzzHunks(f *testing.F) {
	f.Add("a\nb\nc\n", "a\nx\nc\n")
	f.Add("a\nb", "a\nb\nc\n")
	f.Add("", "\xff\n")
	f.Add("a\na\na\n", "a\na\n")
	f.Fuzz(func(t *testing.T, before, after string) {
		hunks := diff(before, after)
		data, err := json.Marshal(hunks)
		if err != nil {
			t.Fatal(err)
		}
		hunks = nil
		if err := json.Unmarshal(data, &hunks); err != nil {
			t.Fatal(err)
		}
		if got, ok := apply(before, hunks); !ok || got != after {
			t.Fatalf("%q with %s is %q, want %q", before, data, got, after)
		}
		if got, ok := apply(after, reverse(hunks)); !ok || got != before {
			t.Fatalf("%q taken back by %s is %q, want %q", after, data, got, before)
		}
	})
}

func TestMerge(t *testing.T) {
	for _, c := range []struct {
		why, text, removed, added, want string
		ok                              bool
	}{
		{"one place", "a\nb\nc\n", "b\n", "", "a\nc\n", true},
		{"moved", "x\nc\nb\na\n", "b\n", "B\n", "x\nc\nB\na\n", true},
		{"gone", "a\nc\n", "b\n", "", "", false},
		{"twice", "b\na\nb\n", "b\n", "", "", false},
		{"a part of a line", "ab\nbc\n", "b\n", "", "", false},
		{"at the end without a line end", "a\nb", "b\n", "", "a\n", true},
		{"behind one that had no line end", "a\nb\nc\n", "\nb\n", "", "a\nc\n", true},
		{"one that had no line end", "a\nb\nc\n", "b", "B", "a\nB\nc\n", true},
		{"other line ends", "a\r\nb\r\nc\r\nd\r\n", "b\nc\n", "B\n", "a\r\nB\r\nd\r\n", true},
		{"nothing to find", "a\n", "", "b\n", "", false},
	} {
		hunks, ok := merge(c.text, []Hunk{{Removed: Text(c.removed), Added: Text(c.added)}})
		got, _ := apply(c.text, hunks)
		if ok != c.ok || ok && got != c.want {
			t.Errorf("%s: %q %v, want %q", c.why, got, ok, c.want)
		}
	}
}
