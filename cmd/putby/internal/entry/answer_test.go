package entry

import (
	"errors"
	"strings"
	"testing"
	"time"

	"putby/ledger"
)

// kitchen is a household with a machine, two kilograms of apples and a jar.
func kitchen(t *testing.T) *ledger.Records {
	t.Helper()
	rec := house()
	for _, row := range []struct {
		kind  string
		cells map[string]string
	}{
		{"food", map[string]string{"food": "apples", "name": "Apple slices", "basis": "mass"}},
		{"machine", map[string]string{"machine": "shed", "cycles": "900"}},
		{"tariff", map[string]string{"tariff": "home", "rate": "0.2"}},
		{"receipt", map[string]string{"receipt": "r1", "date": "2026-05-20", "shop": "Fiddle & Co", "line": "1", "kind": "food", "item": "apples", "count": "1", "size": "2 kg", "price": "4"}},
	} {
		more, faults := rec.With(ledger.MustKind(row.kind), row.cells)
		if len(faults) > 0 {
			t.Fatal(faults)
		}
		rec = more
	}
	rec.Settings.Tariff = "home"
	return rec
}

// An answer is read as people type, and held against the other records.
func TestAnswer(t *testing.T) {
	b := NewBase(kitchen(t), Moment{})
	b.At = At(b.Records, time.Date(2026, 6, 1, 12, 0, 0, 0, time.UTC))
	for _, test := range []struct {
		kind, column, typed string
		cells               map[string]string
		want, wrong         string
	}{
		{"draw", "quantity", "1500 g", map[string]string{"item": "apples", "date": "2026-05-30"}, "1500 g", ""},
		{"draw", "quantity", "3 kg", map[string]string{"item": "apples", "date": "2026-05-30"}, "", "2 kg"},
		{"draw", "date", "2026-05-01", map[string]string{"item": "apples", "quantity": "1 kg"}, "", "none is in hand"},
		{"draw", "date", "yesterday", map[string]string{"item": "apples", "quantity": "1 kg"}, "2026-05-31", ""},
		{"draw", "date", "2027-01-01", nil, "", "ahead"},
		{"price", "item", "apple slices", nil, "apples", ""},
		{"price", "item", "pears", nil, "", "the ledger has no pears"},
		{"frozen", "quantity", "5 kg", map[string]string{"item": "apples", "date": "2026-05-30"}, "", "only 2 kg"},
		{"food", "food", "apples", nil, "", "the ledger has food apples already"},
		{"food", "basis", "vol", nil, "volume", ""},
		{"machine", "cycles", "0", nil, "", "cycles"},
		{"run", "hands", "", nil, "", ""},
	} {
		k := ledger.MustKind(test.kind)
		got, err := b.Answer(k, test.cells, k.Column(test.column), test.typed)
		if test.wrong == "" && (err != nil || got != test.want) || test.wrong != "" && (err == nil || !strings.Contains(strings.ToLower(err.Error()), strings.ToLower(test.wrong))) {
			t.Errorf("%s %s %q: %q, %v; want %q, %q", test.kind, test.column, test.typed, got, err, test.want, test.wrong)
		}
	}
}

// A run that is all packed may be packed further, but not without a word.
func TestAnswerPackedRun(t *testing.T) {
	rec := kitchen(t)
	for _, row := range []Row{
		{ledger.MustKind("run"), map[string]string{"run": "c1", "machine": "shed", "start": "2026-05-21 18:00", "kwh": "10"}},
		{ledger.MustKind("load"), map[string]string{"run": "c1", "item": "apples", "quantity": "2 kg"}},
		{ledger.MustKind("pack"), map[string]string{"pack": "c1-a", "run": "c1", "item": "apples", "date": "2026-05-23", "count": "2", "each": "1 kg"}},
	} {
		rec, _ = rec.With(row.Kind, row.Cells)
	}
	k := ledger.MustKind("pack")
	got, err := NewBase(rec, At(rec, time.Date(2026, 6, 1, 12, 0, 0, 0, time.UTC))).Answer(k, nil, k.Column("run"), "c1")
	if got != "c1" || !errors.Is(err, ErrOdd) || err.Error() != "all food of run c1 is packed (c1-a)" {
		t.Errorf("%q, %v", got, err)
	}
}

// A run's start is offered as now while the books are kept up, and not where the
// last record is of weeks ago: no day is then as likely as another.
func TestRunStartOffered(t *testing.T) {
	rec := kitchen(t) // whose last record is of 20 May
	k := ledger.MustKind("run")
	for day, want := range map[int]string{0: "2026-05-20 12:00", 14: "2026-06-03 12:00", 15: "", 190: ""} {
		now := time.Date(2026, 5, 20+day, 12, 0, 0, 0, time.UTC)
		if o, _ := NewBase(rec, At(rec, now)).Suggest(k, nil); o["start"] != want {
			t.Errorf("after %d days %q is offered, not %q", day, o["start"], want)
		}
	}
	if o, _ := NewBase(house(), At(house(), time.Date(2026, 5, 20, 12, 0, 0, 0, time.UTC))).Suggest(k, nil); o["start"] != "2026-05-20 12:00" {
		t.Errorf("in a new ledger %q is offered", o["start"])
	}
}
