package ledger_test

import (
	"strings"
	"testing"
	"unsafe"

	"putby/ledger"
)

// TestRecordsLetTheTextGo: no record keeps the text of its file in memory, and
// records share what they have in common.
func TestRecordsLetTheTextGo(t *testing.T) {
	k := ledger.MustKind("receipt")
	rec := &ledger.Records{}
	r, _ := k.Read(rec, ledger.Context{}, []string{"receipt", "date", "shop", "line", "kind", "item", "price", "note"})
	text := "b1,2025-01-03,Hofladen,1,other,odds,1.00,a note\n"
	within := func(s string) bool {
		from, at := uintptr(unsafe.Pointer(unsafe.StringData(text))), uintptr(unsafe.Pointer(unsafe.StringData(s)))
		return at >= from && at < from+uintptr(len(text))
	}
	for line := range 2 {
		if faults := r.Row(2+line, strings.Split(strings.TrimSpace(text), ",")); len(faults) > 0 {
			t.Fatal(faults)
		}
	}
	a, b := rec.Receipts[0], rec.Receipts[1]
	for _, pair := range [][2]string{{a.Receipt, b.Receipt}, {a.Shop, b.Shop}, {a.Number, b.Number}, {a.Item, b.Item}, {a.Note, b.Note}} {
		if within(pair[0]) || unsafe.StringData(pair[0]) != unsafe.StringData(pair[1]) {
			t.Errorf("%q is a part of the text, or there twice", pair[0])
		}
	}
}
