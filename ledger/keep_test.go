package ledger_test

import (
	"strings"
	"testing"
	"unsafe"

	"putby/ledger"
)

// TestRecordsLetTheTextGo: no record keeps the text of its file in memory, and
// records share what they have in common. Where two texts of a row fall into one
// place of those kept, which depends on a seed drawn for each file, they are not
// shared: so of twenty files one must share all.
func TestRecordsLetTheTextGo(t *testing.T) {
	text := "b1,2025-01-03,Hofladen,1,other,odds,1.00,a note\n"
	within := func(s string) bool {
		from, at := uintptr(unsafe.Pointer(unsafe.StringData(text))), uintptr(unsafe.Pointer(unsafe.StringData(s)))
		return at >= from && at < from+uintptr(len(text))
	}
	var twice []string
	for range 20 {
		twice = nil
		for _, pair := range readTwice(t, text) {
			if within(pair[0]) || within(pair[1]) {
				t.Fatalf("%q is a part of the text", pair[0])
			}
			if unsafe.StringData(pair[0]) != unsafe.StringData(pair[1]) {
				twice = append(twice, pair[0])
			}
		}
		if twice == nil {
			return
		}
	}
	t.Errorf("%q are there twice in each of twenty files", twice)
}

// readTwice reads a receipt's line as two of one file, and returns the texts of
// both.
func readTwice(t *testing.T, text string) [][2]string {
	t.Helper()
	k := ledger.MustKind("receipt")
	rec := &ledger.Records{}
	r, _ := k.Read(rec, nil, []string{"receipt", "date", "shop", "line", "kind", "item", "price", "note"})
	for line := range 2 {
		if faults := r.Row(2+line, strings.Split(strings.TrimSpace(text), ",")); len(faults) > 0 {
			t.Fatal(faults)
		}
	}
	a, b := rec.Receipts.At(0), rec.Receipts.At(1)
	return [][2]string{{a.Receipt, b.Receipt}, {a.Shop, b.Shop}, {a.Number, b.Number}, {a.Item, b.Item}, {a.Note(), b.Note()}}
}
