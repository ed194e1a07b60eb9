package folder

import (
	"fmt"
	"strings"
	"testing"

	"putby/ledger"
)

// What a change adds that is very long is saved as it was made, and undo gives the
// very bytes back.
func TestLongAddition(t *testing.T) {
	dir := household(t)
	before := contents(t, dir)
	b := openBook(t, dir)
	b.check = nil
	note := strings.Repeat("ö, \"quoted\" and\nlong ", 2000)
	add := func(tx *Tx) error {
		for i := range 250 {
			if err := addDraw(t, "P1", fmt.Sprint(i, note))(tx); err != nil {
				return err
			}
		}
		return nil
	}
	s, err := b.stage("add draws", add)
	if err != nil {
		t.Fatal(err)
	}
	want := *s.texts["draws.csv"]
	// A fault is told at its place in the text.
	b.check = func(rec *ledger.Records) ledger.Faults {
		return ledger.Faults{{File: "draws.csv", Line: rec.Draws.At(rec.Draws.Len() - 1).Line, Field: "note", What: "wrong"}}
	}
	_, err = b.Edit("add draws", add)
	if r, ok := err.(*Refusal); !ok || r.Faults[0].Column < 2 {
		t.Errorf("the refusal is %v", err)
	}
	b.check = nil
	if _, err := b.Edit("add draws", add); err != nil {
		t.Fatal(err)
	}
	if have := contents(t, dir)["draws.csv"]; have != want {
		t.Error("something else was saved")
	}
	if _, err := b.Undo(); err != nil {
		t.Fatal(err)
	}
	if have := contents(t, dir); have["draws.csv"] != before["draws.csv"] {
		t.Error("undo does not give the file back")
	}
}
