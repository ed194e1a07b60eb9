package ledger_test

import (
	"testing"

	"pgregory.net/rapid"

	"putby/ledger"
	"putby/ledger/ledgertest"
	"putby/pricing/exact"
)

// What is in store of a food is the same without a join of all records: pack by
// pack what is left, until when it is best, and whether it was dry.
func TestStoreOfAsJoined(t *testing.T) {
	rec, faults, err := ledgertest.Read(ledgertest.Files(5, 1))
	if err != nil || len(faults) > 0 {
		t.Fatal(err, faults)
	}
	if sameStore(t, rec) < 1000 {
		t.Error("hardly a pack was looked at")
	}
	packs := 0
	rapid.Check(t, func(t *rapid.T) {
		rec := madeRecords(t)
		packs += sameStore(t, rec)
	})
	if packs == 0 {
		t.Error("no made-up ledger has a pack")
	}
}

func sameStore(t rapid.TB, rec *ledger.Records) (packs int) {
	g, faults := ledger.Join(rec, whole)
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	for f := range rec.Foods {
		few := ledger.StoreOf(rec, rec.Foods[f].ID)
		n := 0
		for i := range g.Packs {
			want := &g.Packs[i]
			if want.Food != f {
				continue
			}
			n++
			at, ok := few.FindPack(rec.Packs.At(i).ID)
			if !ok {
				t.Fatalf("pack %s is not found", rec.Packs.At(i).ID)
			}
			have := &few.Packs[at]
			if have.Done != want.Done || have.Left() != want.Left() || have.BestBy != want.BestBy || have.Food != f || few.Moist(at) != g.Moist(i) {
				t.Fatalf("pack %s: %d left, best by %v, moist %v; want %d, %v, %v", rec.Packs.At(i).ID,
					have.Left(), have.BestBy, few.Moist(at), want.Left(), want.BestBy, g.Moist(i))
			}
		}
		sameHand(t, g, ledger.HandOf(rec, exact.NoDate, rec.Foods[f].ID), f)
		if len(few.Packs) != n {
			t.Fatalf("%d packs of %s, want %d", len(few.Packs), rec.Foods[f].ID, n)
		}
		packs += n
	}
	for s := range rec.Supplies {
		have, want := ledger.HandOf(rec, exact.NoDate, rec.Supplies[s].ID).Pieces(s), g.Pieces(s)
		if !have.Owned.Equal(want.Owned) || !have.Free.Equal(want.Free) || !have.InStore.Equal(want.InStore) || !have.UsesLeft.Equal(want.UsesLeft) {
			t.Fatalf("%s: %+v, want %+v", rec.Supplies[s].ID, have, want)
		}
	}
	return packs
}

// sameHand holds what is in hand of a food, lot by lot, to that of all records.
func sameHand(t rapid.TB, g, few *ledger.Ledger, f int) {
	have, want := few.FreshParts(f), g.FreshParts(f)
	if len(have) != len(want) || !few.FoodStock(f).Left.Equal(g.FoodStock(f).Left) {
		t.Fatalf("%d lots of %s, want %d", len(have), g.Foods[f].ID, len(want))
	}
	for i, w := range want {
		if h := have[i]; !h.Quantity.Equal(w.Quantity) || h.UseBy != w.UseBy || h.Frozen != w.Frozen || h.Crumb != w.Crumb {
			t.Fatalf("%s: %+v, want %+v", g.Foods[f].ID, h, w)
		}
	}
}
