package entry

import (
	"errors"
	"strings"
	"testing"
	"time"

	"putby/ledger"
	"putby/ledger/folder"
	"putby/ledger/report"
)

// spring is a moment of the ledgers of these tests.
var spring = time.Date(2026, 4, 1, 12, 0, 0, 0, time.UTC)

func TestDraft(t *testing.T) {
	dir := t.TempDir()
	files := map[string][]byte{
		"settings.csv": []byte("setting,value\nformat,1\ncurrency,EUR\nzone,Europe/Berlin\n"),
		"foods.csv":    []byte("food,name,basis\nleeks,Leeks,mass\nplums,Plums,mass\n"),
	}
	if err := folder.Create(t.Context(), dir, "test", files); err != nil {
		t.Fatal(err)
	}
	var check Check
	book, err := folder.Opening{Check: check.Faults}.Open(t.Context(), dir)
	if err != nil {
		t.Fatal(err)
	}
	defer book.Close()

	rec, _ := book.Records()
	base := NewBase(rec, At(rec, spring))
	price := Row{Kind: ledger.MustKind("price"), Cells: map[string]string{"date": "2026-03-01", "shop": "Quay", "item": "plums", "size": "1 kg", "price": "2.00"}}
	set := Set{Kind: ledger.MustKind("food"), ID: "plums", Cells: map[string]string{"name": "Damsons"}}
	d := &Draft{Rows: []Row{price}, Sets: []Set{set}, Odd: []string{"it is early for plums"},
		Advise: func(g *ledger.Ledger) []report.Remark { return report.Remarks(g.Foods[1].Name + " by name.") }}

	v, err := d.Vet(base)
	if err != nil || len(v.Odd) != 1 || v.Odd[0] != "Look again: it is early for plums." {
		t.Errorf("Vet = %v, %v; want what is odd of the draft", v, err)
	}
	if _, err := book.Edit("test", d.Change); err != nil {
		t.Fatal(err)
	}
	if said := strings.Join(d.Lines(check.Joined), "\n"); !strings.Contains(said, "Damsons") || !strings.HasSuffix(said, "\nDamsons by name.") {
		t.Errorf("said %q; want both records by the new name, then the advice", said)
	}
	rec, _ = book.Records()
	if rec.Foods[1].Name != "Damsons" || rec.Foods[0].Name != "Leeks" || len(rec.Shelf) != 1 {
		t.Errorf("foods %v, shelf %v; want plums renamed alone, and one price", rec.Foods, rec.Shelf)
	}

	gone := &Draft{Sets: []Set{{Kind: set.Kind, ID: "pears", Cells: set.Cells}}}
	if _, err := book.Edit("test", gone.Change); err == nil || !strings.Contains(err.Error(), "no food pears any more") {
		t.Errorf("a record that is gone: %v", err)
	}
}

// A day that is still to come is refused in cells that are changed as well.
func TestDraftAhead(t *testing.T) {
	rec := &ledger.Records{}
	rec.Settings.Zone = time.UTC
	at := At(rec, spring)
	d := &Draft{Sets: []Set{{Kind: ledger.MustKind("run"), ID: "c1", Cells: map[string]string{"end": at.Clock.AddDays(2).String() + " 10:00"}}}}
	if _, err := d.Vet(NewBase(rec, at)); !errors.Is(err, ErrAhead) {
		t.Errorf("Vet = %v; want a date ahead refused", err)
	}
}
