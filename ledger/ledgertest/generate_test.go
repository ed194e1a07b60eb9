package ledgertest_test

import (
	"bytes"
	"testing"

	"putby/ledger/folder"
	"putby/ledger/ledgertest"
)

func TestSizes(t *testing.T) {
	for _, times := range []int{1, 3} {
		dir := t.TempDir()
		if err := ledgertest.Write(dir, 1, times); err != nil {
			t.Fatal(err)
		}
		rec, faults, err := folder.Read(dir)
		if err != nil || len(faults) > 0 {
			t.Fatal(err, faults)
		}
		for _, c := range []struct {
			what       string
			have, want int
		}{
			{"receipt lines", rec.Receipts.Len(), 4101},
			{"runs", len(rec.Runs), 1000},
			{"phases", rec.Phases.Len(), 6000},
			{"packs", rec.Packs.Len(), 4000},
			{"draws", rec.Draws.Len(), 3996},
		} {
			if c.have != c.want*times {
				t.Errorf("%d times: %d %s, want %d", times, c.have, c.what, c.want*times)
			}
		}
	}
}

func TestDeterministic(t *testing.T) {
	a, b := ledgertest.Files(7, 1), ledgertest.Files(7, 1)
	for name, data := range a {
		if !bytes.Equal(data, b[name]) {
			t.Errorf("%s differs between two makings", name)
		}
	}
}
