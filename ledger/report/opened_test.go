package report

import (
	"fmt"
	"strings"
	"testing"

	"putby/ledger"
	"putby/pricing/exact"
)

// stocked has three packs of tea: one due first, one later, one that nobody
// knows the date of; and one packed later than the others.
func stocked(t *testing.T) *ledger.Ledger {
	t.Helper()
	rec := &ledger.Records{Settings: ledger.Settings{Currency: exact.MustCurrency("EUR")}}
	food, _ := ledger.KindOf("food")
	pack, _ := ledger.KindOf("pack")
	draw, _ := ledger.KindOf("draw")
	var faults ledger.Faults
	for _, r := range []struct {
		kind  ledger.Kind
		cells map[string]string
	}{
		{food, map[string]string{"food": "peas", "basis": "mass", "caution": "Boil them."}},
		{food, map[string]string{"food": "pears", "basis": "mass"}},
		{pack, map[string]string{"pack": "never", "item": "peas", "date": "2025-01-01", "count": "2", "each": "1 kg", "cost": "1"}},
		{pack, map[string]string{"pack": "later", "item": "peas", "date": "2025-01-01", "count": "3", "each": "1 kg", "cost": "1", "best_by": "2027-01-01"}},
		{pack, map[string]string{"pack": "first", "item": "peas", "date": "2025-02-01", "count": "3", "each": "1 kg", "cost": "1", "best_by": "2026-01-01"}},
		{pack, map[string]string{"pack": "new", "item": "peas", "date": "2025-06-01", "count": "9", "each": "1 kg", "cost": "1", "best_by": "2025-12-01"}},
		{draw, map[string]string{"pack": "first", "date": "2025-02-02", "quantity": "1"}},
	} {
		if rec, faults = rec.With(r.kind, r.cells); faults != nil {
			t.Fatal(faults)
		}
	}
	g, faults := ledger.Join(rec, ledger.Options{Through: exact.NoDate, PricesThrough: exact.NoDate})
	if faults != nil {
		t.Fatal(faults)
	}
	return g
}

func TestOpened(t *testing.T) {
	g := stocked(t)
	for name, want := range map[string]string{
		"first": "[Caution, peas: Boil them.]", "peas": "[Caution, peas: Boil them.]", "pears": "[]", "jar": "[]",
	} {
		if got := fmt.Sprint(Opened(g, name, name)); got != want {
			t.Errorf("%s: %s, want %s", name, got, want)
		}
	}
}

// Moist food that was sealed is the case in which somebody may die: it is said
// before all else when the pack is opened, by whatever name.
func TestOpenedMoist(t *testing.T) {
	rec, faults := stocked(t).Records, ledger.Faults(nil)
	food, _ := ledger.KindOf("food")
	pack, _ := ledger.KindOf("pack")
	for _, r := range []struct {
		kind  ledger.Kind
		cells map[string]string
	}{
		{food, map[string]string{"food": "corn", "name": "Corn", "basis": "mass", "water": "76", "caution": "Boil it."}},
		{pack, map[string]string{"pack": "wet", "item": "corn", "date": "2025-01-01", "count": "1", "each": "1 kg", "dry": "0.9 kg", "cost": "1"}},
		{pack, map[string]string{"pack": "dry", "item": "corn", "date": "2025-01-01", "count": "1", "each": "1 kg", "dry": "0.25 kg", "cost": "1"}},
	} {
		if rec, faults = rec.With(r.kind, r.cells); faults != nil {
			t.Fatal(faults)
		}
	}
	g, faults := ledger.Join(rec, ledger.Options{Through: exact.NoDate, PricesThrough: exact.NoDate})
	if faults != nil {
		t.Fatal(faults)
	}
	want := "Caution, Corn: Pack wet was not dry when it was packed: by its weights 74 % of it was water. Moist food that is sealed can grow botulism, which has no smell or taste: do not taste it; if in doubt, throw it out.; Caution, Corn: Boil it."
	if got := strings.Join(Lines(append(OpenedMoist(g, "wet", "wet"), Opened(g, "wet")...)), "; "); got != want {
		t.Errorf("got %s, want %s", got, want)
	}
	if got := fmt.Sprint(append(OpenedMoist(g, "dry"), Opened(g, "dry")...)); got != "[Caution, Corn: Boil it.]" {
		t.Errorf("of the dry one it says %s", got)
	}
}

// The best-by date itself is not past; a day later is, whichever packs are
// taken from; what nobody knows the date of never is.
func TestPastDue(t *testing.T) {
	g := stocked(t)
	for _, test := range []struct{ pack, day, want string }{
		{"first", "2026-01-01", ""},
		{"first", "2026-01-02", "Caution, peas: Pack first was best by 2026-01-01, 1 day before. Look it over, its seal too; if in doubt, throw it out."},
		{"later", "2027-02-10", "Caution, peas: Pack later was best by 2027-01-01, 40 days before. Look it over, its seal too; if in doubt, throw it out."},
		{"never", "2040-01-01", ""},
		{"peas", "2040-01-01", ""},
	} {
		if got := strings.Join(Lines(PastDue(g, exact.MustDate(test.day), "none", test.pack)), "; "); got != test.want {
			t.Errorf("%s on %s: %q, want %q", test.pack, test.day, got, test.want)
		}
	}
}
