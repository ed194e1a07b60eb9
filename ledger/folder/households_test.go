package folder

import (
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"putby/ledger"
)

// mkfiles makes a folder with files by these names, each the settings of a ledger.
func mkfiles(t *testing.T, names ...string) (dir string) {
	t.Helper()
	dir = t.TempDir()
	for _, name := range names {
		path := filepath.Join(dir, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte("setting,value\ncurrency,EUR\nzone,UTC\n"), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

// told is what is found of each household: its name, and why it is left out.
func told(list []Household) (lines []string) {
	for _, h := range list {
		line := h.Name
		if h.Err != nil {
			line += ": " + h.Err.Error()
		}
		lines = append(lines, line)
	}
	return lines
}

// Households come by name, whatever else lies beside them: what may be taken for one
// and is none is named with why, and files and hidden folders are passed over.
func TestHouseholds(t *testing.T) {
	dir := mkfiles(t, "cara/settings.csv", "anna/settings.csv", "anna/meter/r1.csv", "anna/old/2024/settings.csv", "anna/.putby/settings.csv",
		"notes.txt", ".trash/x/settings.csv", "photos/a.csv", "Bela/settings.csv", "bela/settings.csv", "dora/settings.csv")
	for name, to := range map[string]string{"ella": "cara", "gone": "nowhere", "readme": "notes.txt"} {
		if err := os.Symlink(filepath.Join(dir, to), filepath.Join(dir, name)); err != nil {
			t.Skip("no links here:", err)
		}
	}
	list, err := Households(dir)
	if err != nil {
		t.Fatal(err)
	}
	want := []string{
		`Bela: "bela" is the same name but for capitals`,
		"anna", `anna/old/2024: it is a ledger inside that of "anna"`,
		`bela: "Bela" is the same name but for capitals`,
		"cara", "dora", "ella: it is a link", "gone: it is a link",
		"photos: it is not a ledger: it has no settings.csv",
	}
	if got := told(list); strings.Join(got, "\n") != strings.Join(want, "\n") {
		t.Errorf("found\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
	for _, h := range list {
		if fault, ok := h.Err.(*ledger.Fault); h.Err != nil && (!ok || fault.Hint == "" || fault.Kind != ErrNotLedger || fault.Choice != ledger.NoChoice) {
			t.Errorf("of %s it says %+v", h.Name, h.Err)
		}
	}
}

// A folder counts once, by whatever names it is there.
func TestHouseholdsOnceEach(t *testing.T) {
	dir := mkfiles(t, "anna/settings.csv", "bela/settings.csv")
	anna := filepath.Join(dir, "anna")
	list := []Household{{Name: "anna", Dir: anna}, {Name: "bela", Dir: filepath.Join(dir, "bela")}, {Name: "cara", Dir: filepath.Join(dir, "bela", "..", "anna")}}
	onceEach(list)
	if list[0].Err != nil || list[1].Err != nil || list[2].Err == nil || !strings.HasSuffix(list[2].Err.Error(), `it is the same folder as "anna"`) {
		t.Errorf("found %q", told(list))
	}
}

// What is no folder of ledgers is an error that says what to give instead.
func TestHouseholdsRefuses(t *testing.T) {
	dir := mkfiles(t, "one/settings.csv", "file", "empty/.hidden")
	for name, want := range map[string]string{
		"one": "is a ledger itself", "file": "cannot be read", "missing": "cannot be read", "empty": "has no folders in it",
	} {
		_, err := Households(filepath.Join(dir, name))
		if fault, ok := err.(*ledger.Fault); !ok || fault.Kind != ErrNotLedger || fault.Hint == "" && fault.Choice != ledger.ThisLedger || !strings.Contains(err.Error(), want) {
			t.Errorf("of %s it says %v, want %q with a hint", name, err, want)
		}
	}
}

// A folder that nobody may enter is left out as one that cannot be opened.
func TestHouseholdsUnreadable(t *testing.T) {
	if os.Getuid() == 0 || runtime.GOOS == "windows" {
		t.Skip("the superuser may enter any folder")
	}
	dir := mkfiles(t, "anna/settings.csv", "bela/settings.csv")
	if err := os.Chmod(filepath.Join(dir, "bela"), 0); err != nil {
		t.Fatal(err)
	}
	defer os.Chmod(filepath.Join(dir, "bela"), 0o700)
	list, err := Households(dir)
	if err != nil || len(list) != 2 || list[0].Err != nil || list[1].Err == nil {
		t.Errorf("found %q, %v", told(list), err)
	}
}
