package folder

import (
	"errors"
	"path/filepath"
	"strings"
	"testing"
)

// A log or a file of prices is called after an identifier, and ledgers are carried
// from one system to another.
func TestNamesForEverySystem(t *testing.T) {
	refused := func(tx *Tx, name, says string) {
		t.Helper()
		err := tx.WriteFile(name, []byte("time,watts\n2025-01-01T00:00Z,1\n"))
		if !errors.Is(err, ErrFailed) || !strings.Contains(err.Error(), says) || !strings.Contains(err.Error(), "nothing was saved") {
			t.Errorf("%s: %v, want %q", name, err, says)
		}
	}
	dir := household(t)
	b := openBook(t, dir)
	defer b.Close()
	log := []byte("time,watts\n2025-01-01T00:00Z,1\n")
	before := contents(t, dir)
	if _, err := b.Edit("run meter", func(tx *Tx) error {
		for _, name := range []string{"CON", "nul", "Aux", "prn", "COM1", "com9", "lpt0", "nul.2", "con.old.x"} {
			device, _, _ := strings.Cut(strings.ToUpper(name), ".")
			refused(tx, "meter/"+name+".csv", "called "+device)
			refused(tx, "rates/"+name+".csv", "called "+device)
			if err := tx.RemoveFile("meter/" + name + ".csv"); err != nil {
				t.Errorf("taking away %s, which is not there: %v", name, err)
			}
		}
		return errors.New("enough")
	}); err == nil || err.Error() != "enough" {
		t.Fatal(err)
	}
	for name, text := range contents(t, dir) {
		if before[name] != text && filepath.Base(name) != "lock" {
			t.Errorf("%s is changed", name)
		}
	}
	for _, name := range []string{"COM10", "COM", "CONS", "xnul", "nul-1", "lpt", "1.nul", "comlpt1", "C1"} {
		if device, _, _ := strings.Cut(strings.ToUpper(name), "."); isDevice(device) {
			t.Errorf("%s is no device", name)
		}
	}
	if _, err := b.Edit("run meter", func(tx *Tx) error { return tx.WriteFile("meter/R1.csv", log) }); err != nil {
		t.Fatal(err)
	}
	if _, err := b.Edit("run meter", func(tx *Tx) error {
		refused(tx, "meter/r1.csv", "beside meter/R1.csv")
		if err := tx.WriteFile("meter/R1.csv", log); err != nil {
			t.Errorf("the same file again: %v", err)
		}
		if err := tx.RemoveFile("meter/R1.csv"); err != nil {
			t.Error(err)
		}
		if err := tx.WriteFile("meter/r1.csv", log); err != nil {
			t.Errorf("after the other one is taken away: %v", err)
		}
		return errors.New("enough")
	}); err == nil || err.Error() != "enough" {
		t.Fatal(err)
	}
}
