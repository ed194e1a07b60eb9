package entry

import (
	"testing"

	"pgregory.net/rapid"

	"putby/ledger"
	"putby/pricing/exact"
)

var noDay = exact.NoDate

func TestNext(t *testing.T) {
	day := exact.MustDate("2025-11-20")
	on := exact.MustDate
	for _, test := range []struct {
		list []Named
		want string
	}{
		{nil, "r1"},
		{[]Named{{"c1", noDay}, {"c47", noDay}}, "c48"},
		{[]Named{{"R-099", noDay}}, "R-100"},
		{[]Named{{"a-9", noDay}, {"soup", noDay}}, "a-10"},
		{[]Named{{"b3", noDay}, {"b2", noDay}}, "b4"},
		{[]Named{{"jam", noDay}}, "r1"},
		{[]Named{{"mb-251113", on("2025-11-13")}}, "mb-251120"},
		{[]Named{{"mb-251120", day}}, "mb-251120-2"},
		{[]Named{{"mb-251120", day}, {"mb-251120-2", day}}, "mb-251120-3"},
		{[]Named{{"2025-11-13", on("2025-11-13")}}, "2025-11-20"},
		{[]Named{{"run.20251113", on("2025-11-13")}}, "run.20251120"},
		{[]Named{{"mb-251113", on("2025-11-14")}}, "mb-251120"}, // its date was put right since
		{[]Named{{"ki-240909", on("2025-09-09")}}, "ki-251120"},
		{[]Named{{"ki-250909-2", on("2025-09-16")}}, "ki-251120"},
		{[]Named{{"R-110203", on("2025-11-14")}}, "R-110204"}, // no day of about then: a number
		{[]Named{{"R-9251113", on("2025-11-14")}}, "R-9251114"},
		{[]Named{{"R-251313", on("2025-11-14")}}, "R-251314"},
		{[]Named{{"123456789012345678", noDay}}, "r1"},
	} {
		if got := Next(test.list, day, "r"); got != test.want {
			t.Errorf("after %v: %s, want %s", test.list, got, test.want)
		}
	}
}

// Whatever there is, the next identifier is free, and one that a record may
// have.
func TestNextIsFree(t *testing.T) {
	k := ledger.MustKind("run")
	rapid.Check(t, func(t *rapid.T) {
		list := rapid.SliceOf(rapid.Custom(func(t *rapid.T) Named {
			return Named{rapid.StringMatching(`[a-c]{0,2}-?(2511[0-3][0-9]|[0-9]{0,3})(-[0-9])?`).Draw(t, "id"),
				exact.DateOf(2025, 11, rapid.IntRange(1, 30).Draw(t, "day"))}
		})).Draw(t, "list")
		got := Next(list, exact.MustDate("2025-11-20"), "r")
		for _, n := range list {
			if n.ID == got {
				t.Fatalf("%s is taken: %v", got, list)
			}
		}
		if f := k.CellFault(nil, "run", got); f != nil {
			t.Fatal(f.What)
		}
	})
}

func receiptsOf(list ...[3]string) *ledger.Records {
	rec := &ledger.Records{}
	for _, r := range list {
		rec.Receipts = rec.Receipts.With(ledger.ReceiptRow{Receipt: r[0], Date: exact.MustDate(r[1]), Shop: r[2]})
	}
	return rec
}

// The household's own manner is followed, whichever it is.
func TestNextReceipt(t *testing.T) {
	byShop := receiptsOf([3]string{"mb-251013", "2025-10-13", "Muddleby"}, [3]string{"oh-251101", "2025-11-01", "Ossock Hill"},
		[3]string{"mb-251112", "2025-11-12", "Muddleby"})
	for _, test := range []struct {
		rec        *ledger.Records
		shop, want string
	}{
		{&ledger.Records{}, "Corner Shop", "cs-251120"},
		{&ledger.Records{}, "The Corner of the Shop", "cs-251120"},
		{&ledger.Records{}, "Späti", "sp-251120"},
		{&ledger.Records{}, "ларёк", "r-251120"},
		{byShop, "Muddleby", "mb-251120"},
		{byShop, "Ossock Hill", "oh-251120"},
		{byShop, "Corner Shop", "cs-251120"},
		{byShop, "Oat House", "oah-251120"}, // oh is another's
		{receiptsOf([3]string{"MB.20251013", "2025-10-13", "Muddleby"}), "Corner Shop", "CS.20251120"},
		{receiptsOf([3]string{"r7", "2025-10-13", "Muddleby"}, [3]string{"r8", "2025-10-14", "Ossock Hill"}), "Muddleby", "r9"},
		{receiptsOf([3]string{"r7", "2025-10-13", "Muddleby"}), "Corner Shop", "r8"},
		{receiptsOf([3]string{"m1", "2025-10-13", "Muddleby"}, [3]string{"o5", "2025-10-14", "Ossock Hill"}), "Muddleby", "m2"},
		{receiptsOf([3]string{"2025-10-13", "2025-10-13", "Muddleby"}, [3]string{"2025-10-14", "2025-10-14", "Ossock Hill"}), "Corner Shop", "2025-11-20"},
		{receiptsOf([3]string{"bon-251013", "2025-10-13", "Muddleby"}, [3]string{"bon-251014", "2025-10-14", "Ossock Hill"}), "Corner Shop", "bon-251120"},
		{receiptsOf([3]string{"mb-251120", "2025-11-20", "Muddleby"}), "Muddleby", "mb-251120-2"},
	} {
		if got := NextReceipt(test.rec, test.shop, exact.MustDate("2025-11-20")); got != test.want {
			t.Errorf("%s after %v: %s, want %s", test.shop, ledger.Receipts.In(test.rec), got, test.want)
		}
	}
	byShop.Batches = []ledger.Batch{{ID: "mb-251120"}}
	if got := NextReceipt(byShop, "Muddleby", exact.MustDate("2025-11-20")); got != "mb-251120-2" {
		t.Errorf("receipts and batches share identifiers, so %s is taken", got)
	}
}

func TestNextBatch(t *testing.T) {
	batch := func(id, food string) ledger.Batch {
		return ledger.Batch{ID: id, Item: food, Date: exact.MustDate("2025-10-01")}
	}
	byFood := &ledger.Records{Batches: []ledger.Batch{batch("stock-3", "broth"), batch("egg-6", "beaten-egg"), batch("stock-12", "broth")}}
	oneCount := &ledger.Records{Batches: []ledger.Batch{batch("b1", "broth"), batch("b2", "beaten-egg")}}
	for _, test := range []struct {
		rec        *ledger.Records
		food, want string
	}{
		{byFood, "broth", "stock-13"}, {byFood, "beaten-egg", "egg-7"}, {byFood, "leek-soup", "leek-soup-1"},
		{oneCount, "broth", "b3"}, {oneCount, "leek-soup", "b3"}, {&ledger.Records{}, "", "batch-1"},
	} {
		if got := NextBatch(test.rec, test.food, exact.MustDate("2025-11-20")); got != test.want {
			t.Errorf("%s after %v: %s, want %s", test.food, ledger.Batches.In(test.rec), got, test.want)
		}
	}
}

func TestNextPack(t *testing.T) {
	pack := func(id, run string) ledger.Pack {
		return ledger.Pack{ID: id, Run: run, Date: exact.MustDate("2025-10-01")}
	}
	for _, test := range []struct {
		packs     []ledger.Pack
		run, want string
	}{
		{nil, "c47", "c47-a"}, {nil, "", "pack-1"},
		{[]ledger.Pack{pack("c46-a", "c46"), pack("c47-a", "c47")}, "c47", "c47-b"},
		{[]ledger.Pack{pack("c46.1", "c46")}, "c47", "c47.1"},
		{[]ledger.Pack{pack("c47.1", "c47"), pack("c47.2", "c47")}, "c47", "c47.3"},
		{[]ledger.Pack{pack("P-29", "c46"), pack("P-30", "c46")}, "c47", "P-31"},
		{[]ledger.Pack{pack("c46-a", "c46"), pack("old-2", "")}, "", "old-3"},
	} {
		if got := NextPack(&ledger.Records{Packs: ledger.PackList{}.With(test.packs...)}, test.run, exact.MustDate("2025-11-20")); got != test.want {
			t.Errorf("of run %q after %v: %s, want %s", test.run, test.packs, got, test.want)
		}
	}
}
