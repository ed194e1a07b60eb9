package serve

import (
	"crypto/sha256"
	"fmt"
	"io"
	"net"
	"net/http/httptest"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"putby/ledger"
	"putby/ledger/folder"
)

// aboutFew are forms that are judged by the records that they are about alone, taken
// and refused.
var aboutFew = [][]string{
	{"/price", "item", "carrots", "shop", "marrowby foods", "size", "2 kg", "price", "2.85", "date", "2025-11-16"},
	{"/price", "item", "Carrots", "shop", "Fennel & Daughters", "size", "2 kg", "price", "285", "date", "2025-11-16"},
	{"/price", "item", "turnips", "shop", "Marrowby Foods", "size", "2 kg", "price", "2.85", "date", "2025-11-16"},
	{"/take", "things", "chives", "date", "2025-11-16", "note", "on bread"},
	{"/take", "food", "strawberries", "quantity", "2", "date", "2025-11-16"},
	{"/take", "food", "strawberries", "quantity", "900", "date", "2025-11-16"},
	{"/receipt", "said", "2 x 454 g strawberries 3.99\nsoap 1.00", "shop", "muddleby foods", "date", "2025-11-16", "total", "8.98"},
	{"/receipt", "said", "soap 1.00\n2 x 454 g strawberries 3.99", "shop", "Muddleby Foods", "date", "2025-11-16"},
	{"/receipt", "said", "6 bag-1l 2.40", "shop", "Corner Shop", "date", "2025-11-02", "receipt", "oh-250704"},
	{"/freeze", "things", "0.2 kg strawberries", "date", "2025-11-16"},
}

// TestFormsByExcerpt: what a form comes to, in words and to the last byte of the files,
// is the same by the records that it is about as by all, whether they are picked out of
// those that the server keeps or out of the files.
func TestFormsByExcerpt(t *testing.T) {
	kept, files, all := someVisitor(t), someVisitor(t), someVisitor(t)
	files.judged, all.judged = nil, nil
	first := []string{"/take", "things", "0.1 kg onions", "date", "2025-11-15"}
	for _, form := range append([][]string{first}, aboutFew...) {
		if err := os.RemoveAll(soundOf(all)); err != nil {
			t.Fatal(err)
		}
		want := <-all.sends(form[0], form[1:]...)
		where := func(to string) string { return strings.TrimPrefix(to, "303") }
		said := all.get(where(want))
		for what, few := range map[string]visitor{"kept records": kept, "files": files} {
			got := <-few.sends(form[0], form[1:]...)
			if got[:8] != want[:8] {
				t.Errorf("%q leads by %s to %s, and by all records to %s", form, what, got, want)
				continue
			}
			if got := few.get(where(got)); got != said {
				t.Errorf("%q says by %s otherwise than by all records:\n%s", form, what, firstDifference(got, said))
			}
			for name, text := range content(t, all.Dir) {
				name, _ := filepath.Rel(all.Dir, name)
				if got := content(t, few.Dir)[filepath.Join(few.Dir, name)]; got != text && !strings.HasPrefix(name, ".putby") {
					t.Errorf("%q writes by %s otherwise than by all records: %s", form, what, name)
				}
			}
		}
	}
}

// TestFormsReadFew: forms look at no run that they are not about, whose record is
// spoiled behind the note that it is sound.
func TestFormsReadFew(t *testing.T) {
	for _, form := range aboutFew[:7] {
		v := someVisitor(t)
		if to := <-v.sends("/take", "things", "chives", "date", "2025-11-16"); !strings.HasPrefix(to, "303/saved/") {
			t.Fatal(to)
		}
		path := filepath.Join(v.Dir, "phases.csv")
		was, _ := os.ReadFile(path)
		now := []byte(strings.Replace(string(was), "c44,1,freezing,", "c44,1,freezing,soon", 1))
		note, _ := os.ReadFile(soundOf(v))
		noted := []byte(strings.Replace(string(note), fmt.Sprintf("%x", sha256.Sum256(was)), fmt.Sprintf("%x", sha256.Sum256(now)), 1))
		if string(noted) == string(note) {
			t.Fatalf("phases.csv is not noted as sound:\n%s", note)
		}
		for name, text := range map[string][]byte{path: now, soundOf(v): noted} {
			if err := os.WriteFile(name, text, 0o600); err != nil {
				t.Fatal(err)
			}
		}
		refused := slices.Contains(form, "turnips") || slices.Contains(form, "900")
		if to := <-v.sends(form[0], form[1:]...); strings.HasPrefix(to, "303/saved/") == refused {
			t.Errorf("%q leads to %s", form, to)
		}
	}
}

// TestServedIsSound: a form is judged by the records that it is about as soon as the
// server has joined the ledger as it is and found no fault, and not before.
func TestServedIsSound(t *testing.T) {
	ann, _, _ := threeVisitors(t)
	known := func() bool {
		t.Helper()
		b, err := folder.Opening{Cache: ann.judged}.Look(ann.Dir)
		if err != nil {
			t.Fatal(err)
		}
		defer b.Close()
		return b.Excerpt(func(*ledger.Records) (folder.Scope, bool) { return folder.Scope{}, true }) != nil
	}
	for _, step := range []struct {
		what  string
		do    func()
		sound bool
	}{
		{"nothing", func() {}, false},
		{"it is shown", func() { ann.get("/take") }, true},
		{"an edit by hand", func() { ann.byHand(ledger.ShelfFile, "2025-11-15,Fennel & Daughters,carrots,2 kg,2.95,,,,") }, false},
		{"it is shown again", func() { ann.get("/take") }, true},
		{"a form", func() { <-ann.sends("/take", "things", "chives", "date", "2025-11-16") }, true},
		{"a fault", func() { ann.byHand(ledger.ShelfFile, "2025-11-15,Fennel & Daughters,carots,2 kg,2.95,,,,") }, false},
		{"it is shown with that", func() { ann.get("/take") }, false},
	} {
		if step.do(); known() != step.sound {
			t.Errorf("after %s it is known to be sound: %t", step.what, !step.sound)
		}
	}
}

func someVisitor(t *testing.T) visitor {
	s := newServer(Served{Dir: sample(t), Now: func() time.Time { return noon }, Out: io.Discard, Log: io.Discard, Guard: unguarded}, &net.TCPAddr{IP: net.IPv4(127, 0, 0, 1), Port: 8700})
	s.handler.ServeHTTP(httptest.NewRecorder(), httptest.NewRequest("GET", "/", nil))
	return visitor{t, s, "a=1"}
}

// soundOf is the note that a ledger has no fault.
func soundOf(v visitor) string { return filepath.Join(v.Dir, ".putby", "sound") }
